package pack

import (
	"context"
	"errors"
	"math"

	"crossgrain/pack/glpk"
)

// The master problem: choose how many strips x to cut of each layout,
//
//	minimise    Σ height x
//	subject to  Σ yield(i) x ≥ demand(i)        every size i
//	            x ≥ 0.
//
// Its columns are far too many to list; they are priced in as they are
// needed (Gilmore and Gomory, A linear programming approach to the
// cutting-stock problem, Operations Research 9, 1961).

// noLimit stands for no upper limit.
const noLimit = math.MaxInt32

// limits are the least and the most of something.
type limits struct{ lo, hi int }

// relaxed is the solved relaxation of a demand.
type relaxed struct {
	bound int64     // exact lower bound on its length, in 1/priceScale
	v     prices    // the prices that prove it
	x     []float64 // strips of each column of the pool
}

type master struct {
	in   *instance
	pr   pricer
	pool pool
	all  []int // indices of all heights
	// most is a number of strips that no plan worth having exceeds.
	most int64
	// penalty is the price of one piece left uncut.
	penalty int64
	// dearest is the highest price of a piece: no strip can be worth more
	// than priceSum by such prices, so that sums of prices stay whole.
	dearest int64

	lp     *glpk.Program // kept between solves, or nil
	rota   rota          // of the pool
	effort int64         // steps spent in the linear programs
}

func newMaster(in *instance, pr pricer) *master {
	m := &master{in: in, pr: pr}
	for k := range pr.heights() {
		m.all = append(m.all, k)
	}
	m.dearest = priceSum / int64(in.mostInStrip(pr))
	return m
}

// keepWithin tells of a length that no plan worth having exceeds.
func (m *master) keepWithin(length int) {
	m.most = int64(length / m.pr.heights()[0])
	m.penalty = int64(length)
}

// solve solves the relaxation of a demand by column generation. It stops early
// when the bound reaches cutoff or the context ends; the bound holds however
// it stops. If GLPK fails there are no strips.
func (m *master) solve(ctx context.Context, demand []int, cutoff int64) (relaxed, error) {
	r, err := m.generate(ctx, demand, cutoff)
	if errors.Is(err, glpk.ErrNumerical) {
		m.close()
		r.x, err = nil, nil
	}
	return r, err
}

func (m *master) generate(ctx context.Context, demand []int, cutoff int64) (relaxed, error) {
	r := relaxed{bound: math.MinInt64}
	if err := m.ask(demand); err != nil {
		return r, err
	}
	for changed := true; ; changed = false {
		sol, err := m.solveKnown(changed)
		if err != nil {
			return r, err
		}
		r.x = m.strips(sol.X)
		u := m.exactDuals(demand, sol.RowDual)
		v := m.prices(u)
		layouts, worth := m.pr.upTo(v, demand, m.all)
		u.add(min(0, v.leastReduced(worth)), m.most)
		if b := u.bound(); b > r.bound {
			r.bound, r.v = b, v
		}
		if r.bound >= cutoff || ctx.Err() != nil {
			return r, m.rest(sol.RowDual)
		}
		fresh := false
		for k, c := range layouts {
			fresh = worth[k] > v.cost[k] && m.pool.add(c) || fresh
		}
		if !fresh {
			return r, m.rest(sol.RowDual)
		}
	}
}

// leastReduced is the least that a strip of any height costs more than it can
// be worth.
func (v prices) leastReduced(worth []int64) int64 {
	least := int64(math.MaxInt64)
	for k, w := range worth {
		least = min(least, v.cost[k]-w)
	}
	return least
}
