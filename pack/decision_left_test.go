package pack

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A decision over the few layouts that a box leaves begins where the box's program stood:
// its relaxation is worth as much, and mostly takes not one step.
func TestLeftBeginsWhereTheBoxStood(t *testing.T) {
	asked, atOnce, cuts, sums := 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 8)
		defer s.end()
		s.stop = s.work() + DefaultWork
		n := drawNumbers(t, s, 3)
		d := s.openDecision(t, n, n.length(s.pr.heights()))
		defer d.lp.Close()
		b := d.whole()
		x, v, err := d.relax(&b)
		if err == nil && v != no && rapid.Bool().Draw(t, "cut") {
			if _, err = d.cutRoot(b); err == nil {
				x, v, err = d.relax(&b)
			}
		}
		if err == nil && v != no && rapid.Bool().Draw(t, "split") {
			if children, wrong := d.branch(b, x); wrong == nil && len(children) > 0 {
				b = children[rapid.IntRange(0, len(children)-1).Draw(t, "child")]
				_, v, err = d.relax(&b)
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		few := d.left(b)
		if v == no || len(few) == 0 {
			return
		}
		rest, whole, err := d.over(b, few)
		if err != nil {
			t.Fatal(err)
		}
		defer rest.lp.Close()
		if err := rest.place(whole); err != nil {
			t.Fatal(err)
		}
		sol, err := rest.lp.Solve(true)
		if err != nil {
			t.Fatal(err)
		}
		if _, worth := rest.values(sol.X); math.Abs(worth-d.worth) > 1e-6 {
			t.Fatalf("%v over %d of %d layouts is worth %v, and was %v", s.in.sizes, len(few), len(d.list), worth, d.worth)
		}
		asked++
		atOnce += b2i(sol.Iterations == 0)
		cuts += len(rest.cuts)
		sums += len(rest.sums)
	})
	if asked < 50 || atOnce*10 < asked*8 || cuts < 1 || sums < 1 {
		t.Errorf("%d of %d begin at an end, with %d cuts and %d sums", atOnce, asked, cuts, sums)
	}
}
