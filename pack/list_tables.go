package pack

import (
	"math"
	"slices"
)

// fillTables fills, for every view, the knapsacks over the offers up to each length: in
// shared strips each as often as there are pieces, in nested ones as often as it likes.
func (e *listing) fillTables() {
	e.worth = make([][]int64, len(e.views))
	e.table = make([][][]int64, len(e.views))
	for v := range e.views {
		table := make([]int64, e.s.in.width+1)
		e.table[v] = make([][]int64, len(e.list))
		for j := range e.list {
			worth := int64(0)
			for _, p := range e.makes[j] {
				worth += e.views[v].worth[p.size] * int64(p.count)
			}
			e.worth[v] = append(e.worth[v], worth)
			if j > 0 && e.ends[j] == j {
				table = slices.Clone(table)
			}
			e.addTo(table, j, worth)
			e.table[v][j] = table
			if e.tired() {
				return
			}
		}
	}
}

// fillUsed fills the same of the width.
func (e *listing) fillUsed() {
	e.used = make([][]int64, len(e.list))
	table := make([]int64, e.s.in.width+1)
	for j, o := range e.list {
		if j > 0 && e.ends[j] == j {
			table = slices.Clone(table)
		}
		e.addTo(table, j, int64(o.along))
		e.used[j] = table
	}
}

// times is how often an offer may be in a layout: as there are pieces, if no other has
// them, and else as often as it likes.
func (e *listing) times(j int) int {
	if e.s.h.style == Nested {
		return math.MaxInt
	}
	return e.demand[e.makes[j][0].size]
}

// addTo adds to the most that each length can be worth what the j-th offer is.
func (e *listing) addTo(table []int64, j int, worth int64) {
	along := e.list[j].along
	switch times := e.times(j); {
	case worth == 0 || along >= len(table):
	case times < (len(table)-1)/along:
		e.steps += bounded(table, along, worth, times)
	case e.s.h.style != Nested || worth > table[along]: // or as much as often has room
		unbounded(table, along, worth)
		e.steps += int64(len(table))
	}
}

// unbounded adds what is so long and worth so much, as often as it has room.
func unbounded(table []int64, along int, worth int64) {
	for w := along; w < len(table); w++ {
		table[w] = max(table[w], table[w-along]+worth)
	}
}

// bounded adds it at most so many times, and returns the steps.
func bounded(table []int64, along int, worth int64, times int) (steps int64) {
	for many := 1; times > 0; many *= 2 { // all numbers are sums of these
		n := min(many, times)
		times -= n
		for w := len(table) - 1; w >= n*along; w-- {
			table[w] = max(table[w], table[w-n*along]+int64(n)*worth)
		}
		steps += int64(len(table))
	}
	return steps
}
