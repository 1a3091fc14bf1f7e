package block

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// A stitch-and-flip square of 4 corners is a square in a square, and a rectangle
// with two a flying goose: the same cuts as those, which are held to print.
func TestFlipCornersAsOtherUnits(t *testing.T) {
	square := FlipCorners{Width: 9 * in, Height: 9 * in, Fabric: "ink"}
	half := 9 * in / 2
	for c := UpperLeft; c <= LowerLeft; c++ {
		square.Corners = append(square.Corners, FlipCorner{Corner: c, Width: half, Height: half, Fabric: "foam"})
	}
	goose := FlipCorners{Width: 6 * in, Height: 3 * in, Fabric: "ink", Corners: []FlipCorner{
		{Corner: UpperLeft, Width: 3 * in, Height: 3 * in, Fabric: "foam"}, {Corner: UpperRight, Width: 3 * in, Height: 3 * in, Fabric: "foam"}}}
	for _, test := range []struct {
		source      string
		flip        FlipCorners
		other       Unit
		base        [2]string
		corner      string
		baseCorners int // of what shows of the base
	}{
		{"scissortailquilting.com, square in a square", square,
			SquareInSquare{Side: 9 * in, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim}, [2]string{"9 1/2", "9 1/2"}, "5", 4},
		{"APQ, Flight of Geese", goose,
			Geese{Width: 6 * in, Height: 3 * in, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim}, [2]string{"6 1/2", "3 1/2"}, "3 1/2", 3},
	} {
		y, other := test.flip.Make(inches, 2), test.other.Make(inches, 2)
		want := []printedCut{{"ink", test.base[0], test.base[1], 2}}
		for range test.flip.Corners {
			want = append(want, printedCut{"foam", test.corner, test.corner, 2})
		}
		compareCuts(t, test.source, y, want...)
		compareCuts(t, test.source, other, want[0], printedCut{"foam", test.corner, test.corner, 2 * len(test.flip.Corners)})
		if got := len(y.Shapes[0].Outline); got != test.baseCorners || !y.Shapes[0].Outline.Area().Equal(other.Shapes[0].Outline.Area()) {
			t.Errorf("%s: the base is %v", test.source, y.Shapes[0].Outline)
		}
	}
}

// Star points of 13 in blocks: for 36 of them, 36 rectangles of 7 1/2 x 3 1/2 and
// 72 of 4 3/8 x 3 1/2 (APQ, Stars and Sashing, allpeoplequilt.com). That two
// points meet in the middle, 3 1/2 wide, is our reading. Cut like half-rectangle
// triangles, with a seam all round, they would be 4 1/2 x 3 7/8: the pattern lets
// their tips end at the edge, so its size is given.
func TestFlipCornersPublished(t *testing.T) {
	point := FlipCorner{Width: 7 * in / 2, Height: 3 * in, Fabric: "foam"}
	for _, test := range []struct {
		cut  [2]model.Length
		want [2]string
	}{{[2]model.Length{35 * eighth, 28 * eighth}, [2]string{"4 3/8", "3 1/2"}}, {[2]model.Length{}, [2]string{"4 1/2", "3 7/8"}}} {
		left, right := point, point
		left.Corner, left.CutWidth, left.CutHeight = UpperLeft, test.cut[0], test.cut[1]
		right.Corner, right.CutWidth, right.CutHeight = UpperRight, test.cut[0], test.cut[1]
		u := FlipCorners{Width: 7 * in, Height: 3 * in, Fabric: "ink", Corners: []FlipCorner{left, right}}
		checkFaults(t, inches, faultTest{unit: u})
		compareCuts(t, "APQ, Stars and Sashing", u.Make(inches, 36), printedCut{"ink", "7 1/2", "3 1/2", 36},
			printedCut{"foam", test.want[0], test.want[1], 36}, printedCut{"foam", test.want[0], test.want[1], 36})
	}
}

// A corner that is not square is cut like a half-rectangle triangle, as a whole,
// unless its cut size is given.
func TestSlantedCorner(t *testing.T) {
	u := FlipCorners{Width: 7 * in, Height: 4 * in, Fabric: "ink", Corners: []FlipCorner{
		{Corner: LowerLeft, Width: 2 * in, Height: 4 * in, Fabric: "foam"},
		{Corner: LowerRight, Width: 3 * in, Height: 2 * in, Fabric: "rust", CutWidth: 35 * eighth, CutHeight: 28 * eighth},
	}}
	y := u.Make(inches, 3)
	compareCuts(t, "2 x 4 takes 2.654 x 5.309, our own arithmetic", y,
		printedCut{"ink", "7 1/2", "4 1/2", 3}, printedCut{"foam", "2 3/4", "5 3/8", 3}, printedCut{"rust", "4 3/8", "3 1/2", 3})
	if len(y.Notes) != 1 || y.Cuts[1].Halve != model.NotHalved {
		t.Errorf("got %+v", y)
	}
	base := geometry.Polygon{{}, corner(7*in, 0), corner(7*in, 2*in), corner(4*in, 4*in), corner(2*in, 4*in)}
	for i, p := range y.Shapes[0].Outline {
		if !p.Equal(base[i]) {
			t.Errorf("the base is %v, want %v", y.Shapes[0].Outline, base)
			break
		}
	}
	u.Corners = u.Corners[1:]
	if y := u.Make(inches, 1); len(y.Notes) != 0 {
		t.Errorf("a size that is given needs no note: %q", y.Notes)
	}
}

func TestFlipCornersFaults(t *testing.T) {
	with := func(corners ...FlipCorner) FlipCorners {
		return FlipCorners{Width: 4 * in, Height: 2 * in, Fabric: "ink", Corners: corners}
	}
	flip := func(c Corner, width, height model.Length) FlipCorner {
		return FlipCorner{Corner: c, Width: width, Height: height, Fabric: "foam"}
	}
	cut := func(width, height model.Length) FlipCorners {
		f := flip(UpperLeft, in, in)
		f.CutWidth, f.CutHeight = width, height
		return with(f)
	}
	checkFaults(t, inches,
		faultTest{with(), model.ErrMissing, `unit "x": corners: missing, write at least one corner`},
		faultTest{with(flip(UpperLeft, 2*in, 2*in), flip(UpperRight, 2*in, 2*in)), nil, ""},
		faultTest{with(flip(UpperLeft, 5*in, 2*in)), model.ErrTooLarge,
			`unit "x": corner 1: size: too large ("5 x 2"), the unit is 4 x 2`},
		faultTest{with(flip(UpperLeft, 0, in)), model.ErrNotPositive,
			`unit "x": corner 1: size: not more than 0 ("0 in"), write the finished size`},
		faultTest{with(flip(UpperLeft, in, in), flip(UpperLeft, in, in)), model.ErrDuplicate,
			`unit "x": corner 2: corner: used twice ("upper left"), write another corner`},
		faultTest{with(flip(UpperLeft, in, in), flip(UpperRight, 25*eighth, in)), model.ErrTooLarge,
			`unit "x": corner 2: size: too large ("3 1/8 x 1"), it overlaps corner 1: write smaller ones`},
		faultTest{with(flip(UpperLeft, 4*in, 2*in), flip(LowerRight, 4*in, 2*in)), model.ErrTooLarge,
			`unit "x": corners: too large, they leave nothing of the base: write smaller ones, or a half_rectangle`},
		faultTest{with(FlipCorner{Width: in, Height: in, Fabric: "fom"}), model.ErrUnknown,
			`unit "x": corner 1: fabric: not a fabric of this quilt ("fom"), write one of ink, foam, rust, or add it to the fabrics`},
		faultTest{cut(in, 0), model.ErrNotPositive,
			`unit "x": corner 1: cut: not more than 0 ("1 x 0 in"), write the size that the blade cuts, or leave it out`},
		faultTest{cut(in, 1001*in), model.ErrOutOfRange,
			`unit "x": corner 1: cut: out of range ("1 x 1001 in"), no side is longer than 1000 in`},
		faultTest{cut(in, 17*in/16), model.ErrOffMark,
			`unit "x": corner 1: cut: off the ruler's mark ("1 x 1 1/16 in"), write 1 x 1 1/8, or a finer ruler`},
	)
}

func TestCornerWords(t *testing.T) {
	for c := UpperLeft; c <= LowerLeft; c++ {
		if back, err := ParseCorner(c.String()); back != c || err != nil {
			t.Errorf("%s is read as %v, %v", c, back, err)
		}
	}
	if _, err := ParseCorner("top left"); err == nil {
		t.Error("top left was read")
	}
}
