package pack

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// Up to a height, no layout of pieces asked for is worth more than pricing
// says, and the layout that it gives is worth that and no higher.
func TestUpToBoundsEveryLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 4)
		defer s.end()
		v := drawPrices(t, s, 0)
		heights := s.pr.heights()
		var at []int
		for k := range heights {
			if rapid.Bool().Draw(t, "asked for") {
				at = append(at, k)
			}
		}
		layouts, worth := s.pr.upTo(v, s.in.whole(), at)
		value := func(c column) int64 {
			sum := int64(0)
			for i, y := range c.yield {
				sum += int64(y) * v.worth[i]
			}
			return sum
		}
		for i, k := range at {
			if c := layouts[i]; worth[i] > v.cost[k] && (c.height > heights[k] || value(c) < worth[i]) {
				t.Errorf("up to %d: %v is worth %d, said to be worth %d", heights[k], c, value(c), worth[i])
			}
			for _, c := range s.everyLayout(heights[k]) {
				if value(c) > worth[i] {
					t.Errorf("up to %d: %v is worth %d, said to be at most %d", heights[k], c, value(c), worth[i])
				}
			}
		}
	})
}

// theta solves a fit of numbers of strips with every layout that raises theta.
func (f *fit) theta(n numbers) (float64, error) { return f.thetaOf(n.floats()) }

func (f *fit) thetaOf(n []float64) (float64, error) {
	if err := f.set(n); err != nil {
		return 0, err
	}
	for {
		r, err := f.solve()
		if err != nil {
			return 0, err
		}
		v := f.prices(r, viewScale)
		layouts, worth := f.s.pr.upTo(v, f.s.in.whole(), f.used)
		if !f.learn(v, layouts, worth) {
			return r.theta, nil
		}
	}
}

// A fit with rows for the heights that strips have only, made anew as they
// change, holds as much as one with a row for each height.
func TestFewRowsHoldAsMuch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 12)
		defer s.end()
		all, err := newFit(s, &pool{}, nil)
		if err != nil {
			t.Fatal(err)
		}
		defer all.close()
		few := &fit{s: s, heights: all.heights, pool: &pool{}}
		if err := few.open(); err != nil {
			t.Fatal(err)
		}
		defer few.close()
		for range 3 {
			n := drawNumbers(t, s, 6)
			want, err := all.theta(n)
			if err != nil {
				t.Fatal(err)
			}
			got, err := few.theta(n)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(got-want) > 1e-6 {
				t.Errorf("%v holds %v with rows %v, %v with all", n, got, few.rows, want)
			}
		}
	})
}

// Strips higher than the ruler are just as high as a piece, however it lies.
func TestTallStripsAreAsHighAsPieces(t *testing.T) {
	const inch = model.Inch
	p, err := NewProblem(40*inch, []Item{
		{Along: 5 * inch, Across: 30 * inch, Count: 3},
		{Along: 26 * inch, Across: 4 * inch, Count: 2, Turnable: true},
		{Along: 7 * inch, Across: 7 * inch, Count: 9},
	})
	if err != nil {
		t.Fatal(err)
	}
	in := newInstance(p)
	got := newNestedPricer(in, in.tallest(100)).heights()
	want := []int{4, 7, 8, 11, 12, 14, 15, 16, 18, 19, 20, 21, 22, 23, 24, 26, 30}
	if !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}
