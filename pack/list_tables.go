package pack

import "slices"

// fillTables fills, for every view, the unbounded knapsacks over the offers up to
// each length.
func (e *listing) fillTables() {
	e.worth = make([][]int64, len(e.views))
	e.table = make([][][]int64, len(e.views))
	for v := range e.views {
		table := make([]int64, e.s.in.width+1)
		e.table[v] = make([][]int64, len(e.list))
		for j, o := range e.list {
			worth := int64(0)
			for _, p := range e.makes[j] {
				worth += e.views[v].worth[p.size] * int64(p.count)
			}
			e.worth[v] = append(e.worth[v], worth)
			if j > 0 && e.ends[j] == j {
				table = slices.Clone(table)
			}
			if worth > 0 && o.along < len(table) && worth > table[o.along] {
				unbounded(table, o.along, worth)
				e.steps += int64(len(table))
			}
			e.table[v][j] = table
			if e.tired() {
				return
			}
		}
	}
}

// fillUsed fills the same of the width.
func (e *listing) fillUsed() {
	e.used = make([][]int, len(e.list))
	table := make([]int, e.s.in.width+1)
	for j, o := range e.list {
		if j > 0 && e.ends[j] == j {
			table = slices.Clone(table)
		}
		if j == 0 || e.list[j-1].along != o.along {
			unbounded(table, o.along, o.along)
			e.steps += int64(len(table))
		}
		e.used[j] = table
	}
}

// unbounded adds to the most that each length can be worth what is so long and worth so
// much, as often as it has room.
func unbounded[T int | int64](table []T, along int, worth T) {
	for w := along; w < len(table); w++ {
		table[w] = max(table[w], table[w-along]+worth)
	}
}
