package pack

import (
	"context"
	"math"

	"crossgrain/pack/glpk"
)

// program is the master problem over its pool as a linear program. Its rows
// are the sizes; its columns are a slack for every size, then the pool.
type program struct {
	m      *master
	demand []int
	p      glpk.Problem
}

func (m *master) newProgram(demand []int) *program {
	lp := &program{m: m, demand: demand}
	lp.addRows()
	lp.p.Start = append(lp.p.Start, 0)
	for i := range demand {
		lp.entry(i, 1)
		lp.column(float64(m.penalty))
	}
	lp.addColumns(m.pool.list)
	return lp
}

func (lp *program) addRows() {
	for _, d := range lp.demand {
		lp.row(float64(d), math.Inf(1))
	}
}

func (lp *program) row(lo, hi float64) {
	lp.p.RowLower = append(lp.p.RowLower, lo)
	lp.p.RowUpper = append(lp.p.RowUpper, hi)
}

func (lp *program) entry(row int, v float64) {
	lp.p.Index = append(lp.p.Index, int32(row))
	lp.p.Value = append(lp.p.Value, v)
}

// column closes a column of the entries since the last one.
func (lp *program) column(cost float64) {
	lp.p.Cost = append(lp.p.Cost, cost)
	lp.p.Lower = append(lp.p.Lower, 0)
	lp.p.Upper = append(lp.p.Upper, math.Inf(1))
	lp.p.Start = append(lp.p.Start, int32(len(lp.p.Index)))
}

func (lp *program) addColumns(pool []column) {
	for j := range pool {
		c := &pool[j]
		for i, y := range c.yield {
			if y > 0 {
				lp.entry(i, float64(y))
			}
		}
		lp.column(float64(c.height))
	}
}

// solve solves the program from the last basis. A first solve after limits
// have changed starts with the dual simplex method, one after columns have
// come in with the primal: there the basis is still feasible.
func (lp *program) solve(ctx context.Context, changed bool) (glpk.Solution, error) {
	m := lp.m
	var start *glpk.Basis
	if m.solves > 0 {
		start = lp.startBasis()
	}
	sol, err := glpk.SolveLP(ctx, &lp.p, start, glpk.Options{Dual: changed})
	m.solves++
	m.effort += lp.effort(sol.Iterations)
	if err == nil && sol.Status == glpk.Optimal {
		lp.keepBasis(sol.Basis)
	}
	return sol, err
}

// effort is about the nanoseconds that a solve takes: set-up, reading the
// columns in, and the iterations.
func (lp *program) effort(iterations int) int64 {
	entries := int64(len(lp.p.Index))
	return 60_000 + 40*entries + int64(iterations)*(2000+3*entries)
}

func (lp *program) startBasis() *glpk.Basis {
	s := &lp.m.basis
	s.column = fillStatus(s.column, len(lp.m.pool.list), glpk.NonBasicLower)
	b := &glpk.Basis{}
	b.Row = append(b.Row, s.size...)
	b.Column = append(b.Column, s.short...)
	b.Column = append(b.Column, s.column...)
	return b
}

func (lp *program) keepBasis(b glpk.Basis) {
	s, n := &lp.m.basis, len(lp.demand)
	copy(s.size, b.Row)
	copy(s.short, b.Column[:n])
	s.column = append(s.column[:0], b.Column[n:]...)
}

// priceSum bounds the sums of prices within a strip, and boundSum what a bound
// may come to: both far enough from 2^63.
const (
	priceSum = 1 << 58
	boundSum = 1 << 61
)

// duals are whole prices of the sizes. However they were found, what they are
// worth over the demand, with what single strips may gain on them added, is a
// lower bound on the length of any plan.
type duals struct {
	worth []int64
	// sum is the worth so far, modulo 2^64, and about the same in floating
	// point, to tell when it is beyond what counts.
	sum   int64
	about float64
}

// add adds times × price to the sum.
func (u *duals) add(price, times int64) {
	u.sum += price * times
	u.about += float64(price) * float64(times)
}

// bound is the sum, or boundSum on the side of zero where it lies beyond that.
func (u *duals) bound() int64 {
	switch {
	case u.about > boundSum:
		return boundSum
	case u.about < -boundSum:
		return -boundSum
	}
	return u.sum
}

func (lp *program) exactDuals(dual []float64) duals {
	most := min(lp.m.penalty*priceScale, lp.m.dearest)
	u := duals{worth: make([]int64, len(lp.demand))}
	for i, d := range lp.demand {
		u.worth[i] = wholePrice(dual[i], most)
		u.add(u.worth[i], int64(d))
	}
	return u
}

// wholePrice rounds a dual down to a whole price from 0 to most.
func wholePrice(dual float64, most int64) int64 {
	scaled := math.Floor(dual * priceScale)
	switch {
	case scaled <= 0:
		return 0
	case scaled >= float64(most):
		return most
	}
	return int64(scaled)
}

// prices are what the duals mean to the pricer.
func (lp *program) prices(u duals) prices {
	v := prices{worth: u.worth}
	for _, h := range lp.m.pr.heights() {
		v.cost = append(v.cost, priceScale*int64(h))
	}
	return v
}
