package geometry

import (
	"testing"

	"crossgrain/model"
)

// box is an upright rectangle, in whole ticks.
func box(x, y, width, height model.Length) Polygon {
	return Box(At(Of(x), Of(y)), At(Of(x+width), Of(y+height)))
}

func TestPolygonArea(t *testing.T) {
	triangle := Polygon{At(Of(0), Of(0)), At(Of(2), Of(0)), At(Of(1), Root3(1))}
	for _, test := range []struct {
		name string
		g    Polygon
		want Surd
	}{
		{"rectangle", box(5, 6, 3, 4), Of(12)},
		{"the other way round", Polygon{At(Of(0), Of(0)), At(Of(0), Of(4)), At(Of(3), Of(4)), At(Of(3), Of(0))}, Of(12)},
		{"turned", box(5, 6, 3, 4).Turned(3), Of(12)},
		{"on point", box(5, 6, 3, 4).OnPoint(), Of(12)},
		{"60° triangle", triangle, Root3(1)},
		{"60° triangle on point", triangle.OnPoint().Moved(At(Root2(5), Of(1))), Root3(1)},
		{"half a square", Polygon{At(Of(0), Of(0)), At(Of(5), Of(0)), At(Of(0), Of(5))}, Of(25).Half()},
	} {
		if got := test.g.Area(); !got.Equal(test.want) {
			t.Errorf("%s: %v, want %v", test.name, got, test.want)
		}
		if !test.g.Convex() {
			t.Errorf("%s is not convex", test.name)
		}
	}
}

func TestPolygonTurns(t *testing.T) {
	g := box(1, 0, 2, 1)
	for quarters, want := range map[int]Polygon{0: g, 1: box(-1, 1, 1, 2), 2: box(-3, -1, 2, 1), 3: box(0, -3, 1, 2), -1: box(0, -3, 1, 2), 5: box(-1, 1, 1, 2)} {
		from, to := g.Turned(quarters).Bounds()
		if !from.Equal(want[0]) || !to.Equal(want[2]) {
			t.Errorf("%d quarters: %v to %v, want %v", quarters, from, to, want)
		}
	}
	if twice := g.OnPoint().OnPoint(); !twice[2].Equal(g.Turned(1)[2]) {
		t.Errorf("two eighths are %v, a quarter %v", twice, g.Turned(1))
	}
}

func TestOverlap(t *testing.T) {
	diamond := Polygon{At(Of(0), Of(-5)), At(Of(5), Of(0)), At(Of(0), Of(5)), At(Of(-5), Of(0))}
	for _, test := range []struct {
		name    string
		g, h    Polygon
		overlap bool
		within  bool
	}{
		{"side by side", box(0, 0, 2, 2), box(2, 0, 2, 2), false, false},
		{"corner to corner", box(0, 0, 2, 2), box(2, 2, 2, 2), false, false},
		{"apart", box(0, 0, 2, 2), box(9, 9, 2, 2), false, false},
		{"a strip shared", box(0, 0, 2, 2), box(1, 0, 2, 2), true, false},
		{"the same", box(0, 0, 2, 2), box(0, 0, 2, 2), true, true},
		{"inside", box(1, 1, 1, 1), box(0, 0, 5, 5), true, true},
		{"around", box(0, 0, 5, 5), box(1, 1, 1, 1), true, false},
		{"boxes overlap, shapes do not", box(3, 3, 2, 2), diamond, false, false},
		{"touching a slanted edge", box(2, 3, 2, 2), diamond, false, false},
		{"over a slanted edge", box(2, 2, 2, 2), diamond, true, false},
		{"within a diamond", box(-2, -2, 4, 4), diamond, true, true},
		{"a cross", box(-9, 0, 20, 1), box(0, -9, 1, 20), true, false},
		{"on point, edge to edge", box(0, 0, 4, 4).OnPoint(), box(4, 0, 4, 4).OnPoint(), false, false},
	} {
		reversed := Polygon{test.g[3], test.g[2], test.g[1], test.g[0]}
		for _, g := range []Polygon{test.g, reversed} {
			if Overlap(g, test.h) != test.overlap || Overlap(test.h, g) != test.overlap {
				t.Errorf("%s: overlap is %v", test.name, !test.overlap)
			}
			if g.Within(test.h) != test.within {
				t.Errorf("%s: within is %v", test.name, !test.within)
			}
		}
	}
}

func TestConvex(t *testing.T) {
	dart := Polygon{At(Of(0), Of(0)), At(Of(4), Of(4)), At(Of(0), Of(1)), At(Of(-4), Of(4))}
	flat := Polygon{At(Of(0), Of(0)), At(Of(1), Of(0)), At(Of(2), Of(0)), At(Of(0), Of(2))}
	for _, g := range []Polygon{dart, flat, {At(Of(0), Of(0)), At(Of(1), Of(1))}, nil} {
		if g.Convex() {
			t.Errorf("%v is convex", g)
		}
	}
}
