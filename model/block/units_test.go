package block

import (
	"reflect"
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
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

// tester is a *testing.T or a *rapid.T.
type tester interface {
	Helper()
	Errorf(format string, args ...any)
}

// fills checks that shapes fill a polygon and do not overlap.
func fills(t tester, shapes []Shape, whole geometry.Polygon) {
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

// On a ruler of 0.5 cm, with seams of 0.75 cm. All by our own arithmetic; the
// eases of the trade are up to the next mark.
func TestUnitsInCentimetres(t *testing.T) {
	const cm, mm = model.Centimetre, model.Millimetre
	rules := Rules{Unit: model.Centimetres, Seam: 3 * cm / 4, Ruler: cm / 2}
	two := []string{"ink", "foam"}
	for _, test := range []struct {
		unit Unit
		want [][2]model.Length // width and height of each cut
	}{
		{Rectangle{6 * cm, 12 * cm, "ink"}, [][2]model.Length{{75 * mm, 135 * mm}}},
		{Geese{12 * cm, 6 * cm, two, FlipAndTrim, Ease{}}, [][2]model.Length{{135 * mm, 75 * mm}, {75 * mm, 75 * mm}}},
		// 12 + 3.62 and 6 + 2.56; the eases of 0.635 and 0.3175 are 1 and 0.5.
		{Geese{12 * cm, 6 * cm, two, FourAtATime, trade}, [][2]model.Length{{170 * mm, 170 * mm}, {95 * mm, 95 * mm}}},
		// 12/√2 + 1.5 is 9.99.
		{SquareInSquare{12 * cm, two, FromTriangles, Ease{}}, [][2]model.Length{{100 * mm, 100 * mm}, {90 * mm, 90 * mm}}},
		// 6 + 1.96 and 12 + 3.93: the trade's inch over, 8.54 and 17.08, is more.
		{HalfRectangle{6 * cm, 12 * cm, two, false, Ease{}}, [][2]model.Length{{80 * mm, 160 * mm}, {80 * mm, 160 * mm}}},
		{HalfRectangle{6 * cm, 12 * cm, two, false, trade}, [][2]model.Length{{90 * mm, 175 * mm}, {90 * mm, 175 * mm}}},
	} {
		checkFaults(t, rules, faultTest{unit: test.unit})
		cuts := test.unit.Make(rules, 1).Cuts
		if len(cuts) != len(test.want) {
			t.Errorf("%+v: got %+v", test.unit, cuts)
			continue
		}
		for i, want := range test.want {
			if cuts[i].Width != want[0] || cuts[i].Height != want[1] {
				t.Errorf("%+v: cut %d is %s", test.unit, i+1, model.FormatSize(cuts[i].Width, cuts[i].Height, model.Centimetres))
			}
		}
	}
}

// drawUnit draws a unit of any kind, good or bad.
func drawUnit(t *rapid.T) Unit {
	length := func(name string) model.Length {
		return model.Length(rapid.IntRange(-1, 32).Draw(t, name)) * in / 4
	}
	fabric := rapid.SampledFrom([]string{"ink", "foam", "rust", "rust", "fom"})
	fabrics := func(name string, least, most int) []string { return rapid.SliceOfN(fabric, least, most).Draw(t, name) }
	method := Method(rapid.IntRange(int(DefaultMethod), int(StripSets)).Draw(t, "method"))
	ease := Ease{Kind: EaseKind(rapid.IntRange(0, 2).Draw(t, "ease")), Own: length("own") / 4}
	side := length("side")
	switch rapid.IntRange(0, 6).Draw(t, "kind") {
	case 0:
		return Rectangle{side, length("height"), fabric.Draw(t, "fabric")}
	case 1:
		return QuarterSquare{side, fabrics("fabrics", 3, 5), method, ease}
	case 2:
		return Geese{2 * side, side, fabrics("fabrics", 1, 4), method, ease}
	case 3:
		return SquareInSquare{side, fabrics("fabrics", 2, 5), method, ease}
	case 4:
		return HalfRectangle{side, length("height"), fabrics("fabrics", 2, 2), rapid.Bool().Draw(t, "other way"), ease}
	case 5:
		u := Patches{Method: method, Ease: ease, SetLength: 4 * length("set length")}
		for range rapid.IntRange(0, 4).Draw(t, "columns") {
			u.Columns = append(u.Columns, length("column"))
		}
		for range rapid.IntRange(0, 3).Draw(t, "rows") {
			u.Rows = append(u.Rows, length("row"))
			u.Fabrics = append(u.Fabrics, fabrics("fabrics", len(u.Columns), len(u.Columns)))
		}
		return u
	}
	u := FlipCorners{Width: side, Height: length("height"), Fabric: "ink"}
	for range rapid.IntRange(0, 4).Draw(t, "corners") {
		u.Corners = append(u.Corners, FlipCorner{Corner: Corner(rapid.IntRange(0, 3).Draw(t, "corner")),
			Width: length("across"), Height: length("down"), Fabric: fabric.Draw(t, "fabric")})
	}
	return u
}

// Whatever is found to have no fault fills its size, and is cut on the ruler's
// mark from pieces with more area than they show.
func TestUnitsWithoutFaults(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u, n := drawUnit(t), rapid.IntRange(1, 20).Draw(t, "n")
		c := Checker{Rules: inches, Fabrics: threeFabrics}
		u.Check(&c, model.PathOf(KeyUnits, "x"))
		if len(c.Faults) > 0 {
			return
		}
		y := u.Make(inches, n)
		width, height := u.Size()
		whole := geometry.Box(geometry.Point{}, geometry.At(width, height))
		fills(t, y.Shapes, whole)
		var cut model.Area
		for _, have := range y.Cuts {
			if !have.Width.OnMark(eighth) || !have.Height.OnMark(eighth) || have.Count < 1 {
				t.Errorf("%+v: cut %+v", u, have)
			}
			cut += model.AreaOf(have.Width, have.Height) * model.Area(have.Count)
		}
		for _, s := range y.Strips {
			cut += model.AreaOf(s.Each, s.Height) * model.Area(s.Count*s.Beside)
		}
		if geometry.OfArea(cut).Less(whole.Area().Times(n)) || y.Made < n {
			t.Errorf("%+v: %d are made of %v", u, y.Made, y.Cuts)
		}
	})
}
