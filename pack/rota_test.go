package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// What columns yield, side by side, says the same of the gain of each as its layout does.
func TestGainsAreThoseOfTheLayouts(t *testing.T) {
	most := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 3)
		defer s.end()
		heights := s.pr.heights()
		layouts := s.everyLayout(heights[len(heights)-1])
		worth := make([]float64, len(s.in.sizes))
		for i := range worth {
			worth[i] = rapid.Float64Range(0, 100).Draw(t, "worth")
		}
		var r rota
		for i := range layouts {
			r.add(layouts[i].yield)
		}
		for i := range layouts {
			if got, want := r.gain(i, float64(layouts[i].height), worth), layouts[i].gain(worth); got != want {
				t.Fatalf("layout %d, which yields %v, gains %v, not %v", i, layouts[i].yield, got, want)
			}
		}
		most = max(most, len(layouts))
	})
	if most < 10 {
		t.Errorf("at most %d layouts side by side", most)
	}
}
