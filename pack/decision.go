package pack

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// decision is an exact branch and bound over the numbers of strips of layouts
// that must fit given numbers of strips. Its relaxation is the fit of these
// layouts. It is solved in floating point, but a branch is closed only by the
// whole prices that the duals suggest. The layouts are a list of all that could
// matter, or else (priced) those known so far, and others are priced in at every
// branch. Of a long list the program has only those that its duals call.
//
// Where only the most strips from each height up and a length are given, it asks
// for the least length instead. What there is to spare, of room or of length,
// tells how many strips of each layout can matter yet (fixing by reduced cost).
// Where few layouts are left, the rest is decided by a program of these.
//
// Over a list, roundings of its rows and of sums of them cut off much of what is
// fractional. It branches first on the number of strips from a height up, unless
// that is given, then on the number of pieces laid one way in them (branching on
// sums of original variables; Vanderbeck, On Dantzig-Wolfe decomposition in
// integer programming, Operations Research 48, 2000): pricing sees such a sum as
// another worth of a piece. Then it branches on the strips of one layout, if it
// has the list.
type decision struct {
	s       *search
	n       numbers
	demand  []int
	met     []bool // sizes whose demand counts as met; nil is none
	priced  bool
	list    []choice
	known   map[string]bool // keys of the list, if priced
	rows    []int           // the heights that bound strips from there up
	length  int             // what strips of the list come to at most, unless 0: that n says so
	at      []int           // the height of each layout, as an index
	lp      *glpk.Program
	column  []int    // of each layout, in lp, or absent
	active  []int    // layouts that are in lp, in its order
	calling []int    // that gained when all were looked at last
	has     []limits // of their strips, as lp has them
	sums    []sum    // each a row of lp
	sumHas  []limits
	sumRow  []int
	cuts    []cut
	// missed is, for each row that may miss its limit, the column of what it misses
	// it by. It costs so much that a box which holds a plan is worth 1 or more, and
	// one that misses much is worth less.
	missed    []int
	missedRow []int         // and that row
	worth     float64       // of the box that was relaxed last
	last      glpk.Solution // and its program's solution, unless that closed it
	stands    *glpk.Basis   // where it stands, if a box was split last
	held      int           // a list no longer is in the program whole; 0 is wholeList
	begin     []int         // layouts that are in the program at first, if it is given which
	level     int           // decisions that wait for this one
	again     int           // times that each box is rounded again
	mostLaid  []int64       // the most pieces of each size in a layout of the list
	yields    []int         // room
}

// box bounds the number of strips of each layout of a list, and the sums;
// those beyond its end are free.
type box struct {
	strips, sums []limits
	depth        int         // how often it was split since cuts were made
	from         *glpk.Basis // where the program stood when it was split off
}

// decide answers over a list of all layouts that could matter whether they fit
// numbers of strips and cover a demand. Of sizes that count as met there is no more
// than that to spare. Unknown says that the search must end.
func (s *search) decide(n numbers, demand []int, met []bool, list []choice) ([]run, verdict, error) {
	list = s.withCutDowns(list)
	return (&decision{s: s, n: n, demand: demand, met: met, list: list}).decide()
}

// decidePriced answers the same of the whole demand by pricing layouts.
func (s *search) decidePriced(n numbers, known *pool) ([]run, verdict, error) {
	d := &decision{s: s, n: n, demand: s.in.whole(), priced: true, known: map[string]bool{}}
	for _, c := range known.list {
		at, _ := slices.BinarySearch(s.pr.heights(), c.height)
		if n[at] > 0 {
			d.list = append(d.list, choiceOf(c, n[at]))
			d.known[c.key()] = true
		}
	}
	return d.decide()
}

func (d *decision) decide() ([]run, verdict, error) {
	if err := d.open(); err != nil {
		return nil, unknown, err
	}
	defer d.lp.Close()
	return d.decideBox(d.whole())
}

// limit limits a sum that a box does not know yet.
func (d *decision) limit(b *box, u sum, l limits) error {
	_, err := d.index(u)
	b.sums = append(b.sums, l)
	return err
}

// decideBox decides a box. The strips are nil if the search has a plan already.
func (d *decision) decideBox(whole box) ([]run, verdict, error) {
	if !d.priced {
		if v, err := d.cutWhole(&whole); err != nil || v == no {
			return nil, v, err
		}
		switch few := d.left(whole); {
		case d.halved(few):
			return d.decideLeft(whole, few)
		case len(few) > mostBranched:
			return nil, unknown, nil
		}
	}
	stack := []box{whole}
	answer := no
	for len(stack) > 0 {
		b := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if d.s.over() {
			return nil, unknown, nil
		}
		if err := d.resume(b.from); err != nil {
			return nil, unknown, err
		}
		x, v, err := d.relax(&b)
		switch {
		case err != nil:
			return nil, unknown, err
		case v == no:
			continue
		}
		switch short, err := d.round(x); {
		case err != nil:
			return nil, unknown, err
		case short:
			return nil, yes, nil
		}
		if few := d.left(b); d.anew(b, few) {
			runs, v, err := d.decideLeft(b, few)
			if err != nil || v == yes {
				return runs, v, err
			}
			answer = max(answer, v)
			continue
		}
		children, err := d.branch(b, x)
		if err != nil {
			return nil, unknown, err
		}
		stack = append(stack, children...)
		if children != nil {
			continue
		}
		if runs := d.runs(x); d.s.fits(d.n, d.demand, runs) && d.shortEnough(runs) {
			return runs, yes, nil
		}
		answer = unknown // cannot be branched on, or whole only to a tolerance
	}
	return nil, answer, nil
}

// whole is the box of all numbers of strips that can be of use.
func (d *decision) whole() box {
	b := box{}
	if d.priced {
		return b
	}
	for j := range d.list {
		b.strips = append(b.strips, limits{0, d.most(j)})
	}
	return b
}

// split divides limits at a fractional value.
func (l limits) split(x float64) (down, up limits) {
	floor := int(math.Floor(x))
	return limits{l.lo, floor}, limits{floor + 1, l.hi}
}

// branch splits a box at the sum nearest to a half or, where the sums are
// whole, at a number of strips. None are left where all is whole.
func (d *decision) branch(b box, x []float64) ([]box, error) {
	b.depth++
	b.from = d.standing()
	down, up := b, b
	if u, at := d.fractionalSum(x); u != nil {
		i, err := d.index(*u)
		if err != nil {
			return nil, err
		}
		sums := slices.Clone(b.sums)
		for len(sums) <= i {
			sums = append(sums, limits{0, noLimit})
		}
		down.sums, up.sums = sums, slices.Clone(sums)
		down.sums[i], up.sums[i] = sums[i].split(at)
		if up.sums[i] == sums[i] {
			return nil, nil // it misses the limit that it has
		}
		return possible([2]limits{down.sums[i], up.sums[i]}, down, up), nil
	}
	j := mostFractional(x)
	if j < 0 || d.priced {
		return nil, nil
	}
	down.strips, up.strips = slices.Clone(b.strips), slices.Clone(b.strips)
	down.strips[j], up.strips[j] = b.strips[j].split(x[j])
	return possible([2]limits{down.strips[j], up.strips[j]}, down, up), nil
}

// possible are those of two boxes whose limits do not exclude each other, as
// those do that a value beyond its limits by a hair was split at.
func possible(l [2]limits, down, up box) []box {
	list := []box{}
	for side, b := range []box{down, up} {
		if l[side].lo <= l[side].hi {
			list = append(list, b)
		}
	}
	return list
}

// fractionalSum is the sum to branch on, or nil: of strips, where their numbers are
// not given, or else of the pieces laid one way, the sum nearest to a half, of large
// pieces rather than of small ones.
func (d *decision) fractionalSum(x []float64) (u *sum, at float64) {
	in, heights := d.s.in, d.s.pr.heights()
	strips, laid := make([]float64, len(heights)), make([][]float64, len(heights))
	for j, v := range x {
		if k := d.at[j]; v > wholeEnough && k != absent {
			if laid[k] == nil {
				laid[k] = make([]float64, len(in.options))
			}
			strips[k] += v
			for _, l := range d.list[j].laid {
				laid[k][l.option] += v * float64(l.count)
			}
		}
	}
	d.s.m.effort += int64(len(x) + len(heights)*len(in.options))
	score := 0.0
	try := func(s sum, total, weight float64) {
		f := fraction(total)
		if v := f * weight; f > wholeEnough && v >= score {
			u, at, score = &s, total, v
		}
	}
	from := 0.0
	pieces := make([]float64, len(in.options))
	for k := len(heights) - 1; d.length > 0 && k >= 0; k-- {
		if laid[k] != nil {
			from += strips[k]
			try(sum{heights[k], absent}, from, float64(heights[k])*float64(heights[k]))
		}
	}
	if u != nil {
		return u, at
	}
	for k := len(heights) - 1; k >= 0; k-- {
		for o, n := range laid[k] {
			pieces[o] += n
			try(sum{heights[k], o}, pieces[o], math.Sqrt(in.area(in.options[o].size)))
		}
	}
	return u, at
}

// mostFractional is the value farthest from whole, or -1.
func mostFractional(x []float64) int {
	best, score := -1, wholeEnough
	for j, v := range x {
		if f := fraction(v); f > score {
			best, score = j, f
		}
	}
	return best
}

// runs are the strips of a whole solution, with pieces cut down, of the largest first.
func (d *decision) runs(x []float64) []run {
	in := d.s.in
	var runs []run
	var cuts []int
	for j, v := range x {
		switch k := int(math.Round(v)); {
		case k <= 0:
		case d.at[j] == absent:
			cuts = append(cuts, j)
		default:
			runs = append(runs, run{in.column(&d.list[j]), k})
		}
	}
	slices.SortStableFunc(cuts, func(a, b int) int {
		return cmp.Compare(in.area(d.list[b].cut.large), in.area(d.list[a].cut.large))
	})
	for _, j := range cuts {
		runs = in.cutDownIn(runs, *d.list[j].cut, d.s.h.style, int(math.Round(x[j])))
	}
	return runs
}

// shortEnough reports whether strips are no longer than they may be.
func (d *decision) shortEnough(runs []run) bool {
	length, _ := total(runs)
	return d.length == 0 || length <= d.length
}

// fits reports whether strips cover a demand and are no more from any height up
// than n.
func (s *search) fits(n numbers, demand []int, runs []run) bool {
	for k, h := range s.pr.heights() {
		sum := 0
		for _, r := range runs {
			if r.col.height >= h {
				sum += r.count
			}
		}
		if sum > n[k] {
			return false
		}
	}
	return !anyLeft(leftBeside(demand, runs))
}
