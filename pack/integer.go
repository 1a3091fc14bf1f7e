package pack

import (
	"context"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// rounded looks for whole strips of given layouts that cover a node's demand
// within its limits, no longer than most in all, by GLPK's branch and bound
// over so many nodes at most. Finding none proves nothing: GLPK's search
// rests on floating point.
func (m *master) rounded(ctx context.Context, nd *node, cols []column, most, nodes int) ([]run, error) {
	lp := &program{m: m, nd: nd}
	lp.addRows()
	lp.p.Start = append(lp.p.Start, 0)
	lp.addPool(cols)
	lp.p.Integer = slices.Repeat([]bool{true}, len(cols))
	cut := float64(most) + 0.5
	sol, err := glpk.SolveMIP(ctx, &lp.p, glpk.Options{NodeLimit: nodes, CutOff: &cut})
	m.effort += int64(sol.Nodes+1) * (40_000 + 40*int64(len(lp.p.Index)))
	if err != nil || sol.X == nil {
		return nil, err
	}
	return wholeRuns(cols, sol.X), nil
}

// wholeRuns are the layouts of a solution, rounded to whole strips.
func wholeRuns(cols []column, x []float64) []run {
	var runs []run
	for j, v := range x {
		if k := int(math.Round(v)); k > 0 {
			runs = append(runs, run{cols[j], k})
		}
	}
	return runs
}

// decision is an exact branch and bound over the numbers of strips of given
// layouts. Its relaxations are solved in floating point, but a branch is
// closed only by the whole prices that they suggest.
type decision struct {
	m     *master
	nd    *node
	cols  []column
	t     int // longest plan asked for
	basis *glpk.Basis
}

// box bounds the number of strips of each layout.
type box struct{ lo, hi []int }

// decide answers whether whole strips of the layouts make a plan no longer
// than t, within so many branches at most.
func (m *master) decide(ctx context.Context, nd *node, cols []column, t, branches int) ([]run, verdict, error) {
	first := m.penalty
	defer func() { m.penalty = first }()
	d := &decision{m: m, nd: nd, cols: cols, t: t}
	stack := []box{d.whole()}
	answer := no
	for len(stack) > 0 {
		b := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if branches--; branches < 0 || ctx.Err() != nil {
			return nil, unknown, nil
		}
		x, v, err := d.relax(ctx, b)
		if err != nil {
			return nil, unknown, err
		}
		if v == no {
			continue
		}
		j := mostFractional(x)
		if j >= 0 {
			down, up := b.split(j, x[j])
			stack = append(stack, down, up)
			continue
		}
		if runs := wholeRuns(cols, x); d.covers(runs) {
			return runs, yes, nil
		}
		answer = unknown // whole only to the tolerance of floating point
	}
	return nil, answer, nil
}

// whole is the box of all numbers of strips that can be of use.
func (d *decision) whole() box {
	b := box{make([]int, len(d.cols)), make([]int, len(d.cols))}
	for j := range d.cols {
		b.hi[j] = d.t / d.cols[j].height
	}
	return b
}

// split divides a box at a fractional number of strips.
func (b box) split(j int, x float64) (down, up box) {
	floor := int(math.Floor(x))
	down = box{b.lo, slices.Clone(b.hi)}
	up = box{slices.Clone(b.lo), b.hi}
	down.hi[j], up.lo[j] = floor, floor+1
	return down, up
}

// relax solves the relaxation in a box. Its verdict is no if the exact bound
// is above the target, unknown otherwise.
func (d *decision) relax(ctx context.Context, b box) ([]float64, verdict, error) {
	for raised := 0; ; raised++ {
		lp := d.m.programOf(d.nd, d.cols)
		for j := range d.cols {
			lp.p.Lower[lp.slacks()+j] = float64(b.lo[j])
			lp.p.Upper[lp.slacks()+j] = float64(b.hi[j])
		}
		sol, err := glpk.SolveLP(ctx, &lp.p, d.basis, glpk.Options{Dual: true})
		d.m.effort += lp.effort(sol.Iterations)
		if err != nil || sol.Status != glpk.Optimal {
			return nil, unknown, err
		}
		d.basis = &sol.Basis
		u := lp.exactDuals(sol.RowDual)
		for j := range d.cols {
			if r := lp.reduced(u, &d.cols[j]); r < 0 {
				u.add(r, int64(b.hi[j]))
			} else {
				u.add(r, int64(b.lo[j]))
			}
		}
		if u.bound() >= below(d.t) {
			return nil, no, nil
		}
		if !short(sol.X[:lp.slacks()]) || raised == penaltySteps {
			return sol.X[lp.slacks():], unknown, nil
		}
		d.m.penalty *= penaltyFactor
	}
}

// mostFractional is the variable farthest from whole, or -1.
func mostFractional(x []float64) int {
	best, score := -1, wholeEnough
	for j, v := range x {
		if f := fraction(v); f > score {
			best, score = j, f
		}
	}
	return best
}

// covers reports whether strips cover the demand, keep the limits, and are no
// longer than asked for.
func (d *decision) covers(runs []run) bool {
	left := slices.Clone(d.nd.demand)
	counts := make([]int, len(d.nd.limits))
	for i := range runs {
		take(left, &runs[i].col, runs[i].count)
		for r := range counts {
			counts[r] += d.m.rows[r].coef(&runs[i].col) * runs[i].count
		}
	}
	for r, l := range d.nd.limits {
		if counts[r] < l.lo || counts[r] > l.hi {
			return false
		}
	}
	length, _ := total(runs)
	return !anyLeft(left) && length <= d.t
}
