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
// height k+1 serve as strips of height k.
type fit struct {
	s       *search
	heights []int
	pool    *pool
	used    []int // the heights that there are strips of
	lp      *glpk.Program
	entered int // layouts of the pool that are in it
	moved   bool
}

// mostTheta is as much of the demand as it pays to know of.
const mostTheta = 2

// newFit makes the program; met, if not nil, marks the sizes that are met.
// Close it.
func newFit(s *search, known *pool, met []bool) (*fit, error) {
	lp, err := glpk.Open()
	if err != nil {
		return nil, err
	}
	f := &fit{s: s, heights: s.pr.heights(), pool: known, lp: lp}
	var rows []int32
	var values []float64
	for i, d := range s.in.whole() {
		least := 0.0
		if met != nil && met[i] {
			least = float64(d) * (1 - wholeEnough) // lest the tolerance exclude it
		} else {
			rows, values = append(rows, int32(i)), append(values, -float64(d))
		}
		err = orElse(err, func() error { return lp.AddRow(least, math.Inf(1), nil, nil) })
	}
	for range f.heights {
		err = orElse(err, func() error { return lp.AddRow(math.Inf(-1), 0, nil, nil) })
	}
	err = orElse(err, func() error { return lp.AddColumn(-1, 0, mostTheta, rows, values) })
	for k := range len(f.heights) - 1 {
		pair := []int32{int32(f.row(k)), int32(f.row(k + 1))}
		err = orElse(err, func() error { return lp.AddColumn(0, 0, math.Inf(1), pair, []float64{-1, 1}) })
	}
	if err != nil {
		f.close()
	}
	return f, err
}

// orElse does what comes next unless there is an error already.
func orElse(err error, next func() error) error {
	if err != nil {
		return err
	}
	return next()
}

func (f *fit) close() { f.lp.Close() }

func (f *fit) row(height int) int    { return len(f.s.in.sizes) + height }
func (f *fit) column(layout int) int { return len(f.heights) + layout }

// set sets the numbers of strips.
func (f *fit) set(n []float64) error {
	f.used, f.moved = f.used[:0], true
	for k := range f.heights {
		strips := single(n, k)
		if strips > 0 {
			f.used = append(f.used, k)
		}
		if err := f.lp.SetRow(f.row(k), math.Inf(-1), max(0, strips)); err != nil {
			return err
		}
	}
	return nil
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
	return fitted{sol.X[0], sol.X[len(f.heights):], sol.RowDual[:d], sol.RowDual[d:]}, nil
}

// programEffort is about the nanoseconds that a solve of a kept program takes.
func programEffort(lp *glpk.Program, iterations int) int64 {
	size := int64(lp.Rows() + lp.Columns())
	return 10_000 + 40*size + int64(iterations)*(1500+15*size)
}

// catchUp enters the layouts that have come into the pool.
func (f *fit) catchUp() error {
	for ; f.entered < len(f.pool.list); f.entered++ {
		c := &f.pool.list[f.entered]
		rows, values := c.yields()
		k, _ := slices.BinarySearch(f.heights, c.height)
		rows, values = append(rows, int32(f.row(k))), append(values, 1)
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
