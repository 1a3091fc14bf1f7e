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
		heights := s.pr.heights()
		n := wholeRegion(heights, length, noLimit).most
		d := &decision{s: s, n: n, demand: s.in.whole(), length: length}
		d.list = s.withCutDowns(freely(s.everyLayout(heights[len(heights)-1]), n))
		if err := d.open(); err != nil {
			t.Fatal(err)
		}
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
		switch {
		case err != nil:
			t.Fatal(err)
		case short && (s.best == nil || s.length > length || s.length < want || anyLeft(leftBeside(s.in.whole(), s.best))):
			t.Fatalf("of %v no plan of length %d: %v, of %d; the least is %d", s.in.sizes, length, s.best, s.length, want)
		}
		asked += b2i(length >= want)
		found += b2i(short)
	})
	if asked < 20 || found*10 < asked*7 || tooShort < 5 {
		t.Errorf("%d of %d plans found, %d lengths too short", found, asked, tooShort)
	}
}
