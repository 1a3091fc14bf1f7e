package pack

import (
	"slices"
	"testing"
)

// A piece that may be turned has room in a larger one whichever way that lies; a
// directional one only if it need not be turned.
func TestCutDownsByHand(t *testing.T) {
	items := []Item{{4, 6, 1, false}, {4, 3, 1, true}, {3, 4, 1, false}, {2, 2, 1, false}}
	s, err := beginSearch(20, items, Nested)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	var got [][2]int // areas
	for _, u := range s.in.cutDowns() {
		got = append(got, [2]int{int(s.in.area(u.large)), int(s.in.area(u.small))})
	}
	slices.SortFunc(got, func(a, b [2]int) int { return slices.Compare(b[:], a[:]) })
	if want := [][2]int{{24, 12}, {24, 12}, {12, 4}, {12, 4}}; !slices.Equal(got, want) {
		t.Errorf("areas %v are cut down, want %v", got, want)
	}
}

// Of two stacks of two large pieces in each of two strips, three pieces are cut down.
func TestCutDownInStrips(t *testing.T) {
	s, err := beginSearch(10, []Item{{5, 3, 8, false}, {4, 2, 3, false}}, Nested)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	in := s.in
	large, small := in.lowest[0], in.lowest[1]
	if in.area(0) < in.area(1) {
		large, small = small, large
	}
	u := cutDown{in.options[large].size, in.options[small].size}
	strip := in.newColumn([]stretch{{count: 2, parts: []part{{large, 2}}}})
	runs := in.cutDownIn([]run{{strip, 2}}, u, 3)
	made := make([]int, len(in.sizes))
	for _, r := range runs {
		for i, y := range r.col.yield {
			made[i] += y * r.count
		}
	}
	length, strips := total(runs)
	if made[u.large] != 5 || made[u.small] != 3 || strips != 2 || length > 12 {
		t.Errorf("%v: %v pieces, %d strips, length %d", runs, made, strips, length)
	}
}
