package pack

import (
	"testing"

	"pgregory.net/rapid"
)

// Whatever the duals: a region is only refuted if nothing in it keeps the
// planes and the length. With the duals of the program most empty ones are.
func TestRefutedHoldsNothing(t *testing.T) {
	refuted, empty := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 3)
		defer s.end()
		st := s.strips
		heights := len(st.heights)
		if heights > 5 {
			return
		}
		for range rapid.IntRange(1, 4).Draw(t, "planes") {
			if err := st.use(drawPlane(t, heights, 12)); err != nil {
				t.Fatal(err)
			}
		}
		r := region{least: make(numbers, heights), most: make(numbers, heights), branched: -1}
		for k := range heights {
			r.least[k] = rapid.IntRange(0, 1).Draw(t, "least")
			r.most[k] = r.least[k] + rapid.IntRange(0, 3).Draw(t, "more")
		}
		if !r.tighten() {
			return
		}
		length := rapid.IntRange(1, 20).Draw(t, "length")
		some := false
		for _, n := range allNumbers(heights, 4) {
			fits := r.holds(n) && n.length(st.heights) <= length
			for _, p := range st.inUse {
				fits = fits && p.kept(n)
			}
			some = some || fits
		}
		rows := st.fixedRows() + len(st.inUse)
		dual := rapid.SliceOfN(rapid.Float64Range(-3, 3), rows, rows).Draw(t, "dual")
		if some && st.refuted(r, length, dual) {
			t.Errorf("%v at length %d is refuted by %v, but holds some", r, length, dual)
		}
		none, err := st.refute(r, length)
		if err != nil {
			t.Fatal(err)
		}
		if none && some {
			t.Errorf("%v at length %d is refuted, but holds some", r, length)
		}
		refuted += b2i(none)
		empty += b2i(!some)
	})
	if refuted*2 < empty || refuted < 10 {
		t.Errorf("%d of %d empty regions are refuted", refuted, empty)
	}
}

// The planes of any prices, and their roundings, keep the numbers of strips of
// every plan.
func TestPlanesOfPricesKeepPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 4)
		defer s.end()
		heights := s.pr.heights()
		if len(heights) > 8 {
			return
		}
		list := s.everyLayout(heights[len(heights)-1])
		v := drawPrices(t, s, 0)
		_, worth := s.pr.price(v, s.in.whole())
		p := planeOf(v, rising(worth), s.in.whole())
		if p == nil {
			return
		}
		n := drawNumbers(t, s, 4)
		if !s.holds(n, s.in.whole(), freely(list, n)) {
			return
		}
		for _, c := range append(p.roundings(n.floats()), p) {
			if !c.kept(n) {
				t.Errorf("%v hold the demand of %v, but not the plane %v ≥ %d", n, s.in.sizes, c.step, c.least)
			}
		}
	})
}

// drawPrices draws prices of the pieces and strips, and so many bonuses at most.
func drawPrices(t *rapid.T, s *search, bonuses int) prices {
	var v prices
	for range s.in.sizes {
		v.worth = append(v.worth, rapid.Int64Range(0, 9).Draw(t, "worth"))
	}
	last := int64(0)
	for range s.pr.heights() {
		last += rapid.Int64Range(0, 6).Draw(t, "cost")
		v.cost = append(v.cost, last)
	}
	for range rapid.IntRange(0, bonuses).Draw(t, "bonuses") {
		v.extra = append(v.extra, bonus{
			from:   rapid.SampledFrom(s.pr.heights()).Draw(t, "from"),
			option: rapid.IntRange(0, len(s.in.options)-1).Draw(t, "option"),
			value:  rapid.Int64Range(-9, 9).Draw(t, "value"),
		})
	}
	return v
}

// Pricing says for every height what no layout is worth more than, and where
// that is more than a strip costs, a layout that is worth just that: it may
// make too much of a size.
func TestPricingBoundsEveryLayout(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 4)
		defer s.end()
		v := drawPrices(t, s, 3)
		heights := s.pr.heights()
		found, worth := s.pr.price(v, s.in.whole())
		value := func(c column) int64 {
			sum := int64(0)
			for o, n := range c.laid {
				sum += int64(n) * v.at(s.in, o, c.height)
			}
			return sum
		}
		at := map[int]int{}
		for k, h := range heights {
			at[h] = k
		}
		for _, c := range s.everyLayout(heights[len(heights)-1]) {
			if k := at[c.height]; value(c) > worth[k] {
				t.Errorf("%v is worth %d, said to be at most %d", c, value(c), worth[k])
			}
		}
		read := map[int]bool{}
		for _, c := range found {
			k := at[c.height]
			read[k] = true
			if value(c) < worth[k] || worth[k] <= v.cost[k] {
				t.Errorf("%v is worth %d, said to be worth %d, at a cost of %d", c, value(c), worth[k], v.cost[k])
			}
		}
		for k := range heights {
			if worth[k] > v.cost[k] && !read[k] {
				t.Errorf("no layout of height %d, which should be worth %d", heights[k], worth[k])
			}
		}
	})
}
