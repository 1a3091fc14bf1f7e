package pack

// The settings of recut, found by trial.
const (
	leastRecut  = 0.2 // of the strips are taken out at least, on average
	mostRecut   = 0.7 // and at most
	wasteWeight = 4.0 // how much likelier a strip goes for each share wasted
)

// recut takes some strips out of the best plan, the wasteful ones more often,
// and plans their pieces anew, until the plan is no longer than target or so
// many tries in a row have been in vain (large neighbourhood search; Shaw,
// Using constraint programming and local search methods to solve vehicle
// routing problems, 1998). It goes on from the last plan as short as the best,
// even if it is no better.
func (s *search) recut(target int) error {
	s.latest = s.best
	defer func() { s.latest = nil }()
	last := s.length
	most := max(s.h.recuts, s.count*len(s.in.sizes))
	for vain := 0; vain < most; vain++ {
		if s.length < last {
			last, vain = s.length, 0
		}
		if s.length <= target || s.over() {
			return nil
		}
		kept, demand := s.thin(leastRecut + (mostRecut-leastRecut)*s.fill.shake.Float64())
		if !anyLeft(demand) {
			continue
		}
		fixed, _ := total(kept)
		cutoff := below(s.tooLong() - fixed - 1)
		r, err := s.m.solve(s.ctx, demand, cutoff)
		if err != nil {
			return err
		}
		if r.bound >= cutoff {
			continue
		}
		if err := s.diveOn(demand, r, kept); err != nil {
			return err
		}
	}
	return nil
}

// thin takes about a share of the strips out of the latest plan. It returns the
// rest, and what they leave to cut.
func (s *search) thin(share float64) (kept []run, demand []int) {
	demand = s.in.whole()
	for _, r := range s.latest {
		out := share + wasteWeight*s.in.waste(&r.col)
		n := 0
		for range r.count {
			if s.fill.shake.Float64() > out {
				n++
			}
		}
		if n > 0 {
			kept = append(kept, run{r.col, n})
			take(demand, &r.col, n)
		}
	}
	return kept, demand
}

// waste is the share of a strip that ends up in no piece.
func (in *instance) waste(c *column) float64 {
	used := 0.0
	for i, y := range c.yield {
		used += float64(y) * in.area(i)
	}
	return 1 - used/(float64(c.height)*float64(in.width))
}
