package pack

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// raising raises the bound of shared plans where the sizes are many: a branch and
// bound over the numbers of strips from each height up, by the least length that a
// region takes. All regions whose bound is the bound of all must be split before that
// rises, so it goes to the newest of them, from whose program the next is not far. A
// question of one length instead looks for room, where a plan might be: its programs
// take ten times as long, and tell nothing of other lengths.
//
// A region is split at the number that costs the most length on both sides. What
// that is, is tried for some, until the average of a number is to be trusted
// (reliability branching; Achterberg, Koch and Martin, Branching rules revisited,
// Operations Research Letters 33, 2005).
//
// Where all numbers are whole, they are a leaf, which a question decides: it is asked
// once only such leaves keep the bound down.
type raising struct {
	s       *search
	heights []int
	open    map[int][]*raised // by their bound, the newest last
	lowest  int               // no bound of theirs is lower
	size    int               // of open
	waiting []*leaf           // undecided, as long as the bound
	costs   splitCosts        // in length
}

// raised is a region with what is known of its length.
type raised struct {
	region
	n     []float64 // numbers of the least length
	least float64   // that length, or a little less
	bound int       // proven: no plan in it is shorter
}

// The settings of raising, found by trial.
const (
	sizesShare   = 0.4    // shares of the work for each size
	lengthShares = 2      // but no more than so many for each open length
	splitsTried  = 8      // numbers that are not to be trusted, at most, for a part of a region
	leastLift    = 1e-4   // units of length that a side counts at least
	mostRaised   = 20_000 // regions kept, for these take memory
)

// raisingShares is how many shares of the work raising gets: the more the longer its
// programs take, but few where questions may do. Of few sizes it gets none, and of
// nested strips: they have so many heights that no split costs anything.
func (s *search) raisingShares() int64 {
	if !s.in.many() || s.h.style == Nested {
		return 0
	}
	return min(int64(sizesShare*float64(len(s.in.sizes))), int64(lengthShares*len(s.shorter())))
}

// raiseBound goes on raising the bound.
func (s *search) raiseBound() error {
	if s.over() {
		return nil
	}
	err := s.beginRaising()
	if err == nil {
		err = s.raising.run()
	}
	if errors.Is(err, glpk.ErrNumerical) {
		return s.renew()
	}
	return err
}

// beginRaising opens the region of all numbers, if that was not done yet.
func (s *search) beginRaising() error {
	if s.raising != nil {
		return nil
	}
	heights := s.strips.heights
	s.raising = &raising{s: s, heights: heights, open: map[int][]*raised{}, lowest: s.lower, costs: make(splitCosts, len(heights))}
	return s.raising.keep(wholeRegion(heights, s.length, noLimit), &raised{bound: s.lower})
}

// run goes on until nothing is left to split, only leaves keep the bound down, or the
// search must end.
func (g *raising) run() error {
	for !g.s.over() && g.size < mostRaised {
		g.waiting = slices.DeleteFunc(g.waiting, func(l *leaf) bool {
			return l.packed == no || l.n.length(g.heights) < g.s.lower
		})
		switch r := g.next(); {
		case len(g.waiting) > 0 && (r == nil || r.bound > g.s.lower):
			g.handOver()
			return nil
		case r == nil:
			g.s.raise(g.s.length, BySearch)
			return nil
		case r.bound > g.s.lower:
			g.s.raise(r.bound, BySearch)
		default:
			if err := g.split(r); err != nil {
				return err
			}
		}
	}
	return nil
}

// next is the newest region of the least bound, which it leaves among the open ones,
// or nil. What the search has proven by other ways holds for all regions.
func (g *raising) next() *raised {
	for ; g.lowest < g.s.length; g.lowest++ {
		list := g.open[g.lowest]
		if len(list) == 0 {
			continue
		}
		if g.lowest >= g.s.lower {
			return list[len(list)-1]
		}
		for _, r := range list {
			r.bound = g.s.lower
		}
		g.open[g.s.lower] = append(list, g.open[g.s.lower]...)
		delete(g.open, g.lowest)
	}
	return nil
}

// drop takes the region that is next from the open ones.
func (g *raising) drop(r *raised) {
	list := g.open[r.bound]
	g.open[r.bound] = list[:len(list)-1]
	g.size--
}

// add puts a region to the open ones, if there is any.
func (g *raising) add(r *raised) {
	if r != nil {
		g.open[r.bound] = append(g.open[r.bound], r)
		g.size++
	}
}

// keep puts a part of a region to the open ones, unless it is closed.
func (g *raising) keep(r region, of *raised) error {
	part, err := g.relax(r, of)
	if err == nil {
		g.add(part)
	}
	return err
}

// relax is a part of a region with its least length, or nil if no plan in it is
// shorter than the best.
func (g *raising) relax(r region, of *raised) (*raised, error) {
	s := g.s
	s.nodes++
	part := &raised{region: r, least: of.least, bound: of.bound}
	if !part.tighten() {
		return nil, nil
	}
	part.bound = max(part.bound, part.region.least.length(g.heights))
	if part.bound >= s.length {
		return nil, nil
	}
	a, err := s.joint.cheapest(part.region)
	if err != nil {
		return nil, err
	}
	part.n = part.nearest(a.n)
	least := min(s.joint.price(a), float64(s.length))
	part.least = max(part.least, least)
	// The length may be whole to a hair, and the rows may add up to less than the
	// program tells.
	const hair, tries = 1e-6, 2
	top := int(math.Ceil(least-hair)) - 1
	for t := top; t > top-tries && t >= part.bound; t-- {
		if v, ok := a.view(s.in, g.heights, part.region, t); ok && v.closes() {
			part.bound = t + 1
			break
		}
	}
	if part.bound >= s.length {
		return nil, nil
	}
	return part, nil
}

// split splits the next region in two or, where its numbers are whole, tries the
// leaf that it is.
func (g *raising) split(r *raised) error {
	list := g.costs.splittings(g.heights, r.n)
	if len(list) == 0 {
		return g.leaf(r)
	}
	slices.SortStableFunc(list, func(a, b splitting) int { return cmp.Compare(liftScore(b.cost), liftScore(a.cost)) })
	var parts [2]*raised
	found, tries := -1.0, 0
	for _, c := range list {
		score := liftScore(c.cost)
		switch {
		case c.trusted && score <= found:
			continue
		case !c.trusted && tries == splitsTried && r.branched >= 0:
			continue
		}
		two, lift, err := g.try(r, c.k)
		if err != nil || g.s.over() {
			return err
		}
		tries++
		if score = liftScore(lift); score > found {
			found, parts = score, two
		}
		if c.trusted || parts == [2]*raised{} {
			break
		}
	}
	g.drop(r)
	g.add(parts[upward])
	g.add(parts[downward])
	return nil
}

// liftScore is how good a split is that lifts the length on both sides by so much.
func liftScore(lift [2]float64) float64 {
	return max(leastLift, lift[downward]) * max(leastLift, lift[upward])
}

// try splits a region at a number, and tells by how much that lifts the length of the
// parts.
func (g *raising) try(r *raised, k int) (parts [2]*raised, lift [2]float64, err error) {
	most := float64(g.s.length) - r.least
	down, up := r.region.split(k, r.n[k])
	for side, half := range [2]region{down, up} {
		part, err := g.relax(half, r)
		if err != nil || g.s.over() {
			return parts, lift, err
		}
		parts[side], lift[side] = part, most
		if part != nil {
			lift[side] = min(most, part.least-r.least)
		}
		g.costs.learn(half, lift[side])
	}
	return parts, lift, nil
}

// leaf tries whole numbers for the first time, and opens what they leave of the
// region. If they are shorter than the bound they hold no plan; if longer, the program
// did not feel it.
func (g *raising) leaf(r *raised) error {
	n := nearest(r.n)
	rest := r.without(n)
	switch length := n.length(g.heights); {
	case length > r.bound:
		rest = r.region.lower(n)
	case length == r.bound:
		if err := g.wait(g.s.leafAt(n), length); err != nil {
			return err
		}
	}
	g.drop(r)
	for _, part := range rest {
		if err := g.keep(part, r); err != nil {
			return err
		}
	}
	return nil
}

// wait tries a leaf of such a length for the first time, and keeps it if that does not
// decide it.
func (g *raising) wait(l *leaf, length int) error {
	if l.packed == unknown && l.level == 0 {
		if err := g.s.questionOf(target{length, noLimit}).try(l); err != nil {
			return err
		}
	}
	if l.packed == unknown {
		g.waiting = append(g.waiting, l)
	}
	return nil
}

// handOver makes the leaves that keep the bound down the question of its length.
func (g *raising) handOver() {
	q := g.s.questionOf(target{g.s.lower, noLimit})
	q.begun, q.open, q.waiting = true, nil, slices.Clone(g.waiting)
}
