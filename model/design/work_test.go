package design

import (
	"errors"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
	"pgregory.net/rapid"
)

const in = model.Inch

// pinwheels is a quilt of pinwheels of 6 in, in turn in two colourways.
func pinwheels(rows, columns int, method block.Method) Design {
	d := Design{Title: "Pinwheels", Ruler: in / 8, Seam: in / 4}
	for _, id := range []string{"ink", "foam", "rust"} {
		f := model.DefaultFabric(model.Inches)
		f.ID = id
		d.Fabrics = append(d.Fabrics, f)
	}
	d.Units = []NamedUnit{{"vane", block.HalfSquare{Side: 3 * in, Fabrics: []string{"ink", "foam"}, Method: method}}}
	d.Blocks = []block.Block{{
		Name: "wheel", Width: 6 * in, Height: 6 * in,
		Rows:       [][]block.Cell{{{Unit: "vane", Turn: 1}, {Unit: "vane", Turn: 2}}, {{Unit: "vane"}, {Unit: "vane", Turn: 3}}},
		Colourways: []block.Colourway{{Name: "rusty", Swap: block.Swap{"ink": "rust"}}},
	}}
	plain, rusty := setting.Place{Block: "wheel"}, setting.Place{Block: "wheel", Colourway: "rusty"}
	d.Setting = &setting.Setting{Rows: rows, Columns: columns, Layout: [][]setting.Place{{plain, rusty}, {rusty, plain}}}
	return d
}

func TestWork(t *testing.T) {
	d := pinwheels(3, 3, block.EightAtATime)
	d.Cuts = []model.Cut{{Name: "A", Fabric: "foam", Width: 2 * in, Height: 9 * in, Count: 1, Use: "label"}}
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	// 5 and 4 blocks, 20 and 16 units: 3 and 2 times 8, of squares of 7 3/4.
	want := []model.Cut{
		d.Cuts[0],
		{Name: "B", Fabric: "ink", Width: 31 * in / 4, Height: 31 * in / 4, Count: 3, Use: "half-square triangles, 8-at-a-time"},
		{Name: "C", Fabric: "foam", Width: 31 * in / 4, Height: 31 * in / 4, Count: 5, Use: "half-square triangles, 8-at-a-time"},
		{Name: "D", Fabric: "rust", Width: 31 * in / 4, Height: 31 * in / 4, Count: 2, Use: "half-square triangles, 8-at-a-time"},
	}
	if len(w.Quilt.Cuts) != len(want) {
		t.Fatalf("got %+v", w.Quilt.Cuts)
	}
	for i, c := range w.Quilt.Cuts {
		if c != want[i] {
			t.Errorf("got  %+v\nwant %+v", c, want[i])
		}
	}
	if len(w.Blocks) != 2 || w.Blocks[0] != (BlockCount{"wheel", "", 5}) || w.Blocks[1] != (BlockCount{"wheel", "rusty", 4}) {
		t.Errorf("the blocks are %+v", w.Blocks)
	}
	if len(w.Charts) != 2 || w.Charts[0].Count != 20 || w.Charts[0].Made != 24 || w.Charts[0].Trims[0].Width != 7*in/2 {
		t.Errorf("the charts are %+v", w.Charts)
	}
}

// The finished pieces have the area of the quilt, lie in it, and do not
// overlap; the cuts have at least as much.
func TestShapesFillTheQuilt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := pinwheels(rapid.IntRange(1, 3).Draw(t, "rows"), rapid.IntRange(1, 2).Draw(t, "columns"), block.FromTriangles)
		w, err := d.Work("")
		if err != nil {
			t.Fatal(err)
		}
		whole := geometry.Box(geometry.Point{}, geometry.At(w.Width, w.Height))
		shapes := w.Shapes()
		var sum geometry.Surd
		for i, s := range shapes {
			sum = sum.Add(s.Outline.Area())
			if !s.Outline.Within(whole) {
				t.Errorf("%v is not within the quilt", s.Outline)
			}
			for _, other := range shapes[:i] {
				if geometry.Overlap(s.Outline, other.Outline) {
					t.Errorf("%v and %v overlap", s.Outline, other.Outline)
				}
			}
		}
		if !sum.Equal(whole.Area()) {
			t.Errorf("the pieces have %v, the quilt %v", sum, whole.Area())
		}
		list, err := w.Quilt.CutList()
		if err != nil {
			t.Fatal(err)
		}
		var cut model.Area
		for _, f := range list.Fabrics {
			cut += f.Area()
		}
		if geometry.OfArea(cut).Less(sum) {
			t.Errorf("%d are cut for %v", cut, sum)
		}
	})
}

func TestSizes(t *testing.T) {
	d := pinwheels(2, 2, block.TwoAtATime)
	d.Sizes = []setting.Size{{Name: "crib"}, {Name: "lap", Rows: 4, Columns: 3}}
	for _, test := range []struct {
		size          string
		width, height model.Length
	}{{"crib", 12 * in, 12 * in}, {"lap", 18 * in, 24 * in}} {
		w, err := d.Work(test.size)
		if err != nil {
			t.Fatal(err)
		}
		if !w.Width.Equal(geometry.Of(test.width)) || !w.Height.Equal(geometry.Of(test.height)) || w.Size != test.size {
			t.Errorf("%s is %v x %v", test.size, w.Width, w.Height)
		}
	}
	if got := strings.Join(d.SizeNames(), " "); got != "crib lap" {
		t.Errorf("the sizes are %s", got)
	}
	if _, err := d.Work("king"); !errors.Is(err, model.ErrUnknownName) {
		t.Errorf("got %v", err)
	}
	if _, err := d.Work(""); !errors.Is(err, model.ErrUnknownName) {
		t.Errorf("got %v", err)
	}
}

func TestBadDesigns(t *testing.T) {
	for _, test := range []struct {
		change func(d *Design)
		want   string
	}{
		{func(d *Design) { d.Seam = 0 }, `seam: out of range ("0 in"), write a seam allowance up to 2 in`},
		{func(d *Design) { d.Setting = nil }, `setting: missing, write rows: and columns:`},
		{func(d *Design) { d.Units = append(d.Units, d.Units[0]) }, `unit "vane": used twice ("vane"), write another label`},
		{func(d *Design) { d.Blocks[0].Rows = d.Blocks[0].Rows[:1] },
			`block "wheel": rows: does not add up ("3 in"), that is 3 in too little: the block is 6 in high`},
		{func(d *Design) { d.Setting.Layout[1][0].Colourway = "dusty" },
			`setting: layout row 2: block 1: not in this block ("dusty"), write a colourway of the block, or add it there`},
		{func(d *Design) { d.Sizes = []setting.Size{{Name: "lap", Rows: 501}} },
			`size "lap": rows: out of range ("501"), write a whole number from 1 to 500`},
		{func(d *Design) { d.Setting.Rows, d.Setting.Columns = 200, 200 },
			`unit "vane": too many ("80000"), with it the quilt has more than 100,000 pieces, cut fewer`},
		{func(d *Design) { d.Fabrics[1].UsableWidths = []model.Length{3 * in}; d.Fabrics[1].OneWay = true },
			`unit "vane": wider than the fabric ("3 7/8"), the usable width is 3 in: cut it in parts and join them, or use wider fabric`},
		{func(d *Design) { d.Cuts = []model.Cut{{Name: "A", Fabric: "jade", Width: in, Height: in, Count: 1}} },
			`cut "A": fabric: not a fabric of this quilt ("jade"), write one of ink, foam, rust, or add it to the fabrics`},
	} {
		d := pinwheels(2, 2, block.FromTriangles)
		test.change(&d)
		if _, err := d.Work(d.SizeNames()[0]); err == nil || err.Error() != test.want {
			t.Errorf("got  %v\nwant %s", err, test.want)
		}
	}
}

func TestLabels(t *testing.T) {
	label := labels([]model.Cut{{Name: "B"}, {Name: "AA"}})
	var got []string
	for range 26 {
		got = append(got, label())
	}
	if text := strings.Join(got, " "); text != "A C D E F G H J K L M N P Q R S T U V W X Y Z AB AC AD" {
		t.Errorf("got %s", text)
	}
}
