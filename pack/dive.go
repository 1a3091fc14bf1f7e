package pack

import "math"

// dive rounds a relaxation into a plan step by step: it fixes the whole
// strips, or the one nearest to whole, and solves the rest again. At every
// step it also fills what is left by sequential value correction: together
// they find what neither does (residual problems after rounding: Wäscher and
// Gau, Heuristics for the integer one-dimensional cutting stock problem, OR
// Spektrum 18, 1996).
func (s *search) dive(nd *node, r relaxed) error {
	return s.diveOn(nd.clone(), r, nil)
}

// diveOn dives with some strips fixed already.
func (s *search) diveOn(cur *node, r relaxed, runs []run) error {
	start := s.work()
	s.fruitless++
	defer func() { s.rounding += s.work() - start }()
	for r.x != nil {
		s.fix(cur, r, &runs)
		fixed, _ := total(runs)
		if fixed >= s.length {
			return nil
		}
		if !anyLeft(cur.demand) {
			s.offer(runs)
			return nil
		}
		s.fillRest(cur.demand, runs, fixed)
		if s.over() {
			return nil
		}
		var err error
		rest := s.length - fixed
		if r, err = s.m.solve(s.ctx, cur, below(rest-1)); err != nil {
			return err
		}
		if r.bound >= below(rest-1) {
			return nil
		}
	}
	return nil
}

// fillRest offers plans that go on from the strips fixed so far.
func (s *search) fillRest(demand []int, runs []run, fixed int) {
	for range s.h.restPasses {
		if more := s.fill.pass(demand, s.length-fixed); more != nil {
			s.offer(append(append([]run(nil), runs...), more...))
			s.pool(more)
		}
	}
}

// fix takes strips of a relaxation out of the node: the whole ones; if there
// are none, the one nearest to whole; and if all would make pieces too many,
// a new one that does not, filled at the relaxation's prices.
func (s *search) fix(cur *node, r relaxed, runs *[]run) {
	best, most, any := -1, wholeEnough, false
	for j, x := range r.x {
		if x < wholeEnough {
			continue
		}
		c := &s.m.pool[j]
		fit := timesWhole(c, cur.demand)
		if n := min(int(math.Floor(x+wholeEnough)), fit); n > 0 {
			s.take(cur, c, n, runs)
			any = true
		} else if x > most && fit > 0 {
			best, most = j, x
		}
	}
	switch {
	case any:
	case best >= 0:
		s.take(cur, &s.m.pool[best], 1, runs)
	default:
		c := s.pr.fill(r.v.worth, cur.demand, s.fill.hardest(cur.demand))
		s.m.add(c)
		s.take(cur, &c, 1, runs)
	}
}

// take fixes n strips of a layout and lowers the limits by what they count.
func (s *search) take(cur *node, c *column, n int, runs *[]run) {
	*runs = append(*runs, run{*c, n})
	take(cur.demand, c, n)
	for k, l := range cur.limits {
		v := s.m.rows[k].coef(c) * n
		l.lo = max(0, l.lo-v)
		if l.hi != noLimit {
			l.hi = max(0, l.hi-v)
		}
		cur.limits[k] = l
	}
}
