package pack

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Rounded strips make no piece too many, are whole numbers next to those of the
// relaxation or fewer, and leave what they do not hold.
func TestRoundedStrips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		r, err := s.relaxRest(nil, s.in.whole())
		if err != nil || r.x == nil {
			return
		}
		left := s.in.whole()
		runs := s.roundedStrips(r, left)
		made := make([]int, len(left))
		for _, run := range runs {
			checkFits(t, s.in, &run.col)
			for i, y := range run.col.yield {
				made[i] += y * run.count
			}
			at := slices.IndexFunc(s.m.pool.list, func(c column) bool { return c.key() == run.col.key() })
			if at < 0 || float64(run.count) > math.Ceil(r.x[at]-wholeEnough) {
				t.Fatalf("%d strips of %v, which are not in the relaxation %v", run.count, run.col, r.x)
			}
		}
		for i, n := range s.in.whole() {
			if made[i] > n || left[i] != n-made[i] {
				t.Fatalf("%d of size %d are made and %d left of %d", made[i], i, left[i], n)
			}
		}
	})
}

// Every way to cut a plan anew leaves a plan of the whole demand, no longer than
// it was.
func TestRecuttingKeepsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		for _, way := range append(slices.Clone(recutFull), recutOther...) {
			s.latest = s.best
			before := s.length
			kept, demand := s.thin(rapid.Float64Range(0, 1).Draw(t, "share"))
			if !anyLeft(demand) {
				continue
			}
			if err := way.plan(s, kept, demand); err != nil {
				t.Fatal(err)
			}
			left := s.in.whole()
			for _, r := range s.best {
				take(left, &r.col, r.count)
			}
			if length, _ := total(s.best); anyLeft(left) || length != s.length || length > before {
				t.Fatalf("%v is %d long after %d and leaves %v", s.best, length, before, left)
			}
		}
	})
}
