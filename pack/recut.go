package pack

import (
	"math"
	"slices"
)

// The settings of recut, found by trial.
const (
	fewToRecut  = 100 // of more strips it takes such shares of so many
	wasteWeight = 4.0 // how much likelier a strip goes for each share wasted
	// A fabric is full if the first relaxation wastes less than this share of it.
	fullWaste = 2e-4
	// Of many sizes, it goes on at first with plans that are longer than the best, by such
	// a share of what that may be too long.
	longerShare = 0.15
)

// recutting is one way to cut part of a plan anew.
type recutting struct {
	often float64 // share of the tries
	once  func(s *search) error
}

var (
	recutFull = []recutting{
		{0.6, thinned(0.5, 1, (*search).planRounded)},
		{0.3, thinned(0.8, 1, (*search).planByBeam)},
		{0.1, thinned(0.2, 0.7, (*search).planByDive)},
	}
	recutNested = []recutting{
		{0.4, (*search).recutApart},
		{0.6, thinned(0.5, 1, (*search).planRounded)},
	}
	recutShared = []recutting{
		{0.97, (*search).recutApart},
		{0.03, thinned(0.5, 1, (*search).planRounded)},
	}
	// Of many sizes, a rounding takes as long as ten tries apart, and is not missed.
	recutMany = []recutting{{1, (*search).recutApart}}
)

// waysToRecut are those that suit a fabric of which the first relaxation wastes
// such a share.
func (s *search) waysToRecut(wasted float64) []recutting {
	switch {
	case wasted < fullWaste:
		return recutFull
	case s.h.style == Nested:
		return recutNested
	case s.in.many():
		return recutMany
	default:
		return recutShared
	}
}

// thinned takes a share of the strips out, from least to most on average, and
// plans what they leave to cut beside the others.
func thinned(least, most float64, plan func(s *search, kept []run, demand []int) error) func(s *search) error {
	return func(s *search) error {
		share := least + (most-least)*s.fill.shake.Float64()
		kept, demand := s.thin(share * min(1, fewToRecut/float64(s.count)))
		if !anyLeft(demand) {
			return nil
		}
		return plan(s, kept, demand)
	}
}

// recut takes some strips out of the best plan, those that waste or lose most more
// often, and plans their pieces anew, until the plan is no longer than target or so
// many tries in a row have been in vain (large neighbourhood search; Shaw,
// Using constraint programming and local search methods to solve vehicle
// routing problems, 1998). It goes on from the last plan, even if that is no better;
// of many sizes, even if that is longer than the best by no more than a threshold that
// falls to nothing (record-to-record travel; Dueck, New optimization heuristics,
// Journal of Computational Physics 104, 1993), for no other plan as short may be
// within reach.
func (s *search) recut(target int) error {
	s.latest = s.best
	defer func() { s.latest, s.longer = nil, 0 }()
	start, last := s.work(), s.length
	most := max(s.h.recuts, s.count*len(s.in.sizes))
	for vain := 0; vain < most; vain++ {
		if s.length < last {
			last, vain = s.length, 0
		}
		if s.length <= target || s.over() {
			return nil
		}
		if s.in.many() {
			left := 1 - max(float64(vain)/float64(most), float64(s.work()-start)/float64(s.stop-start))
			s.longer = int(longerShare*left*float64(s.length-s.lower) + s.fill.shake.Float64())
		}
		if err := s.recutOnce(); err != nil {
			return err
		}
	}
	return nil
}

// recutOnce is one try.
func (s *search) recutOnce() error {
	way, draw := 0, s.fill.shake.Float64()
	for ; way < len(s.recuttings)-1 && draw >= s.recuttings[way].often; way++ {
		draw -= s.recuttings[way].often
	}
	return s.recuttings[way].once(s)
}

// planByBeam plans a demand beside strips that are kept.
func (s *search) planByBeam(kept []run, demand []int) error {
	fixed, _ := total(kept)
	s.offerBeside(kept, s.beam.build(demand, s.tooLong()-fixed))
	return nil
}

// planByDive does the same by rounding its relaxation step by step.
func (s *search) planByDive(kept []run, demand []int) error {
	r, err := s.relaxRest(kept, demand)
	if err != nil {
		return err
	}
	return s.diveOn(demand, r, kept)
}

// The settings of planRounded, found by trial.
const (
	roundings   = 3   // of the same demand, in a row
	mostDropped = 0.3 // share of its whole strips that a rounding leaves out, at most
	fewToDrop   = 15  // of more strips it leaves out such a share of so many
	leastLeft   = 4   // strips that are left to the beam, at least
	mostLeft    = 12  // and at most, unless a rounding finds none to cut
)

// planRounded does the same by rounding its relaxation at random, again and
// again, until the beam can plan what that leaves: strips of a relaxation waste
// little, so that what they leave has more to spare than any part of a plan
// (Raghavan and Thompson, Randomized rounding, Combinatorica 7, 1987, for the
// rounding; Wäscher and Gau, 1996, for the residual problem). The relaxation of
// what is left takes less than the beam would, as the pool has nearly all that it
// needs, and it soon shows if there is too little room.
func (s *search) planRounded(kept []run, demand []int) error {
	for range roundings {
		if err := s.roundOnce(slices.Clone(kept), slices.Clone(demand)); err != nil || s.over() {
			return err
		}
	}
	return nil
}

// roundOnce does so once. It uses up the demand.
func (s *search) roundOnce(kept []run, demand []int) error {
	few := leastLeft + (mostLeft-leastLeft)*s.fill.shake.Float64()
	for anyLeft(demand) {
		r, err := s.relaxRest(kept, demand)
		if err != nil || r.x == nil {
			return err
		}
		var more []run
		if stripsOf(r.x) > few {
			more = s.roundedStrips(r.x, func(j int) column { return s.m.pool.list[j] }, demand)
		}
		if len(more) == 0 {
			return s.planByBeam(kept, demand)
		}
		kept = append(kept, more...)
	}
	s.offer(kept)
	return nil
}

// stripsOf is how many strips a relaxation has.
func stripsOf(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum
}

// roundedStrips rounds the numbers x of strips of the layouts of a relaxation up or down at
// random, leaves out some, and takes the others out of the demand. None of them
// makes a piece too many.
func (s *search) roundedStrips(x []float64, layout func(j int) column, demand []int) []run {
	var runs []run
	dropped := mostDropped * s.fill.shake.Float64() * min(1, fewToDrop/max(1, stripsOf(x)))
	for _, j := range s.fill.shake.Perm(len(x)) {
		whole := math.Floor(x[j] + wholeEnough)
		n := 0
		for range int(whole) {
			if s.fill.shake.Float64() >= dropped {
				n++
			}
		}
		if rest := x[j] - whole; rest > wholeEnough && s.fill.shake.Float64() < rest {
			n++
		}
		if n == 0 {
			continue
		}
		c := layout(j)
		if n = min(n, timesWhole(&c, demand)); n > 0 {
			runs = append(runs, run{c, n})
			take(demand, &c, n)
		}
	}
	return runs
}

// thin takes about a share of the strips out of the latest plan. It returns the
// rest, and what they leave to cut.
func (s *search) thin(share float64) (kept []run, demand []int) {
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
		}
	}
	return kept, leftBeside(s.in.whole(), kept)
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
