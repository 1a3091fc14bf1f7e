package setting

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
)

// pieces are the cuts and the strips of a yield in words: how many of which
// size, strips as they are at 42 in.
func pieces(y block.Yield) string {
	var words []string
	for _, c := range y.Cuts {
		words = append(words, fmt.Sprintf("%d %s", c.Count, model.FormatSize(c.Width, c.Height, model.Inches)))
	}
	for _, s := range y.Strips {
		words = append(words, fmt.Sprintf("%d strips of %s for %s", s.Strips(42*in), s.Height.Format(model.Inches), s.Run.Format(model.Inches)))
	}
	return strings.Join(words, ", ")
}

// cloth is a fabric of a usable width.
func cloth(usable model.Length) model.Fabric {
	return model.Fabric{ID: "ink", UsableWidths: []model.Length{usable}}
}

// Borders as they are published. Sources measure a quilt with its seam
// allowances, 1/2 in more than its finished size.
func TestBorderPublished(t *testing.T) {
	const guild = "guild class, oldmvc.villageserver.com/4Bs_Oct.html"
	const apq = "American Patchwork & Quilting, allpeoplequilt.com, patterns"
	eighths := func(n model.Length) model.Length { return n * in / 8 }
	for _, row := range []struct {
		source              string
		border              Border
		width, height       model.Length // of the quilt inside, with its seam allowances
		want                string
		newWidth, newHeight model.Length // with seam allowances; 0 is not checked
	}{
		// Whole pieces; the class says nothing of the width of its fabric.
		{guild, Border{Width: in, Cut: LengthwiseCut}, eighths(260), eighths(352), "2 1 1/2 x 44, 2 1 1/2 x 34 1/2", eighths(276), eighths(368)},
		{guild, Border{Width: 2 * in, Cut: LengthwiseCut}, eighths(276), eighths(368), "2 2 1/2 x 46, 2 2 1/2 x 38 1/2", eighths(308), eighths(400)},
		{guild, Border{Width: 4 * in, Corners: CornerSquares, CornerFabric: "rust", Cut: LengthwiseCut}, eighths(308), eighths(400),
			"2 4 1/2 x 50, 2 4 1/2 x 38 1/2, 4 4 1/2", 0, 0},
		// 40 is taken for the finished side: 40 + 10 + 6.
		{"APQ, allpeoplequilt.com, mitering borders", Border{Width: 5 * in, Corners: Mitred, Extra: 6 * in, Cut: LengthwiseCut},
			eighths(324), eighths(324), "2 5 1/2 x 56, 2 5 1/2 x 56", 0, 0},
		// 50 x 60 with seam allowances, borders of 1, 2 1/2 and 3 1/2 as one: 65 and 75. An inch
		// beyond those is 1 1/2 beyond the finished size.
		{"quiltingboard.com, t168402", Border{Width: 7 * in, Corners: Mitred, Extra: 3 * in / 2, Cut: LengthwiseCut},
			eighths(400), eighths(480), "2 7 1/2 x 75, 2 7 1/2 x 65", 0, 0},
		{`slideserve.com, "Can You Figure the Amount of Yardage": 338 in all`, Border{Width: 13 * in / 2},
			eighths(560), eighths(688), "9 strips of 7 for 338", 0, 0},
		// 234 + 4w with w = 5 is 254.
		{"generations-quilt-patterns.com, how to calculate quilt borders: 7 strips for 254", Border{Width: 5 * in},
			eighths(448), eighths(488), "7 strips of 5 1/2 for 254", 0, 0},
		// Four of them fit 42 in side by side.
		{"quiltingboard.com, 511807, post 6: 80 and 10 over", Border{Width: 10 * in, Sides: []block.Side{block.Left}, Cut: LengthwiseCut, Extra: 10 * in},
			eighths(640), eighths(640), "1 10 1/2 x 90", 0, 0},
		{apq + ": Stars and Sashing", Border{Width: 7 * in / 2, Corners: CornerSquares, CornerFabric: "rust", Cut: LengthwiseCut},
			eighths(348), eighths(348), "2 4 x 43 1/2, 2 4 x 43 1/2, 4 4", eighths(404), eighths(404)},
		{apq + ": two 78 1/2 and two 68 1/2 of 6 1/2", Border{Width: 6 * in, Cut: LengthwiseCut},
			eighths(452), eighths(628), "2 6 1/2 x 78 1/2, 2 6 1/2 x 68 1/2", eighths(548), eighths(724)},
		// Two pieces of 39 1/2 lie on strips of their own: five, as published.
		{apq + ": five 5 1/2 strips, outside 43 1/2 x 49 1/2", Border{Width: 5 * in},
			eighths(268), eighths(316), "2 39 1/2 x 5 1/2, 3 strips of 5 1/2 for 87", eighths(348), eighths(396)},
		// The pattern pieces each side of its own strips, 2 and 2, 3 and 3: ten.
		{apq + ": ten 4 1/2 strips, outside 90 1/2", Border{Width: 4 * in},
			eighths(660), eighths(660), "9 strips of 4 1/2 for 346", eighths(724), eighths(724)},
		{apq + ": eight 4 1/2 strips, outside 70 1/2 x 86 1/2", Border{Width: 4 * in},
			eighths(500), eighths(628), "8 strips of 4 1/2 for 298", eighths(564), eighths(692)},
		{apq + ": seven 2 1/2 strips within it", Border{Width: 2 * in}, eighths(468), eighths(596), "7 strips of 2 1/2 for 274", eighths(500), eighths(628)},
		{apq + ": seven 1 1/2 strips within those", Border{Width: in}, eighths(452), eighths(580), "7 strips of 1 1/2 for 262", eighths(468), eighths(596)},
		{apq + ": Striking Stars, inner border", Border{Width: in, Corners: SidesFirst}, eighths(260), eighths(260), "2 32 1/2 x 1 1/2, 2 34 1/2 x 1 1/2", eighths(276), eighths(276)},
		{apq + ": Striking Stars, outer border", Border{Width: 6 * in}, eighths(276), eighths(276),
			"2 34 1/2 x 6 1/2, 3 strips of 6 1/2 for 93", eighths(372), eighths(372)},
	} {
		seams := in / 2
		f := row.border.Around(inches, 1, geometry.Of(row.width-seams), geometry.Of(row.height-seams), cloth(42*in))
		if got := pieces(f.Yield); got != row.want {
			t.Errorf("%s: got %s, want %s", row.source, got, row.want)
		}
		if row.newWidth > 0 && (!f.Width.Equal(geometry.Of(row.newWidth-seams)) || !f.Height.Equal(geometry.Of(row.newHeight-seams))) {
			t.Errorf("%s: the quilt is then %v x %v", row.source, f.Width, f.Height)
		}
	}
}

// A join of mitred strips of an 8 in border loses 8 in and the seams: the strip
// is cut 8 1/2 (quiltingboard.com, t109880, has the finished width).
func TestBorderJoins(t *testing.T) {
	b := Border{Width: 8 * in, Cut: CrosswiseDiagonal, Sides: []block.Side{block.Top, block.Bottom}}
	f := b.Around(inches, 3, geometry.Of(60*in), geometry.Of(50*in), cloth(40*in))
	want := "Border 3: join the strips to one length, and cut from it 2 of 60 1/2 in."
	if s := f.Yield.Strips[0]; s.Join != 17*in/2 || s.Run != 121*in || s.Height != 17*in/2 || f.Yield.Notes[0] != want || s.Use != "border 3" {
		t.Errorf("got %+v, %v", s, f.Yield.Notes)
	}
	if !f.Width.Equal(geometry.Of(60*in)) || !f.Height.Equal(geometry.Of(66*in)) || f.Left != 0 || f.Top != 8*in {
		t.Errorf("got %v x %v, moved by %v and %v", f.Width, f.Height, f.Left, f.Top)
	}
}

// A print with an up lies on its side where the border is turned.
func TestBorderOfOneWayFabric(t *testing.T) {
	fabric := cloth(40 * in)
	fabric.OneWay = true
	for _, test := range []struct {
		border Border
		want   string
	}{
		{Border{Width: in}, "Border 2 is cut crosswise: its print lies on its side at the left and the right."},
		{Border{Width: in, Cut: LengthwiseCut, Sides: []block.Side{block.Left, block.Bottom}},
			"Border 2 is cut lengthwise: its print lies on its side at the bottom."},
		{Border{Width: in, Sides: []block.Side{block.Top}}, ""},
	} {
		notes := test.border.Around(inches, 2, geometry.Of(20*in), geometry.Of(30*in), fabric).Yield.Notes
		if got := strings.Join(notes, " "); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}

// The border and the quilt inside fill the new size, and each cut holds its
// side with seams, whatever sides there are and however they meet.
func TestBorderFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := Border{
			Width: model.Length(rapid.IntRange(2, 40).Draw(t, "width")) * in / 8, Fabric: "ink", CornerFabric: "rust",
			Corners: Corners(rapid.IntRange(0, 3).Draw(t, "corners")), Cut: BorderCut(rapid.IntRange(0, 2).Draw(t, "cut")),
		}
		for side := block.Top; side <= block.Left; side++ {
			if rapid.Bool().Draw(t, "side") {
				b.Sides = append(b.Sides, side)
			}
		}
		b.Extra = DefaultExtra(b.Corners, model.Inches)
		if b.Corners == Mitred && rapid.Bool().Draw(t, "least extra") {
			b.Extra = 5 * in / 4
		}
		width := geometry.Root2(model.Length(rapid.IntRange(1, 50).Draw(t, "quilt width")) * in)
		height := geometry.Of(model.Length(rapid.IntRange(1, 200).Draw(t, "quilt height")) * in / 4)
		f := b.Around(inches, 1, width, height, cloth(40*in))
		corner := geometry.At(geometry.Of(f.Left), geometry.Of(f.Top))
		outlines := []geometry.Polygon{geometry.Box(corner, corner.Plus(geometry.At(width, height)))}
		for _, s := range f.Yield.Shapes {
			outlines = append(outlines, s.Outline)
			if s.Cut >= 0 && !holds(f.Yield.Cuts[s.Cut], s.Outline, inches.Seam) {
				t.Errorf("%+v does not hold %v", f.Yield.Cuts[s.Cut], s.Outline)
			}
		}
		checkFills(t, geometry.Box(geometry.Point{}, geometry.At(f.Width, f.Height)), outlines)
		if w, h := b.Size(width, height); !w.Equal(f.Width) || !h.Equal(f.Height) {
			t.Errorf("the size is %v x %v and %v x %v", w, h, f.Width, f.Height)
		}
	})
}

func TestBorderFaults(t *testing.T) {
	c := block.Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "ink"}}}
	for i, b := range []Border{
		{Width: in, Fabric: "ink"},
		{Width: 0, Fabric: "ink"},
		{Width: in / 8, Fabric: "jade"},
		{Width: 17 * in / 16, Fabric: "ink"},
		{Width: in, Fabric: "ink", Corners: CornerSquares},
		{Width: in, Fabric: "ink", CornerFabric: "ink"},
		{Width: in, Fabric: "ink", Corners: Mitred, Extra: in},
		{Width: in, Fabric: "ink", Corners: Mitred, Extra: 2 * in, Sides: []block.Side{block.Left, block.Right, block.Left}},
		{Width: in, Fabric: "ink", Extra: -in},
	} {
		b.Check(&c, model.PathOf(KeyBorders).Entry(i))
	}
	want := `border 2: width: not more than 0 ("0 in"), write the finished size
border 3: width: too small ("1/8 in"), it is narrower than its seam allowances: write at least 1/4 in
border 3: fabric: not a fabric of this quilt ("jade"), write ink, or add it to the fabrics
border 4: width: off the ruler's mark ("1 1/16 in"), with its seams it is 1 9/16 in: write 1 1/8, or a finer ruler
border 5: corner_fabric: missing, write the fabric that the piece is cut from
border 6: corner_fabric: do not go together ("ink"), leave it out, or write corners: squares
border 7: extra: out of range ("1 in"), write 1 1/4 to 36 in
border 8: corners: do not go together ("mitred"), none of its sides meet: leave it out, or name more sides
border 8: sides: 3: used twice ("left"), write each side once
border 9: extra: out of range ("-1 in"), write 0 to 36 in`
	if err := c.Faults.OrNil(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestBorderWords(t *testing.T) {
	for w := SidesFirst; w <= CornerSquares; w++ {
		if back, err := ParseCorners(w.String()); back != w || err != nil {
			t.Errorf("%v is read as %v, %v", w, back, err)
		}
	}
	for w := CrosswiseStraight; w <= LengthwiseCut; w++ {
		if back, err := ParseBorderCut(w.String()); back != w || err != nil {
			t.Errorf("%v is read as %v, %v", w, back, err)
		}
	}
	for s := block.Top; s <= block.Left; s++ {
		if back, err := ParseSide(s.String()); back != s || err != nil {
			t.Errorf("%v is read as %v, %v", s, back, err)
		}
	}
	for _, straight := range []bool{false, true} {
		if back, err := ParseJoin(Binding{Straight: straight}.Join()); back != straight || err != nil {
			t.Errorf("%v is read as %v, %v", straight, back, err)
		}
	}
	_, err := ParseSide("up")
	if want := `unknown word ("up"), write top, right, bottom or left`; !errors.Is(err, model.ErrNotAChoice) || err.Error() != want {
		t.Errorf("got %v", err)
	}
}
