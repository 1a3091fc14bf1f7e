//go:build cgo

package glpk

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
)

// twin is a kept program and the same problem by rows for SolveLP.
type twin struct {
	kept    *Program
	problem *Problem
	rows    [][]float64
}

func openTwin(t *testing.T) *twin {
	t.Helper()
	kept, err := Open()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(kept.Close)
	return &twin{kept: kept, problem: &Problem{}}
}

// sparse are the entries of a row or column that are not 0.
func sparse(values []float64) (at []int32, value []float64) {
	for i, v := range values {
		if v != 0 {
			at, value = append(at, int32(i)), append(value, v)
		}
	}
	return at, value
}

func (w *twin) addRow(lower, upper float64, values []float64) error {
	p := w.problem
	p.RowLower, p.RowUpper = append(p.RowLower, lower), append(p.RowUpper, upper)
	w.rows = append(w.rows, values)
	at, value := sparse(values)
	return w.kept.AddRow(lower, upper, at, value)
}

func (w *twin) addColumn(cost, lower, upper float64, values []float64) error {
	p := w.problem
	p.Cost, p.Lower, p.Upper = append(p.Cost, cost), append(p.Lower, lower), append(p.Upper, upper)
	for i := range w.rows {
		w.rows[i] = append(w.rows[i], values[i])
	}
	at, value := sparse(values)
	return w.kept.AddColumn(cost, lower, upper, at, value)
}

func (w *twin) deleteRows(rows []int32) error {
	for _, i := range slices.Backward(rows) {
		p := w.problem
		p.RowLower, p.RowUpper = slices.Delete(p.RowLower, int(i), int(i)+1), slices.Delete(p.RowUpper, int(i), int(i)+1)
		w.rows = slices.Delete(w.rows, int(i), int(i)+1)
	}
	return w.kept.DeleteRows(rows)
}

func (w *twin) deleteColumns(columns []int32) error {
	for _, c := range slices.Backward(columns) {
		p, j := w.problem, int(c)
		p.Cost = slices.Delete(p.Cost, j, j+1)
		p.Lower, p.Upper = slices.Delete(p.Lower, j, j+1), slices.Delete(p.Upper, j, j+1)
		for i := range w.rows {
			w.rows[i] = slices.Delete(w.rows[i], j, j+1)
		}
	}
	return w.kept.DeleteColumns(columns)
}

// agree solves both and checks that the answers are the same, and that an
// optimum proves itself.
func (w *twin) agree(t *testing.T, dual bool) Status {
	t.Helper()
	p := *w.problem
	p.Index, p.Value = nil, nil
	p.matrix(w.rows...)
	want, err := SolveLP(context.Background(), &p, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	got, err := w.kept.Solve(dual)
	if err != nil || got.Status != want.Status {
		t.Fatalf("%v, %v; want %v\n%+v", got.Status, err, want.Status, p)
	}
	if got.Status != Optimal {
		if got.X != nil || got.RowDual != nil || got.Basis.Row != nil {
			t.Fatalf("%v with values", got.Status)
		}
		return got.Status
	}
	got.Objective = p.costOf(got.X)
	for j, reduced := range p.Cost {
		for k := p.Start[j]; k < p.Start[j+1]; k++ {
			reduced -= p.Value[k] * got.RowDual[p.Index[k]]
		}
		got.ReducedCost = append(got.ReducedCost, reduced)
	}
	if err := certify(&p, got); err != nil {
		t.Fatalf("%v\n%+v\n%+v", err, p, got)
	}
	if !near(got.Objective, want.Objective) {
		t.Fatalf("objective %v, want %v\n%+v", got.Objective, want.Objective, p)
	}
	if len(got.Basis.Row) != len(w.rows) || w.kept.Rows() != len(w.rows) || w.kept.Columns() != len(p.Cost) {
		t.Fatalf("%d rows and %d columns, want %d and %d", w.kept.Rows(), w.kept.Columns(), len(w.rows), len(p.Cost))
	}
	return got.Status
}

// change makes a random change.
func (w *twin) change(rng *rand.Rand) error {
	any := anyProblem(rng) // a source of limits
	lower, upper := any.RowLower[0], any.RowUpper[0]
	values := func(n int) []float64 {
		list := make([]float64, n)
		for i := range list {
			if rng.IntN(3) > 0 {
				list[i] = float64(rng.IntN(9) - 4)
			}
		}
		return list
	}
	m, n := len(w.rows), len(w.problem.Cost)
	switch what := rng.IntN(7); {
	case n == 0 || what == 0:
		return w.addColumn(float64(rng.IntN(11)-5), lower, upper, values(m))
	case m == 0 || what <= 2:
		return w.addRow(lower, upper, values(n))
	case what == 3:
		i := rng.IntN(m)
		w.problem.RowLower[i], w.problem.RowUpper[i] = lower, upper
		return w.kept.SetRow(i, lower, upper)
	case what == 4:
		j := rng.IntN(n)
		w.problem.Lower[j], w.problem.Upper[j] = lower, upper
		return w.kept.SetColumn(j, lower, upper)
	case what == 5:
		return w.deleteColumns(some(rng, n))
	}
	return w.deleteRows(some(rng, m))
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

// Through any changes, a kept program has the answers of SolveLP.
func TestProgramAgreesWithSolveLP(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 0))
	seen := map[Status]int{}
	for range 60 {
		w := openTwin(t)
		for range 50 {
			if err := w.change(rng); err != nil {
				t.Fatal(err)
			}
			if rng.IntN(3) > 0 {
				seen[w.agree(t, rng.IntN(2) == 0)]++
			}
		}
	}
	for _, status := range []Status{Optimal, Infeasible, Unbounded} {
		if seen[status] < 100 {
			t.Errorf("only %d programs were %v", seen[status], status)
		}
	}
}

// keptStrips is strips(9, 4) as a kept program; its optimum is 5.
func keptStrips(t *testing.T) *Program {
	t.Helper()
	p, err := Open()
	for _, demand := range []float64{9, 4} {
		if err == nil {
			err = p.AddRow(demand, inf, nil, nil)
		}
	}
	for _, yield := range [][]float64{{3, 0}, {1, 1}, {0, 2}} {
		if err == nil {
			at, value := sparse(yield)
			err = p.AddColumn(1, 0, inf, at, value)
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

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

// calls are a call of each kind, all without effect on the optimum of
// keptStrips.
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
	}
}

// Wrong arguments are refused, and change nothing.
func TestProgramRefuses(t *testing.T) {
	p := keptStrips(t)
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

// What GLPK itself finds wrong frees the program and all others of the thread,
// and every later call says so. New programs are as good as ever.
func TestProgramAfterFault(t *testing.T) {
	faults := map[string]func(p *Program) error{
		"row with a column twice": func(p *Program) error { return p.AddRow(0, 1, []int32{0, 0}, []float64{1, 1}) },
		"column with a row twice": func(p *Program) error { return p.AddColumn(1, 0, 1, []int32{1, 1}, []float64{1, 1}) },
		"row deleted twice":       func(p *Program) error { return p.DeleteRows([]int32{1, 1}) },
		"column deleted twice":    func(p *Program) error { return p.DeleteColumns([]int32{1, 1}) },
	}
	for name, fault := range faults {
		t.Run(name, func(t *testing.T) {
			p, other := keptStrips(t), keptStrips(t)
			var first *FaultError
			if err := fault(p); !errors.As(err, &first) || first.Text == "" {
				t.Fatalf("%v; want a fault", err)
			}
			if first.Freed {
				t.Errorf("%v is said to come from elsewhere", first)
			}
			for _, dead := range []*Program{p, other} {
				for call, err := range calls(dead) {
					var later *FaultError
					if !errors.As(err, &later) || later.Text == "" || later.Freed != (dead == other) {
						t.Errorf("%s afterwards: %+v; want a fault, from elsewhere: %v", call, err, dead == other)
					}
				}
			}
			solvesTo(t, keptStrips(t), 5)
		})
	}
}

// A solve of another problem leaves a program alone, unless it is stopped: that
// frees what GLPK holds for the thread.
func TestProgramBesideSolveLP(t *testing.T) {
	p := keptStrips(t)
	if s, err := SolveLP(context.Background(), strips(9, 4), nil, Options{}); err != nil || s.Objective != 5 {
		t.Fatal(s.Objective, err)
	}
	solvesTo(t, p, 5)
	if _, err := unchecked(faults()["row twice"], false); err == nil {
		t.Fatal("no fault")
	}
	var fault *FaultError
	if _, err := p.Solve(true); !errors.As(err, &fault) {
		t.Errorf("after a fault beside it: %v; want a fault", err)
	}
}

func TestProgramOnAnotherThread(t *testing.T) {
	p := keptStrips(t)
	var wait sync.WaitGroup
	wait.Go(func() { // this goroutine is tied to its thread, so that one has another
		for call, err := range calls(p) {
			var fault *FaultError
			if !errors.As(err, &fault) {
				t.Errorf("%s: %v; want a fault", call, err)
			}
		}
	})
	wait.Wait()
	if p.Rows() != 2 || p.Columns() != 3 {
		t.Errorf("%d rows and %d columns, want 2 and 3", p.Rows(), p.Columns())
	}
	solvesTo(t, p, 5)
}

func TestProgramAfterClose(t *testing.T) {
	p, other := keptStrips(t), keptStrips(t)
	p.Close()
	p.Close()
	for call, err := range calls(p) {
		if !errors.Is(err, ErrClosed) {
			t.Errorf("%s: %v; want %v", call, err, ErrClosed)
		}
	}
	solvesTo(t, other, 5)
}

// Programs of many threads know nothing of each other.
func TestProgramsOfManyThreads(t *testing.T) {
	var wait sync.WaitGroup
	for i := range 16 {
		wait.Go(func() {
			for range 20 {
				p, err := Open()
				if err != nil {
					t.Error(err)
					return
				}
				demand := float64(1 + i)
				err = errors.Join(p.AddRow(demand, inf, nil, nil), p.AddColumn(1, 0, inf, []int32{0}, []float64{2}))
				s, solveErr := p.Solve(false)
				if err != nil || solveErr != nil || !near(s.X[0], demand/2) {
					t.Errorf("%v, %v, %v; want %v", s.X, err, solveErr, demand/2)
				}
				if i%2 == 0 {
					p.AddRow(0, 1, []int32{0, 0}, []float64{1, 1}) // a fault
				}
				p.Close()
			}
		})
	}
	wait.Wait()
}
