package block

import (
	"errors"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
)

const (
	in     = model.Inch
	eighth = model.Inch / 8
)

var inches = DefaultRules(model.Inches)

// Squares to cut for half-square triangles, as printed.
func TestHalfSquarePublished(t *testing.T) {
	own := Ease{Kind: OwnEase, Own: in / 4}
	for _, test := range []struct {
		source  string
		side    model.Length
		method  Method
		ease    Ease
		n       int
		square  model.Length
		squares int // of each fabric
	}{
		{"APQ how-to, allpeoplequilt.com/print/325998", 3 * in, FromTriangles, Ease{}, 2, 3*in + 7*eighth, 1},
		{"APQ how-to, allpeoplequilt.com/print/325998", 2 * in, TwoAtATime, Ease{}, 9, 2*in + 7*eighth, 5},
		{"APQ, August 2019, 8 at once", 3 * in / 2, EightAtATime, Ease{}, 120, 4*in + 6*eighth, 15},
		{"quiltingboard.com t28839, finished + 1", 2 * in, FromTriangles, Ease{Kind: TradeEase}, 1, 3 * in, 1},
		{"quiltingboard.com t28839, finished + 1", 3 * in, FromTriangles, Ease{Kind: TradeEase}, 1, 4 * in, 1},
		{"North Hampshire Quilters, a further 1/4", 3 * in, FromTriangles, own, 1, 4*in + eighth, 1},
		{"our own arithmetic, 3√2 + 1.207", 3 * in, FourAtATime, Ease{}, 5, 5*in + 4*eighth, 2},
	} {
		u := HalfSquare{Side: test.side, Fabrics: []string{"ink", "foam"}, Method: test.method, Ease: test.ease}
		y := u.Make(inches, test.n)
		for i, c := range y.Cuts {
			if c.Width != test.square || c.Height != test.square || c.Count != test.squares || c.Fabric != u.Fabrics[i] {
				t.Errorf("%s: %v: cut %+v, want %d squares of %v", test.source, test.method, c, test.squares, test.square)
			}
			if halved := c.Halve == model.HalvedOnce; halved != (test.method == FromTriangles) {
				t.Errorf("%s: %v: halved is %v", test.source, test.method, halved)
			}
		}
		if len(y.Cuts) != 2 || y.Made < test.n || y.Trims[0].Width != test.side+in/2 {
			t.Errorf("%s: got %+v", test.source, y)
		}
	}
}

// In centimetres, on a ruler of 0.5 cm: 10 + 0.75(2+√2) = 12.56….
func TestHalfSquareInCentimetres(t *testing.T) {
	rules := Rules{Unit: model.Centimetres, Seam: 3 * model.Centimetre / 4, Ruler: model.Centimetre / 2}
	u := HalfSquare{Side: 10 * model.Centimetre, Fabrics: []string{"ink", "foam"}}
	if got := u.Make(rules, 1).Cuts[0].Width; got != 13*model.Centimetre {
		t.Errorf("the square is %s", got.FormatWithUnit(model.Centimetres))
	}
	u.Ease.Kind = TradeEase
	if got := u.Make(rules, 1).Cuts[0].Width; got != 135*model.Millimetre {
		t.Errorf("the square with ease is %s", got.FormatWithUnit(model.Centimetres))
	}
}

// The triangles fill the unit, and the square holds each with its seams: the
// lines at s outside the three sides meet within it.
func TestHalfSquareGeometry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := model.Length(rapid.Int64Range(1, 400).Draw(t, "eighths")) * eighth
		u := HalfSquare{Side: side, Fabrics: []string{"ink", "foam"}}
		y := u.Make(inches, 1)
		upper, lower := y.Shapes[0].Outline, y.Shapes[1].Outline
		if !upper.Area().Add(lower.Area()).Equal(geometry.OfArea(model.AreaOf(side, side))) || geometry.Overlap(upper, lower) {
			t.Errorf("%v and %v do not fill the square", upper, lower)
		}
		s, f := geometry.Of(inches.Seam), geometry.Of(side)
		corner := s.Neg() // of the upper left triangle, with seams
		// x + y = f moved out by s is x + y = f + s√2.
		far := f.Add(s.TimesRoot2()).Sub(corner)
		raw := geometry.Polygon{geometry.At(corner, corner), geometry.At(far, corner), geometry.At(corner, far)}
		cut := geometry.Of(y.Cuts[0].Width)
		half := geometry.Polygon{{}, geometry.At(cut, geometry.Surd{}), geometry.At(geometry.Surd{}, cut)}
		if !raw.Moved(geometry.At(s, s)).Within(half) {
			t.Errorf("a square of %v does not hold a triangle of %v", cut, side)
		}
		if spare := y.Cuts[0].Width - eighth; !geometry.Of(spare).Less(far.Add(s)) {
			t.Errorf("a square of %v would do for %v", spare, side)
		}
	})
}

func TestHalfSquareFaults(t *testing.T) {
	fabrics := []model.Fabric{{ID: "ink"}, {ID: "foam"}}
	good := HalfSquare{Side: 2 * in, Fabrics: []string{"ink", "foam"}}
	for _, test := range []struct {
		change func(u *HalfSquare)
		kind   error
		want   string
	}{
		{func(*HalfSquare) {}, nil, ""},
		{func(u *HalfSquare) { u.Side = 0 }, model.ErrNotPositive, `unit "x": half_square: not more than 0 ("0 in"), write the finished size`},
		{func(u *HalfSquare) { u.Side = in / 16 }, model.ErrOffMark,
			`unit "x": half_square: off the ruler's mark ("1/16 in"), with its seams it is 9/16 in: write 1/8, or a finer ruler`},
		{func(u *HalfSquare) { u.Side = 201 * in }, model.ErrOutOfRange, `unit "x": half_square: out of range ("201 in"), write at most 200 in`},
		{func(u *HalfSquare) { u.Fabrics = []string{"ink"} }, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("1"), write 2: upper left, lower right`},
		{func(u *HalfSquare) { u.Fabrics = []string{"ink", "fom"} }, model.ErrUnknown,
			`unit "x": fabric 2: not a fabric of this quilt ("fom"), write one of ink, foam, or add it to the fabrics`},
		{func(u *HalfSquare) { u.Method = FlipAndTrim }, model.ErrNotAChoice,
			`unit "x": method: unknown word ("flip and trim"), this unit is made from triangles, 2 at a time, 4 at a time or 8 at a time`},
		{func(u *HalfSquare) { u.Ease = Ease{OwnEase, 7 * in} }, model.ErrOutOfRange,
			`unit "x": ease: out of range ("7 in"), write none, trade, or a length up to 6 in`},
	} {
		u, c := good, Checker{Rules: inches, Fabrics: fabrics}
		test.change(&u)
		u.Check(&c, model.PathOf(KeyUnits, "x"))
		if err := c.Faults.OrNil(); !errors.Is(err, test.kind) || err != nil && err.Error() != test.want {
			t.Errorf("got  %v\nwant %s", err, test.want)
		}
	}
}

func TestHalfSquareRecolour(t *testing.T) {
	u := HalfSquare{Side: in, Fabrics: []string{"ink", "foam"}}
	if got := u.Recolour(Swap{"ink": "rust"}).Uses(); got[0] != "rust" || got[1] != "foam" || u.Fabrics[0] != "ink" {
		t.Errorf("got %v of %v", got, u.Fabrics)
	}
}
