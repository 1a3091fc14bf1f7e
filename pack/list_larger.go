package pack

import (
	"math"
	"slices"
)

// place is room for a larger piece in a stack, in the place of one of its own, with so
// much more of the width.
type place struct{ size, extra int }

// larger are the options of larger pieces, by those of one piece or of two that may be
// cut out of them.
type larger struct {
	one [][]int
	two map[[2]int][]int // by pairOf
}

// pairOf tells pairs of options apart, in either order.
func pairOf(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// findLarger finds them: those that make no stack lower, and that are worth no less in
// any view.
func (e *listing) findLarger() {
	in := e.s.in
	e.s.findCutDowns()
	e.larger = larger{make([][]int, len(in.options)), map[[2]int][]int{}}
	e.steps += int64(len(in.options) * len(in.options))
	for i, o := range in.options {
		for j, p := range in.options {
			if p.across >= o.across && e.s.smaller[p.size][o.size] && !e.worthLess(p.size, o.size) {
				e.larger.one[i] = append(e.larger.one[i], j)
			}
		}
	}
	for _, c := range e.s.cutChoices {
		if u := *c.cut; len(u.small) == 2 && !e.worthLess(u.large, u.small...) {
			e.findPaired(u)
		}
	}
}

// findPaired finds those of one way to cut a piece down to two.
func (e *listing) findPaired(u cutDown) {
	in := e.s.in
	for i, o := range in.options {
		for k, p := range in.options {
			if o.size != u.small[0] || p.size != u.small[1] {
				continue
			}
			least := max(o.across, p.across)
			if e.s.h.style == Nested {
				least = o.across + p.across
			}
			for j, big := range in.options {
				if big.size == u.large && big.across >= least {
					pair := pairOf(i, k)
					e.larger.two[pair] = append(e.larger.two[pair], j)
				}
			}
		}
	}
}

// worthLess reports whether a size is worth less than others in some view.
func (e *listing) worthLess(size int, than ...int) bool {
	for v := range e.views {
		worth := e.views[v].worth
		sum := int64(0)
		for _, i := range than {
			sum += worth[i]
		}
		if worth[size] < sum {
			return true
		}
	}
	return false
}

// places are where larger pieces have room in a stack.
func (e *listing) places(o offering) []place {
	in := e.s.in
	var list []place
	add := func(options []int, across int) {
		e.steps += int64(len(options))
		for _, j := range options {
			big := in.options[j]
			if extra := max(0, big.along-o.along); o.tall-across+big.across <= e.top && extra <= in.width-o.along {
				list = append(list, place{big.size, extra})
			}
		}
	}
	for i, p := range o.parts {
		own := in.options[p.option]
		add(e.larger.one[p.option], own.across)
		if e.s.h.style != Nested {
			continue
		}
		for k, q := range o.parts[:i+1] {
			if k < i || p.count > 1 {
				add(e.larger.two[pairOf(p.option, q.option)], own.across+in.options[q.option].across)
			}
		}
	}
	return list
}

// findPairs finds how much of the width must be left for a larger piece, of a size of
// which there are plenty, to have room in the place of two offers side by side.
func (e *listing) findPairs() {
	in, n := e.s.in, len(e.list)
	e.pairs = nil
	if e.s.h.style == Nested {
		return
	}
	e.pairs = slices.Repeat([]int{math.MaxInt}, n*n)
	for i := range n {
		for j := range i + 1 {
			a, b := e.list[i].parts[0].option, e.list[j].parts[0].option
			for _, k := range e.larger.two[pairOf(a, b)] {
				if big := in.options[k]; big.across <= e.top && e.plenty[big.size] {
					extra := max(0, big.along-e.list[i].along-e.list[j].along)
					e.pairs[i*n+j] = min(e.pairs[i*n+j], extra)
				}
			}
			e.pairs[j*n+i] = e.pairs[i*n+j]
		}
	}
	e.steps += int64(n * n)
}

// findLowest finds which sizes are settled once the offers from one up have been looked
// at: no others have any more of them.
func (e *listing) findLowest() {
	in := e.s.in
	e.lowest = slices.Repeat([]int{len(e.list)}, len(in.sizes))
	e.settles = make([][]int, len(e.list))
	for j, list := range e.makes {
		for _, p := range list {
			if e.lowest[p.size] == len(e.list) {
				e.lowest[p.size] = j
				e.settles[j] = append(e.settles[j], p.size)
			}
		}
	}
	e.least = slices.Repeat([]int{math.MaxInt}, len(in.sizes))
	for _, o := range in.options {
		if o.across <= e.top {
			e.least[o.size] = min(e.least[o.size], o.along)
		}
	}
	for i, j := range e.lowest {
		if j == len(e.list) && e.demand[i] > 0 {
			e.limit = min(e.limit, e.least[i])
		}
	}
}

// settle takes note that the layout has no more of the sizes that an offer is the first of:
// if there are more, none may have room, nor be as good in the place of another.
func (e *listing) settle(j int) {
	for _, i := range e.settles[j] {
		if e.made[i] == e.demand[i] || e.plenty[i] {
			continue
		}
		e.limit = min(e.limit, e.least[i])
		for at, c := range e.chosen {
			if at > 0 && c == e.chosen[at-1] {
				continue
			}
			e.steps += int64(len(e.place[c]))
			for _, p := range e.place[c] {
				if p.size == i {
					e.limit = min(e.limit, p.extra)
				}
			}
		}
	}
}

// limitWith is how much of the width may not be left with one more stack of an offer.
func (e *listing) limitWith(j int) int {
	limit := min(e.limit, e.extra[j])
	for _, p := range e.place[j] {
		if e.lowest[p.size] > j && e.made[p.size] < e.demand[p.size] {
			limit = min(limit, p.extra)
		}
	}
	if e.pairs == nil || len(e.chosen) == 0 {
		return limit
	}
	if e.chosen[len(e.chosen)-1] == j { // the limit has the others
		return min(limit, e.pairs[j*len(e.list)+j])
	}
	for _, i := range e.chosen {
		limit = min(limit, e.pairs[i*len(e.list)+j])
	}
	return limit
}

// outdone reports whether a larger piece has room in the place of one in the layout:
// then the layout with that one will do.
func (e *listing) outdone(left int) bool {
	for _, j := range e.chosen {
		for _, p := range e.place[j] {
			if p.extra <= left && e.made[p.size] < e.demand[p.size] {
				return true
			}
		}
	}
	return false
}

// findPlenty finds the sizes of which there are more than a strip can hold, and how much
// of the width may be left.
func (e *listing) findPlenty() {
	in := e.s.in
	e.plenty = make([]bool, len(in.sizes))
	for i, n := range e.demand {
		e.plenty[i] = float64(n) > float64(in.width)*float64(e.top)/in.area(i)
	}
	e.limit = in.width + 1
	for _, o := range in.options {
		if o.across <= e.top && e.plenty[o.size] {
			e.limit = min(e.limit, o.along)
		}
	}
}

// dropOutdone drops the offers that no layout needs, whatever else is in it: those on
// which a piece has room, or a larger one in the place of one of theirs, of a size of
// which there are plenty.
func (e *listing) dropOutdone() {
	e.findPlenty()
	in := e.s.in
	e.steps += int64(len(e.list) * len(in.options))
	e.list = slices.DeleteFunc(e.list, func(o offering) bool {
		higher := func(p option) bool { return e.plenty[p.size] && e.standsOn(p, o) }
		return slices.ContainsFunc(in.options, higher) || e.leastExtra(e.places(o)) == 0
	})
}

// leastExtra is how much of the width must be left for a larger piece, of a size of
// which there are plenty, to have room in one of some places.
func (e *listing) leastExtra(list []place) int {
	least := math.MaxInt
	for _, p := range list {
		if e.plenty[p.size] {
			least = min(least, p.extra)
		}
	}
	return least
}
