//go:build cgo

package glpk

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

func TestSolveMIPKnown(t *testing.T) {
	// 10 of a and 5 of b. Six strips do: three of three a, one of each, two
	// of two b. Five do not: the duals 1/3 and 1/2 ask for 35/6.
	p := strips(10, 5)
	for name, o := range map[string]Options{
		"plain": {}, "cuts": {Cuts: true}, "dual": {Dual: true}, "presolve": {Presolve: true}, "scale": {Scale: true},
	} {
		s, err := SolveMIP(context.Background(), p, o)
		if err != nil || s.Status != Optimal || s.Objective != 6 || s.Bound != 6 || !p.feasible(s.X, 0) {
			t.Errorf("%s: %+v, %v; want optimal at 6", name, s, err)
		}
	}
	p.Integer = nil
	s, err := SolveMIP(context.Background(), p, Options{})
	if err != nil || !near(s.Objective, 35./6) {
		t.Errorf("nothing whole: %v, %v; want 35/6", s.Objective, err)
	}
	p.Integer = []bool{false, true, true} // 8/3 of the first, 2 of the second
	s, err = SolveMIP(context.Background(), p, Options{})
	if want := bruteMixed(); err != nil || !near(s.Objective, want) {
		t.Errorf("the first not whole: %v, %v; want %v", s.Objective, err, want)
	}
}

// bruteMixed is the least of (10 − b)/3 + b + ⌈(5 − b)/2⌉ over whole b.
func bruteMixed() float64 {
	best := inf
	for b := range 6 {
		best = min(best, float64(10-b)/3+float64(b)+math.Ceil(float64(5-b)/2))
	}
	return best
}

// wholePoints calls visit with every whole point of the columns' limits.
func wholePoints(p *Problem, visit func(x []float64)) {
	x := make([]float64, len(p.Cost))
	var fill func(j int)
	fill = func(j int) {
		if j == len(x) {
			visit(x)
			return
		}
		for x[j] = p.Lower[j]; x[j] <= p.Upper[j]; x[j]++ {
			fill(j + 1)
		}
	}
	fill(0)
}

// Against trying all points: with and without a cut-off, every option.
func TestSolveMIPBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 0))
	seen := map[Status]int{}
	for trial := range 600 {
		p := anyProblem(rng)
		for j := range p.Cost { // limits that can be tried through
			p.Lower[j] = float64(rng.IntN(5) - 3)
			p.Upper[j] = p.Lower[j] + float64(rng.IntN(4))
		}
		p.Integer = make([]bool, len(p.Cost))
		for j := range p.Integer {
			p.Integer[j] = true
		}
		best := inf
		wholePoints(p, func(x []float64) {
			if p.feasible(x, 0) {
				best = min(best, p.costOf(x))
			}
		})
		o := Options{Cuts: rng.IntN(2) == 0, Dual: rng.IntN(2) == 0, Presolve: rng.IntN(3) == 0}
		cutOff := float64(rng.IntN(31) - 20)
		wantBound := inf
		if rng.IntN(2) == 0 {
			o.CutOff = &cutOff
			wantBound = cutOff
		}
		s, err := SolveMIP(context.Background(), p, o)
		if err != nil {
			t.Fatalf("trial %d: %v", trial, err)
		}
		want := Optimal
		if best >= wantBound {
			want = Infeasible
		} else {
			wantBound = best
		}
		seen[want]++
		if s.Status != want || s.Bound != wantBound {
			t.Fatalf("trial %d: %v, bound %v; want %v, %v\n%+v %+v", trial, s.Status, s.Bound, want, wantBound, p, o)
		}
		if want == Optimal && (s.Objective != best || !p.feasible(s.X, 0) || p.costOf(s.X) != best) {
			t.Fatalf("trial %d: %v at %v; want %v\n%+v", trial, s.Objective, s.X, best, p)
		}
	}
	if seen[Optimal] < 100 || seen[Infeasible] < 100 {
		t.Errorf("drawn: %v", seen)
	}
}

func TestSolveMIPNoSolution(t *testing.T) {
	between := (&Problem{ // 2x = 1
		RowLower: []float64{1}, RowUpper: []float64{1}, Cost: []float64{0},
		Lower: []float64{-9}, Upper: []float64{9}, Integer: []bool{true},
	}).matrix([]float64{2})
	narrow := &Problem{ // 0.2 ≤ x ≤ 0.8
		Cost: []float64{1}, Lower: []float64{0.2}, Upper: []float64{0.8}, Integer: []bool{true}, Start: []int32{0, 0},
	}
	falling := &Problem{
		Cost: []float64{-1}, Lower: []float64{0}, Upper: []float64{inf}, Integer: []bool{true}, Start: []int32{0, 0},
	}
	for _, presolve := range []bool{false, true} {
		o := Options{Presolve: presolve}
		for _, c := range []struct {
			p    *Problem
			want Status
		}{{between, Infeasible}, {narrow, Infeasible}, {falling, Unbounded}} {
			s, err := SolveMIP(context.Background(), c.p, o)
			if err != nil || s.Status != c.want || s.X != nil {
				t.Errorf("presolve %v: %+v, %v; want %v", presolve, s, err, c.want)
			}
		}
	}
}

// A search cut short says what it holds and what it has proven, and says the
// same each time.
func TestNodeLimit(t *testing.T) {
	p := covering(12, 60, 1)
	whole, err := SolveMIP(context.Background(), p, Options{NodeLimit: 200_000})
	if err != nil || whole.Status != Optimal {
		t.Fatal(whole.Status, err)
	}
	if whole.Nodes < 100 {
		t.Fatalf("only %d nodes: choose a harder problem", whole.Nodes)
	}
	seen := map[Status]bool{}
	for _, limit := range []int{1, whole.Nodes / 8, whole.Nodes / 2, whole.Nodes - 1} {
		s, err := SolveMIP(context.Background(), p, Options{NodeLimit: limit})
		if err != nil || s.Nodes != limit {
			t.Fatalf("limit %d: %d nodes, %v", limit, s.Nodes, err)
		}
		seen[s.Status] = true
		if s.Bound > whole.Objective {
			t.Errorf("limit %d: bound %v above the optimum %v", limit, s.Bound, whole.Objective)
		}
		if s.Status == Feasible && (s.Objective < whole.Objective || !p.feasible(s.X, 1e-6)) {
			t.Errorf("limit %d: a false solution of %v", limit, s.Objective)
		}
		again, err := SolveMIP(context.Background(), p, Options{NodeLimit: limit})
		if err != nil || !reflect.DeepEqual(s, again) {
			t.Errorf("limit %d: another answer the second time", limit)
		}
	}
	if !seen[Feasible] || !seen[NodeLimit] {
		t.Errorf("statuses seen: %v", seen)
	}
}

// A cut-off saves work, or it would not be worth having.
func TestCutOffPrunes(t *testing.T) {
	p := covering(12, 60, 1)
	whole, err := SolveMIP(context.Background(), p, Options{})
	if err != nil {
		t.Fatal(err)
	}
	s, err := SolveMIP(context.Background(), p, Options{CutOff: &whole.Objective})
	if err != nil || s.Status != Infeasible || s.Bound != whole.Objective || s.Nodes >= whole.Nodes {
		t.Errorf("%v, bound %v, %d nodes of %d, %v", s.Status, s.Bound, s.Nodes, whole.Nodes, err)
	}
	above := whole.Objective + 1
	s, err = SolveMIP(context.Background(), p, Options{CutOff: &above})
	if err != nil || s.Status != Optimal || s.Objective != whole.Objective {
		t.Errorf("%v %v, %v; want the optimum", s.Status, s.Objective, err)
	}
}
