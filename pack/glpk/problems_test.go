//go:build cgo

package glpk

import "math/rand/v2"

// covering is a cutting problem like those that package pack makes: demands
// of whole pieces, columns of heights and yields, four or fewer pieces each.
func covering(rows, columns int, seed uint64) *Problem {
	rng := rand.New(rand.NewPCG(seed, 0))
	p := &Problem{Start: []int32{0}}
	for range rows {
		p.RowLower = append(p.RowLower, float64(1+rng.IntN(60)))
		p.RowUpper = append(p.RowUpper, inf)
	}
	for j := range columns {
		yield := make([]float64, rows)
		yield[j%rows] = float64(1 + rng.IntN(9))
		for range 3 {
			yield[rng.IntN(rows)] = float64(1 + rng.IntN(9))
		}
		p.appendColumn(float64(40+rng.IntN(300)), yield)
	}
	return p
}

func (p *Problem) appendColumn(cost float64, yield []float64) {
	p.Cost = append(p.Cost, cost)
	p.Lower = append(p.Lower, 0)
	p.Upper = append(p.Upper, inf)
	p.Integer = append(p.Integer, true)
	for i, v := range yield {
		if v != 0 {
			p.Index = append(p.Index, int32(i))
			p.Value = append(p.Value, v)
		}
	}
	p.Start = append(p.Start, int32(len(p.Index)))
}

// firstColumns is the problem with its first n columns only.
func (p *Problem) firstColumns(n int) *Problem {
	end := p.Start[n]
	return &Problem{
		RowLower: p.RowLower, RowUpper: p.RowUpper,
		Cost: p.Cost[:n], Lower: p.Lower[:n], Upper: p.Upper[:n], Integer: p.Integer[:n],
		Start: p.Start[:n+1], Index: p.Index[:end], Value: p.Value[:end],
	}
}

// anyProblem draws a small problem with every kind of limit.
func anyProblem(rng *rand.Rand) *Problem {
	m, n := 1+rng.IntN(5), 1+rng.IntN(6)
	limits := func() (lower, upper float64) {
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
	p := &Problem{}
	for range m {
		lower, upper := limits()
		p.RowLower, p.RowUpper = append(p.RowLower, lower), append(p.RowUpper, upper)
	}
	for range n {
		lower, upper := limits()
		p.Lower, p.Upper = append(p.Lower, lower), append(p.Upper, upper)
		p.Cost = append(p.Cost, float64(rng.IntN(11)-5))
	}
	rows := make([][]float64, m)
	for i := range rows {
		rows[i] = make([]float64, n)
		for j := range rows[i] {
			if rng.IntN(3) > 0 {
				rows[i][j] = float64(rng.IntN(9) - 4)
			}
		}
	}
	return p.matrix(rows...)
}

// rowSums is A x.
func (p *Problem) rowSums(x []float64) []float64 {
	sums := make([]float64, len(p.RowLower))
	for j, v := range x {
		for k := p.Start[j]; k < p.Start[j+1]; k++ {
			sums[p.Index[k]] += p.Value[k] * v
		}
	}
	return sums
}

// feasible reports whether x keeps all limits, give or take tolerance.
func (p *Problem) feasible(x []float64, tolerance float64) bool {
	for j, v := range x {
		if v < p.Lower[j]-tolerance || v > p.Upper[j]+tolerance {
			return false
		}
	}
	for i, sum := range p.rowSums(x) {
		if sum < p.RowLower[i]-tolerance || sum > p.RowUpper[i]+tolerance {
			return false
		}
	}
	return true
}

func (p *Problem) costOf(x []float64) float64 {
	sum := 0.0
	for j, v := range x {
		sum += p.Cost[j] * v
	}
	return sum
}
