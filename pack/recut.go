package pack

// The settings of recut, found by trial.
const (
	fewToRecut  = 200 // of more strips it takes such shares of so many
	wasteWeight = 4.0 // how much likelier a strip goes for each share wasted
	// A fabric is full if the first relaxation wastes less than this share of it.
	fullWaste = 2e-4
)

// recutting is how a plan is cut anew: which shares of its strips are taken out,
// on average, and how often their pieces are planned by the beam, not by a dive.
type recutting struct{ least, most, byBeam float64 }

var (
	recutFull  = recutting{0.8, 1, 0.75}
	recutOther = recutting{0.2, 0.7, 0.25}
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
		if err := s.recutOnce(); err != nil {
			return err
		}
	}
	return nil
}

// recutOnce is one try.
func (s *search) recutOnce() error {
	way := s.recutting
	byBeam := s.fill.shake.Float64() < way.byBeam
	if !byBeam {
		way = recutOther
	}
	share := way.least + (way.most-way.least)*s.fill.shake.Float64()
	kept, demand := s.thin(share * min(1, fewToRecut/float64(s.count)))
	if !anyLeft(demand) {
		return nil
	}
	fixed, _ := total(kept)
	if byBeam {
		if runs := s.beam.build(demand, s.tooLong()-fixed); runs != nil {
			s.offer(append(kept, runs...))
			s.m.pool.addRuns(runs)
		}
		return nil
	}
	cutoff := below(s.tooLong() - fixed - 1)
	r, err := s.m.solve(s.ctx, demand, cutoff)
	if err != nil || r.bound >= cutoff {
		return err
	}
	return s.diveOn(demand, r, kept)
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

// wasted is the share of a length of strips, in 1/priceScale, that ends up in no
// piece of the demand.
func (in *instance) wasted(length int64) float64 {
	return 1 - in.covered(in.whole())/(float64(length)/priceScale*float64(in.width))
}

// waste is the share of a strip that ends up in no piece.
func (in *instance) waste(c *column) float64 {
	return 1 - in.covered(c.yield)/(float64(c.height)*float64(in.width))
}

// covered is the area of so many pieces of each size.
func (in *instance) covered(pieces []int) float64 {
	sum := 0.0
	for i, n := range pieces {
		sum += float64(n) * in.area(i)
	}
	return sum
}
