package pack

import (
	"cmp"
	"slices"

	"crossgrain/pack/glpk"
)

// rota is which of the columns that a kept program has come to know are in it
// at a time, for a solve takes as long as they are many. The others come back
// when the prices make them worth having (restricted masters that are kept
// small; Lübbecke and Desrosiers, Selected topics in column generation,
// Operations Research 53, 2005).
type rota struct {
	first  int       // columns of the program before these
	active []int     // columns that are in the program, in its order
	place  []int     // of each among these, or absent
	yields []yielded // of each, side by side in memory, as all are gone through at every solve
	ends   []int     // and up to where they go
	list   []gaining // room for what is called
}

// yielded is how many pieces of a size a column yields.
type yielded struct {
	pieces float64
	size   int
}

// absent marks what is not in a program.
const absent = -1

// The settings of a rota, found by trial.
const (
	enteredAtOnce = 12 // columns that come in at once
	activePerRow  = 6  // columns in the program for each of its rows
	keptPerRow    = 3  // that are left when there are more
)

// gaining is something that gains so much by coming in.
type gaining struct {
	index int
	gain  float64
}

// best are the first of a list that gain most, and at most so many. It uses the
// list up.
func best(list []gaining, most int) []gaining {
	most = max(0, min(most, len(list)))
	top := list[:most]
	slices.SortStableFunc(top, func(a, b gaining) int { return cmp.Compare(b.gain, a.gain) })
	for _, g := range list[most:] { // very many of them, and few come in
		if most > 0 && g.gain > top[most-1].gain {
			at, _ := slices.BinarySearchFunc(top, g, func(a, b gaining) int { return b2i(a.gain < b.gain)*2 - 1 })
			copy(top[at+1:], top[at:])
			top[at] = g
		}
	}
	return top
}

// column is the column of the program that an active one is.
func (r *rota) column(i int) int { return r.first + r.place[i] }

// add makes a new column known by what it yields, still absent, and gives its index.
func (r *rota) add(yield []int) int {
	r.place = append(r.place, absent)
	for i, y := range yield {
		if y > 0 {
			r.yields = append(r.yields, yielded{float64(y), i})
		}
	}
	r.ends = append(r.ends, len(r.yields))
	return len(r.place) - 1
}

// gain is what the pieces of a column are worth beyond its cost.
func (r *rota) gain(i int, cost float64, worth []float64) float64 {
	from := 0
	if i > 0 {
		from = r.ends[i-1]
	}
	gain := -cost
	for _, y := range r.yields[from:r.ends[i]] {
		gain += y.pieces * worth[y.size]
	}
	return gain
}

// enter notes that a column was added to the program.
func (r *rota) enter(i int) {
	r.place[i] = len(r.active)
	r.active = append(r.active, i)
}

// called are the absent columns that gain most, those that gain more than least.
// The list is good until the next.
func (r *rota) called(gain func(i int) float64, least float64) []gaining {
	r.list = r.list[:0]
	for i, at := range r.place {
		if at == absent {
			if v := gain(i); v > least {
				r.list = append(r.list, gaining{i, v})
			}
		}
	}
	return best(r.list, enteredAtOnce)
}

// rest takes the columns that gain least out of the program if it has too many:
// those that gain less than most, which none that is used does.
func (r *rota) rest(lp *glpk.Program, gain func(i int) float64, most float64) error {
	if len(r.active) <= activePerRow*lp.Rows() {
		return nil
	}
	var list []gaining
	for _, i := range r.active {
		if v := gain(i); v < most {
			list = append(list, gaining{i, -v})
		}
	}
	var drop []int32
	for _, g := range best(list, len(r.active)-keptPerRow*lp.Rows()) {
		drop = append(drop, int32(r.column(g.index)))
		r.place[g.index] = absent
	}
	kept := r.active[:0]
	for _, i := range r.active {
		if r.place[i] != absent {
			r.place[i] = len(kept)
			kept = append(kept, i)
		}
	}
	r.active = kept
	return lp.DeleteColumns(drop)
}
