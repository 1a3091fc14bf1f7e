package pack

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// open makes the program of the relaxation. Of a long list it holds at first the
// layouts that lack least.
func (d *decision) open() error {
	lp, err := glpk.Open()
	if err != nil {
		return err
	}
	d.lp = lp
	d.yields = make([]int, len(d.demand))
	var rows []int32
	var values []float64
	for i, n := range d.demand {
		least := 0.0
		if d.isMet(i) {
			least = float64(n)
		} else {
			rows, values = append(rows, int32(i)), append(values, -float64(n))
		}
		err = orElse(err, func() error { return lp.AddRow(least, math.Inf(1), nil, nil) })
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
	err = orElse(err, func() error { return lp.AddColumn(d.thetaCost(), 0, d.mostTheta(), rows, values) })
	for i := range d.demand {
		if d.isMet(i) {
			err = orElse(err, func() error { return d.mayMiss(i) })
		}
	}
	d.takeNotes()
	for _, j := range d.first() {
		err = orElse(err, func() error { return d.enter(j) })
	}
	if err != nil {
		lp.Close()
	}
	return err
}

// isMet reports whether all of a size is asked for, and theta times of the others.
func (d *decision) isMet(size int) bool { return d.met != nil && d.met[size] }

// wholeList is the most layouts of a list that are all in the program: of longer
// ones it is solved by the few that matter, as others are called back by its duals.
const wholeList = 400

// first are the layouts that the program holds at first: of a long list, those that
// lack least.
func (d *decision) first() []int {
	list := make([]int, len(d.list))
	for j := range list {
		list[j] = j
	}
	held := cmp.Or(d.held, wholeList)
	switch {
	case d.priced || len(list) <= held:
		return list
	case d.begin != nil:
		return d.begin
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(d.list[a].lacks, d.list[b].lacks) })
	return list[:held/2]
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

// thetaCost is the cost of theta: to get as much of it as there is or, where the
// least length is asked for, not to miss any of the demand.
func (d *decision) thetaCost() float64 {
	if d.length > 0 {
		return -d.missing()
	}
	return -1
}

// cost is what a layout costs in the program.
func (d *decision) cost(c *choice) float64 {
	if d.length > 0 {
		return float64(c.height)
	}
	return 0
}

// enter puts a layout into the program.
func (d *decision) enter(j int) error {
	c := &d.list[j]
	var rows []int32
	var values []float64
	for i, y := range d.yield(c) {
		if y != 0 {
			rows, values = append(rows, int32(i)), append(values, float64(y))
		}
	}
	for r, k := range d.rows {
		if k <= d.at[j] {
			rows, values = append(rows, int32(len(d.demand)+r)), append(values, 1)
		}
	}
	for i, u := range d.sums {
		if v := u.of(c); v > 0 {
			rows, values = append(rows, int32(d.sumRow[i])), append(values, float64(v))
		}
	}
	for _, u := range d.cuts {
		if a := u.at[j]; a != 0 {
			rows, values = append(rows, int32(u.row)), append(values, float64(a)/u.scale)
		}
	}
	d.column[j] = d.lp.Columns()
	d.active = append(d.active, j)
	d.has = append(d.has, limits{0, c.most})
	return d.lp.AddColumn(d.cost(c), 0, float64(c.most), rows, values)
}

// takeNotes takes up the layouts of the list, unless that was done before for more of them.
func (d *decision) takeNotes() {
	if d.mostLaid != nil {
		d.column = slices.Repeat([]int{absent}, len(d.list))
		return
	}
	d.mostLaid = make([]int64, len(d.demand))
	for j := range d.list {
		d.note(&d.list[j])
		for i, y := range d.yield(&d.list[j]) {
			d.mostLaid[i] = max(d.mostLaid[i], int64(y), -int64(y))
		}
	}
}

// note takes up a layout of the list that is not in the program yet.
func (d *decision) note(c *choice) {
	at := absent
	if c.cut == nil {
		at, _ = slices.BinarySearch(d.s.pr.heights(), c.height)
	}
	d.at, d.column = append(d.at, at), append(d.column, absent)
}

// yield is how many pieces of each size a layout has. It is good until the next.
func (d *decision) yield(c *choice) []int {
	clear(d.yields)
	for _, l := range c.laid {
		d.yields[d.s.in.options[l.option].size] += int(l.count)
	}
	return d.yields
}

// index finds the row of a sum or adds it.
func (d *decision) index(u sum) (int, error) {
	if i := slices.Index(d.sums, u); i >= 0 {
		return i, nil
	}
	var columns []int32
	var values []float64
	for _, j := range d.active {
		if v := u.of(&d.list[j]); v > 0 {
			columns, values = append(columns, int32(d.column[j])), append(values, float64(v))
		}
	}
	i, row := len(d.sums), d.lp.Rows()
	d.sums, d.sumRow, d.sumHas = append(d.sums, u), append(d.sumRow, row), append(d.sumHas, limits{0, noLimit})
	if err := d.lp.AddRow(math.Inf(-1), math.Inf(1), columns, values); err != nil {
		return i, err
	}
	return i, d.mayMiss(row)
}

// mayMiss lets a row miss its least at a cost.
func (d *decision) mayMiss(row int) error {
	d.missed, d.missedRow = append(d.missed, d.lp.Columns()), append(d.missedRow, row)
	return d.lp.AddColumn(d.missing(), 0, math.Inf(1), []int32{int32(row)}, []float64{1})
}
