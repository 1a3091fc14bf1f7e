//go:build cgo

package glpk

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"sync"
	"testing"
)

// quietChild makes the test binary make faults and sound solves and nothing
// else, so that whatever it prints is GLPK's.
const quietChild = "CROSSGRAIN_GLPK_CHILD"

func TestMain(m *testing.M) {
	if os.Getenv(quietChild) != "" {
		for i := range len(faults) + 1 {
			if err := goodAndBad(i); err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// faults are calls that GLPK answers with an abort, were it not for the error
// hook.
var faults = []struct {
	name string
	call func(p *Program) error
}{
	{"row with a column twice", func(p *Program) error { return p.AddRow(0, 1, []int32{0, 0}, []float64{1, 1}) }},
	{"column with a row twice", func(p *Program) error { return p.AddColumn(1, 0, 1, []int32{1, 1}, []float64{1, 1}) }},
	{"row deleted twice", func(p *Program) error { return p.DeleteRows([]int32{1, 1}) }},
	{"column deleted twice", func(p *Program) error { return p.DeleteColumns([]int32{1, 1}) }},
}

// What GLPK itself finds wrong frees the program and all others of the thread,
// and every later call says so. New programs are as good as ever.
func TestProgramAfterFault(t *testing.T) {
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			p, other := open(t, strips(9, 4)), open(t, strips(9, 4))
			var first *FaultError
			if err := f.call(p); !errors.As(err, &first) || first.Text == "" {
				t.Fatalf("%v; want a fault", err)
			}
			for _, dead := range []*Program{p, other} {
				for call, err := range calls(dead) {
					var later *FaultError
					if !errors.As(err, &later) || later.Text == "" {
						t.Errorf("%s afterwards: %+v; want a fault", call, err)
					}
				}
			}
			solvesTo(t, open(t, strips(9, 4)), 5)
		})
	}
}

func TestProgramOnAnotherThread(t *testing.T) {
	p := open(t, strips(9, 4))
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

// goodAndBad makes a program, checks its answer, and lets it make a fault or, by
// the greatest turn, none.
func goodAndBad(turn int) error {
	p, err := Open()
	if err != nil {
		return err
	}
	defer p.Close()
	demand := float64(1 + turn)
	err = errors.Join(
		p.AddRow(demand, inf, nil, nil), p.AddRow(-inf, 1e9, nil, nil),
		p.AddColumn(1, 0, inf, []int32{0, 1}, []float64{2, 1}), p.AddColumn(1, 0, inf, []int32{1}, []float64{1}),
	)
	s, solveErr := p.Solve(turn%2 == 0)
	if err != nil || solveErr != nil || math.Abs(s.X[0]-demand/2) > 1e-9 {
		return fmt.Errorf("%v, %v, %v; want %v", s.X, err, solveErr, demand/2)
	}
	if turn < len(faults) {
		var fault *FaultError
		if err := faults[turn].call(p); !errors.As(err, &fault) {
			return fmt.Errorf("%s: %v", faults[turn].name, err)
		}
	}
	return nil
}

// Programs of many threads know nothing of each other.
func TestProgramsOfManyThreads(t *testing.T) {
	const goroutines, each = 64, 200
	var wait sync.WaitGroup
	for g := range goroutines {
		wait.Go(func() {
			for i := range each {
				if err := goodAndBad((g + i) % (len(faults) + 1)); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	wait.Wait()
}

func TestNothingIsPrinted(t *testing.T) {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), quietChild+"=1")
	var stdout, stderr bytes.Buffer
	child.Stdout, child.Stderr = &stdout, &stderr
	if err := child.Run(); err != nil || stdout.Len() > 0 || stderr.Len() > 0 {
		t.Errorf("%v\nstdout: %q\nstderr: %q", err, &stdout, &stderr)
	}
}
