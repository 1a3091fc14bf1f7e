package pack

import (
	"errors"

	"crossgrain/pack/glpk"
)

// The settings of narrow, found by trial.
const (
	firstShare  = 2_000_000 // steps of a share at first
	shareGrowth = 3         // times as many when a target is taken up again
	recutLess   = 4         // once the purchase is proven, one of so many shares
	// From lateShare on, when many lengths are still open, recutting gets one
	// share for so many of them, up to mostShares; of many sizes it does from the
	// first, for their questions are seldom answered.
	lateShare       = 50_000_000
	manySizes       = 40
	mostShares      = 100
	lengthsPerShare = 1
	lengthsIfOpen   = 2 // while the purchase is open and the sizes are not many
	// From shares of anewFrom on, the lowest target of the purchase is asked from the
	// beginning, too, for anewWork each time.
	anewFrom = 54_000_000
	anewWork = 70_000_000
)

// cheaper lists the longest length of each purchase between the bound and the
// best plan.
func (s *search) cheaper() []int {
	var list []int
	for t := s.lower; t < s.length && s.purchase(t) != s.purchase(s.length); {
		last := s.sameCost(t, s.length)
		list = append(list, last)
		t = raise(s.sums, last+1, s.length)
	}
	return list
}

// shorter lists the lengths between the bound and the best plan.
func (s *search) shorter() []int {
	var list []int
	for t := s.lower; t < s.length; t = raise(s.sums, t+1, s.length) {
		list = append(list, t)
	}
	return list
}

// sameCost is the longest length from low and below high that costs what low
// does.
func (s *search) sameCost(low, high int) int {
	want := s.purchase(low)
	for high-low > 1 {
		mid := low + (high-low)/2
		if s.purchase(mid) == want {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// narrow asks of targets until none is left or the search must end. A target
// has some shares of the work before it is put aside; then the targets above it
// are halved for better plans, and it is taken up again with a larger share. The
// bound is raised before, where that is worth while.
func (s *search) narrow(targets func() []int) error {
	for ; ; s.share *= shareGrowth {
		before := s.work()
		if err := s.within(s.share*s.raisingShares(), s.raiseBound); err != nil {
			return err
		}
		list := targets()
		for len(list) > 0 && !s.over() {
			v, err := s.answer(target{list[0], noLimit}, s.share*s.h.lowShares)
			if err == nil && v == unknown {
				v, err = s.anew(list[0])
			}
			if err != nil {
				return err
			}
			if v == unknown {
				break
			}
			list = targets()
		}
		if len(list) == 0 || s.over() {
			return nil
		}
		if err := s.halve(targets, list[0]); err != nil {
			return err
		}
		if s.work() == before {
			return nil // every question is at its wits' end
		}
	}
}

// recutShares is how many shares recutting gets.
func (s *search) recutShares() int64 {
	shares, each, many := s.h.recutShares, lengthsPerShare, s.in.many()
	switch {
	case s.settled():
		shares /= recutLess
	case !many:
		each = lengthsIfOpen
	}
	if many || s.share >= lateShare {
		shares = max(shares, min(mostShares, int64(len(s.shorter())/each)))
	}
	return shares
}

// halve looks for plans between a target that is put aside and the best plan.
func (s *search) halve(targets func() []int, low int) error {
	err := s.within(s.share*s.recutShares(), func() error { return s.recut(low) })
	for err == nil && !s.over() {
		list := targets()
		for len(list) > 0 && list[0] <= low {
			list = list[1:]
		}
		if len(list) == 0 {
			break
		}
		t := list[(len(list)-1)/2]
		var v verdict
		if v, err = s.answer(target{t, noLimit}, s.share*s.h.betweenShares); v != yes {
			low = t
		}
	}
	return err
}

// questionOf is the question of a target, a new one if it was not asked yet.
func (s *search) questionOf(t target) *question {
	q := s.questions[t]
	if q == nil {
		q = s.newQuestion(t)
		s.questions[t] = q
	}
	return q
}

func (s *search) newQuestion(t target) *question {
	return &question{s: s, strips: s.strips, fit: s.fit, length: t.length, most: t.strips, over: &overall{}}
}

// anew asks from the beginning whether there is a plan as short as a target of the
// purchase, again and again, for as much work as the question that goes on gets. A
// plan that first splits do not lead to soon is hardly ever found by going on, but
// often by other splits, and what is known by now leads to others (restarts; Gomes and
// others, 2000). That is in vain if only leaves are left of the question, as all splits
// come to them, and where the sizes are many, as hardly any come to a leaf. Lengths are
// mostly proven, not found, and get none.
func (s *search) anew(length int) (verdict, error) {
	t := target{length, noLimit}
	if !s.bought || s.settled() || s.in.many() || s.share < anewFrom || len(s.questionOf(t).open) == 0 {
		return unknown, nil
	}
	for left := s.share * s.h.lowShares; left >= anewWork && !s.over(); left -= anewWork {
		again := s.newQuestion(t)
		again.over = s.questionOf(t).over
		if v, err := s.goOn(again, anewWork); v != unknown || err != nil {
			return v, err
		}
	}
	return unknown, nil
}

// answer goes on with the question of a target for a share of the work.
func (s *search) answer(t target, share int64) (verdict, error) {
	q := s.questionOf(t)
	v, err := q.overWhole()
	if err == nil && v == unknown {
		return s.goOn(q, share)
	}
	return s.answered(q, v, err)
}

// goOn goes on with a question for a share of the work.
func (s *search) goOn(q *question, share int64) (v verdict, err error) {
	err = s.within(share, func() (err error) {
		v, err = q.ask()
		return err
	})
	return s.answered(q, v, err)
}

// answered takes note of an answer. If it is no the bound rises.
func (s *search) answered(q *question, v verdict, err error) (verdict, error) {
	if errors.Is(err, glpk.ErrNumerical) {
		v, err = unknown, s.renew()
	}
	if err != nil {
		return unknown, err
	}
	if v == no && q.most == noLimit {
		s.raise(q.length+1, q.proof())
	}
	for t := range s.questions {
		if t.length < s.lower || t.length > s.length || t.length == s.length && t.strips >= s.count {
			delete(s.questions, t)
		}
	}
	return v, nil
}

// proof is how a question whose answer is no was answered: if its first region
// was closed and no list was needed, by a relaxation alone.
func (q *question) proof() Proof {
	if q.turns <= 1 && !q.plunged && !q.listed {
		return ByRelaxation
	}
	return BySearch
}

// narrowStrips asks, once the length is proven, for plans of as many strips
// less one, until there is none. A nested plan no shorter than the shared one
// gives way to it, and so is left as it is.
func (s *search) narrowStrips() error {
	if s.lower < s.length || s.h.onlyShorter && s.length == s.seeded {
		return nil
	}
	s.h.onlyShorter = false
	for share := int64(firstShare); !s.fewest && !s.over(); {
		before := s.work()
		v, err := s.answer(target{s.length, s.count - 1}, share)
		if err != nil {
			return err
		}
		switch v {
		case no:
			s.fewest = true
		case unknown:
			if share *= shareGrowth; s.work() == before {
				return nil
			}
		}
	}
	return nil
}
