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
		runs := s.roundedStrips(r.x, func(j int) column { return s.m.pool.list[j] }, left)
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

// As many strips are taken out as were asked for, and with those that are kept
// they are the plan.
func TestTakeLosers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		s.latest = s.best
		most := rapid.IntRange(1, s.count).Draw(t, "most")
		kept, taken := s.takeLosers(most)
		if _, n := total(taken); n != most {
			t.Fatalf("%d strips are taken, not %d", n, most)
		}
		counts := map[string]int{}
		for _, r := range s.best {
			counts[r.col.key()] -= r.count
		}
		for _, r := range slices.Concat(kept, taken) {
			counts[r.col.key()] += r.count
		}
		for key, n := range counts {
			if n != 0 {
				t.Fatalf("%d strips too many of %q in %v and %v of %v", n, key, kept, taken, s.best)
			}
		}
	})
}

// A layout that enters a portion and leaves it again is the same without the
// pieces that the portion has none of.
func TestPortion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		demand := drawDemand(t, s.in)
		p := s.in.portion(demand)
		if got, want := p.in.covered(p.in.whole()), s.in.covered(demand); got != want {
			t.Fatalf("the portion covers %v, not %v", got, want)
		}
		for _, r := range s.best {
			checkMapped(t, p, demand, r.col)
		}
	})
}

func checkMapped(t *rapid.T, p portion, demand []int, c column) {
	own, ok := p.enter(&c)
	var back column
	if ok {
		checkFits(t, p.in, &own)
		back = p.leave([]run{{own, 1}})[0].col
		checkFits(t, p.whole, &back)
	} else {
		back.yield = make([]int, len(demand))
	}
	all := true
	for i, y := range c.yield {
		if demand[i] == 0 && y > 0 {
			all, y = false, 0
		}
		if back.yield[i] != y {
			t.Fatalf("%v comes back as %v for %v", c, back, demand)
		}
	}
	if all && back.key() != c.key() || back.height > c.height {
		t.Fatalf("%v comes back as %v for %v", c, back, demand)
	}
}

// Every way to cut a plan anew leaves plans of the whole demand: the best is no longer
// than it was, be it that which the search begins with or one that is easily bettered,
// and the latest no longer than may be gone on with.
func TestRecuttingKeepsThePlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		if rapid.Bool().Draw(t, "plain") {
			s.best = s.in.plain()
			s.length, s.count = total(s.best)
		}
		s.latest = s.best
		for _, way := range slices.Concat(recutFull, recutNested, recutShared) {
			before := s.length
			last, _ := total(s.latest)
			s.longer = rapid.IntRange(0, 3).Draw(t, "longer")
			if err := way.once(s); err != nil {
				t.Fatal(err)
			}
			best, _ := total(s.best)
			latest, _ := total(s.latest)
			for _, plan := range [][]run{s.best, s.latest} {
				if left := leftBeside(s.in.whole(), plan); anyLeft(left) {
					t.Fatalf("%v leaves %v", plan, left)
				}
			}
			same := best == before && latest == last
			if best != s.length || best > before || latest < best || latest > best+s.longer && !same {
				t.Fatalf("%d long after %d, and %d after %d, with %d more", best, before, latest, last, s.longer)
			}
		}
	})
}
