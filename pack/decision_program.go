package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

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
	err = orElse(err, func() error { return lp.AddColumn(d.thetaCost(), 0, d.mostTheta(), rows, values) })
	for j := range d.list {
		err = orElse(err, func() error { return d.enter(&d.list[j]) })
	}
	if !d.priced {
		d.sizes = d.sizeLines()
	}
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
