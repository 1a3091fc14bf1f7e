package pack

import (
	"cmp"
	"slices"
)

// offering is one stretch that a strip may hold in an enumeration: a stack of
// parts, its size and what it is worth.
type offering struct {
	along, tall int
	worth       int64
	parts       []part
}

// enumeration lists every layout that a plan which beats a bound by no more
// than gap can be made of: those whose reduced cost is at most gap, and among
// them only those with no room for one more piece, since one piece too many
// does no harm. (Baldacci, Christofides and Mingozzi, Mathematical Programming
// 115, 2008, did this for vehicle routes.)
type enumeration struct {
	in    *instance
	v     prices
	limit []int
	gap   int64
	most  int // give up beyond so many layouts
	// stuff leaves out layouts with room for one more piece; bonuses may be
	// negative, and then they count.
	stuff bool
	steps int64

	found  []column
	seen   map[string]bool
	list   []offering
	table  [][]int64 // table[j][w]: the most that list[:j] is worth in w
	cost   int64
	top    int
	made   []int
	counts []int
	full   bool // gave up
}

// stepsPerLayout is how many steps an enumeration may take for each layout
// that it may list, before it gives up.
const stepsPerLayout = 500

// enumerate lists the layouts of every height, or gives up and returns false.
func (e *enumeration) enumerate(pr pricer) ([]column, bool) {
	e.made = make([]int, len(e.in.sizes))
	e.seen = map[string]bool{}
	e.stuff = len(e.v.extra) == 0
	for k, top := range pr.heights() {
		e.top, e.cost = top, e.v.cost[k]
		var ok bool
		if e.list, ok = pr.offers(e.v, e.limit, top, e.most); !ok {
			return nil, false
		}
		slices.SortStableFunc(e.list, func(a, b offering) int {
			return cmp.Or(cmp.Compare(a.tall, b.tall), cmp.Compare(a.along, b.along))
		})
		e.fillTable()
		e.counts = make([]int, len(e.list))
		e.descend(len(e.list), e.in.width, 0, false)
		if e.full {
			return nil, false
		}
	}
	return e.found, true
}

// fillTable is the unbounded knapsack over the first j offers, for every j.
func (e *enumeration) fillTable() {
	e.table = make([][]int64, len(e.list)+1)
	e.table[0] = make([]int64, e.in.width+1)
	for j, o := range e.list {
		t := slices.Clone(e.table[j])
		for w := o.along; w < len(t) && o.worth > 0; w++ {
			if v := t[w-o.along] + o.worth; v > t[w] {
				t[w] = v
			}
		}
		e.table[j+1] = t
		e.steps += int64(len(t))
	}
}

// descend chooses how many of list[j-1] to take, then goes on below it.
func (e *enumeration) descend(j, left int, worth int64, closed bool) {
	e.steps++
	if e.full = e.full || e.steps > int64(e.most)*stepsPerLayout; e.full {
		return
	}
	if e.cost-worth-e.table[j][left] > e.gap {
		return
	}
	if j == 0 {
		if closed && !(e.stuff && e.roomy(left)) {
			e.keep()
		}
		return
	}
	o := e.list[j-1]
	if !closed && o.tall < e.top {
		return // the stacks that close at the strip's height come first
	}
	n := 0
	for ; (n+1)*o.along <= left && e.allows(o); n++ {
		e.count(o, 1)
	}
	for ; n >= 0; n-- {
		e.counts[j-1] = n
		e.descend(j-1, left-n*o.along, worth+int64(n)*o.worth, closed || n > 0 && o.tall == e.top)
		if n > 0 {
			e.count(o, -1)
		}
	}
	e.counts[j-1] = 0
}

func (e *enumeration) count(o offering, n int) {
	for _, p := range o.parts {
		e.made[e.in.options[p.option].size] += n * p.count
	}
}

// allows reports whether one more of a stack stays within the limits.
func (e *enumeration) allows(o offering) bool {
	e.count(o, 1)
	ok := true
	for _, p := range o.parts {
		s := e.in.options[p.option].size
		ok = ok && e.made[s] <= e.limit[s]
	}
	e.count(o, -1)
	return ok
}

// roomy reports whether one more piece would fit what is left of the width.
func (e *enumeration) roomy(left int) bool {
	for _, o := range e.in.options {
		if o.along <= left && o.across <= e.top && e.made[o.size] < e.limit[o.size] {
			return true
		}
	}
	return false
}

// keepSteps is about what keeping a layout costs, in steps.
const keepSteps = 1000

func (e *enumeration) keep() {
	e.steps += keepSteps
	var stretches []stretch
	for j, n := range e.counts {
		if n > 0 {
			stretches = append(stretches, stretch{count: n, parts: slices.Clone(e.list[j].parts)})
		}
	}
	c := e.in.newColumn(stretches)
	if k := c.key(); !e.seen[k] {
		e.seen[k] = true
		e.found = append(e.found, c)
	}
	e.full = len(e.found) > e.most
}
