package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// fit is the program that tells how much of the demand given numbers of strips
// can hold, as far as a relaxation knows:
//
//	maximise    θ
//	subject to  Σ yield(i) x ≥ θ·demand(i)              every size i, or
//	            Σ yield(i) x ≥ demand(i)                where i is met
//	            Σ x + z(k−1) − z(k) ≤ n[k] − n[k+1]     every height k
//	            x, z ≥ 0
//
// over the layouts x of a pool, each in the row of its height; z(k) strips of
// height k+1 serve as strips of height k. Where there are many heights, most
// without strips, only some have rows, and a layout is in the row of the lowest
// of these that can hold it; the last row is of those that none can.
type fit struct {
	s       *search
	heights []int
	pool    *pool
	met     []bool
	used    []int // the heights that there are strips of
	rows    []int // the heights that have a row, ascending
	lp      *glpk.Program
	entered int // layouts of the pool that are in it
	moved   bool
}

// The settings of the fit, found by trial.
const (
	mostTheta = 2  // as much of the demand as it pays to know of
	allRows   = 64 // so many heights all have rows
	mostRows  = 40 // of more, about so many
)

// newFit makes the program; met, if not nil, marks the sizes that are met.
// Close it.
func newFit(s *search, known *pool, met []bool) (*fit, error) {
	f := &fit{s: s, heights: s.pr.heights(), pool: known, met: met}
	if len(f.heights) <= allRows {
		for k := range f.heights {
			f.rows = append(f.rows, k)
		}
	}
	if err := f.open(); err != nil {
		return nil, err
	}
	return f, nil
}

// open makes the program for the heights that have rows.
func (f *fit) open() error {
	lp, err := glpk.Open()
	if err != nil {
		return err
	}
	f.lp, f.entered = lp, 0
	var rows []int32
	var values []float64
	for i, d := range f.s.in.whole() {
		least := 0.0
		if f.met != nil && f.met[i] {
			least = float64(d) * (1 - wholeEnough) // lest the tolerance exclude it
		} else {
			rows, values = append(rows, int32(i)), append(values, -float64(d))
		}
		err = orElse(err, func() error { return lp.AddRow(least, math.Inf(1), nil, nil) })
	}
	for range len(f.rows) + 1 {
		err = orElse(err, func() error { return lp.AddRow(math.Inf(-1), 0, nil, nil) })
	}
	err = orElse(err, func() error { return lp.AddColumn(-1, 0, mostTheta, rows, values) })
	for r := range max(0, len(f.rows)-1) {
		pair := []int32{int32(f.row(r)), int32(f.row(r + 1))}
		err = orElse(err, func() error { return lp.AddColumn(0, 0, math.Inf(1), pair, []float64{-1, 1}) })
	}
	if err != nil {
		f.close()
	}
	return err
}

// orElse does what comes next unless there is an error already.
func orElse(err error, next func() error) error {
	if err != nil {
		return err
	}
	return next()
}

func (f *fit) close() { f.lp.Close() }

func (f *fit) row(r int) int         { return len(f.s.in.sizes) + r }
func (f *fit) column(layout int) int { return max(1, len(f.rows)) + layout }

// set sets the numbers of strips.
func (f *fit) set(n []float64) error {
	f.used, f.moved = f.used[:0], true
	for k := range f.heights {
		if single(n, k) > 0 {
			f.used = append(f.used, k)
		}
	}
	if err := f.makeRows(); err != nil {
		return err
	}
	for r, k := range f.rows {
		if err := f.lp.SetRow(f.row(r), math.Inf(-1), max(0, single(n, k))); err != nil {
			return err
		}
	}
	return nil
}

// makeRows makes the program anew if a height that is used has no row.
func (f *fit) makeRows() error {
	var rows []int
	for _, k := range f.used {
		if !slices.Contains(f.rows, k) {
			rows = append(rows, k)
		}
	}
	if len(rows) == 0 {
		return nil
	}
	if len(f.rows) <= mostRows {
		rows = append(rows, f.rows...)
	} else {
		rows = slices.Clone(f.used)
	}
	slices.Sort(rows)
	f.close()
	f.rows = rows
	return f.open()
}

// single is the number of strips of just the k-th height.
func single(n []float64, k int) float64 {
	if k+1 < len(n) {
		return n[k] - n[k+1]
	}
	return n[k]
}

// bound sets the least and the most strips of a layout; noLimit is no most.
func (f *fit) bound(layout int, l limits) error {
	f.moved = true
	most := math.Inf(1)
	if l.hi != noLimit {
		most = float64(l.hi)
	}
	return f.lp.SetColumn(f.column(layout), float64(l.lo), most)
}

// fitted is a solved fit: how much of the demand the strips hold, the strips
// of each layout, and the duals of the rows of the sizes and of the heights.
type fitted struct {
	theta         float64
	x             []float64
	worth, height []float64
}

// solve solves the program over the layouts of the pool.
func (f *fit) solve() (fitted, error) {
	if err := f.catchUp(); err != nil {
		return fitted{}, err
	}
	sol, err := f.lp.Solve(f.moved)
	f.s.m.effort += programEffort(f.lp, sol.Iterations)
	if err != nil {
		return fitted{}, err
	}
	if sol.Status != glpk.Optimal {
		return fitted{}, glpk.ErrNumerical // it has a solution: nothing at all
	}
	f.moved = false
	d := len(f.s.in.sizes)
	return fitted{sol.X[0], sol.X[f.column(0):], sol.RowDual[:d], f.heightDuals(sol.RowDual[d:])}, nil
}

// heightDuals are the duals of all heights, for one without a row that of the
// next lower row.
func (f *fit) heightDuals(rows []float64) []float64 {
	list := make([]float64, len(f.heights))
	last := 0.0
	for k, next := 0, 0; k < len(list); k++ {
		if next < len(f.rows) && f.rows[next] == k {
			last = rows[next]
			next++
		}
		list[k] = last
	}
	return list
}

// programEffort is about the nanoseconds that a solve of a kept program takes.
func programEffort(lp *glpk.Program, iterations int) int64 {
	rows, columns := int64(lp.Rows()), int64(lp.Columns())
	return 10_000 + 40*(rows+columns) + int64(iterations)*(1500+45*rows+15*columns)
}

// fullEffort is the same of a program whose rows are full, and so are its factors: a
// large one takes long to begin, too.
func fullEffort(lp *glpk.Program, iterations int) int64 {
	rows, columns := int64(lp.Rows()), int64(lp.Columns())
	return programEffort(lp, iterations) + rows*columns*columns/160 + rows*rows*(int64(iterations)+rows/10)
}

// catchUp enters the layouts that have come into the pool.
func (f *fit) catchUp() error {
	for ; f.entered < len(f.pool.list); f.entered++ {
		c := &f.pool.list[f.entered]
		rows, values := c.yields()
		k, _ := slices.BinarySearch(f.heights, c.height)
		r, _ := slices.BinarySearch(f.rows, k)
		rows, values = append(rows, int32(f.row(r))), append(values, 1)
		if err := f.lp.AddColumn(0, 0, math.Inf(1), rows, values); err != nil {
			return err
		}
	}
	return nil
}

// learn takes up the layouts that are worth more than the strips they need, the
// best for each height that there are strips of, and reports whether one is new.
func (f *fit) learn(v prices, layouts []column, worth []int64) bool {
	fresh := false
	for i, k := range f.used {
		if worth[i] > v.cost[k] {
			fresh = f.pool.add(layouts[i]) || fresh
		}
	}
	return fresh
}

// prices are the duals as whole prices, the dearest of them top, or less if
// sums of prices might not stay whole.
func (f *fit) prices(r fitted, top float64) prices {
	top = min(top, float64(f.s.m.dearest))
	most := 0.0
	for _, w := range r.worth {
		most = max(most, w)
	}
	for _, c := range r.height {
		most = max(most, -c)
	}
	v := prices{worth: make([]int64, len(r.worth)), cost: make([]int64, len(r.height))}
	if most <= 0 {
		return v
	}
	for i, w := range r.worth {
		v.worth[i] = max(0, int64(math.Floor(w/most*top)))
	}
	for k, c := range r.height {
		// A little more, lest a layout that is known be found again.
		v.cost[k] = max(0, int64(math.Ceil(-c/most*top))) + int64(top)>>priceSlack
	}
	return v
}

// priceSlack: layouts count as better from one part in 2^30 of the dearest
// price, near what the programs are exact to.
const priceSlack = 30
