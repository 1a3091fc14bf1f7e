package design

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
	"pgregory.net/rapid"
)

// cutting is a whole's cutting list in words: of each piece how many of which
// size, and of each strip the run or the sections.
func cutting(w Whole) []string {
	var words []string
	u := w.Quilt.Unit
	for _, c := range w.Quilt.Cuts {
		words = append(words, fmt.Sprintf("%s: %d %s %s", c.Fabric, c.Count, model.FormatSize(c.Width, c.Height, u), c.Use))
	}
	for _, s := range w.Quilt.Strips {
		what := fmt.Sprintf("run of %s", s.Run.Format(u))
		if s.Each > 0 {
			what = fmt.Sprintf("%d sections of %s, %d beside", s.Count, s.Each.Format(u), s.Beside)
		}
		words = append(words, fmt.Sprintf("%s: strips of %s, %s, %s", s.Fabric, s.Height.Format(u), what, s.Use))
	}
	return words
}

func compare(t *testing.T, w Whole, want string) {
	t.Helper()
	if got := strings.Join(cutting(w), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// metric is a quilt in centimetres on a ruler of 0.5 cm: 4 x 3 pinwheels of 24
// cm, sashed, with a border.
func metric() Design {
	const cm = model.Centimetre
	d := pinwheels(4, 3, block.FromTriangles)
	d.Unit, d.Ruler, d.Seam = model.Centimetres, cm/2, 3*cm/4
	for i := range d.Fabrics {
		id := d.Fabrics[i].ID
		d.Fabrics[i] = model.DefaultFabric(model.Centimetres)
		d.Fabrics[i].ID = id
	}
	d.Units[0].Unit = block.HalfSquare{Side: 12 * cm, Fabrics: []string{"ink", "foam"}}
	d.Blocks[0].Width, d.Blocks[0].Height = 24*cm, 24*cm
	d.Setting.Sashing = &setting.Sashing{Width: 3 * cm, Fabric: "foam", Cornerstone: "rust"}
	d.Borders = []setting.Border{{Width: 8 * cm, Fabric: "ink"}}
	binding, backing := setting.DefaultBinding(d.Unit), setting.DefaultBacking(d.Unit)
	binding.Fabric, backing.Fabric = "rust", "foam"
	d.Binding, d.Backing, d.Batting = &binding, &backing, &setting.Batting{Overage: 5 * cm}
	return d
}

// All sizes by hand: triangles of 12 + 0.75(2+√2) = 14.56, 15; the top is 3·24 +
// 2·3 by 4·24 + 3·3, 78 x 105; its long sides with seams, 106.5, are more than
// 102; the quilt is 94 x 121, its perimeter 430.
func TestMetric(t *testing.T) {
	w, err := metric().Work("")
	if err != nil {
		t.Fatal(err)
	}
	compare(t, w, `ink: 12 15 half-square triangles
ink: 2 95.5 x 9.5 border 1, top and bottom
foam: 24 15 half-square triangles
foam: 17 25.5 x 4.5 sashes
rust: 12 15 half-square triangles
rust: 6 4.5 cornerstones
ink: strips of 9.5, run of 213, border 1
foam: strips of 114, run of 141, backing
rust: strips of 6.5, run of 460, binding`)
	cm := model.Centimetre
	if !w.Width.Equal(geometry.Of(94*cm)) || !w.Height.Equal(geometry.Of(121*cm)) || !w.TopWidth.Equal(geometry.Of(78*cm)) {
		t.Errorf("the quilt is %v x %v", w.Width, w.Height)
	}
	if w.BackWidth != 114*cm || w.BackHeight != 141*cm || w.BattingWidth != 104*cm || w.BattingHeight != 131*cm {
		t.Errorf("the back is %v x %v, the batting %v x %v", w.BackWidth, w.BackHeight, w.BattingWidth, w.BattingHeight)
	}
	want := []setting.Panels{
		{Usable: 102 * cm, Count: 2, Length: 141 * cm}, {Usable: 102 * cm, Across: true, Count: 2, Length: 114 * cm},
		{Usable: 107 * cm, Count: 2, Length: 141 * cm}, {Usable: 107 * cm, Across: true, Count: 2, Length: 114 * cm},
	}
	if !slices.Equal(w.Backing, want) {
		t.Errorf("the panels are %+v", w.Backing)
	}
	notes := `Border 1: join the strips to one length, and cut from it 2 of 106.5 cm.
Backing of 114 x 141 cm: across the quilt 2 panels of 114 cm, 228 cm at 102 cm of usable width; along the quilt 2 panels of 141 cm, 282 cm at 102 cm of usable width.`
	if got := strings.Join(w.Notes, "\n"); got != notes {
		t.Errorf("got\n%s", got)
	}
}

// The finished pieces of any quilt have its area exactly, lie within it, and do
// not overlap.
func TestAreaIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := pinwheels(rapid.IntRange(1, 3).Draw(t, "rows"), rapid.IntRange(1, 3).Draw(t, "columns"),
			rapid.SampledFrom([]block.Method{block.FromTriangles, block.EightAtATime}).Draw(t, "method"))
		foam := setting.Triangles{Fabric: "foam"}
		if rapid.Bool().Draw(t, "on point") {
			d.Setting.Way, d.Setting.Sides, d.Setting.Corners = setting.OnPoint, foam, foam
			d.Setting.Float = model.Length(rapid.IntRange(0, 2).Draw(t, "float")) * in
			if rapid.Bool().Draw(t, "squares") {
				d.Setting.SettingSquare = "rust"
			} else {
				d.Setting.Between = [][]setting.Place{{{Block: "wheel", Turn: 2}}}
			}
		}
		if rapid.Bool().Draw(t, "sashing") {
			d.Setting.Sashing = &setting.Sashing{Width: in, Fabric: "rust", Around: true}
			if rapid.Bool().Draw(t, "cornerstones") {
				d.Setting.Sashing.Cornerstone = "ink"
			}
		}
		for range rapid.IntRange(0, 3).Draw(t, "borders") {
			b := setting.Border{Width: model.Length(rapid.IntRange(1, 4).Draw(t, "width")) * in, Fabric: "ink",
				Corners: setting.Corners(rapid.IntRange(0, 3).Draw(t, "corners"))}
			if b.Corners == setting.CornerSquares {
				b.CornerFabric = "foam"
			}
			b.Extra = setting.DefaultExtra(b.Corners, model.Inches)
			if rapid.Bool().Draw(t, "three sides") {
				b.Sides = []block.Side{block.Left, block.Bottom, block.Right}
			}
			d.Borders = append(d.Borders, b)
		}
		w, err := d.Work("")
		if err != nil {
			t.Fatal(err)
		}
		fills(t, w)
	})
}

// fills checks that the shapes of a whole fill it.
func fills(t *rapid.T, w Whole) {
	whole := geometry.Box(geometry.Point{}, geometry.At(w.Width, w.Height))
	shapes := w.Shapes()
	var sum geometry.Surd
	bounds := make([][4]model.Length, len(shapes))
	for i, s := range shapes {
		sum = sum.Add(s.Outline.Area())
		if !s.Outline.Within(whole) {
			t.Errorf("%v is not within the quilt", s.Outline)
		}
		from, to := s.Outline.Bounds()
		bounds[i] = [4]model.Length{ticks(from.X) - 1, ticks(from.Y) - 1, ticks(to.X), ticks(to.Y)}
		for j, other := range shapes[:i] {
			a, b := bounds[i], bounds[j]
			if a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3] && geometry.Overlap(s.Outline, other.Outline) {
				t.Errorf("%v and %v overlap", s.Outline, other.Outline)
			}
		}
	}
	if !sum.Equal(whole.Area()) {
		t.Errorf("the pieces have %v, the quilt %v", sum, whole.Area())
	}
}

// ticksOf are the lengths that ticks has been asked for: most of the points of a
// quilt share their coordinates with others.
var ticksOf = make(map[string]model.Length)

// ticks is a length rounded up to whole ticks.
func ticks(s geometry.Surd) model.Length {
	t, known := ticksOf[s.String()]
	if !known {
		t = s.CeilTo(1)
		ticksOf[s.String()] = t
	}
	return t
}

// lamps are nine-patches of 6 in on point, 4 x 3, sashed all round, with plain
// squares between them and two borders.
func lamps() Design {
	d := pinwheels(4, 3, block.FromTriangles)
	nine := block.Patches{Columns: []model.Length{2 * in, 2 * in, 2 * in}, Rows: []model.Length{2 * in, 2 * in, 2 * in},
		Fabrics: [][]string{{"ink", "foam", "ink"}, {"foam", "ink", "foam"}, {"ink", "foam", "ink"}}, Method: block.StripSets}
	d.Units = []NamedUnit{{"nine", nine}}
	d.Blocks = []block.Block{{Name: "lamp", Width: 6 * in, Height: 6 * in, Rows: [][]block.Cell{{{Unit: "nine"}}}}}
	foam := setting.Triangles{Fabric: "foam", Ease: block.Ease{Kind: block.TradeEase}}
	d.Setting = &setting.Setting{Way: setting.OnPoint, Rows: 4, Columns: 3, SettingSquare: "foam", Sides: foam, Corners: foam,
		Sashing: &setting.Sashing{Width: 3 * in / 2, Fabric: "ink", Cornerstone: "rust", Around: true}}
	d.Borders = []setting.Border{
		{Width: in, Fabric: "rust", Corners: setting.TopFirst},
		{Width: 9 * in / 2, Fabric: "ink", Corners: setting.CornerSquares, CornerFabric: "rust"},
	}
	return d
}

// By hand: 18 places have 72 sides, of which the inner 6 share 24 with others:
// 48 sashes, and by Euler's rule 48 - 18 + 1 = 31 cornerstones. The top is
// 24√2 x 31 1/2 √2 in, 33.94 x 44.55; side triangles are of 7 1/2 √2 + 1 1/4 and
// an ease, corners of 9/√2 + 7/8 and an ease.
func TestOnPointWithSashing(t *testing.T) {
	w, err := lamps().Work("")
	if err != nil {
		t.Fatal(err)
	}
	compare(t, w, `ink: 48 6 1/2 x 2 sashes
ink: 2 36 1/2 x 5 border 2, top and bottom
foam: 6 6 1/2 setting squares
foam: 3 12 1/4 side triangles
foam: 2 7 1/2 corner triangles
rust: 31 2 cornerstones
rust: 2 34 1/2 x 1 1/2 border 1, top and bottom
rust: 4 5 border 2, corners
ink: strips of 2 1/2, 24 sections of 2 1/2, 2 beside, strip sets
ink: strips of 2 1/2, 12 sections of 2 1/2, 1 beside, strip sets
ink: strips of 5, run of 94 1/4, border 2
foam: strips of 2 1/2, 24 sections of 2 1/2, 1 beside, strip sets
foam: strips of 2 1/2, 12 sections of 2 1/2, 2 beside, strip sets
rust: strips of 1 1/2, run of 94 1/4, border 1`)
	if want := geometry.Root2(24 * in).Add(geometry.Of(11 * in)); !w.Width.Equal(want) {
		t.Errorf("the quilt is %v wide, want %v", w.Width, want)
	}
	if len(w.Blocks) != 1 || w.Blocks[0].Count != 12 || len(w.Notes) != 3 {
		t.Errorf("got %+v, %v", w.Blocks, w.Notes)
	}
}

// The strips of a set are no longer than its narrowest fabric at its widest.
func TestStripSetsOfUnevenFabrics(t *testing.T) {
	d := lamps()
	d.Fabrics[0].UsableWidths = []model.Length{36 * in, 34 * in}
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	sets := 0
	for _, s := range w.Quilt.Strips {
		if s.Each > 0 {
			sets++
			if s.Longest != 36*in || s.PerStrip(42*in) != 14 {
				t.Errorf("got %+v", s)
			}
		}
	}
	if sets != 4 {
		t.Errorf("%d strips of sets", sets)
	}
}

func TestBeds(t *testing.T) {
	d := pinwheels(0, 0, block.TwoAtATime)
	d.Borders = []setting.Border{{Width: 4 * in, Fabric: "ink"}}
	bed := setting.Bed{Mattress: "twin", Drop: 12 * in}
	d.Sizes = []setting.Size{{Name: "plain", Bed: &bed, Borders: []setting.Border{}}, {Name: "bordered", Bed: &bed}}
	// 63 x 87 of blocks of 6: 11 x 15, or with 8 in of borders 10 x 14.
	for _, test := range []struct {
		size          string
		width, height model.Length
		blocks        int
	}{{"plain", 66 * in, 90 * in, 165}, {"bordered", 68 * in, 92 * in, 140}} {
		w, err := d.Work(test.size)
		if err != nil {
			t.Fatal(err)
		}
		if n := w.Blocks[0].Count + w.Blocks[1].Count; n != test.blocks || !w.Width.Equal(geometry.Of(test.width)) || !w.Height.Equal(geometry.Of(test.height)) {
			t.Errorf("%s: %d blocks, %v x %v", test.size, n, w.Width, w.Height)
		}
	}
}

// A quilt of cutouts alone: 200 hexagons, 17 strips of 12 at 44 in
// (oocities.com, quick cut hexagons), with our exact width from point to point.
func TestCutouts(t *testing.T) {
	d := Design{Ruler: in / 8, Seam: in / 4, Fabrics: []model.Fabric{model.DefaultFabric(model.Inches)}}
	d.Fabrics[0].ID, d.Fabrics[0].UsableWidths = "ink", []model.Length{44 * in}
	d.Cutouts = []Cutouts{{Shape: block.Hexagon{Height: 5 * in / 2}, Fabric: "ink", Count: 200, Use: "hexagons"}}
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	if s := w.Quilt.Strips[0]; len(w.Quilt.Strips) != 1 || s.Height != 3*in || s.Name != "A" || s.Strips(44*in) != 17 {
		t.Errorf("got %+v, %d strips", s, s.Strips(44*in))
	}
	note := "Cut 200 hexagons from strips of 3 in, point to point, with two cuts at 60° at each end, so that all opposite sides are 3 in apart; 12 from a strip at 44 in."
	if len(w.Notes) != 1 || w.Notes[0] != note {
		t.Errorf("the notes are %q", w.Notes)
	}
	// The last strip holds 8, of 3.4641 in each: 27.7128 in, up to the ruler's mark.
	if _, part, _ := w.Quilt.Strips[0].At(44 * in); part != 27*in+3*in/4 {
		t.Errorf("the last strip is used up to %v", part)
	}
	d.Cutouts[0].Fabric, d.Cutouts[0].Count = "jade", 0
	_, err = d.Work("")
	want := `cutout 1: fabric: not a fabric of this quilt ("jade"), write ink, or add it to the fabrics
cutout 1: count: out of range ("0"), write a whole number from 1 to 100,000`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// The only block needs no layout, and a block may stand turned everywhere.
func TestLayoutOfOneBlock(t *testing.T) {
	d := pinwheels(2, 3, block.TwoAtATime)
	d.Blocks[0].Height, d.Blocks[0].Rows = 9*in, append(d.Blocks[0].Rows, d.Blocks[0].Rows[0])
	d.Setting.Layout = nil
	w, err := d.Work("")
	if err != nil || !w.Width.Equal(geometry.Of(18*in)) || !w.Height.Equal(geometry.Of(18*in)) {
		t.Fatalf("got %v x %v, %v", w.Width, w.Height, err)
	}
	d.Setting.Layout = [][]setting.Place{{{Block: "wheel", Turn: 1}}}
	if w, err = d.Work(""); err != nil || !w.Width.Equal(geometry.Of(27*in)) || !w.Height.Equal(geometry.Of(12*in)) {
		t.Fatalf("turned, %v x %v, %v", w.Width, w.Height, err)
	}
}

func TestBadWholes(t *testing.T) {
	for _, test := range []struct {
		change func(d *Design)
		want   string
	}{
		{func(d *Design) { d.Setting.Sides = setting.Triangles{} },
			`setting: side_triangles: fabric: missing, write the fabric that the piece is cut from`},
		{func(d *Design) {
			d.Blocks[0].Width, d.Blocks[0].Rows = 12*in, [][]block.Cell{{{Unit: "nine"}, {Unit: "nine"}}}
		},
			`setting: way: not a square ("12 x 6"), only square blocks are set on point: write way: straight, or make the blocks square`},
		{func(d *Design) { d.Borders[1].Width = in / 8 },
			`border 2: width: too small ("1/8 in"), it is narrower than its seam allowances: write at least 1/4 in`},
		{func(d *Design) {
			d.Sizes = []setting.Size{{Name: "wall", Borders: []setting.Border{{Width: in}}}, {Name: "bed", Rows: 2, Bed: &setting.Bed{Mattress: "sofa"}}}
		}, `size "wall": border 1: fabric: missing, write the fabric that the piece is cut from
size "bed": bed: unknown word ("sofa"), write crib, twin, twin xl, full, queen, king or cal king
size "bed": rows: do not go together ("2"), the bed gives the rows and columns: leave it out, or leave the bed out`},
		{func(d *Design) { d.Setting.Float, d.Sizes = 9*in, []setting.Size{{Name: "wall"}, {Name: "lap"}} },
			`setting: float: too large ("9 in"), write at most 5 1/4 in, and a border around it`},
		{func(d *Design) {
			d.Backing = &setting.Backing{Fabric: "foam", Seam: in / 4, Width: 44 * in, Height: 60 * in}
		},
			`backing: size: too small ("44 x 60"), the quilt is 45 x 55 5/8: write a larger size, or overage:`},
		{func(d *Design) {
			d.Setting.Way, d.Setting.SettingSquare = setting.Straight, ""
			d.Setting.Sides, d.Setting.Corners = setting.Triangles{}, setting.Triangles{}
			d.Setting.Layout = [][]setting.Place{{{Block: "lamp"}, {Block: "lantern"}, {Block: "lamp", Colourway: "lit"}}}
		}, `setting: layout row 1: block 2: not in this quilt ("lantern"), write the label of a block, or add it to the blocks
setting: layout row 1: block 3: not in this block ("lit"), write a colourway of the block, or add it there`},
		{func(d *Design) {
			d.Borders[0].Cut, d.Fabrics[2].UsableWidths = setting.LengthwiseCut, []model.Length{in}
		},
			`setting: sashing: wider than the fabric ("2"), the usable width is 1 in: cut it in parts and join them, or use wider fabric
border 1: wider than the fabric ("1 1/2 x 47 1/8"), the usable width is 1 in: cut it in parts and join them, or use wider fabric
border 1: wider than the fabric ("1 1/2 x 34 1/2"), the usable width is 1 in: cut it in parts and join them, or use wider fabric
border 2: wider than the fabric ("5"), the usable width is 1 in: cut it in parts and join them, or use wider fabric`},
		{func(d *Design) {
			*d = Design{Ruler: d.Ruler, Seam: d.Seam, Fabrics: d.Fabrics, Cuts: d.Cuts, Binding: &setting.Binding{}}
		},
			`setting: missing, borders, binding, backing and batting are measured from it: write it, or list their pieces as cuts`},
	} {
		d := lamps()
		test.change(&d)
		if _, err := d.Work(d.SizeNames()[0]); err == nil || err.Error() != test.want {
			t.Errorf("got\n%v\nwant\n%s", err, test.want)
		}
	}
}
