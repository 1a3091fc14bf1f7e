package pack

import (
	"math"
	"slices"
)

// The passes in vain, in a row, after which no more are tried, found by trial: of
// few sizes there are few ways to go.
const (
	firstVain = 5 // at first
	restVain  = 8 // at each step of a dive
)

// dive rounds a relaxation into a plan step by step: it fixes the whole
// strips, or the one nearest to whole, and solves the rest again. At every
// step it also fills what is left by sequential value correction: together
// they find what neither does (residual problems after rounding: Wäscher and
// Gau, Heuristics for the integer one-dimensional cutting stock problem, OR
// Spektrum 18, 1996).
func (s *search) dive(demand []int, r relaxed) error {
	return s.diveOn(slices.Clone(demand), r, nil)
}

// diveOn dives with some strips fixed already. It uses up the demand.
func (s *search) diveOn(demand []int, r relaxed, runs []run) error {
	for r.x != nil {
		s.fix(demand, r, &runs)
		fixed, _ := total(runs)
		if fixed >= s.tooLong() {
			return nil
		}
		if !anyLeft(demand) {
			s.offer(runs)
			return nil
		}
		s.fillRest(demand, runs, s.h.restPasses, restVain)
		if s.over() {
			return nil
		}
		var err error
		if r, err = s.relaxRest(runs, demand); err != nil {
			return err
		}
	}
	return nil
}

// relaxRest is the relaxation of a demand beside strips that are kept, without
// strips if they leave too little room for it.
func (s *search) relaxRest(kept []run, demand []int) (relaxed, error) {
	fixed, _ := total(kept)
	cutoff := below(s.tooLong() - fixed - 1)
	r, err := s.m.solve(s.ctx, demand, cutoff)
	if r.bound >= cutoff {
		r.x = nil
	}
	return r, err
}

// fillRest offers plans that go on from some strips, one for each pass of the
// filler, until so many in a row have been in vain.
func (s *search) fillRest(demand []int, runs []run, passes, vain int) {
	fixed, _ := total(runs)
	for left := vain; passes > 0 && left > 0; passes-- {
		last := s.length
		s.offerBeside(runs, s.fill.pass(demand, s.tooLong()-fixed))
		if left--; s.length < last {
			left = vain
		}
	}
}

// fix takes strips of a relaxation out of the demand: the whole ones; if there
// are none, the one nearest to whole; and if all would make pieces too many,
// a new one that does not, filled at the relaxation's prices.
func (s *search) fix(demand []int, r relaxed, runs *[]run) {
	cut := func(c *column, n int) {
		*runs = append(*runs, run{*c, n})
		take(demand, c, n)
	}
	best, most, any := -1, wholeEnough, false
	for j, x := range r.x {
		if x < wholeEnough {
			continue
		}
		c := &s.m.pool.list[j]
		fit := timesWhole(c, demand)
		if n := min(int(math.Floor(x+wholeEnough)), fit); n > 0 {
			cut(c, n)
			any = true
		} else if x > most && fit > 0 {
			best, most = j, x
		}
	}
	switch {
	case any:
	case best >= 0:
		cut(&s.m.pool.list[best], 1)
	default:
		c := s.pr.fillings(r.v.worth, demand, s.fill.hardest(demand))[0]
		s.m.pool.add(c)
		cut(&c, 1)
	}
}
