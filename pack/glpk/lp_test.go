//go:build cgo

package glpk

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// methods are the ways to solve a problem; each must give the same optimum.
var methods = map[string]Options{
	"primal":   {},
	"dual":     {Dual: true},
	"scaled":   {Scale: true},
	"presolve": {Presolve: true},
	"all":      {Dual: true, Scale: true, Presolve: true},
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-6*(1+math.Abs(b)) }

func allNear(a, b []float64) bool { return slices.EqualFunc(a, b, near) }

// Optima, values and duals, each derived beside it.
func TestSolveLPKnown(t *testing.T) {
	tests := []struct {
		name        string
		problem     *Problem
		objective   float64
		x           []float64
		rowDual     []float64
		reducedCost []float64
	}{{
		// Duals 1/3 and 1/2 price the three strips at 1, 5/6 and 1, none
		// above its cost, and the demand at 9/3 + 4/2 = 5; three strips of
		// three a and two of two b cost 5.
		name: "strips", problem: strips(9, 4),
		objective: 5, x: []float64{3, 0, 2},
		rowDual: []float64{1. / 3, 1. / 2}, reducedCost: []float64{0, 1. / 6, 0},
	}, {
		// x + y ≥ 2 is worth 1 a unit through x; y is 1 dearer than it need
		// be; the upper limit of the second row does not bind.
		name: "one row binds",
		problem: (&Problem{
			RowLower: []float64{2, -inf}, RowUpper: []float64{inf, 10},
			Cost: []float64{1, 2}, Lower: []float64{0, 0}, Upper: []float64{inf, inf},
		}).matrix([]float64{1, 1}, []float64{1, 3}),
		objective: 2, x: []float64{2, 0}, rowDual: []float64{1, 0}, reducedCost: []float64{0, 1},
	}, {
		// −3x − 2y with x + y ≤ 4, x ≤ 3: x at its limit, y fills the row.
		// A unit more of the row saves 2 (dual −2); one more of x's limit
		// saves 3 − 2 = 1 (reduced cost −1).
		name: "upper limits",
		problem: (&Problem{
			RowLower: []float64{-inf}, RowUpper: []float64{4},
			Cost: []float64{-3, -2}, Lower: []float64{0, 0}, Upper: []float64{3, inf},
		}).matrix([]float64{1, 1}),
		objective: -11, x: []float64{3, 1}, rowDual: []float64{-2}, reducedCost: []float64{-1, 0},
	}, {
		// A free column and an equation: x = 5 − 2y, cost x + 3y = 5 + y,
		// so y goes to its lower limit −1.
		name: "free column",
		problem: (&Problem{
			RowLower: []float64{5}, RowUpper: []float64{5},
			Cost: []float64{1, 3}, Lower: []float64{-inf, -1}, Upper: []float64{inf, inf},
		}).matrix([]float64{1, 2}),
		objective: 4, x: []float64{7, -1}, rowDual: []float64{1}, reducedCost: []float64{0, 1},
	}, {
		name: "nothing", problem: &Problem{},
		x: []float64{}, rowDual: []float64{}, reducedCost: []float64{},
	}}
	for _, tt := range tests {
		for method, o := range methods {
			t.Run(tt.name+"/"+method, func(t *testing.T) {
				s, err := SolveLP(context.Background(), tt.problem, nil, o)
				if err != nil || s.Status != Optimal {
					t.Fatalf("%v, %v; want optimal", s.Status, err)
				}
				if !near(s.Objective, tt.objective) || !allNear(s.X, tt.x) {
					t.Errorf("objective %v at %v; want %v at %v", s.Objective, s.X, tt.objective, tt.x)
				}
				if !allNear(s.RowDual, tt.rowDual) || !allNear(s.ReducedCost, tt.reducedCost) {
					t.Errorf("duals %v, %v; want %v, %v", s.RowDual, s.ReducedCost, tt.rowDual, tt.reducedCost)
				}
			})
		}
	}
}

// Whatever the problem: an optimum proves itself by its duals, and all
// methods agree on the status.
func TestSolveLPCertificates(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 0))
	seen := map[Status]int{}
	for trial := range 3000 {
		p := anyProblem(rng)
		first, err := SolveLP(context.Background(), p, nil, Options{})
		if err != nil {
			t.Fatalf("trial %d: %v\n%+v", trial, err, p)
		}
		seen[first.Status]++
		for method, o := range methods {
			s, err := SolveLP(context.Background(), p, nil, o)
			if err != nil || s.Status != first.Status {
				t.Fatalf("trial %d, %s: %v, %v; want %v\n%+v", trial, method, s.Status, err, first.Status, p)
			}
			if s.Status != Optimal {
				if s.X != nil || s.RowDual != nil || s.Basis.Row != nil {
					t.Fatalf("trial %d, %s: %v with values", trial, method, s.Status)
				}
				continue
			}
			if err := certify(p, s); err != nil {
				t.Fatalf("trial %d, %s: %v\n%+v\n%+v", trial, method, err, p, s)
			}
		}
	}
	for _, status := range []Status{Optimal, Infeasible, Unbounded} {
		if seen[status] < 100 {
			t.Errorf("only %d problems were %v", seen[status], status)
		}
	}
}

// certify proves that s is optimal: x keeps the limits, the reduced costs
// follow from the row duals, and the duals bound every solution from below by
// the objective (a dual > 0 counts at the lower limit, one < 0 at the upper).
func certify(p *Problem, s Solution) error {
	const tolerance = 1e-6
	if !p.feasible(s.X, tolerance) {
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
		count(dual, p.RowLower[i], p.RowUpper[i])
	}
	for j, got := range s.ReducedCost {
		want := p.Cost[j]
		for k := p.Start[j]; k < p.Start[j+1]; k++ {
			want -= p.Value[k] * s.RowDual[p.Index[k]]
		}
		if !near(got, want) {
			return fmt.Errorf("reduced cost %d is %v, not %v", j, got, want)
		}
		count(got, p.Lower[j], p.Upper[j])
	}
	if !near(s.Objective, p.costOf(s.X)) || !near(s.Objective, bound) {
		return fmt.Errorf("objective %v, cost %v, dual bound %v", s.Objective, p.costOf(s.X), bound)
	}
	return nil
}

func TestSolveLPContradictingLimits(t *testing.T) {
	p := strips(9, 4)
	p.RowUpper[1] = 3
	q := strips(9, 4)
	q.Lower[0], q.Upper[0] = 2, 1
	for _, p := range []*Problem{p, q} {
		s, err := SolveLP(context.Background(), p, nil, Options{})
		if err != nil || s.Status != Infeasible {
			t.Errorf("%v, %v; want infeasible", s.Status, err)
		}
	}
}

func TestWarmStartTakesFewerIterations(t *testing.T) {
	whole := covering(30, 220, 1)
	part := whole.firstColumns(200)
	before, err := SolveLP(context.Background(), part, nil, Options{})
	if err != nil || before.Status != Optimal {
		t.Fatal(before.Status, err)
	}
	start := before.Basis
	start.Column = append(slices.Clone(start.Column), make([]VariableStatus, 20)...)
	given := Basis{slices.Clone(start.Row), slices.Clone(start.Column)}
	warm, err := SolveLP(context.Background(), whole, &start, Options{})
	if err != nil {
		t.Fatal(err)
	}
	cold, err := SolveLP(context.Background(), whole, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if warm.Iterations*2 > cold.Iterations || !near(warm.Objective, cold.Objective) {
		t.Errorf("warm: %d iterations to %v; cold: %d to %v",
			warm.Iterations, warm.Objective, cold.Iterations, cold.Objective)
	}
	if cold.Objective >= before.Objective {
		t.Error("the new columns gain nothing: choose another seed")
	}
	if !reflect.DeepEqual(start, given) {
		t.Error("the solve changed the basis it was given")
	}
	again, err := SolveLP(context.Background(), whole, &warm.Basis, Options{})
	if err != nil || again.Iterations != 0 {
		t.Errorf("from its own optimum: %d iterations, %v", again.Iterations, err)
	}
}

// A basis that is none must not harm the answer.
func TestUselessBasis(t *testing.T) {
	p := strips(9, 4)
	p.appendColumn(1, []float64{3, 0}) // twice the first column
	row := func(s VariableStatus) []VariableStatus { return slices.Repeat([]VariableStatus{s}, 2) }
	for name, basis := range map[string]Basis{
		"nothing basic":    {row(NonBasicLower), make([]VariableStatus, 4)},
		"all basic":        {row(Basic), slices.Repeat([]VariableStatus{Basic}, 4)},
		"singular":         {row(NonBasicLower), []VariableStatus{Basic, NonBasicLower, NonBasicLower, Basic}},
		"at absent limits": {row(Basic), []VariableStatus{NonBasicUpper, NonBasicFree, NonBasicFixed, NonBasicUpper}},
	} {
		s, err := SolveLP(context.Background(), p, &basis, Options{})
		if err != nil || s.Status != Optimal || !near(s.Objective, 5) {
			t.Errorf("%s: %v %v, %v; want optimal 5", name, s.Status, s.Objective, err)
		}
	}
}

func TestIterationLimit(t *testing.T) {
	p := covering(30, 200, 1)
	s, err := SolveLP(context.Background(), p, nil, Options{IterationLimit: 3})
	if err != nil || s.Status != IterationLimit || s.Iterations != 3 || len(s.X) != 200 {
		t.Fatalf("%v after %d iterations, %d values, %v", s.Status, s.Iterations, len(s.X), err)
	}
	rest, err := SolveLP(context.Background(), p, &s.Basis, Options{})
	if err != nil || rest.Status != Optimal {
		t.Errorf("going on from there: %v, %v", rest.Status, err)
	}
}

func BenchmarkSolveLP(b *testing.B) {
	p := covering(30, 200, 1)
	optimum, err := SolveLP(context.Background(), p, nil, Options{})
	if err != nil {
		b.Fatal(err)
	}
	cancellable, cancel := context.WithCancel(context.Background())
	defer cancel()
	for _, c := range []struct {
		name  string
		ctx   context.Context
		start *Basis
		o     Options
	}{
		{"cold primal", context.Background(), nil, Options{}},
		{"cold dual", context.Background(), nil, Options{Dual: true}},
		{"cold dual, cancellable", cancellable, nil, Options{Dual: true}},
		{"at its optimum", context.Background(), &optimum.Basis, Options{}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			iterations := 0
			for b.Loop() {
				s, err := SolveLP(c.ctx, p, c.start, c.o)
				if err != nil || s.Status != Optimal {
					b.Fatal(s.Status, err)
				}
				iterations = s.Iterations
			}
			b.ReportMetric(float64(iterations), "iterations/op")
		})
	}
}
