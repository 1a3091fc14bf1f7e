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
	lp := &program{m: s.m, demand: s.in.whole()}
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
	left := s.in.whole()
	for i := range runs {
		take(left, &runs[i].col, runs[i].count)
	}
	if !anyLeft(left) {
		s.offer(runs)
	}
	return nil
}
