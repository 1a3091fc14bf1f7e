//go:build cgo

package glpk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"reflect"
	"strings"
	"sync"
	"testing"
)

// quietChild makes the test binary do faulty and sound solves and nothing
// else, so that whatever it prints is GLPK's.
const quietChild = "CROSSGRAIN_GLPK_CHILD"

func TestMain(m *testing.M) {
	if os.Getenv(quietChild) != "" {
		if err := goodAndBad(1); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// unchecked solves a problem that check would refuse.
func unchecked(p *Problem, integer bool) (Solution, error) {
	return solve(context.Background(), &task{problem: p, integer: integer})
}

// faults are problems that GLPK answers with an abort, were it not for the
// error hook.
func faults() map[string]*Problem {
	row, twice := strips(9, 4), strips(9, 4)
	row.Index[1] = 7
	negative := strips(9, 4)
	negative.Index[2] = -1
	twice.Index[1], twice.Index[2] = 0, 0
	return map[string]*Problem{"row too high": row, "row negative": negative, "row twice": twice}
}

func TestFaultIsAnError(t *testing.T) {
	for name, p := range faults() {
		for _, integer := range []bool{false, true} {
			s, err := unchecked(p, integer)
			var fault *FaultError
			if !errors.As(err, &fault) || fault.Text == "" || s.Status != Failed || s.X != nil {
				t.Errorf("%s: %+v, %v; want a fault", name, s, err)
			}
		}
	}
	// A failed assertion deep in branch and cut, found by trying.
	deep := strips(9, 4)
	deep.Value[0] = math.NaN()
	var fault *FaultError
	if _, err := unchecked(deep, true); !errors.As(err, &fault) || !strings.Contains(fault.Text, "Assertion failed") {
		t.Errorf("NaN in branch and cut: %v; want a failed assertion", err)
	}
	if s, err := SolveLP(context.Background(), strips(9, 4), nil, Options{}); err != nil || s.Objective != 5 {
		t.Errorf("after the faults: %v, %v; want 5", s.Objective, err)
	}
}

// What is not a number is refused by check; if it were not, a wrong answer
// would come of it, but no abort and no endless loop.
func TestNaNReturns(t *testing.T) {
	for _, field := range []string{"RowLower", "RowUpper", "Cost", "Lower", "Upper", "Value"} {
		for _, integer := range []bool{false, true} {
			p := strips(9, 4)
			values := reflect.ValueOf(p).Elem().FieldByName(field)
			for i := range values.Len() {
				values.Index(i).SetFloat(math.NaN())
				if _, err := SolveLP(context.Background(), p, nil, Options{}); err == nil {
					t.Errorf("%s[%d]: NaN passed the check", field, i)
				}
				s, err := unchecked(p, integer)
				t.Logf("%s up to %d: %v, %v", field, i, s.Status, err)
			}
		}
	}
}

// goodAndBad mixes every kind of solve and checks each answer.
func goodAndBad(rounds int) error {
	covered := covering(8, 24, 2)
	lp, err := SolveLP(context.Background(), covered, nil, Options{})
	if err != nil {
		return err
	}
	mip, err := SolveMIP(context.Background(), covered, Options{NodeLimit: 20})
	if err != nil {
		return err
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	bad := faults()
	for range rounds {
		if s, err := SolveLP(context.Background(), covered, nil, Options{}); err != nil || !reflect.DeepEqual(s, lp) {
			return fmt.Errorf("another LP answer: %v, %v", s, err)
		}
		if s, err := SolveMIP(context.Background(), covered, Options{NodeLimit: 20}); err != nil || !reflect.DeepEqual(s, mip) {
			return fmt.Errorf("another MIP answer: %v, %v", s, err)
		}
		if _, err := SolveMIP(context.Background(), covered, Options{NodeLimit: 5, Presolve: true, Cuts: true, Scale: true}); err != nil {
			return err
		}
		if s, err := SolveLP(ended, covered, nil, Options{}); err != nil || s.Status != Cancelled {
			return fmt.Errorf("cancelled before: %v, %v", s.Status, err)
		}
		for name, p := range bad {
			if s, err := unchecked(p, false); err == nil {
				return fmt.Errorf("%s: %v", name, s.Status)
			}
		}
	}
	return nil
}

func TestManyGoroutines(t *testing.T) {
	const goroutines, solves = 64, 200
	var wait sync.WaitGroup
	for range goroutines {
		wait.Go(func() {
			if err := goodAndBad(solves / 7); err != nil { // 7 solves a round
				t.Error(err)
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
