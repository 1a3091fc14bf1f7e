package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// decision is an exact branch and bound over the numbers of strips of layouts
// that must fit given numbers of strips. Its relaxation is the fit of these
// layouts, with theta at most 1. It is solved in floating point, but a branch
// is closed only by the whole prices that the duals suggest. The layouts are a
// list of all that could matter, or else (priced) those known so far, and
// others are priced in at every branch.
//
// Over a list, roundings of its rows and of sums of them cut off much of what is
// fractional. It branches first on the number of pieces laid one way in the
// strips from a height up (branching on sums of original variables; Vanderbeck,
// On Dantzig-Wolfe decomposition in integer programming, Operations Research 48,
// 2000): pricing sees such a sum as another worth of a piece. Then it branches
// on the strips of one layout, if it has the list.
type decision struct {
	s      *search
	n      numbers
	demand []int
	priced bool
	list   []choice
	known  map[string]bool // keys of the list, if priced
	sizes  []line          // what the list has of each size, unless priced
	rows   []int           // the heights that bound strips from there up
	length int             // what strips of the list come to at most, unless 0: that n says so
	at     []int           // the height of each layout, as an index
	lp     *glpk.Program
	column []int // of each layout, in lp
	sums   []sum // each a row of lp
	sumRow []int
	cuts   []cut
	given  []cut // that hold from the start
	least  []leastStrips
	// missed is, for each sum, the column of what it misses its lower limit by.
	// It costs so much that a box which holds a plan is worth 1 or more, and one
	// that misses much is worth less.
	missed []int
	theta  float64
}

// leastStrips is how many strips there are from a height up, at least.
type leastStrips struct {
	sum
	strips int
}

// sum counts the pieces laid by one option in strips from a height up.
type sum struct{ height, option int }

func (u sum) of(c *choice) int {
	if c.height < u.height {
		return 0
	}
	if u.option == absent {
		return 1
	}
	return c.laid[u.option]
}

// box bounds the number of strips of each layout of a list, and the sums;
// those beyond its end are free.
type box struct {
	strips, sums []limits
	depth        int // how often it was split since cuts were made
}

// decide answers over a list of all layouts that could matter whether they fit
// numbers of strips and cover a demand. Unknown says that the search must end.
func (s *search) decide(n numbers, demand []int, list []choice) ([]run, verdict, error) {
	return (&decision{s: s, n: n, demand: demand, list: list}).decide()
}

// decidePriced answers the same of the whole demand by pricing layouts.
func (s *search) decidePriced(n numbers, known *pool) ([]run, verdict, error) {
	d := &decision{s: s, n: n, demand: s.in.whole(), priced: true, known: map[string]bool{}}
	for _, c := range known.list {
		at, _ := slices.BinarySearch(s.pr.heights(), c.height)
		if n[at] > 0 {
			d.list = append(d.list, choice{c, n[at]})
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
	b := d.whole()
	for _, l := range d.least {
		if _, err := d.index(l.sum); err != nil {
			return nil, unknown, err
		}
		b.sums = append(b.sums, limits{l.strips, noLimit})
	}
	return d.decideBox(b)
}

// decideBox decides a box.
func (d *decision) decideBox(whole box) ([]run, verdict, error) {
	spare := math.Inf(1)
	for round := 0; !d.priced && round < rootRounds && !d.s.over(); round++ {
		fresh, err := d.cutRoot(whole)
		if err != nil {
			return nil, unknown, err
		}
		if !fresh {
			break
		}
		_, v, err := d.relax(&whole)
		if err != nil || v == no {
			return nil, v, err
		}
		few := d.left(whole)
		if fewParts*len(few) <= len(d.list) {
			return d.decideLeft(whole, few)
		}
		left := (d.theta - 1) * float64(len(few))
		if left > rootGain*spare {
			break
		}
		spare = left
	}
	stack := []box{whole}
	answer := no
	for len(stack) > 0 {
		b := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if d.s.over() {
			return nil, unknown, nil
		}
		x, v, err := d.relax(&b)
		if err != nil {
			return nil, unknown, err
		}
		if v == no {
			continue
		}
		if few := d.left(b); !d.priced && (fewParts*len(few) <= len(d.list) || d.length > 0 && b.depth >= mostDepth) {
			runs, v, err := d.decideLeft(b, few)
			if err != nil || v == yes {
				return runs, v, err
			}
			if v == unknown {
				answer = unknown
			}
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

// left are the layouts that a box leaves, by index.
func (d *decision) left(b box) []int {
	var list []int
	for j, l := range b.strips {
		if l.hi > 0 {
			list = append(list, j)
		}
	}
	return list
}

// decideLeft decides a box over the few layouts that it leaves: programs of these
// take less, and roundings say more of them.
func (d *decision) decideLeft(b box, few []int) ([]run, verdict, error) {
	rest := &decision{s: d.s, n: d.n, demand: d.demand, length: d.length}
	whole := box{}
	for _, j := range few {
		c := d.list[j]
		c.most = b.strips[j].hi
		rest.list = append(rest.list, c)
		whole.strips = append(whole.strips, b.strips[j])
	}
	for _, c := range d.cuts {
		at := make([]int64, len(few))
		for i, j := range few {
			at[i] = c.at[j]
		}
		c.at = at
		rest.given = append(rest.given, c)
	}
	if err := rest.open(); err != nil {
		return nil, unknown, err
	}
	defer rest.lp.Close()
	for i, l := range b.sums {
		if l.lo == 0 && l.hi == noLimit {
			continue
		}
		if _, err := rest.index(d.sums[i]); err != nil {
			return nil, unknown, err
		}
		whole.sums = append(whole.sums, l)
	}
	return rest.decideBox(whole)
}

// open makes the program of the relaxation.
func (d *decision) open() error {
	lp, err := glpk.Open()
	if err != nil {
		return err
	}
	d.lp = lp
	var rows []int32
	var values []float64
	for i, n := range d.demand {
		err = orElse(err, func() error { return lp.AddRow(0, math.Inf(1), nil, nil) })
		rows, values = append(rows, int32(i)), append(values, -float64(n))
	}
	for k := range d.n {
		if k > 0 && d.n[k] == d.n[k-1] {
			continue // the lower one says more
		}
		if d.length > 0 && d.n[k] >= d.length/d.s.pr.heights()[k] {
			continue // the length says as much
		}
		d.rows = append(d.rows, k)
		room := float64(d.n[k])
		err = orElse(err, func() error { return lp.AddRow(math.Inf(-1), room, nil, nil) })
	}
	err = orElse(err, func() error { return lp.AddColumn(-d.missing(), 0, d.mostTheta(), rows, values) })
	for j := range d.list {
		err = orElse(err, func() error { return d.enter(&d.list[j]) })
	}
	if !d.priced {
		d.sizes = d.sizeLines()
	}
	err = orElse(err, func() error { return d.enterCuts(d.given) })
	if err != nil {
		lp.Close()
	}
	return err
}

// mostTheta: over a list, what there is to spare tells which layouts can matter.
// It is theirs to spare if the numbers of strips are given, or else length.
func (d *decision) mostTheta() float64 {
	if d.priced || d.length > 0 {
		return 1
	}
	return mostTheta
}

// missing is the cost of missing a limit by one, where a box that holds a plan is
// worth 1 at least, and what is to spare little.
func (d *decision) missing() float64 {
	switch {
	case d.length > 0:
		return missingStrips * float64(d.length)
	case d.priced:
		return 1
	}
	return missingStrips
}

const missingStrips = 100

// cost is what a layout costs in the program.
func (d *decision) cost(c *choice) float64 {
	if d.length > 0 {
		return float64(c.height)
	}
	return 0
}

// enter puts a layout into the program.
func (d *decision) enter(c *choice) error {
	at, _ := slices.BinarySearch(d.s.pr.heights(), c.height)
	d.at = append(d.at, at)
	rows, values := c.yields()
	for r, k := range d.rows {
		if k <= at {
			rows, values = append(rows, int32(len(d.demand)+r)), append(values, 1)
		}
	}
	for i, u := range d.sums {
		if v := u.of(c); v > 0 {
			rows, values = append(rows, int32(d.sumRow[i])), append(values, float64(v))
		}
	}
	d.column = append(d.column, d.lp.Columns())
	return d.lp.AddColumn(d.cost(c), 0, float64(c.most), rows, values)
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
		if down.sums[i].hi < sums[i].lo && up.sums[i] == sums[i] {
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
	var used []int // layouts
	var heights []int
	for j, v := range x {
		if v > wholeEnough {
			used = append(used, j)
			heights = append(heights, d.list[j].height)
		}
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	score := 0.0
	try := func(s sum, weight float64) {
		total := 0.0
		for _, j := range used {
			total += x[j] * float64(s.of(&d.list[j]))
		}
		f := fraction(total)
		if v := f * weight; f > wholeEnough && v > score {
			u, at, score = &s, total, v
		}
	}
	d.s.m.effort += int64(len(used)*len(heights)*len(d.s.in.options)) * 2
	if d.length > 0 {
		for _, h := range heights {
			try(sum{h, absent}, float64(h)*float64(h))
		}
	}
	if u != nil {
		return u, at
	}
	for _, h := range heights {
		for o := range d.s.in.options {
			try(sum{h, o}, math.Sqrt(d.s.in.area(d.s.in.options[o].size)))
		}
	}
	return u, at
}

// index finds the row of a sum or adds it.
func (d *decision) index(u sum) (int, error) {
	if i := slices.Index(d.sums, u); i >= 0 {
		return i, nil
	}
	var columns []int32
	var values []float64
	for j := range d.list {
		if v := u.of(&d.list[j]); v > 0 {
			columns, values = append(columns, int32(d.column[j])), append(values, float64(v))
		}
	}
	i, row := len(d.sums), d.lp.Rows()
	d.sums, d.sumRow = append(d.sums, u), append(d.sumRow, row)
	if err := d.lp.AddRow(math.Inf(-1), math.Inf(1), columns, values); err != nil {
		return i, err
	}
	d.missed = append(d.missed, d.lp.Columns())
	return i, d.lp.AddColumn(d.missing(), 0, math.Inf(1), []int32{int32(row)}, []float64{1})
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

func (d *decision) runs(x []float64) []run {
	var runs []run
	for j, v := range x {
		if k := int(math.Round(v)); k > 0 {
			runs = append(runs, run{d.list[j].column, k})
		}
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
	left := slices.Clone(demand)
	for i := range runs {
		take(left, &runs[i].col, runs[i].count)
	}
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
	return !anyLeft(left)
}
