package pack

import (
	"math"
	"testing"

	"crossgrain/model"
	"pgregory.net/rapid"
)

// On average an estimate is right, where no two ways to lay pieces make the same, and
// it is never that there is nothing to list where there is.
func TestEstimateOfLists(t *testing.T) {
	layouts, guessed, steps, guessedSteps := 0, 0.0, 0.0, 0.0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 12)
		defer s.end()
		n := make(numbers, len(s.pr.heights()))
		for k := range n {
			n[k] = 1
		}
		list := &listing{s: s, n: n, demand: s.in.whole(), within: math.MaxInt64}
		found, complete := list.layouts()
		guess := &listing{s: s, n: n, demand: s.in.whole(), within: math.MaxInt64}
		most, kept, ok := guess.estimate()
		switch {
		case !complete || !ok:
			t.Fatal("the list of so few pieces is not complete")
		case kept == 0 && len(found) > 0:
			t.Fatalf("%v have %d layouts, and none is expected", s.in.sizes, len(found))
		case guess.found != nil || len(guess.chosen) > 0 || anyLeft(guess.made):
			t.Fatal("an estimate leaves layouts behind")
		}
		if s.h.style == Shared && len(s.in.options) == len(s.in.sizes) {
			layouts, guessed = layouts+len(found), guessed+kept
			steps, guessedSteps = steps+listingSteps*float64(list.steps), guessedSteps+most
		}
	})
	t.Logf("%d layouts of %.0f expected; %.0f steps of %.0f", layouts, guessed, steps, guessedSteps)
	if layouts < 60 || math.Abs(guessed/float64(layouts)-1) > 0.15 {
		t.Errorf("%d layouts, and %.0f are expected", layouts, guessed)
	}
	if guessedSteps < steps/4 || guessedSteps > 2*steps {
		t.Errorf("%.0f steps, and %.0f are expected", steps, guessedSteps)
	}
}

// A question that an estimated list answers has that answer; and it is asked only of a
// purchase that is open, once the search has taken long enough.
func TestOverEstimated(t *testing.T) {
	answers := map[verdict]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 5)
		defer s.end()
		want := s.shortest()
		s.lower = max(1, s.lower-3) // as if less were known
		if want < 0 || s.lower == s.length {
			return
		}
		length := rapid.IntRange(s.lower, s.length).Draw(t, "length")
		q := s.questionOf(target{length, noLimit})
		r := q.whole()
		if !r.tighten() {
			return
		}
		s.stop = math.MaxInt64
		a, err := s.joint.solve(r, length)
		if err != nil {
			t.Fatal(err)
		}
		views, err := q.regionViews(r, a)
		if err != nil {
			t.Fatal(err)
		}
		if closed(views) {
			return
		}
		q.over.gap = s.gapOf(views)
		ask := func(due string) verdict {
			v, err := q.overEstimated(r, views)
			if err != nil || due != "" && v != unknown {
				t.Fatalf("answered %v, %v %s", v, err, due)
			}
			return v
		}
		s.bought = true
		ask("too early")
		s.m.effort += estimateFrom
		s.bought = false
		ask("where lengths are not bought")
		s.bought = true
		v := ask("")
		answers[v]++
		if v != unknown && (v == yes) != (length >= want) {
			t.Fatalf("whether %v fit %d at length %d: %v; the least is %d", s.in.sizes, s.in.width, length, v, want)
		}
		*q.over = overall{gap: q.over.gap}
		err = s.within(0, func() error {
			if u := ask(""); u != v {
				t.Fatalf("at the end of a share: %v, and %v within it", u, v)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		gap, far := q.over.gap, estimated{steps: math.Inf(1), layouts: 2 * farTooMany * mostLayouts, gap: q.over.gap, work: 1}
		*q.over = overall{gap: gap, estimated: far}
		if ask("though the layouts are far too many"); q.mayList() || q.over.estimated != far {
			t.Fatalf("lists far too many layouts, or estimates them again: %v", q.over.estimated)
		}
		if gap > 0 {
			far.gap *= 2
			*q.over = overall{gap: gap, estimated: far}
			if u := ask(""); u != v {
				t.Fatalf("of a smaller gap: %v, and %v before", u, v)
			}
		}
		s.purchase = func(int) model.Length { return 1 }
		*q.over = overall{gap: gap}
		if length > s.lower {
			ask("though the purchase is settled")
		} else if u := ask(""); u != v {
			t.Fatalf("the least length: %v, and %v before", u, v)
		}
	})
	t.Log(answers)
	if answers[yes] < 10 || answers[no] < 1 || answers[unknown] > 0 {
		t.Errorf("answers %v", answers)
	}
}
