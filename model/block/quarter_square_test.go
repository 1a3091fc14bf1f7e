package block

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

func TestQuarterSquarePublished(t *testing.T) {
	hourglass, four := []string{"ink", "foam", "ink", "foam"}, []string{"ink", "foam", "ink", "rust"}
	for _, test := range []struct {
		source  string
		side    model.Length
		method  Method
		ease    Ease
		fabrics []string
		n, made int
		want    []printedCut
	}{
		{"APQ how-to, allpeoplequilt.com/print/325998", 3 * in, FromTriangles, Ease{}, hourglass, 2, 2,
			[]printedCut{{"ink", "4 1/4", "4 1/4", 1}, {"foam", "4 1/4", "4 1/4", 1}}},
		{"quiltville.blogspot.com, 2005-06", 4 * in, FromTriangles, Ease{}, four, 5, 6,
			[]printedCut{{"ink", "5 1/4", "5 1/4", 3}, {"foam", "5 1/4", "5 1/4", 2}, {"rust", "5 1/4", "5 1/4", 2}}},
		{"quiltville.blogspot.com, 2005-06", 4 * in, TwoAtATime, Ease{}, hourglass, 5, 6,
			[]printedCut{{"ink", "5 1/4", "5 1/4", 3}, {"foam", "5 1/4", "5 1/4", 3}}},
		{"North Hampshire Quilters, north-hampshire-quilters.org.uk/hblk402b.htm: 1 1/2 over", 3 * in, FromTriangles, trade, hourglass, 2, 2,
			[]printedCut{{"ink", "4 1/2", "4 1/2", 1}, {"foam", "4 1/2", "4 1/2", 1}}},
	} {
		u := QuarterSquare{Side: test.side, Fabrics: test.fabrics, Method: test.method, Ease: test.ease}
		y := u.Make(inches, test.n)
		compareCuts(t, test.source, y, test.want...)
		if y.Made != test.made || (y.Cuts[0].Halve == model.HalvedTwice) != (test.method == FromTriangles) {
			t.Errorf("%s: got %+v", test.source, y)
		}
	}
}

// Short side 2: the long side is 2.828, the square 2.828 + 1.25 = 4.08
// (blackforestquilting.com, What size should my triangle be). With 1.207 for
// 1 1/4 it is 4.04; on the ruler both are 4 1/8.
func TestQuarterSquareOfShortSide(t *testing.T) {
	long := geometry.Of(2 * in).TimesRoot2()
	page, exact := long.Add(geometry.Of(5*in/4)), inches.QuarterSquareCut(long)
	for _, test := range []struct {
		square     geometry.Surd
		hundredths int
	}{{page, 408}, {exact, 404}} {
		off := test.square.Times(100).Sub(geometry.Of(in).Times(test.hundredths))
		if half := geometry.Of(in).Half(); half.Less(off) || half.Less(off.Neg()) {
			t.Errorf("%v is not %d hundredths of an inch", test.square, test.hundredths)
		}
		if got := inches.Ceil(test.square); got != 33*in/8 {
			t.Errorf("on the ruler it is %s", got.Format(model.Inches))
		}
	}
}

func TestQuarterSquareFaults(t *testing.T) {
	checkFaults(t, inches,
		faultTest{QuarterSquare{4 * in, []string{"ink", "foam"}, TwoAtATime, Ease{}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("2"), write 4: top, right, bottom, left`},
		faultTest{QuarterSquare{4 * in, []string{"ink", "foam", "ink", "rust"}, TwoAtATime, Ease{}}, model.ErrNotTogether,
			`unit "x": fabrics: do not go together, 2 at a time gives top and bottom of one fabric, left and right of one other: ` +
				`write them so, or method: from triangles`},
		faultTest{QuarterSquare{in / 16, []string{"ink", "foam", "ink", "foam"}, StripSets, Ease{}}, model.ErrOffMark,
			`unit "x": quarter_square: off the ruler's mark ("1/16 in"), with its seams it is 9/16 in: write 1/8, or a finer ruler` + "\n" +
				`unit "x": method: unknown word ("strip sets"), this unit is made from triangles or 2 at a time`},
	)
}
