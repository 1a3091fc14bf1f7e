package pack

import (
	"cmp"
	"fmt"
	"slices"
)

// leaf is whole numbers of strips that hold the demand as far as the
// relaxation can tell. Questions that come upon the same numbers share it.
type leaf struct {
	n      numbers
	room   float64 // how many times the demand they hold, as a joint program tells
	level  int     // how hard it was tried
	tries  int     // packings tried
	packed verdict // whether there is a plan
}

// A leaf is tried on levels, each way with so many times the work that it had
// on the level before. The settings were found by trial.
const (
	firstTry   = 500_000 // steps for each way on the first level
	tryGrowth  = 4
	mostLevels = 8
)

// leaf tries a leaf of a region for the first time, and opens what it leaves
// of the region.
func (q *question) leaf(r region, n numbers, room float64) (verdict, error) {
	if n.length(q.strips.heights) > q.length {
		q.open = append(q.open, r.lower(n)...)
		return unknown, nil
	}
	q.open = append(q.open, r.without(n)...)
	l := q.s.leafAt(n)
	l.room = room
	if l.packed == unknown && l.level == 0 {
		if err := q.try(l); err != nil {
			return unknown, err
		}
	}
	if l.packed == unknown {
		q.waiting = append(q.waiting, l)
	}
	return l.packed, nil
}

// leafAt is the leaf of such numbers.
func (s *search) leafAt(n numbers) *leaf {
	key := fmt.Sprint(n)
	l := s.leaves[key]
	if l == nil {
		l = &leaf{n: n, packed: unknown}
		s.leaves[key] = l
	}
	return l
}

// decideWaiting tries the undecided leaves harder and harder, so many times.
func (q *question) decideWaiting(times int) (verdict, error) {
	for ; times > 0; times-- {
		q.waiting = slices.DeleteFunc(q.waiting, func(l *leaf) bool { return l.packed == no })
		if len(q.waiting) == 0 {
			return no, nil
		}
		l := slices.MinFunc(q.waiting, func(a, b *leaf) int {
			return cmp.Or(cmp.Compare(a.level, b.level), cmp.Compare(b.room, a.room))
		})
		if q.s.over() || l.level == mostLevels {
			return unknown, nil
		}
		if err := q.try(l); err != nil || l.packed == yes {
			return l.packed, err
		}
	}
	return unknown, nil
}

// try tries a leaf on its next level: it packs it, or shows over the list of
// all layouts that could matter, or by branch and price, that no packing
// exists.
func (q *question) try(l *leaf) error {
	work := int64(firstTry)
	for range l.level {
		work *= tryGrowth
	}
	first := l.level == 0
	l.level++
	defer func() {
		if l.packed == unknown && q.s.over() {
			l.level-- // it was not tried to the end
		}
	}()
	views, err := q.views(l.n)
	if err != nil {
		return err
	}
	lists := func() error { return q.overLists(l, views, work/2) }
	if err := q.s.within(work, lists); err != nil || l.packed != unknown {
		return err
	}
	if err := q.packings(l, q.s.work()+work); err != nil || l.packed != unknown || first {
		return err
	}
	return q.s.within(work, func() error { return q.priced(l) })
}

// within bounds the work of what it does.
func (s *search) within(work int64, do func() error) error {
	stop, outer := s.stop, s.outer
	s.stop, s.outer = min(stop, s.work()+work), max(stop, outer)
	err := do()
	s.stop, s.outer = stop, outer
	return err
}

// beyond is the same for what need not keep within what contains it, but within
// the search.
func (s *search) beyond(work int64, do func() error) error {
	stop := s.stop
	s.stop = min(s.outermost(), s.work()+work)
	err := do()
	s.stop = stop
	return err
}

// outermost is the work at which the search must give up, whatever share a part of it has.
func (s *search) outermost() int64 { return max(s.stop, s.outer) }

// packings tries to pack a leaf, at least once, and then again and again until
// so much work has been done.
func (q *question) packings(l *leaf, stop int64) error {
	for {
		runs, err := q.pack(l.n, l.tries, stop)
		if err != nil {
			return err
		}
		l.tries++
		if runs != nil && q.s.fits(l.n, q.s.in.whole(), runs) {
			q.s.offer(runs)
			l.packed = yes
			return nil
		}
		if q.s.work() >= stop || q.s.over() {
			return nil
		}
	}
}

// priced decides a leaf by branch and price, if it can.
func (q *question) priced(l *leaf) error {
	runs, v, err := q.s.decidePriced(l.n, q.fit.pool)
	if err == nil {
		q.s.offer(runs)
		l.packed = v
	}
	return err
}

// overLists decides a leaf over lists of all layouts that could matter: first
// of the scarcest sizes alone, for if these cannot be packed nothing can, then
// of those of more and more views, and at last of all.
func (q *question) overLists(l *leaf, views []view, within int64) error {
	whole := q.s.in.whole()
	demand := make([]int, len(whole))
	for m := range len(views) + 1 {
		fresh, met := false, make([]bool, len(whole))
		for i, d := range demand {
			met[i] = d > 0
		}
		for i, d := range whole {
			if demand[i] == 0 && d > 0 && (m == len(views) || views[m].worth[i] > 0) {
				demand[i], fresh = d, true
			}
		}
		if !fresh {
			continue
		}
		list := &listing{s: q.s, n: l.n, demand: demand, views: views[:min(m+1, len(views))], within: within}
		found, complete := list.layouts()
		if !complete {
			return nil
		}
		runs, v, err := q.s.decide(l.n, demand, met, found)
		if err != nil || v == unknown {
			return err
		}
		if v == no {
			l.packed = no
			return nil
		}
		if slices.Equal(demand, whole) {
			q.s.offer(runs)
			l.packed = yes
			return nil
		}
	}
	return nil
}
