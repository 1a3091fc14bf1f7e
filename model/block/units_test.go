package block

import (
	"reflect"
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

var (
	threeFabrics = []model.Fabric{{ID: "ink"}, {ID: "foam"}, {ID: "rust"}}
	trade        = Ease{Kind: TradeEase}
)

// everyUnit has each kind of unit, made in each way.
var everyUnit = []Unit{
	Rectangle{Width: 2 * in, Height: 2 * in, Fabric: "ink"},
	Rectangle{Width: 2 * in, Height: 9 * in / 2, Fabric: "ink"},
	HalfSquare{Side: 3 * in, Fabrics: []string{"ink", "foam"}},
	HalfSquare{Side: 3 * in, Fabrics: []string{"ink", "foam"}, Method: TwoAtATime, Ease: trade},
	HalfSquare{Side: 3 * in, Fabrics: []string{"ink", "foam"}, Method: FourAtATime},
	HalfSquare{Side: 3 * in, Fabrics: []string{"ink", "foam"}, Method: EightAtATime},
	QuarterSquare{Side: 4 * in, Fabrics: []string{"ink", "foam", "ink", "rust"}},
	QuarterSquare{Side: 9 * in / 2, Fabrics: []string{"ink", "foam", "ink", "foam"}, Method: TwoAtATime, Ease: trade},
	Geese{Width: 4 * in, Height: 2 * in, Fabrics: []string{"ink", "foam"}},
	Geese{Width: 5 * in, Height: 5 * in / 2, Fabrics: []string{"ink", "foam", "rust"}, Ease: trade},
	Geese{Width: 6 * in, Height: 3 * in, Fabrics: []string{"ink", "foam", "rust"}, Method: FlipAndTrim},
	Geese{Width: 6 * in, Height: 3 * in, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim, Ease: trade},
	Geese{Width: 6 * in, Height: 3 * in, Fabrics: []string{"ink", "foam"}, Method: FourAtATime},
	SquareInSquare{Side: 4 * in, Fabrics: []string{"ink", "foam"}},
	SquareInSquare{Side: 9 * in / 2, Fabrics: []string{"ink", "foam", "rust", "foam", "foam"}, Ease: trade},
	SquareInSquare{Side: 6 * in, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim, Ease: trade},
	HalfRectangle{Width: 2 * in, Height: 4 * in, Fabrics: []string{"ink", "foam"}},
	HalfRectangle{Width: 5 * in, Height: 3 * in, Fabrics: []string{"ink", "foam"}, OtherWay: true, Ease: trade},
	Patches{Columns: lengths(2, 2), Rows: lengths(2, 2), Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}, Ease: trade},
	Patches{Columns: lengths(1, 2, 1), Rows: lengths(1, 2, 1), Fabrics: ninePatch, Method: StripSets},
	Patches{Columns: lengths(1, 1, 1), Rows: lengths(3), Fabrics: ninePatch[:1], Method: StripSets, SetLength: 21 * in},
	FlipCorners{Width: 7 * in, Height: 3 * in, Fabric: "ink", Corners: []FlipCorner{
		{Corner: UpperLeft, Width: 3 * in, Height: 3 * in, Fabric: "foam"},
		{Corner: UpperRight, Width: 4 * in, Height: 2 * in, Fabric: "rust"},
		{Corner: LowerRight, Width: 4 * in, Height: in, Fabric: "rust"},
	}},
}

var ninePatch = [][]string{{"ink", "foam", "ink"}, {"foam", "rust", "foam"}, {"ink", "foam", "ink"}}

// lengths are whole inches.
func lengths(inches ...model.Length) []model.Length {
	l := make([]model.Length, len(inches))
	for i, n := range inches {
		l[i] = n * in
	}
	return l
}

// The finished pieces of every unit fill it without overlapping, and there are
// enough cut pieces for them.
func TestEveryUnitIsFilled(t *testing.T) {
	for _, u := range everyUnit {
		c := Checker{Rules: inches, Fabrics: threeFabrics}
		u.Check(&c, model.PathOf(KeyUnits, "x"))
		if err := c.Faults.OrNil(); err != nil {
			t.Errorf("%+v: %v", u, err)
			continue
		}
		const n = 7
		y := u.Make(inches, n)
		if y.Made < n {
			t.Errorf("%+v: %d are made of %d", u, y.Made, n)
		}
		width, height := u.Size()
		whole := geometry.Box(geometry.Point{}, geometry.At(width, height))
		fills(t, y.Shapes, whole)
		need := make([]int, len(y.Cuts))
		for _, s := range y.Shapes {
			if s.Cut < 0 {
				continue
			}
			if y.Cuts[s.Cut].Fabric != s.Fabric {
				t.Errorf("%+v: %v is cut from %s", u, s, y.Cuts[s.Cut].Fabric)
			}
			need[s.Cut] += y.Made
		}
		for i, cut := range y.Cuts {
			if cut.Count*cut.Halve.Shapes() < need[i] {
				t.Errorf("%+v: %+v gives fewer than %d shapes", u, cut, need[i])
			}
			if cut.Count < 1 || !cut.Width.OnMark(inches.Ruler) || !cut.Height.OnMark(inches.Ruler) || cut.Use == "" {
				t.Errorf("%+v: %+v", u, cut)
			}
		}
		for _, trim := range y.Trims {
			if !geometry.Of(trim.Width).Equal(width.Add(geometry.Of(in/2))) || !geometry.Of(trim.Height).Equal(height.Add(geometry.Of(in/2))) {
				t.Errorf("%+v is trimmed to %+v", u, trim)
			}
		}
	}
}

// fills checks that shapes fill a polygon and do not overlap.
func fills(t *testing.T, shapes []Shape, whole geometry.Polygon) {
	t.Helper()
	var sum geometry.Surd
	for i, s := range shapes {
		sum = sum.Add(s.Outline.Area())
		if !s.Outline.Convex() || !s.Outline.Within(whole) {
			t.Errorf("%v is not a convex part of %v", s.Outline, whole)
		}
		for _, other := range shapes[:i] {
			if geometry.Overlap(s.Outline, other.Outline) {
				t.Errorf("%v and %v overlap", s.Outline, other.Outline)
			}
		}
	}
	if !sum.Equal(whole.Area()) {
		t.Errorf("the shapes have %v of %v", sum, whole.Area())
	}
}

// A unit in other fabrics has the same shapes, and the unit itself stays.
func TestEveryUnitRecoloured(t *testing.T) {
	swap := Swap{"ink": "foam", "foam": "ink"}
	for _, u := range everyUnit {
		before := slices.Clone(u.Uses())
		other := u.Recolour(swap)
		if !slices.Equal(other.Uses(), swap.of(before)) || !slices.Equal(u.Uses(), before) {
			t.Errorf("%v becomes %v", before, other.Uses())
		}
		if back := other.Recolour(swap); !reflect.DeepEqual(back, u) {
			t.Errorf("%+v comes back as %+v", u, back)
		}
	}
}
