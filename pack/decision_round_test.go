package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// Roundings of a list's relaxation find plans as short as there are, and say so only if
// they have one.
func TestRoundedBoxIsAPlan(t *testing.T) {
	found, asked, tooShort := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 6)
		defer s.end()
		want := s.shortest()
		if want < 0 {
			return
		}
		s.stop = s.work() + DefaultWork
		s.best = nil
		s.length = want + 3
		length := max(1, want+rapid.IntRange(-1, 1).Draw(t, "longer"))
		n := wholeRegion(s.pr.heights(), length, noLimit).most
		d := s.openDecision(t, n, length)
		defer d.lp.Close()
		b := d.whole()
		x, v, err := d.relax(&b)
		if err != nil || v == no && length >= want {
			t.Fatalf("%v fit length %d, and the relaxation says %v, %v", s.in.sizes, want, v, err)
		}
		if v == no {
			tooShort++
			return
		}
		short := false
		for range 20 {
			if short, err = d.round(x); err != nil || short {
				break
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		if short {
			s.checkBest(t, length, want)
		}
		asked += b2i(length >= want)
		found += b2i(short)
	})
	if asked < 20 || found*10 < asked*7 || tooShort < 5 {
		t.Errorf("%d of %d plans found, %d lengths too short", found, asked, tooShort)
	}
}

// checkBest checks that the best plan is one, no longer than it may be nor shorter than any
// can be.
func (s *search) checkBest(t *rapid.T, length, least int) {
	if s.best == nil || s.length > length || s.length < least || anyLeft(leftBeside(s.in.whole(), s.best)) {
		t.Fatalf("of %v no plan of length %d: %v, of %d; the least is %d", s.in.sizes, length, s.best, s.length, least)
	}
}

// openDecision is a decision over all layouts, and ways to cut pieces down, whose program is
// open.
func (s *search) openDecision(t *rapid.T, n numbers, length int) *decision {
	heights := s.pr.heights()
	d := &decision{s: s, n: n, demand: s.in.whole(), length: length}
	d.list = s.withCutDowns(freely(s.everyLayout(heights[len(heights)-1]), n))
	if err := d.open(); err != nil {
		t.Fatal(err)
	}
	return d
}
