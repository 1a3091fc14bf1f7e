package pack_test

import (
	"testing"

	"crossgrain/model"
	"crossgrain/pack"
)

// The problems whose pieces are all of one height are the classical
// one-dimensional cutting-stock problems: the least number of rolls.
func TestOneDimensionalClassics(t *testing.T) {
	found := 0
	for _, c := range readClassics(t) {
		if !c.oneDimensional() {
			continue
		}
		found++
		t.Run(c.Name, func(t *testing.T) { reachesOptimum(t, c, false, c.AsGiven) })
	}
	if found < 6 {
		t.Errorf("%d one-dimensional problems, want 6 or more", found)
	}
}

// The others are two-stage problems: strips, and in them pieces that may be
// trimmed, which is what a shared plan is.
func TestTwoStageClassics(t *testing.T) {
	for _, c := range readClassics(t) {
		if c.oneDimensional() {
			continue
		}
		if c.AsGiven == nil && c.Turned == nil {
			t.Errorf("%s: no optimum to check", c.Name)
		}
		if c.AsGiven != nil {
			t.Run(c.Name+"/as given", func(t *testing.T) { reachesOptimum(t, c, false, c.AsGiven) })
		}
		if c.Turned != nil {
			t.Run(c.Name+"/turned", func(t *testing.T) { reachesOptimum(t, c, true, c.Turned) })
		}
	}
}

// reachesOptimum checks that the shared plan is as short as the known optimum
// and that the search has proven it.
func reachesOptimum(t *testing.T, c classic, turnable bool, want *optimum) {
	r := solve(t, c.problem(t, turnable), pack.Options{Style: pack.Shared, Work: 10 * pack.DefaultWork})
	if r.Plan.Length() != model.Length(want.Length) || !r.LengthProven() {
		t.Errorf("length %d, bound %d, stopped by %v after %v; the %s optimum is %d (%s)",
			r.Plan.Length(), r.Bound, r.Stop, r.Elapsed, want.Basis, want.Length, c.Source)
	}
}
