package pack

import (
	"context"
	"math"
	"math/big"
	"slices"

	"crossgrain/model"
)

// verdict answers whether there is a plan no longer than a target.
type verdict uint8

const (
	no verdict = iota
	yes
	unknown
)

// search looks for the shortest plan of one style and proves how short a plan
// can be. Lengths are whole grid units.
//
// A length is a sum of strip heights, so the numbers of strips settle it. It
// asks questions: is there a plan as short as a target? First of the purchase,
// the longest length that costs the same as the bound, and so on up; then of
// the length, from the bound up. Targets that take long are put aside for a
// while, and shorter plans than the best are looked for by halving what lies
// between.
type search struct {
	ctx  context.Context
	in   *instance
	m    *master
	pr   pricer
	fill *filler
	// purchase is what must be bought for a length; it never falls. It is bought if that
	// is not the length itself.
	purchase func(length int) model.Length
	bought   bool
	h        heuristics
	report   func(due bool) // tells of progress
	// stop is the work at which to give up; more, if set, allows more while the
	// purchase is open; afterPurchase bounds what may follow once it is proven;
	// kept is what the length gets if it is not; before is the work of the search
	// that this one starts from.
	stop, afterPurchase, kept, before int64
	more                              func() int64
	share                             int64 // steps of one of the shares that a target gets next
	outer                             int64 // stop, where that is of a part of the search

	best   []run
	latest []run // while it is recut: the last plan that may be gone on with
	longer int   // by so much that may be longer than the best
	seeded int   // length of the plan that it began with
	length int   // of best
	count  int   // of its strips
	lower  int   // no plan is shorter
	// How that is known, and how it is known of the purchase.
	lowerBy, buyBy Proof
	fewest         bool     // no plan as short as best has fewer strips
	sums           *big.Int // lengths that strips can add up to
	nodes          int

	beam       *beam
	recuttings []recutting
	known      *pool // layouts that the fit has
	strips     *strips
	joint      *joint
	fit        *fit
	questions  map[target]*question
	raising    *raising
	leaves     map[string]*leaf
	cutChoices []choice // of ways to cut pieces down, once they are asked for
	smaller    [][]bool // smaller[i][j]: pieces of i may be cut down to j

	lists     lists // over regions
	bestLists lists // of the best layouts
	samples   lists // of some of them

	listing int64 // steps spent in lists of layouts
}

// target is what a question asks for: a plan no longer, of no more strips.
type target struct{ length, strips int }

// offer keeps a plan that covers the demand if it is better than the best:
// shorter; or as short with fewer strips, or with as many in fewer layouts. A
// nested plan must be shorter: of two as long, the simpler one comes first.
func (s *search) offer(runs []run) {
	if runs == nil {
		return
	}
	length, count := total(runs)
	if s.best != nil && length > s.length+s.longer {
		return
	}
	runs = joinRuns(runs)
	if s.latest != nil {
		s.latest = runs
	}
	simpler := count < s.count || count == s.count && len(runs) < len(s.best)
	if s.best == nil || length < s.length || length == s.length && simpler && !s.h.onlyShorter {
		s.best = runs
		s.length, s.count = length, count
	}
}

// offerBeside offers the plan of strips that are kept and more, and puts the
// layouts of the latter into the pool. No more is no plan.
func (s *search) offerBeside(kept, more []run) {
	if more != nil {
		s.offer(slices.Concat(kept, more))
		s.m.pool.addRuns(more)
	}
}

// tooLong is the length from which a plan is of no use.
func (s *search) tooLong() int {
	if s.latest != nil {
		return s.length + s.longer + 1
	}
	return s.length
}

// work is the number of steps taken: a measure of time that is the same on
// every machine, about a nanosecond each.
func (s *search) work() int64 { return s.pr.work() + s.m.effort + s.listing }

// columns is the number of layouts that were priced in.
func (s *search) columns() int {
	n := len(s.m.pool.list)
	if s.known != nil {
		n += len(s.known.list)
	}
	return n
}

// over reports whether the search must end. It is asked at every step, and
// tells of progress on the way.
func (s *search) over() bool {
	s.report(false)
	return s.ctx.Err() != nil || s.work() >= s.stop
}

// up rounds an exact bound up to a whole length.
func up(bound int64) int {
	if bound <= 0 {
		return 0
	}
	return int((bound + priceScale - 1) / priceScale)
}

// below is the cutoff that only plans no longer than a length stay under.
func below(length int) int64 { return int64(length)*priceScale + 1 }

// wholeEnough is how near to a whole number a number counts as whole: well
// above the 1e-7 to which programs are solved.
const wholeEnough = 1e-5

// fraction is the distance to the nearest whole number.
func fraction(x float64) float64 { return math.Abs(x - math.Round(x)) }

// heuristics is how much a search looks for plans besides proving bounds.
type heuristics struct {
	style       Style
	firstPasses int   // plans built before the first relaxation, at most
	restPasses  int   // plans built from what each step of a dive leaves to cut, at most
	recuts      int   // tries in vain, in a row, to cut a plan partly anew; more if it has many strips
	recutShares int64 // shares of the work that these may take
	// Shares that the question of the lowest target gets, and those between it and
	// the best plan.
	lowShares, betweenShares int64
	listingPart              int64 // part of the work, one in so many, that lists may waste
	bestPart                 int64 // part that lists of the best layouts may waste; 0 is none
	samplesPart              int64 // and samples of them, until the purchase is proven
	vainLists                int64 // after so many in vain, in a row, half of it must do
	// onlyShorter plans replace the best, not simpler ones of its length.
	onlyShorter bool
}

// The settings for each style, found by trial. A nested strip takes much
// longer to fill than a shared one.
var (
	sharedHeuristics = heuristics{style: Shared, firstPasses: 20, restPasses: 30, recuts: 10, recutShares: 4, lowShares: 8, betweenShares: 4, listingPart: 4, vainLists: 20}
	nestedHeuristics = heuristics{style: Nested, firstPasses: 4, restPasses: 3, recuts: 200, recutShares: 24, lowShares: 2, betweenShares: 2, listingPart: 4, vainLists: 6, bestPart: 4, samplesPart: 2, onlyShorter: true}
)

// run searches from its seed until all is proven or the work or the context
// ends.
func (s *search) run() error {
	defer s.end()
	if err := s.begin(); err != nil {
		return err
	}
	s.stop -= s.kept
	if err := s.settlePurchase(); err != nil {
		return err
	}
	s.stop += s.kept
	if s.settled() {
		s.report(true)
		s.stop = min(s.stop, s.work()+s.afterPurchase)
	}
	s.share = firstShare
	if err := s.narrow(s.shorter); err != nil {
		return err
	}
	if s.lower == s.length {
		s.report(true)
	}
	return s.narrowStrips()
}

// settlePurchase narrows the purchase down until it is proven or there is no
// more work to be had.
func (s *search) settlePurchase() error {
	for {
		err := s.narrow(s.cheaper)
		if err != nil || s.settled() || s.work() < s.stop || s.ctx.Err() != nil || s.more == nil {
			return err
		}
		work := s.more()
		if work <= 0 {
			return nil
		}
		s.stop = s.work() + work
	}
}

// begin finds a good plan and a first bound.
func (s *search) begin() error {
	demand := s.in.whole()
	s.fillRest(demand, nil, s.h.firstPasses, firstVain)
	s.m.keepWithin(s.length)
	s.sums = s.in.lengthsUpTo(s.length)
	s.leaves = map[string]*leaf{}
	s.raise(s.areaBound(), ByArea)
	r, err := s.m.solve(s.ctx, demand, below(s.length-1))
	if err != nil {
		return err
	}
	s.raise(up(r.bound), ByRelaxation)
	s.beam, s.recuttings = s.newBeam(r.v.worth), s.waysToRecut(s.in.wasted(r.bound))
	if s.lower < s.length {
		if err := s.dive(demand, r); err != nil {
			return err
		}
	}
	s.known = &pool{}
	s.known.addRuns(s.best)
	for j, x := range r.x {
		if x > 0 {
			s.known.add(s.m.pool.list[j])
		}
	}
	return s.renew()
}

// renew makes the kept programs anew: at the beginning, and after one has
// broken down on rounding errors.
func (s *search) renew() (err error) {
	s.end()
	s.questions, s.raising = map[target]*question{}, nil
	if s.strips, err = newStrips(s); err != nil {
		return err
	}
	if s.joint, err = newJoint(s); err != nil {
		return err
	}
	s.fit, err = newFit(s, s.known, nil)
	return err
}

// end frees the programs.
func (s *search) end() {
	s.m.close()
	if s.joint != nil {
		s.joint.close()
	}
	if s.fit != nil {
		s.fit.close()
	}
	if s.strips != nil {
		s.strips.close()
	}
}

// areaBound is the length that the pieces would take if they left no gaps, or
// that one of them takes alone.
func (s *search) areaBound() int {
	area, width := new(big.Int), big.NewInt(int64(s.in.width))
	for _, z := range s.in.sizes {
		part := big.NewInt(int64(z.along))
		part.Mul(part, big.NewInt(int64(z.across)))
		area.Add(area, part.Mul(part, big.NewInt(int64(z.count))))
	}
	area.Add(area, width).Sub(area, big.NewInt(1)) // so that the quotient is rounded up
	return max(s.in.highest(), int(area.Div(area, width).Int64()))
}
