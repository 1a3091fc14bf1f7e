package pack

import (
	"context"
	"math"

	"crossgrain/pack/glpk"
)

// program is the master problem over its pool as a linear program. Its rows
// are the sizes, then the rows with a limit; its columns are a slack for
// every size, a slack for every row with a limit, then the pool.
type program struct {
	m      *master
	nd     *node
	active []int // the rows of limits that are in it
	p      glpk.Problem
}

func (m *master) newProgram(nd *node) *program {
	return m.programOf(nd, m.pool)
}

func (m *master) programOf(nd *node, pool []column) *program {
	lp := &program{m: m, nd: nd}
	lp.addRows()
	lp.p.Start = append(lp.p.Start, 0)
	for i := range lp.rows() {
		lp.entry(i, 1)
		lp.column(float64(m.penalty))
	}
	lp.addPool(pool)
	return lp
}

func (lp *program) rows() int   { return len(lp.nd.demand) + len(lp.active) }
func (lp *program) slacks() int { return lp.rows() }

func (lp *program) addRows() {
	for _, d := range lp.nd.demand {
		lp.row(float64(d)*lp.m.swell, math.Inf(1))
	}
	for r, l := range lp.nd.limits {
		if l.free() {
			continue
		}
		lp.active = append(lp.active, r)
		hi := math.Inf(1)
		if l.hi != noLimit {
			hi = float64(l.hi)
		}
		lp.row(float64(l.lo), hi)
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

func (lp *program) addPool(pool []column) {
	n := len(lp.nd.demand)
	for j := range pool {
		c := &pool[j]
		for i, y := range c.yield {
			if y > 0 {
				lp.entry(i, float64(y))
			}
		}
		for a, r := range lp.active {
			if v := lp.m.rows[r].coef(c); v != 0 {
				lp.entry(n+a, float64(v))
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
	s.limit = fillStatus(s.limit, len(lp.m.rows), glpk.Basic)
	s.missed = fillStatus(s.missed, len(lp.m.rows), glpk.NonBasicLower)
	s.column = fillStatus(s.column, len(lp.m.pool), glpk.NonBasicLower)
	b := &glpk.Basis{}
	b.Row = append(b.Row, s.size...)
	b.Column = append(b.Column, s.short...)
	for _, r := range lp.active {
		b.Row = append(b.Row, s.limit[r])
		b.Column = append(b.Column, s.missed[r])
	}
	b.Column = append(b.Column, s.column...)
	return b
}

func (lp *program) keepBasis(b glpk.Basis) {
	s, n := &lp.m.basis, len(lp.nd.demand)
	copy(s.size, b.Row[:n])
	copy(s.short, b.Column[:n])
	s.limit = fillStatus(s.limit, len(lp.m.rows), glpk.Basic)
	s.missed = fillStatus(s.missed, len(lp.m.rows), glpk.NonBasicLower)
	for r := range s.limit { // a row that is not in the program does not bind
		s.limit[r], s.missed[r] = glpk.Basic, glpk.NonBasicLower
	}
	for a, r := range lp.active {
		s.limit[r], s.missed[r] = b.Row[n+a], b.Column[n+a]
	}
	s.column = append(s.column[:0], b.Column[lp.slacks():]...)
}

// priceSum bounds the sums of prices within a strip, and boundSum what a bound
// may come to: both far enough from 2^63.
const (
	priceSum = 1 << 58
	boundSum = 1 << 61
)

// limitCap is the highest price of a row that counts strips, and bonusPart the
// part of the highest price of a piece that a row on an option may add to it:
// even on the side of a hundred such rows sums stay below 2^63.
const (
	limitCap  = 1 << 52
	bonusPart = 64
)

// duals are whole prices of the rows of a program, of the right signs. However
// they were found, what they are worth over the demand and the limits, with
// what single strips may gain on them added, is a lower bound on the length
// of any plan that keeps the limits.
type duals struct {
	worth []int64 // of the sizes
	limit []int64 // of the active rows
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
	n := len(lp.nd.demand)
	most := min(lp.m.penalty*priceScale, lp.m.dearest)
	u := duals{worth: make([]int64, n), limit: make([]int64, len(lp.active))}
	for i, d := range lp.nd.demand {
		u.worth[i] = wholePrice(dual[i], 0, most)
		u.add(u.worth[i], int64(d))
	}
	for a, r := range lp.active {
		limit := int64(limitCap)
		if lp.m.rows[r].option != allPieces {
			limit = lp.m.dearest / bonusPart
		}
		v := wholePrice(dual[n+a], -limit, min(limit, lp.m.penalty*priceScale))
		switch l := lp.nd.limits[r]; {
		case v > 0:
			u.limit[a] = v
			u.add(v, int64(l.lo))
		case l.hi != noLimit:
			u.limit[a] = v
			u.add(v, int64(l.hi))
		}
	}
	return u
}

// wholePrice rounds a dual down to a whole price between low and high.
func wholePrice(dual float64, low, high int64) int64 {
	scaled := math.Floor(dual * priceScale)
	switch {
	case scaled <= float64(low):
		return low
	case scaled >= float64(high):
		return high
	}
	return int64(scaled)
}

// prices are what the duals mean to the pricer.
func (lp *program) prices(u duals) prices {
	v := prices{worth: u.worth}
	heights := lp.m.pr.heights()
	v.cost = make([]int64, len(heights))
	for k, h := range heights {
		v.cost[k] = priceScale * int64(h)
	}
	for a, r := range lp.active {
		rw := lp.m.rows[r]
		if rw.option != allPieces {
			v.extra = append(v.extra, bonus{rw.from, rw.option, u.limit[a]})
			continue
		}
		for k, h := range heights {
			if h >= rw.from {
				v.cost[k] -= u.limit[a]
			}
		}
	}
	return v
}

// reduced is what a strip of a layout costs, less what it is worth.
func (lp *program) reduced(u duals, c *column) int64 {
	sum := priceScale * int64(c.height)
	for i, y := range c.yield {
		sum -= u.worth[i] * int64(y)
	}
	for a, r := range lp.active {
		sum -= u.limit[a] * int64(lp.m.rows[r].coef(c))
	}
	return sum
}
