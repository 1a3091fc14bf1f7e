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
// more piece, since one piece too many does no harm. (Baldacci, Christofides
// and Mingozzi, Mathematical Programming 115, 2008, list columns by reduced
// cost for vehicle routes.)
type listing struct {
	s      *search
	n      numbers
	demand []int // of sizes that are 0 the layouts have none
	views  []view
	most   int   // give up beyond so many layouts
	within int64 // or so many steps
	steps  int64

	found  []choice
	seen   map[string]bool // what the layouts found make
	passed map[string]int  // what has been made on the way in the strip at hand, and the width left
	key    []byte
	list   []offering
	worth  [][]int64   // worth[v][j]: of list[j] in a view
	table  [][][]int64 // table[v][j][w]: the most that list[:j] is worth in w
	short  []int64     // short[v]: gap less what the layout lacks; never below 0
	top    int
	made   []int
	counts []int
	full   bool // gave up
}

// choice is a layout, and the most strips of it that a plan can have.
type choice struct {
	column
	most int
}

// The settings of listing, found by trial.
const (
	stepsPerLayout = 500  // it gives up beyond so many steps for each layout
	knownSteps     = 60   // about what it costs to see that a layout is known
	keepSteps      = 1000 // and to keep it
	nodeSteps      = 8
	mostPassed     = 200_000
	mostOffers     = 2000 // stacks of a height: each takes a table
)

// layouts lists the layouts of every height, or gives up and returns false.
func (e *listing) layouts() ([]choice, bool) {
	in := e.s.in
	defer func() { e.s.listing += e.steps * 3 / 2 }() // they take longer than others
	e.made = make([]int, len(in.sizes))
	e.seen, e.passed = map[string]bool{}, map[string]int{}
	e.short = make([]int64, len(e.views))
	heights := e.s.pr.heights()
	used := len(e.n)
	for ; used > 0 && e.n[used-1] == 0; used-- {
	}
	if used == 0 {
		return nil, true
	}
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
		if e.list, ok = stacks.offers(top, least, min(e.most, mostOffers)); !ok {
			return nil, false
		}
		slices.SortStableFunc(e.list, func(a, b offering) int {
			return cmp.Or(cmp.Compare(b2i(a.tall == top), b2i(b.tall == top)), cmp.Compare(a.along, b.along), cmp.Compare(a.tall, b.tall))
		})
		clear(e.passed)
		if e.fillTables(); e.full {
			return nil, false
		}
		e.counts = make([]int, len(e.list))
		e.descend(len(e.list), in.width, false)
		if e.full {
			return nil, false
		}
	}
	return e.found, true
}

// fillTables fills, for every view, the unbounded knapsack over the first j
// offers, for every j.
func (e *listing) fillTables() {
	e.worth = make([][]int64, len(e.views))
	e.table = make([][][]int64, len(e.views))
	for v := range e.views {
		table := make([]int64, e.s.in.width+1)
		e.table[v] = append(e.table[v], table)
		for _, o := range e.list {
			worth := int64(0)
			for _, p := range o.parts {
				worth += e.views[v].worth[e.s.in.options[p.option].size] * int64(p.count)
			}
			e.worth[v] = append(e.worth[v], worth)
			if worth > 0 {
				table = slices.Clone(table)
				for w := o.along; w < len(table); w++ {
					table[w] = max(table[w], table[w-o.along]+worth)
				}
				e.steps += int64(len(table))
			}
			e.table[v] = append(e.table[v], table)
			if e.tired() {
				return
			}
		}
	}
}

// tired reports whether it gives up, because it has taken too many steps.
func (e *listing) tired() bool {
	e.full = e.full || e.steps > e.within
	return e.full
}

// descend chooses how many of list[j-1] to take, then goes on below it.
func (e *listing) descend(j, left int, closed bool) {
	e.steps += nodeSteps
	if e.tired() {
		return
	}
	for v := range e.views {
		if e.short[v]+e.table[v][j][left] < 0 {
			return
		}
	}
	if j == 0 {
		if closed && !e.roomy(left) {
			e.keep()
		}
		return
	}
	o := e.list[j-1]
	if !closed && o.tall < e.top {
		return // the stacks that close at the strip's height come first
	}
	if j < len(e.list) && e.list[j].along != o.along && e.passedBefore(j, left, closed) {
		return
	}
	n := 0
	for ; (n+1)*o.along <= left && e.allows(o); n++ {
		e.take(j-1, 1)
	}
	for ; n >= 0; n-- {
		e.counts[j-1] = n
		e.descend(j-1, left-n*o.along, closed || n > 0 && o.tall == e.top)
		if n > 0 {
			e.take(j-1, -1)
		}
	}
	e.counts[j-1] = 0
}

// passedBefore reports whether the stacks so far make what others made in no more
// of the width, where the length of the stacks changes: what comes is the same.
func (e *listing) passedBefore(j, left int, closed bool) bool {
	e.steps += knownSteps
	e.key = appendCounts(appendCounts(e.key[:0], []int{j, b2i(closed)}), e.made)
	if room, ok := e.passed[string(e.key)]; ok && room >= left {
		return true
	}
	if len(e.passed) < mostPassed {
		e.passed[string(e.key)] = left
	}
	return false
}

// take puts n more stacks of an offer into the layout.
func (e *listing) take(j, n int) {
	e.count(e.list[j], n)
	for v := range e.views {
		e.short[v] += int64(n) * e.worth[v][j]
	}
}

func (e *listing) count(o offering, n int) {
	for _, p := range o.parts {
		e.made[e.s.in.options[p.option].size] += n * p.count
	}
}

// allows reports whether one more of a stack stays within the demand.
func (e *listing) allows(o offering) bool {
	e.count(o, 1)
	ok := true
	for _, p := range o.parts {
		i := e.s.in.options[p.option].size
		ok = ok && e.made[i] <= e.demand[i]
	}
	e.count(o, -1)
	return ok
}

// roomy reports whether one more piece would fit what is left of the width or, in
// a nested layout, on a stack.
func (e *listing) roomy(left int) bool {
	nested := e.s.h.style == Nested
	for _, o := range e.s.in.options {
		if o.across > e.top || e.made[o.size] >= e.demand[o.size] {
			continue
		}
		if o.along <= left {
			return true
		}
		for j, n := range e.counts {
			if nested && n > 0 && o.along <= e.list[j].along && o.across <= e.top-e.list[j].tall {
				return true
			}
		}
	}
	return false
}

// keep takes up a layout unless one of the same pieces is there, which is no
// higher: there are many ways to make stacks of them.
func (e *listing) keep() {
	e.steps += knownSteps
	e.key = appendCounts(e.key[:0], e.made)
	if e.seen[string(e.key)] {
		return
	}
	e.seen[string(e.key)] = true
	e.steps += keepSteps
	var stretches []stretch
	for j, n := range e.counts {
		if n > 0 {
			stretches = append(stretches, stretch{count: n, parts: slices.Clone(e.list[j].parts)})
		}
	}
	e.found = append(e.found, choice{e.s.in.newColumn(stretches), e.mostStrips()})
	e.full = len(e.found) > e.most
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
