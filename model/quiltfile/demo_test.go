package quiltfile

import (
	"path/filepath"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

const quilts = "../../testdata/quilts"

// The demo quilts keep every rule, and their pieces make up the quilt that
// they describe: finished sizes are cut sizes less the seams, and their areas
// sum to that of the quilt. Binding is not part of the area.
func TestDemoQuilts(t *testing.T) {
	const in, cm = model.Inch, model.Centimetre
	for _, test := range []struct {
		file string
		// seams is what a side loses; a square halved once loses once more
		// than a half-square triangle of its finished size, likewise twice.
		seams, once, twice model.Length
		width, height      model.Length
	}{
		{"harbour-steps.yaml", in / 2, in * 7 / 8, in * 5 / 4, 60 * in, 72 * in},
		{"tide-pool-cm.yaml", cm * 3 / 2, 3 * cm, 0, 136 * cm, 166 * cm},
	} {
		q, err := Read(filepath.Join(quilts, test.file))
		if err != nil {
			t.Error(err)
			continue
		}
		var area model.Area
		for _, c := range q.Cuts {
			less := map[model.Halving]model.Length{
				model.NotHalved: test.seams, model.HalvedOnce: test.once, model.HalvedTwice: test.twice,
			}[c.Halve]
			if c.Use != "binding" {
				area += model.Area(c.Count) * model.AreaOf(c.Width-less, c.Height-less)
			}
		}
		if want := model.AreaOf(test.width, test.height); area != want {
			t.Errorf("%s: the finished pieces have %d square ticks, the quilt %d", test.file, area, want)
		}
	}
}

// What the joined binding must reach: round the quilt and a tail, each join on
// the slant losing the strip's width.
func TestDemoBindings(t *testing.T) {
	for _, test := range []struct {
		file string
		need model.Length
	}{
		{"harbour-steps.yaml", (264 + 12) * model.Inch},
		{"tide-pool-cm.yaml", (604 + 30) * model.Centimetre},
	} {
		q, err := Read(filepath.Join(quilts, test.file))
		if err != nil {
			t.Error(err)
			continue
		}
		for _, c := range q.Cuts {
			if c.Use != "binding" {
				continue
			}
			reach := func(n int) model.Length { return model.Length(n) * (c.Width - c.Height) }
			if reach(c.Count) < test.need || reach(c.Count-1) >= test.need {
				t.Errorf("%s: %d pieces reach %v, for %v", test.file, c.Count, reach(c.Count), test.need)
			}
		}
	}
}

// The demo designs finish at the sizes that they tell of, in every size of
// theirs: their finished pieces fill the quilt, and every cut is on the mark.
func TestDemoDesigns(t *testing.T) {
	const cm = model.Centimetre
	ofRoot := func(l model.Length, more model.Length) geometry.Surd { return geometry.Root2(l).Add(geometry.Of(more)) }
	whole := func(l model.Length) geometry.Surd { return geometry.Of(l) }
	for _, test := range []struct {
		file, size    string
		width, height geometry.Surd
		blocks        int
	}{
		{"weir.yaml", "", whole(62 * in), whole(62 * in), 16},
		// Three and four diagonals of a block and a sash, a sash more across
		// the corners, and borders of 5 1/2 in at both ends.
		{"lamp-row.yaml", "", ofRoot(3*15*in/2+3*in/2, 11*in), ofRoot(4*15*in/2+3*in/2, 11*in), 12},
		{"skerry-cm.yaml", "cot", whole(104 * cm), whole(128 * cm), 20},
		{"skerry-cm.yaml", "throw", whole(148 * cm), whole(196 * cm), 35},
		// At least 39 x 75 in and 54 x 75 in, and 30 cm at both sides and the
		// foot.
		{"skerry-cm.yaml", "single", whole(172 * cm), whole(244 * cm), 54},
		{"skerry-cm.yaml", "double", whole(220 * cm), whole(244 * cm), 72},
	} {
		d, err := ReadDesign(filepath.Join(quilts, test.file))
		if err != nil {
			t.Fatal(err)
		}
		w, err := d.Work(test.size)
		if err != nil {
			t.Fatal(err)
		}
		if !w.Width.Equal(test.width) || !w.Height.Equal(test.height) {
			t.Errorf("%s %s: %v x %v, want %v x %v", test.file, test.size, w.Width, w.Height, test.width, test.height)
		}
		blocks := 0
		for _, b := range w.Blocks {
			blocks += b.Count
		}
		if blocks != test.blocks {
			t.Errorf("%s %s: %d blocks, want %d", test.file, test.size, blocks, test.blocks)
		}
		quilt := geometry.Box(geometry.Point{}, geometry.At(w.Width, w.Height))
		var area geometry.Surd
		for _, s := range w.Shapes() {
			area = area.Add(s.Outline.Area())
			if !s.Outline.Within(quilt) {
				t.Errorf("%s %s: a piece lies outside the quilt", test.file, test.size)
			}
		}
		if !area.Equal(quilt.Area()) {
			t.Errorf("%s %s: the pieces have %v, the quilt %v", test.file, test.size, area, quilt.Area())
		}
		for _, c := range w.Quilt.Cuts {
			if !c.Width.OnMark(d.Ruler) || !c.Height.OnMark(d.Ruler) {
				t.Errorf("%s %s: %s is off the mark", test.file, test.size, c.Name)
			}
		}
		for _, s := range w.Quilt.Strips {
			if !s.Height.OnMark(d.Ruler) {
				t.Errorf("%s %s: %s is off the mark", test.file, test.size, s.Name)
			}
		}
	}
}

// The cut sizes of the quilt in centimetres, by hand: seams of 0.75 cm, sizes
// with roots rounded up to half a centimetre, ease added.
func TestDemoCentimetres(t *testing.T) {
	d, err := ReadDesign(filepath.Join(quilts, "skerry-cm.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	w, err := d.Work("cot")
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]model.Length{}
	for _, c := range w.Quilt.Cuts {
		got[c.Fabric+" "+c.Use] = c.Width
	}
	for _, s := range w.Quilt.Strips {
		got[s.Fabric+" "+s.Use] = s.Height
	}
	const half = model.Centimetre / 2
	for use, want := range map[string]model.Length{
		"sea sky, flip-and-trim":                  15 * half, // 6 + 1.5
		"sea corners":                             18 * half, // 6 + 0.75 x 3.41 = 8.56
		"sea quarter-square triangles":            34 * half, // 12 + 0.75 x 4.83 = 15.62, up to 16, and the ease of 1/4 in, up to 1
		"sand half-square triangles, 2-at-a-time": 31 * half, // 12 + 0.75 x 3.41 = 14.56, up to 15, and the ease of 1/8 in, up to 0.5
		"sand goose, flip-and-trim":               27 * half, // 12 + 1.5
		"gorse centre":                            20 * half, // 12/1.414 + 1.5 = 9.99
		"gorse strip sets":                        17 * half, // 6 + 1.5 and the ease of 1/4 in, up to 1
		"gorse binding":                           13 * half,
		"sand border 1":                           11 * half,  // 4 + 1.5
		"sand backing":                            248 * half, // 104 and 10 on each side
	} {
		if got[use] != want {
			t.Errorf("%s: %s, want %s", use, got[use].FormatWithUnit(model.Centimetres), want.FormatWithUnit(model.Centimetres))
		}
	}
}
