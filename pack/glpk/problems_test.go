//go:build cgo

package glpk

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

var inf = math.Inf(1)

// problem is a linear program by rows, as Program states it.
type problem struct {
	rowLower, rowUpper []float64 // of each row
	rows               [][]float64
	cost, lower, upper []float64 // of each column
}

// strips is the smallest cutting problem with something to decide: strips
// that hold three of piece a, one of each, or two of piece b.
func strips(a, b float64) *problem {
	return &problem{
		rowLower: []float64{a, b}, rowUpper: []float64{inf, inf},
		rows: [][]float64{{3, 1, 0}, {0, 1, 2}},
		cost: []float64{1, 1, 1}, lower: []float64{0, 0, 0}, upper: []float64{inf, inf, inf},
	}
}

// coveringRows are the sizes that covering demands.
const coveringRows = 30

// covering is a cutting problem like those that package pack makes: demands of
// whole pieces, columns of heights and yields, four sizes or fewer each.
func covering(rng *rand.Rand, columns int) *problem {
	p := &problem{}
	for range coveringRows {
		p.addRow(float64(1+rng.IntN(60)), inf, nil)
	}
	for j := range columns {
		cost, yield := coveringColumn(rng, j)
		p.addColumn(cost, 0, inf, yield)
	}
	return p
}

// coveringColumn draws the j-th column of covering.
func coveringColumn(rng *rand.Rand, j int) (cost float64, yield []float64) {
	yield = make([]float64, coveringRows)
	yield[j%coveringRows] = float64(1 + rng.IntN(9))
	for range 3 {
		yield[rng.IntN(coveringRows)] = float64(1 + rng.IntN(9))
	}
	return float64(40 + rng.IntN(300)), yield
}

// anyLimits draws limits of every kind.
func anyLimits(rng *rand.Rand) (lower, upper float64) {
	lower, upper = float64(rng.IntN(9)-4), float64(rng.IntN(9)-4)
	if lower > upper {
		lower, upper = upper, lower
	}
	switch rng.IntN(5) {
	case 0:
		lower = -inf
	case 1:
		upper = inf
	case 2:
		lower, upper = -inf, inf
	case 3:
		upper = lower
	}
	return lower, upper
}

// anyValues draws n entries, a third of them 0.
func anyValues(rng *rand.Rand, n int) []float64 {
	list := make([]float64, n)
	for i := range list {
		if rng.IntN(3) > 0 {
			list[i] = float64(rng.IntN(9) - 4)
		}
	}
	return list
}

// anyProblem draws a small problem with every kind of limit.
func anyProblem(rng *rand.Rand) *problem {
	p := &problem{}
	for range 1 + rng.IntN(6) {
		lower, upper := anyLimits(rng)
		p.addColumn(float64(rng.IntN(11)-5), lower, upper, nil)
	}
	for range 1 + rng.IntN(5) {
		lower, upper := anyLimits(rng)
		p.addRow(lower, upper, anyValues(rng, len(p.cost)))
	}
	return p
}

func (p *problem) addRow(lower, upper float64, values []float64) {
	p.rowLower, p.rowUpper = append(p.rowLower, lower), append(p.rowUpper, upper)
	p.rows = append(p.rows, values)
}

// addColumn adds a column; rows beyond its values have none of it.
func (p *problem) addColumn(cost, lower, upper float64, values []float64) {
	p.cost, p.lower, p.upper = append(p.cost, cost), append(p.lower, lower), append(p.upper, upper)
	for i := range p.rows {
		v := 0.0
		if i < len(values) {
			v = values[i]
		}
		p.rows[i] = append(p.rows[i], v)
	}
}

func (p *problem) clone() *problem {
	c := *p
	c.rowLower, c.rowUpper, c.rows = slices.Clone(p.rowLower), slices.Clone(p.rowUpper), slices.Clone(p.rows)
	c.cost, c.lower, c.upper = slices.Clone(p.cost), slices.Clone(p.lower), slices.Clone(p.upper)
	for i := range c.rows {
		c.rows[i] = slices.Clone(c.rows[i])
	}
	return &c
}

// feasible reports whether x keeps all limits, give or take tolerance.
func (p *problem) feasible(x []float64, tolerance float64) bool {
	for j, v := range x {
		if v < p.lower[j]-tolerance || v > p.upper[j]+tolerance {
			return false
		}
	}
	for i, row := range p.rows {
		if sum := times(row, x); sum < p.rowLower[i]-tolerance || sum > p.rowUpper[i]+tolerance {
			return false
		}
	}
	return true
}

// times is the sum of products.
func times(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// reduced are the reduced costs that go with the duals of the rows.
func (p *problem) reduced(dual []float64) []float64 {
	list := slices.Clone(p.cost)
	for i, row := range p.rows {
		for j, v := range row {
			list[j] -= v * dual[i]
		}
	}
	return list
}

// certify proves that s is optimal: its values keep the limits, and its duals bound
// every solution from below by its cost (a dual > 0 counts at the lower limit, one
// < 0 at the upper).
func (p *problem) certify(s Solution) error {
	const tolerance = 1e-6
	if len(s.X) != len(p.cost) || len(s.RowDual) != len(p.rows) || !p.feasible(s.X, tolerance) {
		return errors.New("the values break a limit")
	}
	bound := 0.0
	count := func(dual, lower, upper float64) {
		switch {
		case dual > tolerance:
			bound += dual * lower
		case dual < -tolerance:
			bound += dual * upper
		}
	}
	for i, dual := range s.RowDual {
		count(dual, p.rowLower[i], p.rowUpper[i])
	}
	for j, dual := range p.reduced(s.RowDual) {
		count(dual, p.lower[j], p.upper[j])
	}
	if cost := times(p.cost, s.X); !near(cost, bound) {
		return fmt.Errorf("cost %v, dual bound %v", cost, bound)
	}
	return p.certifyBasis(s)
}

// certifyBasis proves that what is not basic is where its status says, and that as
// many are basic as there are rows.
func (p *problem) certifyBasis(s Solution) error {
	basic := 0
	at := func(status VariableStatus, v, lower, upper float64) bool {
		switch status {
		case NonBasicLower:
			return near(v, lower)
		case NonBasicUpper:
			return near(v, upper)
		case NonBasicFixed:
			return near(v, lower) && lower == upper
		case NonBasicFree:
			return near(v, 0)
		}
		basic++
		return status == Basic
	}
	for i, row := range p.rows {
		if !at(s.Basis.Row[i], times(row, s.X), p.rowLower[i], p.rowUpper[i]) {
			return fmt.Errorf("row %d has status %d", i, s.Basis.Row[i])
		}
	}
	for j, v := range s.X {
		if !at(s.Basis.Column[j], v, p.lower[j], p.upper[j]) {
			return fmt.Errorf("column %d has status %d", j, s.Basis.Column[j])
		}
	}
	if basic != len(p.rows) {
		return fmt.Errorf("%d are basic, not %d", basic, len(p.rows))
	}
	return nil
}

// nearest is the problem of a solution that breaks the rows' limits least: it has
// one, whatever the limits.
func (p *problem) nearest() *problem {
	n := p.clone()
	clear(n.cost)
	for i := range n.rows {
		for _, by := range []float64{1, -1} {
			values := make([]float64, len(n.rows))
			values[i] = by
			n.addColumn(1, 0, inf, values)
		}
	}
	return n
}

// steepest is the problem of the direction, no longer than 1 in any column, in which
// the cost falls most and no limit is ever met.
func (p *problem) steepest() *problem {
	d := p.clone()
	unlimited := func(lower, upper []float64, most float64) {
		for i := range lower {
			below, above := math.IsInf(lower[i], -1), math.IsInf(upper[i], 1)
			if lower[i] = 0; below {
				lower[i] = -most
			}
			if upper[i] = 0; above {
				upper[i] = most
			}
		}
	}
	unlimited(d.rowLower, d.rowUpper, inf)
	unlimited(d.lower, d.upper, 1)
	return d
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-6*(1+math.Abs(b)) }

func allNear(a, b []float64) bool { return slices.EqualFunc(a, b, near) }
