package pack

import (
	"math"

	"crossgrain/pack/glpk"
)

// jointScale is the dearest of the prices that it makes.
const jointScale = 1 << 34

// joined is a solved joint program: how many times the demand there is room for (if
// for all of it, 1 and the surplus), the numbers of strips, the prices, and the most
// that a strip of each height or a lower one is worth at them.
type joined struct {
	room float64
	n    []float64
	prices
	most  []int64
	proof jointProof // empty if it ended early
}

// solve finds numbers of strips in a region, no longer in all than length, that
// hold the most, or enough to spare. It may end early if the search must.
func (j *joint) solve(r region, length int) (joined, error) {
	return j.solveFor(r, length, aim{surplus: mostSurplus})
}

// leastLength finds numbers of strips in a region that hold all of the demand in
// the least length. There may be none; that is glpk.ErrNumerical.
func (j *joint) leastLength(r region, length int) (joined, error) {
	return j.solveFor(r, length, aim{theta: 1, spared: float64(length)})
}

// cheapest finds numbers of strips in a region that hold the demand in the least
// length. Where it is dear to hold, or no layout known so far does, they leave some
// of it out, at thetaFirst times what it costs on average.
func (j *joint) cheapest(r region) (joined, error) {
	const longer = 2 // than any length of interest
	length := longer * j.s.length
	return j.solveFor(r, length, aim{spared: float64(length)})
}

// price is what the numbers cost that cheapest has found: their length, and what is
// left out.
func (j *joint) price(a joined) float64 {
	return lengthOf(a.n, j.heights) + (1-min(1, a.room))*thetaFirst*j.unit
}

// solveFor solves the program with an aim.
func (j *joint) solveFor(r region, length int, to aim) (joined, error) {
	err := j.setRegion(r, length)
	if to != j.aim {
		j.aim = to
		err = orElse(err, func() error { return j.lp.SetColumn(thetaColumn, to.theta, 1) })
		err = orElse(err, func() error { return j.lp.SetColumn(sparedColumn, 0, to.spared) })
		for i := range j.share {
			err = orElse(err, func() error { return j.lp.SetColumn(surplusColumn+i, 0, to.surplus) })
		}
	}
	if err != nil {
		return joined{}, err
	}
	for {
		a, again, err := j.improve()
		if err != nil || !again || j.s.over() {
			return a, err
		}
	}
}

// improve solves the program over what is in it, and reports whether new strips
// or planes have come in.
func (j *joint) improve() (a joined, again bool, err error) {
	sol, cost, err := j.solveKnown()
	if err != nil {
		return a, false, err
	}
	worth := sol.RowDual[:j.lengthRow()]
	v, scale := j.prices(worth, cost)
	a = joined{room: j.room(sol.X), n: j.numbers(sol.X), prices: v}
	var layouts []column
	layouts, a.most = j.s.pr.upTo(a.prices, j.s.in.whole(), j.s.m.all)
	fresh, err := j.learn(a, layouts)
	if err != nil || fresh && a.room < roomEnough {
		return a, fresh, err
	}
	if again, err = j.confine(a.n); err != nil || again {
		return a, again, err
	}
	if again, err = j.wake(a); err != nil || again {
		return a, again, err
	}
	a.proof = j.proof(sol.RowDual, scale)
	return a, false, j.rest(sol.Basis.Row, worth, cost)
}

// room is θ and, where that is 1, the surplus.
func (j *joint) room(x []float64) float64 {
	sum := x[thetaColumn]
	if sum > 1-wholeEnough {
		for i, share := range j.share {
			sum += share * x[surplusColumn+i]
		}
	}
	return sum
}

// solveKnown solves the program over the planes in it and all known strips. It
// gives the cost of a strip of each height, too.
func (j *joint) solveKnown() (sol glpk.Solution, cost []float64, err error) {
	for again := true; again; {
		sol, err = j.lp.Solve(j.moved)
		j.s.m.effort += fullEffort(j.lp, sol.Iterations)
		if err == nil && sol.Status != glpk.Optimal {
			err = glpk.ErrNumerical // it has a solution: empty strips
		}
		if err != nil {
			return sol, nil, err
		}
		j.moved = false
		cost = j.costs(sol.RowDual)
		if again, err = j.recall(sol.RowDual[:j.lengthRow()], cost); err != nil {
			return sol, nil, err
		}
	}
	return sol, cost, nil
}

// numbers are the strips from each height up.
func (j *joint) numbers(x []float64) []float64 {
	n := make([]float64, len(j.heights))
	for _, i := range j.rota.active {
		n[j.strips[i].k] += x[j.rota.column(i)]
	}
	for k := len(n) - 2; k >= 0; k-- {
		n[k] += n[k+1]
	}
	return n
}

// costs is what a strip of each height takes, by the duals of the rows.
func (j *joint) costs(dual []float64) []float64 {
	cost := make([]float64, len(j.heights))
	for k, h := range j.heights {
		cost[k] = -dual[j.lengthRow()] * float64(h)
	}
	for r := range j.rows {
		if w := dual[j.row(r)]; w != 0 {
			for k, e := range j.rows[r].each {
				cost[k] -= w * e
			}
		}
	}
	return cost
}

// prices are the duals as whole prices, the dearest of them jointScale, or
// less if sums of prices might not stay whole, and how many times the duals they
// are. Costs may be negative.
func (j *joint) prices(worth, cost []float64) (v prices, scale float64) {
	most := 0.0
	for _, w := range worth {
		most = max(most, w)
	}
	for _, c := range cost {
		most = max(most, math.Abs(c))
	}
	v = prices{worth: make([]int64, len(worth)), cost: make([]int64, len(cost))}
	if most <= 0 {
		return v, 0
	}
	top := min(jointScale, float64(j.s.m.dearest))
	for i, w := range worth {
		v.worth[i] = max(0, int64(math.Floor(w/most*top)))
	}
	for k, c := range cost {
		v.cost[k] = int64(math.Ceil(c/most*top)) + int64(top)>>priceSlack
	}
	return v, top / most
}
