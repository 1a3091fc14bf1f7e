package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// Samples find most plans that there are, never one that there is not, and never say that
// there is none.
func TestSamplesFindPlans(t *testing.T) {
	found, asked, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 6)
		defer s.end()
		want := s.shortest()
		if want < 0 {
			return
		}
		s.best, s.length = nil, want+3
		s.stop = 1 << 50
		length := max(1, want+rapid.IntRange(-1, 1).Draw(t, "longer"))
		q := s.newQuestion(target{length, noLimit})
		r := q.whole()
		if !r.tighten() {
			return
		}
		a, err := s.joint.solve(r, length)
		if err != nil {
			t.Fatal(err)
		}
		views, err := q.regionViews(r, a)
		if err != nil || closed(views) {
			return
		}
		s.h.samplesPart = 1
		s.listing += 3 * leastListing
		v, err := q.overSamples(r, views)
		if err != nil || v == no {
			t.Fatalf("whether %v fit length %d, by samples: %v, %v", s.in.sizes, length, v, err)
		}
		if v == yes {
			s.checkBest(t, length, want)
		}
		asked += b2i(length >= want)
		found += b2i(v == yes)
		none += b2i(length < want)
	})
	if asked < 20 || found*10 < asked*8 || none < 1 {
		t.Errorf("%d of %d plans found, %d lengths too short", found, asked, none)
	}
}

// Samples of many layouts take less of the branches, those of few more, until there are some
// hundred; and none is drawn twice of all that lack so little, so few layouts come to be all.
func TestNextSample(t *testing.T) {
	d := drawing{samplePart, sampleShare}
	for draws := 1; !d.all(); draws++ {
		next := d.after(0, true)
		switch {
		case next.part < d.part || next.part == d.part && next.share <= d.share:
			t.Fatalf("%v comes after %v and no layouts", next, d)
		case draws > 100:
			t.Fatalf("%v is not all yet", next)
		}
		d = next
	}
	for _, few := range []drawing{d.after(mostSampled+1, true), d.after(0, false)} {
		if few.share >= d.share || few.part != d.part {
			t.Errorf("%v comes after too many of %v", few, d)
		}
	}
	if d = (drawing{samplePart, sampleShare}); d.after(fewSampled, true) != d {
		t.Errorf("%v comes after enough of %v", d.after(fewSampled, true), d)
	}
}
