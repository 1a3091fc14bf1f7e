package pack

import (
	"cmp"
	"slices"
)

// offering is one stretch that a strip may hold in a list: a stack of parts
// and its size.
type offering struct {
	along, tall int
	parts       []part
}

// listing lists every layout that a plan with given numbers of strips can be
// made of: those that in every view are worth within its gap of the most that
// a strip of their height is, and among them only those with no room for one
// more piece, since one piece too many does no harm, and of those that make the
// same pieces only the lowest. (Baldacci, Christofides and Mingozzi, Mathematical
// Programming 115, 2008, list columns by reduced cost for vehicle routes.)
//
// It takes longer offers first. Once all that have pieces of some size have been looked at,
// it is settled how many of them a layout has: if there are more, no room may be left for
// one, nor for one in the place of smaller pieces, and what leaves so much is not gone on
// with. For what is left of the width the offers yet to come are weighed by knapsacks.
type listing struct {
	s      *search
	n      numbers
	demand []int // of sizes that are 0 the layouts have none
	views  []view
	within int64   // give up beyond so many steps
	sample *sample // of the layouts, unless it lists all
	steps  int64
	asked  int64 // steps when it asked last whether the search must end

	found   []choice
	scratch choice // the last, before it is held
	laid    hoard[laying]
	stacks  hoard[*offering]
	tally   tallying
	seen    tallies // what the layouts found make
	list    []offering
	makes   [][]pieces // makes[j]: of each size, by list[j]
	tallies []tally    // and as a tally
	above   []uint64   // above[j]: the options that have room on list[j], the first 64
	larger  larger
	pairs   []int       // pairs[i*len(list)+j]: the same of list[i] and list[j] together
	place   [][]place   // of each offer, where larger pieces have room
	plenty  []bool      // sizes of which there are more than a strip can hold
	extra   []int       // of each offer: with so much of the width left, a layout is outdone
	used    [][]int64   // used[j][w]: the most of w that list[:j+1] and all like list[j] can use
	limit   int         // with so much of the width left, the layout is of no use
	lowest  []int       // of each size, the first offer that has it, or that there is none
	settles [][]int     // of each offer, the sizes that it is the first of
	least   []int       // of each size, how long its shortest option is, or that none has room
	barred  []bool      // barred[i*len(list)+j]: list[i] and list[j] are not both in a layout
	ends    []int       // ends[j]: where the offers that are like list[j] in length and closing begin
	worth   [][]int64   // worth[v][j]: of list[j] in a view
	table   [][][]int64 // table[v][j][w]: the most that list[:j+1] and all like list[j] are worth in w
	short   []int64     // short[v]: gap less what the layout lacks; never below 0
	top     int
	made    []int
	key     tally // made as a tally
	chosen  []int // offers in the layout, by index
	held    int   // entries of the layouts found
	full    bool  // gave up
}

// The settings of listing, found by trial.
const (
	mostLayouts  = 300_000   // of a list, for these take memory
	knownSteps   = 60        // about what it costs to see that a layout is known
	keepSteps    = 600       // and to keep it
	nodeSteps    = 60        // to go on with an offer
	lookSteps    = 10        // and to look at one
	stepsToSort  = 100       // and to put it in order
	listingSteps = 1.5       // steps of the search for each of these, which take longer
	mostSeen     = 5_000_000 // words of what was made, for these take memory, too
	mostHeld     = 4_000_000 // entries of layouts
	mostBarred   = 1500      // offers of which pairs are looked at
	askEvery     = 1_000_000
	mostOffers   = 20_000 // stacks of a height
)

// layouts lists the layouts of every height, or gives up and returns false.
func (e *listing) layouts() ([]choice, bool) {
	complete := e.eachHeight(func() { e.descend(len(e.list), e.s.in.width, false) })
	return e.found, complete
}

// eachHeight does something with the offers of each height, unless it gives up.
func (e *listing) eachHeight(do func()) bool {
	in := e.s.in
	defer func() { e.s.listing += int64(listingSteps * float64(e.steps)) }()
	e.made = make([]int, len(in.sizes))
	e.short = make([]int64, len(e.views))
	heights := e.s.pr.heights()
	used := len(e.n)
	for ; used > 0 && e.n[used-1] == 0; used-- {
	}
	if used == 0 {
		return true
	}
	e.begin(heights[used-1])
	worths, least := make([][]int64, len(e.views)), make([]int64, len(e.views))
	for v := range e.views {
		worths[v] = e.views[v].worth
	}
	stacks := e.s.pr.lister(e.demand, worths, heights[used-1])
	for k, top := range heights[:used] {
		e.top = top
		for v := range e.views {
			e.short[v] = e.views[v].gap - e.views[v].cost[k]
			least[v] = -e.short[v]
		}
		var ok bool
		if e.list, ok = stacks.offers(top, least, mostOffers); !ok {
			return false
		}
		e.dropOutdone()
		e.sort()
		e.findLowest()
		e.bar()
		e.findPairs()
		e.fillUsed()
		if e.fillTables(); e.full {
			return false
		}
		if do(); e.full {
			return false
		}
	}
	return true
}

// begin makes room for what is known of layouts no higher than tallest.
func (e *listing) begin(tallest int) {
	most := make([]int, len(e.demand))
	for i, n := range e.demand {
		if n > 0 {
			most[i] = int(min(float64(n), 1+float64(e.s.in.width)*float64(tallest)/e.s.in.area(i)))
		}
	}
	e.tally = newTallying(most)
	e.seen = tallies{words: e.tally.words}
	e.key = make(tally, e.tally.words)
	e.findLarger()
}

// sort sorts the offers: those that close at the strip's height last, then by
// length, then by what they are worth in the first view. It also finds what each
// makes.
func (e *listing) sort() {
	worth := func(o offering) int64 {
		if len(e.views) == 0 {
			return 0
		}
		sum := int64(0)
		for _, p := range o.parts {
			sum += e.views[0].worth[e.s.in.options[p.option].size] * int64(p.count)
		}
		return sum
	}
	slices.SortStableFunc(e.list, func(a, b offering) int {
		return cmp.Or(
			cmp.Compare(b2i(a.tall == e.top), b2i(b.tall == e.top)),
			cmp.Compare(a.along, b.along),
			cmp.Compare(worth(a), worth(b)),
		)
	})
	e.makes, e.ends, e.tallies = e.makes[:0], e.ends[:0], e.tallies[:0]
	e.place, e.extra = e.place[:0], e.extra[:0]
	for j, o := range e.list {
		e.place = append(e.place, e.places(o))
		e.extra = append(e.extra, e.leastExtra(e.place[j]))
		e.makes = append(e.makes, e.s.in.piecesOf(o.parts))
		e.tallies = append(e.tallies, e.tally.of(e.makes[j]))
		begin := j
		if j > 0 && o.along == e.list[j-1].along && (o.tall == e.top) == (e.list[j-1].tall == e.top) {
			begin = e.ends[j-1]
		}
		e.ends = append(e.ends, begin)
	}
	e.steps += int64(len(e.list)) * stepsToSort
}

// pieces is so many pieces of a size.
type pieces struct{ size, count int }

// piecesOf are the pieces of parts, by size: a turnable one may be there in two
// ways.
func (in *instance) piecesOf(parts []part) []pieces {
	var list []pieces
	for _, p := range parts {
		size := in.options[p.option].size
		if i := slices.IndexFunc(list, func(q pieces) bool { return q.size == size }); i >= 0 {
			list[i].count += p.count
		} else {
			list = append(list, pieces{size, p.count})
		}
	}
	return list
}

// tired reports whether it gives up, because it has taken too many steps or the
// search must end.
func (e *listing) tired() bool {
	if e.steps >= e.asked+askEvery {
		e.asked = e.steps
		e.full = e.full || e.s.over()
	}
	e.full = e.full || e.steps > e.within
	return e.full
}

// descend goes on with offers below the j-th, each as often as it likes.
func (e *listing) descend(j, left int, closed bool) {
	e.steps += nodeSteps
	limit := e.limit
	defer func() { e.limit = limit }()
	for j--; j >= 0; j-- {
		o := &e.list[j]
		if e.begins(j) && (e.tired() || e.hopeless(j, left, closed)) {
			return
		}
		e.steps += lookSteps
		last := j
		switch {
		case o.along > left || e.lacks(0, j, left-o.along):
			j = e.ends[j] // so it is for all that are like it
		case e.leftOut():
		case e.allows(j) && !e.lacking(j, left-o.along) && !e.isBarred(j):
			limit := e.limit
			if e.limit = e.limitWith(j); e.limit > 0 {
				e.chosen = append(e.chosen, j)
				e.take(j, 1)
				e.descend(j+1, left-o.along, closed || o.tall == e.top)
				e.take(j, -1)
				e.chosen = e.chosen[:len(e.chosen)-1]
			}
			e.limit = limit
		}
		if e.full {
			return
		}
		for ; last >= j; last-- {
			e.settle(last)
		}
	}
	if closed && !e.poor() {
		e.keep(left)
	}
}

// begins reports whether the j-th offer is the first to be looked at of those that are
// like it.
func (e *listing) begins(j int) bool { return j+1 == len(e.list) || e.ends[j+1] == j+1 }

// hopeless reports whether the offers up to the j-th can neither close a layout nor make
// it worth enough, or leave too much of the width.
func (e *listing) hopeless(j, left int, closed bool) bool {
	if !closed && e.list[j].tall < e.top || left-int(e.used[j][left]) >= e.limit {
		return true
	}
	for v := range e.views {
		if e.short[v]+e.table[v][j][left] < 0 {
			return true
		}
	}
	return false
}

// lacks reports whether the layout is worth too little in a view with the j-th
// offer and the most that what is left of the width can be worth.
func (e *listing) lacks(v, j, left int) bool {
	return v < len(e.views) && e.short[v]+e.worth[v][j]+e.table[v][j][left] < 0
}

// lacking reports whether it is worth too little in any.
func (e *listing) lacking(j, left int) bool {
	for v := range e.views {
		if e.lacks(v, j, left) {
			return true
		}
	}
	return false
}

// poor reports whether the layout is worth too little in a view, as it is.
func (e *listing) poor() bool {
	return slices.ContainsFunc(e.short, func(short int64) bool { return short < 0 })
}

// take puts a stack of an offer into the layout, or takes it out again.
func (e *listing) take(j, n int) {
	for _, p := range e.makes[j] {
		e.made[p.size] += n * p.count
	}
	e.key.add(e.tallies[j], n)
	for v := range e.views {
		e.short[v] += int64(n) * e.worth[v][j]
	}
}

// allows reports whether one more stack stays within the demand.
func (e *listing) allows(j int) bool {
	for _, p := range e.makes[j] {
		if e.made[p.size]+p.count > e.demand[p.size] {
			return false
		}
	}
	return true
}

// roomy reports whether one more piece would fit what is left of the width or, in
// a nested layout, on a stack.
func (e *listing) roomy(left int) bool {
	above := uint64(0)
	for _, j := range e.chosen {
		above |= e.above[j]
	}
	for i, o := range e.s.in.options {
		if o.across > e.top {
			break // so are all that follow
		}
		if e.made[o.size] < e.demand[o.size] && (o.along <= left || i < 64 && above>>i&1 != 0) {
			return true
		}
	}
	return false
}

// keep takes up a layout unless one of the same pieces is there, which is no
// higher, as there are many ways to make stacks of them, or one with more pieces is
// to come.
func (e *listing) keep(left int) {
	e.steps += knownSteps
	_, known := e.seen.find(e.key)
	e.full = e.full || len(e.seen.keys) > mostSeen
	if known || left >= e.limit || e.roomy(left) || e.outdone(left) {
		return
	}
	e.steps += keepSteps
	c := choice{height: e.top, most: e.mostStrips()}
	if v := len(e.views); v > 0 {
		c.lacks = e.views[v-1].gap - e.short[v-1]
	}
	c.laid, c.stacks = e.scratch.laid[:0], e.scratch.stacks[:0]
	for _, j := range e.chosen {
		if e.s.h.style == Nested {
			c.stacks = append(c.stacks, &e.list[j])
		}
		for _, p := range e.list[j].parts {
			c.lay(p)
		}
	}
	e.scratch = c
	c.laid, c.stacks = e.laid.hold(c.laid), e.stacks.hold(c.stacks)
	e.found = append(e.found, c)
	e.held += len(c.laid) + len(c.stacks)
	e.full = e.full || len(e.found) > mostLayouts || e.held > mostHeld
}

// mostStrips is how many strips of the layout a plan can have: together they
// must not lack more than the gap of any view.
func (e *listing) mostStrips() int {
	most := e.n[0]
	for v := range e.views {
		gap := e.views[v].gap
		if lacks := gap - e.short[v]; lacks > 0 {
			most = min(most, int(gap/lacks))
		}
	}
	return most
}
