package block

import (
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

func TestSquareInSquarePublished(t *testing.T) {
	const flip = "scissortailquilting.com, square in a square"
	for _, test := range []struct {
		source                 string
		side                   model.Length
		method                 Method
		ease                   Ease
		centre, corners        string
		centreCount, cornerNum int // for 3 units
	}{
		{"slideblast.com, Lesson 5: block/2 x 1.414 + 1/2, corners by its own rule", 12 * in, FromTriangles, Ease{}, "9", "6 7/8", 3, 6},
		{"the same, with the trade's ease of 1/4", 12 * in, FromTriangles, trade, "9", "7 1/8", 3, 6},
		{flip, 6 * in, FlipAndTrim, Ease{}, "6 1/2", "3 1/2", 3, 12},
		{flip, 9 * in, FlipAndTrim, Ease{}, "9 1/2", "5", 3, 12},
		{flip, 12 * in, FlipAndTrim, Ease{}, "12 1/2", "6 1/2", 3, 12},
	} {
		u := SquareInSquare{Side: test.side, Fabrics: []string{"ink", "foam"}, Method: test.method, Ease: test.ease}
		compareCuts(t, test.source, u.Make(inches, 3),
			printedCut{"ink", test.centre, test.centre, test.centreCount}, printedCut{"foam", test.corners, test.corners, test.cornerNum})
	}
}

// Where the centre is known: centre/1.414, then + 7/8 and up to 1/8.
func TestCornersOfKnownCentre(t *testing.T) {
	for _, test := range []struct {
		source  string
		centre  model.Length
		corners string
	}{
		{"slideblast.com, Lesson 5", 7 * in / 2, "3 3/8"},
		{"old.quiltube.com, forum (weak)", 6 * in, "5 1/8"},
	} {
		square := inches.Ceil(inches.HalfSquareCut(geometry.Of(test.centre).OverRoot2()))
		if square != asPrinted(t, test.corners) {
			t.Errorf("%s: got %s, want %s", test.source, square.Format(model.Inches), test.corners)
		}
	}
}

func TestSquareInSquareOfFiveFabrics(t *testing.T) {
	u := SquareInSquare{Side: 4 * in, Fabrics: []string{"ink", "foam", "rust", "foam", "foam"}}
	y := u.Make(inches, 3) // 9 triangles of foam, 3 of rust
	compareCuts(t, "f/√2 + 1/2 and f/2 + 7/8", y,
		printedCut{"ink", "3 3/8", "3 3/8", 3}, printedCut{"foam", "2 7/8", "2 7/8", 5}, printedCut{"rust", "2 7/8", "2 7/8", 2})
	if y.Shapes[2].Fabric != "rust" || !y.Shapes[2].Outline[0].Equal(corner(4*in, 0)) {
		t.Errorf("the upper right corner is %+v", y.Shapes[2])
	}
	if len(y.Notes) != 1 || !strings.Contains(y.Notes[0], "cut 3 3/8 in") {
		t.Errorf("the notes are %q", y.Notes)
	}
	u.Method = FlipAndTrim
	if y := u.Make(inches, 3); y.Cuts[1].Count != 9 || y.Cuts[2].Count != 3 || len(y.Notes) != 0 {
		t.Errorf("flipped: %+v", y)
	}
}

// In flip and trim the seams of two corners cross on the middle of a side, s and
// half the ease from the edge: at the finished edge, once that is trimmed.
func TestSquareInSquareFlippedPoints(t *testing.T) {
	for _, ease := range []Ease{{}, trade} {
		y := SquareInSquare{Side: 7 * in, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim, Ease: ease}.Make(inches, 1)
		point := y.Cuts[1].Width - y.Cuts[0].Width/2
		if cut := (y.Cuts[0].Width - y.Trims[0].Width) / 2; point-cut != inches.Seam {
			t.Errorf("%+v: the point is %s below the edge", ease, point.Format(model.Inches))
		}
	}
}

func TestSquareInSquareFaults(t *testing.T) {
	two := []string{"ink", "foam"}
	checkFaults(t, inches,
		faultTest{SquareInSquare{4 * in, two[:1], FromTriangles, Ease{}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("1"), write 2: centre, corners`},
		faultTest{SquareInSquare{4 * in, []string{"ink", "foam", "ink"}, FromTriangles, Ease{}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("3"), write 5: centre, upper left, upper right, lower right, lower left`},
		faultTest{SquareInSquare{33 * eighth, two, FlipAndTrim, Ease{}}, model.ErrOffMark,
			`unit "x": square_in_square: off the ruler's mark ("4 1/8 in"), the squares to flip are half as large: ` +
				`write 4 1/4, method: from triangles, or a finer ruler`},
		faultTest{SquareInSquare{33 * eighth, two, FromTriangles, Ease{}}, nil, ""},
		faultTest{SquareInSquare{4 * in, two, TwoAtATime, Ease{}}, model.ErrNotAChoice,
			`unit "x": method: unknown word ("2 at a time"), this unit is made from triangles or flip and trim`},
	)
}
