package pack

import (
	"math"
	"slices"
)

// place is room for a larger piece in a stack, in the place of one of its own, with so
// much more of the width.
type place struct{ size, extra int }

// findLarger finds, for each option, those that a piece that is laid so may be cut down
// from without making its stack lower, and that are worth no less in any view.
func (e *listing) findLarger() {
	in := e.s.in
	e.larger = make([][]int, len(in.options))
	for i, o := range in.options {
		for j, p := range in.options {
			if p.size != o.size && p.across >= o.across && in.hasRoom(p.size, o.size) && !e.worthLess(p.size, o.size) {
				e.larger[i] = append(e.larger[i], j)
			}
		}
	}
}

// worthLess reports whether a size is worth less than another in some view.
func (e *listing) worthLess(size, than int) bool {
	for v := range e.views {
		if worth := e.views[v].worth; worth[size] < worth[than] {
			return true
		}
	}
	return false
}

// places are where larger pieces have room in a stack.
func (e *listing) places(o offering) []place {
	in := e.s.in
	var list []place
	for _, p := range o.parts {
		own := in.options[p.option]
		for _, j := range e.larger[p.option] {
			big := in.options[j]
			e.steps++
			if extra := max(0, big.along-o.along); o.tall-own.across+big.across <= e.top && extra <= in.width-o.along {
				list = append(list, place{big.size, extra})
			}
		}
	}
	return list
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
		if e.s.h.style == Nested {
			for _, p := range in.options {
				if e.plenty[p.size] && p.along <= o.along && p.across <= e.top-o.tall {
					return true
				}
			}
		}
		return e.leastExtra(e.places(o)) == 0
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
