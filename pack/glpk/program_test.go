//go:build cgo

package glpk

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// sparse are the entries of a row or column that are not 0.
func sparse(values []float64) (at []int32, value []float64) {
	for i, v := range values {
		if v != 0 {
			at, value = append(at, int32(i)), append(value, v)
		}
	}
	return at, value
}

// open makes a program of a problem.
func open(t testing.TB, p *problem) *Program {
	t.Helper()
	lp, err := Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(lp.Close)
	for j := range p.cost {
		err = errors.Join(err, lp.AddColumn(p.cost[j], p.lower[j], p.upper[j], nil, nil))
	}
	for i, row := range p.rows {
		at, value := sparse(row)
		err = errors.Join(err, lp.AddRow(p.rowLower[i], p.rowUpper[i], at, value))
	}
	if err != nil {
		t.Fatal(err)
	}
	return lp
}

// optimum solves a problem that has an optimum, which proves itself.
func (p *problem) optimum(t *testing.T) float64 {
	t.Helper()
	s, err := open(t, p).Solve(false)
	if err != nil || s.Status != Optimal {
		t.Fatalf("%v, %v; want optimal\n%+v", s.Status, err, p)
	}
	if err := p.certify(s); err != nil {
		t.Fatalf("%v\n%+v\n%+v", err, p, s)
	}
	return times(p.cost, s.X)
}

// prove proves that a solution is what its status says.
func (p *problem) prove(t *testing.T, s Solution) error {
	t.Helper()
	const hair = 1e-6
	if s.Status == Optimal {
		return p.certify(s)
	}
	if s.X != nil || s.RowDual != nil || s.Basis.Row != nil || s.Basis.Column != nil {
		return fmt.Errorf("%v with values", s.Status)
	}
	broken := p.nearest().optimum(t)
	switch s.Status {
	case Infeasible:
		if broken < hair {
			return errors.New("not infeasible")
		}
		return nil
	case Unbounded:
		if broken > hair || p.steepest().optimum(t) > -hair {
			return errors.New("not unbounded")
		}
		return nil
	}
	return fmt.Errorf("ended %v", s.Status)
}

// Optima, values and duals, each derived beside it.
func TestSolveKnown(t *testing.T) {
	tests := []struct {
		name    string
		problem *problem
		cost    float64
		x       []float64
		rowDual []float64
		reduced []float64
	}{{
		// Duals 1/3 and 1/2 price the three strips at 1, 5/6 and 1, none
		// above its cost, and the demand at 9/3 + 4/2 = 5; three strips of
		// three a and two of two b cost 5.
		name: "strips", problem: strips(9, 4),
		cost: 5, x: []float64{3, 0, 2},
		rowDual: []float64{1. / 3, 1. / 2}, reduced: []float64{0, 1. / 6, 0},
	}, {
		// x + y ≥ 2 is worth 1 a unit through x; y is 1 dearer than it need
		// be; the upper limit of the second row does not bind.
		name: "one row binds",
		problem: &problem{
			rowLower: []float64{2, -inf}, rowUpper: []float64{inf, 10}, rows: [][]float64{{1, 1}, {1, 3}},
			cost: []float64{1, 2}, lower: []float64{0, 0}, upper: []float64{inf, inf},
		},
		cost: 2, x: []float64{2, 0}, rowDual: []float64{1, 0}, reduced: []float64{0, 1},
	}, {
		// −3x − 2y with x + y ≤ 4, x ≤ 3: x at its limit, y fills the row.
		// A unit more of the row saves 2 (dual −2); one more of x's limit
		// saves 3 − 2 = 1 (reduced cost −1).
		name: "upper limits",
		problem: &problem{
			rowLower: []float64{-inf}, rowUpper: []float64{4}, rows: [][]float64{{1, 1}},
			cost: []float64{-3, -2}, lower: []float64{0, 0}, upper: []float64{3, inf},
		},
		cost: -11, x: []float64{3, 1}, rowDual: []float64{-2}, reduced: []float64{-1, 0},
	}, {
		// A free column and an equation: x = 5 − 2y, cost x + 3y = 5 + y,
		// so y goes to its lower limit −1.
		name: "free column",
		problem: &problem{
			rowLower: []float64{5}, rowUpper: []float64{5}, rows: [][]float64{{1, 2}},
			cost: []float64{1, 3}, lower: []float64{-inf, -1}, upper: []float64{inf, inf},
		},
		cost: 4, x: []float64{7, -1}, rowDual: []float64{1}, reduced: []float64{0, 1},
	}, {
		name: "nothing", problem: &problem{},
	}}
	for _, tt := range tests {
		for _, dual := range []bool{false, true} {
			t.Run(fmt.Sprintf("%s, dual %v", tt.name, dual), func(t *testing.T) {
				s, err := open(t, tt.problem).Solve(dual)
				if err != nil || s.Status != Optimal {
					t.Fatalf("%v, %v; want optimal", s.Status, err)
				}
				if cost := times(tt.problem.cost, s.X); !near(cost, tt.cost) || !allNear(s.X, tt.x) {
					t.Errorf("cost %v at %v; want %v at %v", cost, s.X, tt.cost, tt.x)
				}
				reduced := tt.problem.reduced(s.RowDual)
				if !allNear(s.RowDual, tt.rowDual) || !allNear(reduced, tt.reduced) {
					t.Errorf("duals %v, %v; want %v, %v", s.RowDual, reduced, tt.rowDual, tt.reduced)
				}
				if err := tt.problem.certify(s); err != nil {
					t.Error(err)
				}
			})
		}
	}
}

// change makes a random change to a problem and its program.
func change(rng *rand.Rand, p *problem, lp *Program) error {
	lower, upper := anyLimits(rng)
	m, n := len(p.rows), len(p.cost)
	switch what := rng.IntN(8); {
	case n == 0 || what == 0:
		cost, values := float64(rng.IntN(11)-5), anyValues(rng, m)
		p.addColumn(cost, lower, upper, values)
		at, value := sparse(values)
		return lp.AddColumn(cost, lower, upper, at, value)
	case m == 0 || what <= 2:
		values := anyValues(rng, n)
		p.addRow(lower, upper, values)
		at, value := sparse(values)
		return lp.AddRow(lower, upper, at, value)
	case what == 3:
		i := rng.IntN(m)
		p.rowLower[i], p.rowUpper[i] = lower, upper
		return lp.SetRow(i, lower, upper)
	case what == 4:
		j := rng.IntN(n)
		p.lower[j], p.upper[j] = lower, upper
		return lp.SetColumn(j, lower, upper)
	case what == 5:
		gone := some(rng, n)
		p.cost, p.lower, p.upper = without(p.cost, gone), without(p.lower, gone), without(p.upper, gone)
		for i := range p.rows {
			p.rows[i] = without(p.rows[i], gone)
		}
		return lp.DeleteColumns(gone)
	case what == 6:
		return lp.SetBasis(p.anyBasis(rng))
	}
	gone := some(rng, m)
	p.rowLower, p.rowUpper, p.rows = without(p.rowLower, gone), without(p.rowUpper, gone), without(p.rows, gone)
	return lp.DeleteRows(gone)
}

// anyBasis has all rows in it but one, perhaps, for which a column stands.
func (p *problem) anyBasis(rng *rand.Rand) Basis {
	b := Basis{make([]VariableStatus, len(p.rows)), make([]VariableStatus, len(p.cost))}
	for i := range b.Row {
		b.Row[i] = Basic
	}
	for j := range b.Column {
		b.Column[j] = VariableStatus(rng.IntN(int(Basic)))
	}
	if i, j := rng.IntN(len(b.Row)), rng.IntN(len(b.Column)); p.rows[i][j] != 0 {
		b.Row[i], b.Column[j] = VariableStatus(rng.IntN(int(Basic))), Basic
	}
	return b
}

// some are a few of the indices below n.
func some(rng *rand.Rand, n int) []int32 {
	var list []int32
	for i := range n {
		if rng.IntN(4) == 0 {
			list = append(list, int32(i))
		}
	}
	return list
}

func without[T any](list []T, gone []int32) []T {
	for _, i := range slices.Backward(gone) {
		list = slices.Delete(list, int(i), int(i)+1)
	}
	return list
}

// Through any changes, every answer of a program is proven.
func TestProgramThroughChanges(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 0))
	seen := map[Status]int{}
	for range 60 {
		p := anyProblem(rng)
		lp := open(t, p)
		for range 50 {
			if err := change(rng, p, lp); err != nil {
				t.Fatal(err)
			}
			if rng.IntN(3) == 0 {
				continue
			}
			s, err := lp.Solve(rng.IntN(2) == 0)
			if err == nil {
				err = p.prove(t, s)
			}
			if err != nil {
				t.Fatalf("%v\n%+v\n%+v", err, p, s)
			}
			if lp.Rows() != len(p.rows) || lp.Columns() != len(p.cost) {
				t.Fatalf("%d rows and %d columns, want %d and %d", lp.Rows(), lp.Columns(), len(p.rows), len(p.cost))
			}
			seen[s.Status]++
		}
	}
	for _, status := range []Status{Optimal, Infeasible, Unbounded} {
		if seen[status] < 100 {
			t.Errorf("only %d programs were %v", seen[status], status)
		}
	}
}

// A solve after a small change takes a fraction of the first.
func TestSolveGoesOn(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 0))
	p := covering(rng, 200)
	lp := open(t, p)
	solve := func() (iterations int, cost float64) {
		s, err := lp.Solve(false)
		if err == nil {
			err = p.certify(s)
		}
		if err != nil || s.Status != Optimal {
			t.Fatal(s.Status, err)
		}
		return s.Iterations, times(p.cost, s.X)
	}
	first, before := solve()
	for j := range 20 {
		cost, yield := coveringColumn(rng, j)
		p.addColumn(cost, 0, inf, yield)
		at, value := sparse(yield)
		if err := lp.AddColumn(cost, 0, inf, at, value); err != nil {
			t.Fatal(err)
		}
	}
	later, after := solve()
	if later == 0 || later*2 > first || after >= before {
		t.Errorf("%d iterations to %v, then %d to %v", first, before, later, after)
	}
	if again, _ := solve(); again != 0 {
		t.Errorf("%d iterations from its own optimum", again)
	}
	s, err := lp.Solve(false)
	if err != nil {
		t.Fatal(err)
	}
	other := open(t, p)
	if err := other.SetBasis(s.Basis); err != nil {
		t.Fatal(err)
	}
	if s, err := other.Solve(true); err != nil || s.Iterations != 0 {
		t.Errorf("%d iterations from the optimum of the same program, %v", s.Iterations, err)
	}
}

// calls are a call of each kind, all without effect on the optimum of
// strips(9, 4).
func calls(p *Program) map[string]error {
	_, err := p.Solve(false)
	return map[string]error{
		"Solve":         err,
		"AddRow":        p.AddRow(-inf, inf, []int32{0}, []float64{1}),
		"AddColumn":     p.AddColumn(1, 0, 0, []int32{0}, []float64{1}),
		"SetRow":        p.SetRow(0, 9, inf),
		"SetColumn":     p.SetColumn(0, 0, inf),
		"DeleteRows":    p.DeleteRows([]int32{0}),
		"DeleteColumns": p.DeleteColumns([]int32{0}),
		"SetBasis":      p.SetBasis(Basis{slices.Repeat([]VariableStatus{Basic}, p.Rows()), make([]VariableStatus, p.Columns())}),
	}
}

// solvesTo checks that a program of strips still has an optimum.
func solvesTo(t *testing.T, p *Program, want float64) {
	t.Helper()
	s, err := p.Solve(true)
	sum := 0.0
	for _, v := range s.X {
		sum += v
	}
	if err != nil || s.Status != Optimal || !near(sum, want) {
		t.Errorf("%v %v, %v; want %v", s.Status, sum, err, want)
	}
}

// Wrong arguments are refused, and change nothing.
func TestProgramRefuses(t *testing.T) {
	p := open(t, strips(9, 4))
	nan := math.NaN()
	for name, err := range map[string]error{
		"SetRow below":          p.SetRow(-1, 0, 1),
		"SetRow above":          p.SetRow(2, 0, 1),
		"SetRow crossed":        p.SetRow(0, 2, 1),
		"SetRow NaN":            p.SetRow(0, nan, 1),
		"SetRow +Inf":           p.SetRow(0, inf, inf),
		"SetColumn below":       p.SetColumn(-1, 0, 1),
		"SetColumn above":       p.SetColumn(3, 0, 1),
		"SetColumn crossed":     p.SetColumn(0, 2, 1),
		"SetColumn −Inf":        p.SetColumn(0, -inf, -inf),
		"AddRow below":          p.AddRow(0, 1, []int32{-1}, []float64{1}),
		"AddRow above":          p.AddRow(0, 1, []int32{3}, []float64{1}),
		"AddRow short":          p.AddRow(0, 1, []int32{0}, nil),
		"AddRow NaN":            p.AddRow(0, 1, []int32{0}, []float64{nan}),
		"AddRow crossed":        p.AddRow(1, 0, nil, nil),
		"AddColumn above":       p.AddColumn(1, 0, 1, []int32{2}, []float64{1}),
		"AddColumn long":        p.AddColumn(1, 0, 1, nil, []float64{1}),
		"AddColumn NaN cost":    p.AddColumn(nan, 0, 1, nil, nil),
		"AddColumn endless":     p.AddColumn(1, 0, 1, []int32{0}, []float64{inf}),
		"DeleteRows below":      p.DeleteRows([]int32{-1}),
		"DeleteRows above":      p.DeleteRows([]int32{1, 2}),
		"DeleteRows beyond all": p.DeleteRows([]int32{math.MaxInt32}),
		"DeleteColumns below":   p.DeleteColumns([]int32{-1}),
		"DeleteColumns above":   p.DeleteColumns([]int32{0, 3}),
		"SetBasis short":        p.SetBasis(Basis{make([]VariableStatus, 1), make([]VariableStatus, 3)}),
		"SetBasis long":         p.SetBasis(Basis{make([]VariableStatus, 2), make([]VariableStatus, 4)}),
	} {
		var shape *ShapeError
		if !errors.As(err, &shape) {
			t.Errorf("%s: %v; want a ShapeError", name, err)
		}
	}
	if p.Rows() != 2 || p.Columns() != 3 {
		t.Errorf("%d rows and %d columns, want 2 and 3", p.Rows(), p.Columns())
	}
	solvesTo(t, p, 5)
}

func TestProgramAfterClose(t *testing.T) {
	p, other := open(t, strips(9, 4)), open(t, strips(9, 4))
	p.Close()
	p.Close()
	for call, err := range calls(p) {
		if !errors.Is(err, ErrClosed) {
			t.Errorf("%s: %v; want %v", call, err, ErrClosed)
		}
	}
	solvesTo(t, other, 5)
}

// A solve from its last optimum, after the limit of a row has changed.
func BenchmarkSolve(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 0))
	lp := open(b, covering(rng, 200))
	iterations := 0
	for b.Loop() {
		if err := lp.SetRow(rng.IntN(coveringRows), float64(1+rng.IntN(60)), inf); err != nil {
			b.Fatal(err)
		}
		s, err := lp.Solve(true)
		if err != nil || s.Status != Optimal {
			b.Fatal(s.Status, err)
		}
		iterations += s.Iterations
	}
	b.ReportMetric(float64(iterations)/float64(b.N), "iterations/op")
}
