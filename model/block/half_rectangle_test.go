package block

import (
	"math"
	"strings"
	"testing"

	"crossgrain/model"
	"pgregory.net/rapid"
)

func TestHalfRectanglePublished(t *testing.T) {
	const source = "mmmquilts.com, 2019-12, and xoxsew.com, 2022-10: w + 1 by 2w + 2"
	for _, test := range []struct {
		width, height model.Length
		want          [2]string
		trim          [2]string
	}{
		{2 * in, 4 * in, [2]string{"3", "6"}, [2]string{"2 1/2", "4 1/2"}},
		{3 * in, 6 * in, [2]string{"4", "8"}, [2]string{"3 1/2", "6 1/2"}},
		{6 * in, 3 * in, [2]string{"8", "4"}, [2]string{"6 1/2", "3 1/2"}},
	} {
		u := HalfRectangle{Width: test.width, Height: test.height, Fabrics: []string{"ink", "foam"}, Ease: trade}
		y := u.Make(inches, 3)
		compareCuts(t, source, y, printedCut{"ink", test.want[0], test.want[1], 2}, printedCut{"foam", test.want[0], test.want[1], 2})
		if y.Made != 4 || y.Trims[0].Width != asPrinted(t, test.trim[0]) || y.Trims[0].Height != asPrinted(t, test.trim[1]) {
			t.Errorf("%s: got %+v", source, y)
		}
	}
}

// The exact sizes: our own arithmetic, but for equal sides, which give the 7/8
// of half-square triangles.
func TestHalfRectangleExact(t *testing.T) {
	for _, test := range []struct {
		source        string
		width, height model.Length
		ease          Ease
		want          [2]string
	}{
		{"2.654 x 5.309, our own arithmetic", 2 * in, 4 * in, Ease{}, [2]string{"2 3/4", "5 3/8"}},
		{"APQ how-to, 3 + 7/8", 3 * in, 3 * in, Ease{}, [2]string{"3 7/8", "3 7/8"}},
		{"1/2 in over the exact size", 5 * in, 3 * in, trade, [2]string{"6 3/4", "4 1/4"}},
		// Modern Quilt Guild, themodernquiltguild.wordpress.com, 2012-01-08, cuts
		// 5 x 7 and trims to 4 1/2 x 6 1/2. Triangles with a seam all round take
		// 4.717 x 7.076: the page's seam runs through the corners of what is
		// trimmed, not of the finished unit, so it can do with less.
		{"Modern Quilt Guild, where 5 x 7 is cut", 4 * in, 6 * in, Ease{}, [2]string{"4 3/4", "7 1/8"}},
	} {
		u := HalfRectangle{Width: test.width, Height: test.height, Fabrics: []string{"ink", "foam"}, Ease: test.ease}
		compareCuts(t, test.source, u.Make(inches, 1),
			printedCut{"ink", test.want[0], test.want[1], 1}, printedCut{"foam", test.want[0], test.want[1], 1})
	}
	// Before rounding, in thousandths, the rest cut off.
	fine := Rules{Seam: in / 4, Ruler: 1}
	w, h := fine.halfRectangleCut(2*in, 4*in)
	if thousandths(w) != 2.654 || thousandths(h) != 5.309 {
		t.Errorf("2 x 4 takes %v x %v", thousandths(w), thousandths(h))
	}
}

func thousandths(l model.Length) float64 { return math.Floor(float64(l)/float64(in)*1000) / 1000 }

// The rectangle that is cut, halved, holds the triangle with seams on all three
// sides, and one that is a mark narrower or lower does not.
func TestHalfRectangleGeometry(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := float64(rapid.IntRange(1, 160).Draw(t, "width"))
		b := float64(rapid.IntRange(1, 160).Draw(t, "height"))
		width, height := inches.halfRectangleCut(model.Length(a)*eighth, model.Length(b)*eighth)
		p, q := float64(width)/float64(eighth), float64(height)/float64(eighth)
		const s, near = 2, 1e-6 // in eighths
		// From the right angle, with its seams, the finished slant runs from
		// (s+a, s) to (s, s+b). The raw slant is at s outside it, and the half of
		// the rectangle ends on the line from (p, 0) to (0, q).
		c := math.Hypot(a, b)
		legs := func() (along, down float64) { // of the raw triangle
			k := (a*b + c*s + (a+b)*s) / (a * b) // x/a + y/b on the raw slant
			return k * a, k * b
		}
		along, down := legs()
		if along > p+near || down > q+near {
			t.Errorf("%v x %v: the raw triangle has legs of %v and %v, the rectangle is %v x %v", a, b, along, down, p, q)
		}
		if p-1 > along-near || q-1 > down-near {
			t.Errorf("%v x %v: %v x %v is larger than need be for %v and %v", a, b, p, q, along, down)
		}
	})
}

// With a wide seam allowance the trade's addition would be too little.
func TestHalfRectangleTradeIsEnough(t *testing.T) {
	rules := Rules{Seam: in / 2, Ruler: eighth}
	u := HalfRectangle{Width: 2 * in, Height: 4 * in, Fabrics: []string{"ink", "foam"}, Ease: trade}
	exact := u
	exact.Ease = Ease{}
	if got, want := u.Make(rules, 1).Cuts[0], exact.Make(rules, 1).Cuts[0]; got.Width < want.Width || got.Height < want.Height {
		t.Errorf("cut %+v, exact is %+v", got, want)
	}
}

func TestHalfRectangleLean(t *testing.T) {
	u := HalfRectangle{Width: 2 * in, Height: 4 * in, Fabrics: []string{"ink", "foam"}}
	if upper := u.Make(inches, 1).Shapes[0]; upper.Fabric != "ink" || !upper.Outline[2].Equal(corner(0, 4*in)) {
		t.Errorf("the upper triangle is %+v", upper)
	}
	u.OtherWay = true
	y := u.Make(inches, 1)
	if upper := y.Shapes[0]; upper.Fabric != "ink" || !upper.Outline[2].Equal(corner(2*in, 4*in)) {
		t.Errorf("leaning the other way the upper triangle is %+v", upper)
	}
	if !strings.Contains(y.Notes[0], "from the upper left to the lower right") {
		t.Errorf("the note is %q", y.Notes)
	}
}

// Rectangles of one size that are halved the two ways are told apart: halved all
// the same way, half of the units would be mirror images.
func TestHalfRectangleWaysStayApart(t *testing.T) {
	u := HalfRectangle{Width: 2 * in, Height: 4 * in, Fabrics: []string{"ink", "foam"}}
	other := u
	other.OtherWay = true
	if a, b := u.Make(inches, 12), other.Make(inches, 12); a.Cuts[0] == b.Cuts[0] || a.Notes[0] == b.Notes[0] {
		t.Errorf("the two ways have the same cuts %+v or notes %q", a.Cuts[0], a.Notes[0])
	}
}

func TestHalfRectangleFaults(t *testing.T) {
	checkFaults(t, inches,
		faultTest{HalfRectangle{2 * in, 0, []string{"ink", "foam"}, false, Ease{}}, model.ErrNotPositive,
			`unit "x": half_rectangle: not more than 0 ("0 in"), write the finished size`},
		faultTest{HalfRectangle{2 * in, 4 * in, []string{"ink"}, false, Ease{OwnEase, 7 * in}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("1"), write 2: upper, lower` + "\n" +
				`unit "x": ease: out of range ("7 in"), write none, trade, or a length up to 6 in`},
	)
}
