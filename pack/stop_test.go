package pack

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"crossgrain/pack/glpk"
)

// A solve that is stopped takes the programs of its thread with it. If the context
// has ended that is no fault of the search, which has its plan; any other error is.
func TestStoppedBesideASolve(t *testing.T) {
	for _, style := range []Style{Shared, Nested} {
		s, err := beginSearch(23, []Item{
			{Along: 11, Across: 7, Count: 9}, {Along: 9, Across: 5, Count: 17}, {Along: 7, Across: 4, Count: 23},
			{Along: 5, Across: 3, Count: 31}, {Along: 4, Across: 3, Count: 13},
		}, style)
		if err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(context.Background())
		defer cancel()
		s.ctx = ctx
		stopASolve(t)
		_, err = s.fit.lp.Solve(true)
		if err == nil || s.stopped(err) {
			t.Fatalf("%v: %v; want a fault that is no end", style, err)
		}
		cancel()
		if !s.stopped(err) {
			t.Errorf("%v: %v is no end", style, err)
		}
		for _, other := range []error{nil, errors.New("another"), &glpk.FaultError{Text: "its own"}, glpk.ErrNumerical} {
			if s.stopped(other) {
				t.Errorf("%v: %v is an end", style, other)
			}
		}
		if length, _ := total(s.best); anyLeft(leftBeside(s.in.whole(), s.best)) || s.lower > length {
			t.Errorf("%v: %v, with a bound of %d, is no plan", style, s.best, s.lower)
		}
		s.end()
	}
}

// stopASolve stops a solve on this thread, which frees the programs kept there.
func stopASolve(t *testing.T) {
	const rows, columns, each = 400, 6000, 4
	draw := rand.New(rand.NewPCG(1, 2))
	lp := glpk.Problem{Start: []int32{0}}
	for range rows {
		lp.RowLower = append(lp.RowLower, float64(1+draw.IntN(9)))
		lp.RowUpper = append(lp.RowUpper, math.Inf(1))
	}
	for range columns {
		for _, i := range draw.Perm(rows)[:each] {
			lp.Index, lp.Value = append(lp.Index, int32(i)), append(lp.Value, float64(1+draw.IntN(9)))
		}
		lp.Cost = append(lp.Cost, float64(1+draw.IntN(99)))
		lp.Lower, lp.Upper = append(lp.Lower, 0), append(lp.Upper, math.Inf(1))
		lp.Start = append(lp.Start, int32(len(lp.Index)))
	}
	sol, err := glpk.SolveLP(context.Background(), &lp, nil, glpk.Options{TimeLimit: time.Millisecond})
	if err != nil || sol.Status != glpk.TimeLimit {
		t.Fatalf("%v, %v; want a stop", sol.Status, err)
	}
}
