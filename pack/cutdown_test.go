package pack

import (
	"fmt"
	"slices"
	"testing"
)

// A piece that may be turned has room in a larger one whichever way that lies; a
// directional one only if it need not be turned. Two have room one above the other in
// nested plans, and side by side in others.
func TestCutDownsByHand(t *testing.T) {
	items := []Item{{4, 6, 1, false}, {4, 3, 1, true}, {3, 4, 1, false}, {2, 2, 1, false}}
	want := map[Style][]string{
		Nested: {"24 12", "24 12", "24 12+12", "24 12+4", "12 4", "12 4", "12 4+4"},
		Shared: {"24 12", "24 12", "24 4+4", "12 4", "12 4"},
	}
	for style, want := range want {
		s, err := beginSearch(20, items, style)
		if err != nil {
			t.Fatal(err)
		}
		defer s.end()
		var got []string // areas
		for _, c := range s.withCutDowns(nil) {
			u := c.cut
			text := fmt.Sprint(s.in.area(u.large), " ", s.in.area(u.small[0]))
			if len(u.small) == 2 {
				text += fmt.Sprint("+", s.in.area(u.small[1]))
			}
			got = append(got, text)
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%v: areas %v are cut down, want %v", style, got, want)
		}
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
	u := cutDown{in.options[large].size, []int{in.options[small].size}}
	strip := in.newColumn([]stretch{{count: 2, parts: []part{{large, 2}}}})
	runs := in.cutDownIn([]run{{strip, 2}}, u, Nested, 3)
	made := make([]int, len(in.sizes))
	for _, r := range runs {
		for i, y := range r.col.yield {
			made[i] += y * r.count
		}
	}
	length, strips := total(runs)
	if made[u.large] != 5 || made[u.small[0]] != 3 || strips != 2 || length > 12 {
		t.Errorf("%v: %v pieces, %d strips, length %d", runs, made, strips, length)
	}
}
