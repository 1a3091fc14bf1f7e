package pack

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func (r region) holds(n numbers) bool {
	for k, v := range n {
		if v < r.least[k] || v > r.most[k] {
			return false
		}
	}
	return true
}

// drawRegion draws a box of three numbers up to 5, perhaps an empty one.
func drawRegion(t *rapid.T) region {
	draw := rapid.SliceOfN(rapid.IntRange(0, 5), 3, 3)
	r := region{least: draw.Draw(t, "least"), most: draw.Draw(t, "most"), branched: -1}
	for k := range r.least {
		if rapid.IntRange(0, 9).Draw(t, "may be empty") > 0 && r.least[k] > r.most[k] {
			r.least[k], r.most[k] = r.most[k], r.least[k]
		}
	}
	return r
}

// holding counts the regions that hold numbers.
func holding(list []region, n numbers) int {
	count := 0
	for _, r := range list {
		if r.holds(n) {
			count++
		}
	}
	return count
}

func TestTightenKeepsAllNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := drawRegion(t)
		r := before.clone()
		some := r.tighten()
		any := false
		for _, n := range allNumbers(3, 6) {
			any = any || before.holds(n)
			if some && before.holds(n) != r.holds(n) {
				t.Errorf("%v is in one of %v and %v", n, before, r)
			}
		}
		if some != any {
			t.Errorf("%v holds some: %v, want %v", before, some, any)
		}
		if some && (!before.holds(r.least) || !before.holds(r.most) || !slices.IsSortedFunc(r.least, descending)) {
			t.Errorf("%v is not as narrow as it can be: %v", before, r)
		}
	})
}

func descending(a, b int) int { return b - a }

func TestSplitCoversOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t)
		if !r.tighten() {
			return
		}
		given := r.clone()
		k := rapid.IntRange(0, 2).Draw(t, "k")
		down, up := r.split(k, rapid.Float64Range(float64(r.least[k]), float64(r.most[k])).Draw(t, "at"))
		for _, n := range allNumbers(3, 6) {
			if got := holding([]region{down, up}, n); got != b2i(r.holds(n)) {
				t.Errorf("%v is in %d halves of %v", n, got, r)
			}
		}
		if !slices.Equal(r.least, given.least) || !slices.Equal(r.most, given.most) {
			t.Errorf("the split has changed %v to %v", given, r)
		}
	})
}

// What a leaf leaves of a region is every number that is somewhere above it,
// once.
func TestWithoutCoversTheRest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t)
		leaf := rapid.SampledFrom(allNumbers(3, 5)).Draw(t, "leaf")
		rest := r.without(leaf)
		for _, n := range allNumbers(3, 6) {
			above := false
			for k := range n {
				above = above || n[k] > leaf[k]
			}
			if got := holding(rest, n); got != b2i(r.holds(n) && above) {
				t.Errorf("%v is in %d parts of %v without %v", n, got, r, leaf)
			}
		}
	})
}

// A leaf in its region that is too long splits the region in two that are both
// smaller, or shows it to be too long as a whole.
func TestLowerCoversOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRegion(t)
		if !r.tighten() {
			return
		}
		leaf := rapid.SampledFrom(allNumbers(3, 5)).Filter(r.holds).Draw(t, "leaf")
		list := r.lower(leaf)
		if list == nil && !slices.Equal(leaf, r.least) {
			t.Errorf("%v is closed by %v", r, leaf)
		}
		for _, n := range allNumbers(3, 6) {
			if got := holding(list, n); list != nil && got != b2i(r.holds(n)) {
				t.Errorf("%v is in %d halves of %v", n, got, r)
			}
		}
		for _, half := range list {
			if slices.Equal(half.least, r.least) && slices.Equal(half.most, r.most) {
				t.Errorf("%v is split into itself", r)
			}
		}
	})
}

func TestNearestIsInTheBox(t *testing.T) {
	r := region{least: numbers{2, 1, 0}, most: numbers{3, 1, 1}}
	given := []float64{3.001, 0.9999, 0.5}
	if got := r.nearest(given); !slices.Equal(got, []float64{3, 1, 0.5}) || given[0] != 3.001 {
		t.Errorf("%v, from %v", got, given)
	}
}
