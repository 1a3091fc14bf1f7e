package pack

import (
	"cmp"
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
// It asks for one target length after another whether any plan is as short:
// first the longest target that costs the same purchase as the bound, then
// lengths from the bound upwards. Each question is a depth-first branch and
// bound over the numbers of strips from a height up, then over the numbers of
// pieces laid one way in them. A length is a sum of strip heights, so the
// numbers of strips settle it, and bounding them closes most of the gap that
// the relaxation leaves.
type search struct {
	ctx  context.Context
	in   *instance
	m    *master
	pr   pricer
	fill *filler
	// purchase is what must be bought for a length; it never falls.
	purchase func(length int) model.Length
	h        heuristics
	report   func() // tells of progress
	// stop is the work at which to give up; afterPurchase bounds what may
	// follow once the purchase is proven.
	stop, afterPurchase int64

	best   []run
	length int      // of best
	strips int      // in best
	lower  int      // no plan is shorter
	sums   *big.Int // lengths that strips can add up to
	nodes  int

	enumerating int64 // steps spent in enumerations
	rounding    int64 // steps spent in dives
	fruitless   int   // dives since the best plan was found
}

// offer keeps a plan that covers the demand if it is better than the best:
// shorter; or as short with fewer strips, or with as many in fewer layouts. A
// nested plan must be shorter: of two as long, the simpler one comes first.
func (s *search) offer(runs []run) {
	length, strips := total(runs)
	simpler := strips < s.strips || strips == s.strips && len(runs) < len(s.best)
	if s.best == nil || length < s.length || length == s.length && simpler && !s.h.onlyShorter {
		s.best = append([]run(nil), runs...)
		s.length, s.strips = length, strips
		s.fruitless = 0
	}
}

// work is the number of steps taken: a measure of time that is the same on
// every machine, about a nanosecond each.
func (s *search) work() int64 { return s.pr.work() + s.m.effort + s.enumerating }

// over reports whether the search must end. It is asked at every step, and
// tells of progress on the way.
func (s *search) over() bool {
	s.report()
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

// heuristics is how much a search looks for plans besides proving bounds.
type heuristics struct {
	style       Style
	firstPasses int // plans built before the first relaxation
	restPasses  int // plans built from what each step of a dive leaves to cut
	recuts      int // tries in vain, in a row, to cut the best plan partly anew
	// Of the work that is left, one part in so many may go into a first try
	// at a target, and into recutting the best plan for it if that fails.
	tryPart, recutPart int64
	// onlyShorter plans replace the best, not simpler ones of its length.
	onlyShorter bool
}

// The settings for each style, found by trial. A nested strip takes much
// longer to fill than a shared one.
var (
	sharedHeuristics = heuristics{style: Shared, firstPasses: 20, restPasses: 30, recuts: 120, tryPart: 2, recutPart: 6}
	nestedHeuristics = heuristics{style: Nested, firstPasses: 4, restPasses: 3, recuts: 120, tryPart: 20, recutPart: 2, onlyShorter: true}
)

// run searches from its seed until the length is proven or the work or the context ends.
func (s *search) run() error {
	demand := s.in.whole()
	for range s.h.firstPasses {
		if runs := s.fill.pass(demand, s.length); runs != nil {
			s.offer(runs)
			s.pool(runs)
		}
	}
	s.m.most = int64(s.length / s.pr.heights()[0])
	s.m.penalty = int64(s.length)
	root := &node{demand: demand}
	for _, h := range s.pr.heights() {
		s.m.rows = append(s.m.rows, row{h, allPieces})
	}
	s.sums = s.in.lengthsUpTo(s.length)
	s.raise(s.areaBound())
	r, err := s.m.solve(s.ctx, root, below(s.length-1))
	if err != nil {
		return err
	}
	s.raise(up(r.bound))
	if err := s.dive(root, r); err != nil {
		return err
	}
	if err := s.round(root, s.length-1); err != nil {
		return err
	}
	if err := s.provePurchase(root); err != nil {
		return err
	}
	s.stop = min(s.stop, s.work()+s.afterPurchase)
	for s.lower < s.length && !s.over() {
		if done, err := s.settle(root, s.lower, lengthTryPart); !done {
			return err
		}
	}
	return nil
}

// raise raises the proven bound to a length that strips can add up to.
func (s *search) raise(lower int) {
	s.lower = raise(s.sums, max(lower, s.lower), s.length)
}

// pool puts the layouts of a plan into the master.
func (s *search) pool(runs []run) {
	for _, r := range runs {
		s.m.add(r.col)
	}
}

// areaBound is the length that the pieces would take if they left no gaps.
func (s *search) areaBound() int {
	area := 0.0
	top := 0
	for i, z := range s.in.sizes {
		area += s.in.area(i) * float64(z.count)
		top = max(top, s.in.need(i))
	}
	// One unit less outweighs the rounding of the sum: areas are whole.
	return max(top, int(area/float64(s.in.width))-1)
}

// provePurchase asks, for one purchase after another from the bound upwards,
// whether a plan needs no more.
func (s *search) provePurchase(root *node) error {
	for s.purchase(s.lower) != s.purchase(s.length) && !s.over() {
		if done, err := s.settle(root, s.sameCost(s.lower, s.length), s.h.tryPart); !done {
			return err
		}
	}
	return nil
}

// lengthTryPart is the tryPart of a length, once the purchase is proven.
const lengthTryPart = 2

// settle decides whether there is a plan no longer than t, raises the bound if
// there is none, and reports whether it could tell. One part in tryPart of the
// work that is left goes into the first try.
func (s *search) settle(root *node, t int, tryPart int64) (done bool, err error) {
	stop := s.stop
	budget := stop - s.work()
	s.stop = s.work() + budget/tryPart
	v, err := s.target(root, t)
	if err == nil && v == unknown {
		s.stop = s.work() + budget/s.h.recutPart
		err = s.recut(t)
	}
	s.stop = stop
	if err == nil && v == unknown {
		v, err = s.target(root, t)
	}
	if err == nil && v == no {
		s.raise(t + 1)
	}
	return err == nil && v != unknown, err
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

// target decides whether there is a plan no longer than t.
func (s *search) target(root *node, t int) (verdict, error) {
	if s.length <= t {
		return yes, nil
	}
	stack, answer, err := s.open(t, root)
	for len(stack) > 0 && err == nil {
		if s.over() {
			return unknown, nil
		}
		last := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		s.nodes++
		var children []subproblem
		var v verdict
		children, v, err = s.expand(last, t)
		if s.length <= t {
			return yes, err
		}
		if v == unknown {
			answer = unknown
		}
		stack = append(stack, children...)
	}
	if err != nil {
		answer = unknown
	}
	return answer, err
}

// subproblem is a node with its solved relaxation.
type subproblem struct {
	nd *node
	r  relaxed
}

// open solves the relaxations of nodes and returns those that a target leaves
// open, the likeliest last. Its verdict is no if all others are closed.
func (s *search) open(t int, nodes ...*node) ([]subproblem, verdict, error) {
	var list []subproblem
	for _, nd := range nodes {
		r, err := s.m.solve(s.ctx, nd, below(t))
		if err != nil {
			return nil, unknown, err
		}
		switch {
		case r.bound >= below(t):
		case r.settled:
			list = append(list, subproblem{nd, r})
		default: // the context has ended
			return nil, unknown, nil
		}
	}
	slices.SortStableFunc(list, func(a, b subproblem) int { return cmp.Compare(b.r.bound, a.r.bound) })
	return list, no, nil
}

// leafLimits are the most layouts over which a leaf is decided, and the most
// branches that this may take.
type leafLimits struct{ layouts, branches int }

// A node is tried quickly once its numbers of strips are whole, and hard when
// nothing is left to branch on.
var (
	quickLeaf = leafLimits{200, 50}
	lastLeaf  = leafLimits{3000, 2000}
)

// expand looks for a plan in a subproblem and splits it. It returns its
// children, the likelier last, or the verdict on it.
func (s *search) expand(p subproblem, t int) ([]subproblem, verdict, error) {
	for !s.over() {
		if s.rounding*int64(2+s.fruitless/8) <= s.work() {
			if err := s.dive(p.nd, p.r); err != nil || s.length <= t {
				return nil, yes, err
			}
		}
		b := s.stripsRow(p.r)
		if b.row < 0 {
			if v, err := s.leaf(p.nd, t, quickLeaf); err != nil || v != unknown {
				return nil, v, err
			}
			b = s.optionRow(p.r)
		}
		if b.row < 0 {
			v, err := s.leaf(p.nd, t, lastLeaf)
			if err == nil && v == unknown {
				err = s.round(p.nd, t)
			}
			return nil, v, err
		}
		down, up := b.children(p.nd)
		children, v, err := s.open(t, down, up)
		if err != nil || len(children) != 1 {
			return children, v, err
		}
		p = children[0]
	}
	return nil, unknown, nil
}

// swells are by how much a leaf's demand is swollen to find telling prices.
var swells = []float64{1.03, 1.1, 1.01}

// leaf decides a node whose numbers of strips are whole over every layout that
// could matter, if they are few. There the relaxation has cloth to spare, its
// prices say nothing, and too many layouts could matter. So it takes the
// prices of a demand a little larger, that the strips cannot hold: they make
// a weaker bound, but tell good layouts from bad ones.
func (s *search) leaf(nd *node, t int, most leafLimits) (verdict, error) {
	for _, swell := range swells {
		s.m.swell = swell
		r, err := s.m.solve(s.ctx, nd, math.MaxInt64)
		s.m.swell = 1
		if err != nil || !r.settled {
			return unknown, err
		}
		if r.bound >= below(t) {
			return no, nil
		}
		e := &enumeration{in: s.in, v: r.v, limit: nd.demand, gap: below(t) - 1 - r.bound, most: most.layouts}
		cols, complete := e.enumerate(s.pr)
		s.enumerating += e.steps
		if !complete {
			continue
		}
		runs, v, err := s.m.decide(s.ctx, nd, cols, t, most.branches)
		if runs != nil {
			s.offer(runs)
		}
		return v, err
	}
	return unknown, nil
}

// roundNodes is the number of nodes that rounding over the pool may take.
const roundNodes = 300

// round looks for a plan no longer than most among the layouts at hand.
func (s *search) round(nd *node, most int) error {
	runs, err := s.m.rounded(s.ctx, nd, s.m.pool, most, roundNodes)
	if err == nil && runs != nil {
		s.offer(runs)
	}
	return err
}
