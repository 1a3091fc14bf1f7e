package pack

import (
	"context"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// The master problem: choose how many strips x to cut of each layout,
//
//	minimise    Σ cost(height) x
//	subject to  Σ yield(i) x ≥ demand(i)        every size i
//	            lo(r) ≤ Σ coef(r) x ≤ hi(r)     every row r of limits
//	            x ≥ 0.
//
// Its columns are far too many to list; they are priced in as they are
// needed (Gilmore and Gomory, A linear programming approach to the
// cutting-stock problem, Operations Research 9, 1961). Rows of limits count
// strips, or the pieces laid one way in them, from a height up: they change
// what a strip of a height costs and what a piece in it is worth, and leave
// the pricing problem as it is.

// noLimit stands for a row without an upper limit.
const noLimit = math.MaxInt32

// allPieces marks a row that counts strips.
const allPieces = -1

// row counts strips at least from high, or the pieces that lie in them by one
// option.
type row struct {
	from   int
	option int // or allPieces
}

func (r row) coef(c *column) int {
	switch {
	case c.height < r.from:
		return 0
	case r.option == allPieces:
		return 1
	}
	return c.laid[r.option]
}

// limits are the bounds of one row.
type limits struct{ lo, hi int }

func (l limits) free() bool { return l.lo == 0 && l.hi == noLimit }

// node is one subproblem: what is to cut, and the limits of each row of the
// master; rows beyond its end are free.
type node struct {
	demand []int
	limits []limits
}

func (nd *node) clone() *node {
	return &node{demand: slices.Clone(nd.demand), limits: slices.Clone(nd.limits)}
}

// limit returns a copy of the node with other limits for one row.
func (nd *node) limit(r int, l limits) *node {
	c := nd.clone()
	for len(c.limits) <= r {
		c.limits = append(c.limits, limits{0, noLimit})
	}
	c.limits[r] = l
	return c
}

// relaxed is the solved relaxation of a node.
type relaxed struct {
	bound int64     // exact lower bound on the node's length, in 1/priceScale
	v     prices    // the prices that prove it
	x     []float64 // strips of each column of the pool
	// settled: priced out, so that x is an optimum of the relaxation. Else a
	// cutoff was reached, or the context ended.
	settled bool
}

type master struct {
	in   *instance
	pr   pricer
	pool []column
	seen map[string]bool
	rows []row
	// most is a number of strips that no plan worth having exceeds.
	most int64
	// penalty is the price of one piece left uncut, or one strip or piece by
	// which a lower limit is missed, in the program being solved.
	penalty int64
	// dearest is the highest price of a piece: no strip can be worth more
	// than priceSum by such prices, so that sums of prices stay whole.
	dearest int64
	// swell makes the demand of the programs so many times as large; the
	// bounds are those of the true demand.
	swell float64

	basis  statuses
	solves int64
	effort int64 // steps spent in the linear programs
}

// statuses is the last basis, kept by what its rows and columns stand for.
type statuses struct {
	size, short           []glpk.VariableStatus // rows and slacks of the sizes
	limit, missed, column []glpk.VariableStatus // the same of the rows of limits; the pool
}

func newMaster(in *instance, pr pricer) *master {
	m := &master{in: in, pr: pr, swell: 1, seen: map[string]bool{}}
	m.dearest = priceSum / int64(in.mostInStrip(pr))
	m.basis.size = fillStatus(nil, len(in.sizes), glpk.Basic)
	m.basis.short = make([]glpk.VariableStatus, len(in.sizes))
	return m
}

func fillStatus(list []glpk.VariableStatus, n int, s glpk.VariableStatus) []glpk.VariableStatus {
	for len(list) < n {
		list = append(list, s)
	}
	return list
}

// add puts a layout into the pool unless one like it is there.
func (m *master) add(c column) bool {
	k := c.key()
	if m.seen[k] {
		return false
	}
	m.seen[k] = true
	m.pool = append(m.pool, c)
	return true
}

// rowIndex finds a row of limits or adds it.
func (m *master) rowIndex(r row) int {
	if i := slices.Index(m.rows, r); i >= 0 {
		return i
	}
	m.rows = append(m.rows, r)
	return len(m.rows) - 1
}

// A relaxation that can meet its limits only by leaving a little uncut is
// solved again at a higher penalty, until the bound shows that it cannot or
// the penalty has grown this often by this factor.
const (
	penaltySteps  = 4
	penaltyFactor = 16
)

// solve solves the relaxation of a node by column generation. It stops early
// when the bound reaches cutoff or the context ends; the bound holds however
// it stops.
func (m *master) solve(ctx context.Context, nd *node, cutoff int64) (relaxed, error) {
	first := m.penalty
	defer func() { m.penalty = first }()
	r := relaxed{bound: math.MinInt64}
	for round, raised := 0, 0; ; round++ {
		lp := m.newProgram(nd)
		sol, err := lp.solve(ctx, round == 0)
		if err != nil || sol.Status != glpk.Optimal {
			return r, err
		}
		r.x = sol.X[lp.slacks():]
		u := lp.exactDuals(sol.RowDual)
		v := lp.prices(u)
		cols, least := m.pr.price(v, nd.demand)
		u.add(min(0, least), m.most)
		if b := u.bound(); b > r.bound {
			r.bound, r.v = b, v
		}
		if r.bound >= cutoff {
			return r, nil
		}
		fresh := false
		for _, c := range cols {
			fresh = m.add(c) || fresh
		}
		switch {
		case ctx.Err() != nil:
			return r, nil
		case fresh:
		case short(sol.X[:lp.slacks()]) && raised < penaltySteps:
			m.penalty *= penaltyFactor
			raised++
		default:
			r.settled = true
			return r, nil
		}
	}
}

// short reports whether a slack is in use.
func short(slacks []float64) bool {
	for _, s := range slacks {
		if s > 1e-7 { // GLPK's tolerance for a limit
			return true
		}
	}
	return false
}
