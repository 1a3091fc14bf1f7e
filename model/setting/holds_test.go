package setting

import (
	"math"
	"math/big"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// checkTop checks by geometry alone that blocks and pieces fill the top without
// overlapping, and that every cut holds its piece with seams all round.
func checkTop(t interface{ Errorf(string, ...any) }, r block.Rules, top Top, width, height model.Length) {
	whole := geometry.Box(geometry.Point{}, geometry.At(top.Width, top.Height))
	var outlines []geometry.Polygon
	block := geometry.Box(geometry.Point{}, geometry.At(geometry.Of(width), geometry.Of(height)))
	for _, p := range top.Places {
		outlines = append(outlines, top.Block(p, block))
	}
	for _, part := range top.Parts {
		for _, s := range top.Shapes(part) {
			outlines = append(outlines, s.Outline)
			if s.Cut >= 0 && !holds(part.Yield.Cuts[s.Cut], s.Outline, r.Seam) {
				t.Errorf("%s: a cut of %+v does not hold %v with its seams", part.Key, part.Yield.Cuts[s.Cut], s.Outline)
			}
		}
	}
	checkFills(t, whole, outlines)
}

// checkFills checks that convex outlines fill a whole and do not overlap.
func checkFills(t interface{ Errorf(string, ...any) }, whole geometry.Polygon, outlines []geometry.Polygon) {
	var sum geometry.Surd
	bounds := make([][4]float64, len(outlines))
	for i, o := range outlines {
		from, to := o.Bounds()
		bounds[i] = [4]float64{inInches(from.X), inInches(from.Y), inInches(to.X), inInches(to.Y)}
		if !o.Convex() || !o.Within(whole) {
			t.Errorf("%v is not convex, or not within %v", o, whole)
		}
		for j, other := range outlines[:i] {
			if apart(bounds[i], bounds[j]) {
				continue
			}
			if geometry.Overlap(o, other) {
				t.Errorf("%v and %v overlap", o, other)
			}
		}
		sum = sum.Add(o.Area())
	}
	if !sum.Equal(whole.Area()) {
		t.Errorf("the pieces have %v, the whole %v", sum, whole.Area())
	}
}

// apart reports whether two upright rectangles have at most an edge in common.
func apart(a, b [4]float64) bool {
	const close = 1e-4
	return a[2] < b[0]+close || b[2] < a[0]+close || a[3] < b[1]+close || b[3] < a[1]+close
}

type vector struct{ x, y float64 }

// inInchesOf are the lengths that inInches has been asked for: most of the
// points of a quilt share their coordinates with others.
var inInchesOf = make(map[string]float64)

func inInches(s geometry.Surd) float64 {
	f, known := inInchesOf[s.String()]
	if !known {
		// To a thousandth of a tick, through its own rounding.
		ticks := s.Times(1000).CeilTo(1)
		f, _ = new(big.Rat).SetFrac64(int64(ticks), 1000*int64(model.Inch)).Float64()
		inInchesOf[s.String()] = f
	}
	return f
}

// holds reports whether a cut holds a convex shape with seams all round, lying
// in one of the eight ways of quarter and eighth turns. It knows nothing of how
// the cut was worked out.
func holds(cut model.Cut, shape geometry.Polygon, seam model.Length) bool {
	raw := grown(shape, inInches(geometry.Of(seam)))
	w, h := inInches(geometry.Of(cut.Width)), inInches(geometry.Of(cut.Height))
	for eighth := range 8 {
		angle := float64(eighth) * math.Pi / 4
		reach := func(turn float64) float64 { // how far the shape goes that way
			most := math.Inf(-1)
			for _, p := range raw {
				most = max(most, p.x*math.Cos(angle+turn)+p.y*math.Sin(angle+turn))
			}
			return most
		}
		across, along := reach(0)+reach(math.Pi), reach(math.Pi/2)+reach(-math.Pi/2)
		const close = 1e-6
		switch cut.Halve {
		case model.NotHalved:
			if across <= w+close && along <= h+close {
				return true
			}
		case model.HalvedOnce, model.HalvedTwice:
			// A right triangle with equal legs: a shape fits if the distance
			// of its slant from the corner of its legs is no more than that of
			// the triangle.
			leg := w
			if cut.Halve == model.HalvedTwice {
				leg = w / math.Sqrt2
			}
			corner := -(reach(math.Pi) + reach(-math.Pi/2)) / math.Sqrt2
			if reach(math.Pi/4)-corner <= leg/math.Sqrt2+close {
				return true
			}
		}
	}
	return false
}

// grown is a convex polygon with its sides moved out, in inches.
func grown(g geometry.Polygon, by float64) []vector {
	points := make([]vector, len(g))
	area := 0.0
	for i, p := range g {
		points[i] = vector{inInches(p.X), inInches(p.Y)}
	}
	for i, p := range points {
		q := points[(i+1)%len(points)]
		area += p.x*q.y - p.y*q.x
	}
	side := math.Copysign(1, area)
	type line struct{ a, b, c float64 } // ax + by = c
	lines := make([]line, len(points))
	for i, p := range points {
		q := points[(i+1)%len(points)]
		length := math.Hypot(q.x-p.x, q.y-p.y)
		a, b := side*(q.y-p.y)/length, -side*(q.x-p.x)/length // outwards
		lines[i] = line{a, b, a*p.x + b*p.y + by}
	}
	out := make([]vector, len(points))
	for i, l := range lines {
		m := lines[(i+1)%len(lines)]
		det := l.a*m.b - l.b*m.a
		out[i] = vector{(l.c*m.b - l.b*m.c) / det, (l.a*m.c - l.c*m.a) / det}
	}
	return out
}

// The check itself tells a cut that is a mark too small.
func TestHolds(t *testing.T) {
	f := geometry.Of(4 * in)
	triangle := geometry.Polygon{{}, {X: f}, {Y: f}}
	cut := model.Cut{Width: 39 * in / 8, Height: 39 * in / 8, Halve: model.HalvedOnce}
	square := geometry.Box(geometry.Point{}, geometry.At(f, f))
	for _, test := range []struct {
		cut   model.Cut
		shape geometry.Polygon
		want  bool
	}{
		{cut, triangle, true},
		{model.Cut{Width: cut.Width - in/8, Height: cut.Width - in/8, Halve: model.HalvedOnce}, triangle, false},
		{model.Cut{Width: 9 * in / 2, Height: 9 * in / 2}, square, true},
		{model.Cut{Width: 9 * in / 2, Height: 35 * in / 8}, square, false},
		{model.Cut{Width: 9 * in / 2, Height: 9 * in / 2}, square.OnPoint(), true},
		{model.Cut{Width: 57 * in / 8, Height: 57 * in / 8, Halve: model.HalvedTwice}, triangle, true}, // 4√2 + 1 1/4, up to 1/8
		{model.Cut{Width: 55 * in / 8, Height: 55 * in / 8, Halve: model.HalvedTwice}, triangle, true},
		{model.Cut{Width: 54 * in / 8, Height: 54 * in / 8, Halve: model.HalvedTwice}, triangle, false},
	} {
		if got := holds(test.cut, test.shape, in/4); got != test.want {
			t.Errorf("%+v holds %v: %v", test.cut, test.shape, got)
		}
	}
}
