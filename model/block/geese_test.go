package block

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

func TestGeesePublished(t *testing.T) {
	own := func(l model.Length) Ease { return Ease{Kind: OwnEase, Own: l} }
	for _, test := range []struct {
		source string
		method Method
		ease   Ease
		n      int
		want   []printedCut // of geese of 6 x 3
	}{
		{"christaquilts.com, quilty math", FromTriangles, Ease{}, 4,
			[]printedCut{{"ink", "7 1/4", "7 1/4", 1}, {"foam", "3 7/8", "3 7/8", 4}}},
		{"APQ, Flight of Geese", FlipAndTrim, Ease{}, 5,
			[]printedCut{{"ink", "6 1/2", "3 1/2", 5}, {"foam", "3 1/2", "3 1/2", 10}}},
		{"Quilter's World, June 2024, pressreader.com", FourAtATime, Ease{}, 5,
			[]printedCut{{"ink", "7 1/4", "7 1/4", 2}, {"foam", "3 7/8", "3 7/8", 8}}},
		{"the trade's ease, 1/4 and 1/8", FromTriangles, trade, 4,
			[]printedCut{{"ink", "7 1/2", "7 1/2", 1}, {"foam", "4", "4", 4}}},
		// The sky is printed at height + 1 1/4, the trade's ease gives + 1: an
		// ease of one's own reaches it.
		{"bluepipdesigns.blogspot.com, 2019-07", FromTriangles, own(3 * in / 8), 4,
			[]printedCut{{"ink", "7 5/8", "7 5/8", 1}, {"foam", "4 1/4", "4 1/4", 4}}},
	} {
		u := Geese{Width: 6 * in, Height: 3 * in, Fabrics: []string{"ink", "foam"}, Method: test.method, Ease: test.ease}
		compareCuts(t, test.source, u.Make(inches, test.n), test.want...)
	}
}

func TestGeeseFourAtATimePublished(t *testing.T) {
	table := readPublished(t).Geese
	for _, row := range table.Rows {
		u := Geese{Width: model.Length(row.Width), Height: model.Length(row.Height), Fabrics: []string{"ink", "foam"}, Method: FourAtATime}
		c := Checker{Rules: inches, Fabrics: threeFabrics}
		u.Check(&c, model.PathOf(KeyUnits, "x"))
		if err := c.Faults.OrNil(); err != nil {
			t.Errorf("%s: %v", table.Source, err)
		}
		y := u.Make(inches, 4)
		if len(y.Cuts) != 2 || y.Cuts[0].Width != model.Length(row.Large) || y.Cuts[0].Count != 1 ||
			y.Cuts[1].Width != model.Length(row.Small) || y.Cuts[1].Count != 4 {
			t.Errorf("%s: got %+v, want %+v", table.Source, y.Cuts, row)
		}
	}
}

// Two skies of different fabrics take squares of each.
func TestGeeseOfThreeFabrics(t *testing.T) {
	u := Geese{Width: 4 * in, Height: 2 * in, Fabrics: []string{"ink", "foam", "rust"}}
	compareCuts(t, "w + 1 1/4 and h + 7/8", u.Make(inches, 5),
		printedCut{"ink", "5 1/4", "5 1/4", 2}, printedCut{"foam", "2 7/8", "2 7/8", 3}, printedCut{"rust", "2 7/8", "2 7/8", 3})
	u.Method = FlipAndTrim
	compareCuts(t, "w + 1/2 and h + 1/2", u.Make(inches, 5),
		printedCut{"ink", "4 1/2", "2 1/2", 5}, printedCut{"foam", "2 1/2", "2 1/2", 5}, printedCut{"rust", "2 1/2", "2 1/2", 5})
}

// In flip and trim the seams run on the diagonals of the squares, from the lower
// corners of the rectangle. They cross on the middle of its width, s and half
// the ease below its edge: trimmed by half the ease all round, the point of the
// goose is at the finished edge.
func TestGeeseFlippedPoint(t *testing.T) {
	for _, ease := range []Ease{{}, trade, {Kind: OwnEase, Own: in / 2}} {
		u := Geese{Width: 5 * in, Height: 5 * in / 2, Fabrics: []string{"ink", "foam"}, Method: FlipAndTrim, Ease: ease}
		y := u.Make(inches, 1)
		base, square := y.Cuts[0], y.Cuts[1].Width
		// From the lower left corner the seam is x + y = square; its mirror image
		// meets it at x = width/2.
		point := square - base.Width/2
		cut := (base.Height - y.Trims[0].Height) / 2
		if point-cut != inches.Seam || base.Width-2*cut != y.Trims[0].Width {
			t.Errorf("%+v: the point is %s below the edge, and %s are trimmed", ease, point.Format(model.Inches), cut.Format(model.Inches))
		}
		// The sky and the seam allowance along its seam come out of the square.
		sky := y.Shapes[1].Outline
		over := geometry.Of(inches.Seam).OverRoot2()
		end := sky[1].Plus(geometry.At(over, over))
		if limit := geometry.Of(square - inches.Seam - cut); limit.Less(end.X) || limit.Less(end.Y) {
			t.Errorf("%+v: the square ends at %v, the seam allowance at %v", ease, limit, end)
		}
	}
}

func TestGeeseFaults(t *testing.T) {
	checkFaults(t, inches,
		faultTest{Geese{4 * in, 3 * in, []string{"ink", "foam"}, FromTriangles, Ease{}}, model.ErrNotTogether,
			`unit "x": flying_goose: do not go together ("4 x 3"), a flying goose is twice as wide as it is high: write 6 x 3`},
		faultTest{Geese{4 * in, 2 * in, []string{"ink"}, FromTriangles, Ease{}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("1"), write 2: goose, sky`},
		faultTest{Geese{4 * in, 2 * in, []string{"ink", "foam", "foam", "foam"}, FromTriangles, Ease{}}, model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("4"), write 3: goose, left sky, right sky`},
		faultTest{Geese{4 * in, 2 * in, []string{"ink", "foam", "rust"}, FourAtATime, Ease{}}, model.ErrNotTogether,
			`unit "x": fabrics: do not go together, 4 at a time gives a sky of one fabric: write goose, sky, or method: from triangles`},
		faultTest{Geese{4 * in, 2 * in, []string{"ink", "foam", "foam"}, FourAtATime, Ease{}}, nil, ""},
		faultTest{Geese{0, 0, []string{"ink", "foam"}, EightAtATime, Ease{OwnEase, -1}}, model.ErrNotPositive,
			`unit "x": flying_goose: not more than 0 ("0 in"), write the finished size` + "\n" +
				`unit "x": method: unknown word ("8 at a time"), this unit is made from triangles, flip and trim or 4 at a time` + "\n" +
				`unit "x": ease: out of range ("-0.0001 in"), write none, trade, or a length up to 6 in`},
	)
}
