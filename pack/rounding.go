package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// roundNodes is the number of nodes that rounding may take.
const roundNodes = 300

// round looks for a shorter plan of some layouts by GLPK's branch and bound.
// Finding none proves nothing: GLPK's search rests on floating point, and there
// are other layouts.
func (s *search) round(pool []column) error {
	lp := &program{demand: s.in.whole()}
	lp.addRows()
	lp.p.Start = append(lp.p.Start, 0)
	lp.addColumns(pool)
	lp.p.Integer = slices.Repeat([]bool{true}, len(pool))
	cut := float64(s.length) - 0.5
	sol, err := glpk.SolveMIP(s.ctx, &lp.p, glpk.Options{NodeLimit: roundNodes, CutOff: &cut})
	s.m.effort += int64(sol.Nodes+1) * (40_000 + 40*int64(len(lp.p.Index)))
	if err != nil || sol.X == nil {
		return err
	}
	var runs []run
	for j, v := range sol.X {
		if k := int(math.Round(v)); k > 0 {
			runs = append(runs, run{pool[j], k})
		}
	}
	if !anyLeft(leftBeside(s.in.whole(), runs)) {
		s.offer(runs)
	}
	return nil
}

// program is the master problem of some layouts, to be solved once. Its rows
// are the sizes.
type program struct {
	demand []int
	p      glpk.Problem
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
