package design

import (
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// harbour is a quilt of 2 x 2 blocks of 4 in, of which every other stands turned
// a quarter. Its block has two units of 4 x 2, the boats above.
func harbour(boats block.Unit) Design {
	d := Design{Title: "Harbour", Ruler: in / 8, Seam: in / 4}
	for _, id := range []string{"boats", "sea"} {
		f := model.DefaultFabric(model.Inches)
		f.ID, f.OneWay = id, id == "boats"
		d.Fabrics = append(d.Fabrics, f)
	}
	d.Units = []NamedUnit{{"s", boats}, {"t", block.Rectangle{Width: 4 * in, Height: 2 * in, Fabric: "sea"}}}
	d.Blocks = []block.Block{{Name: "p", Width: 4 * in, Height: 4 * in, Rows: [][]block.Cell{{{Unit: "s"}}, {{Unit: "t"}}}}}
	d.Setting = &setting.Setting{Rows: 2, Columns: 2, Layout: [][]setting.Place{{{Block: "p"}, {Block: "p", Turn: 1}}}}
	return d
}

// sizesOf are the cuts of a fabric as they are listed: how many of which width
// and height.
func sizesOf(t *testing.T, d Design, fabric string) (Whole, map[[2]model.Length]int) {
	t.Helper()
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	sizes := make(map[[2]model.Length]int)
	for _, c := range w.Quilt.Cuts {
		if c.Fabric == fabric {
			sizes[[2]model.Length{c.Width, c.Height}] += c.Count
		}
	}
	return w, sizes
}

// Pieces with an up are cut so that the print stands upright in turned blocks
// too.
func TestOneWayStandsUpright(t *testing.T) {
	wide, high := [2]model.Length{9 * in / 2, 5 * in / 2}, [2]model.Length{5 * in / 2, 9 * in / 2}
	half := [2]model.Length{5 * in / 2, 5 * in / 2}
	for _, test := range []struct {
		what  string
		boats block.Unit
		want  map[[2]model.Length]int
	}{
		{"rectangle", block.Rectangle{Width: 4 * in, Height: 2 * in, Fabric: "boats"}, map[[2]model.Length]int{wide: 2, high: 2}},
		{"patches", block.Patches{Columns: []model.Length{4 * in}, Rows: []model.Length{in, in}, Fabrics: [][]string{{"boats"}, {"boats"}}},
			map[[2]model.Length]int{{9 * in / 2, 3 * in / 2}: 4, {3 * in / 2, 9 * in / 2}: 4}},
		{"square patches", block.Patches{Columns: []model.Length{2 * in, 2 * in}, Rows: []model.Length{2 * in}, Fabrics: [][]string{{"boats", "sea"}}},
			map[[2]model.Length]int{half: 4}},
		{"flipped corners", block.FlipCorners{Width: 4 * in, Height: 2 * in, Fabric: "boats",
			Corners: []block.FlipCorner{{Corner: block.UpperLeft, Width: 2 * in, Height: 2 * in, Fabric: "boats"}}},
			map[[2]model.Length]int{wide: 2, high: 2, half: 4}},
		{"flipped geese", block.Geese{Width: 4 * in, Height: 2 * in, Fabrics: []string{"boats", "sea"}, Method: block.FlipAndTrim},
			map[[2]model.Length]int{wide: 2, high: 2}},
	} {
		t.Run(test.what, func(t *testing.T) {
			w, got := sizesOf(t, harbour(test.boats), "boats")
			if len(got) != len(test.want) {
				t.Errorf("got %v, want %v", got, test.want)
			}
			for size, n := range test.want {
				if got[size] != n {
					t.Errorf("got %v, want %v", got, test.want)
				}
			}
			notes := strings.Join(w.Notes, "\n")
			told := strings.Contains(notes, "Of unit s in block p, 2 of 4 stand turned a quarter in the quilt. For those, the pieces of boats are cut")
			if told != (len(test.want) > 1) || strings.Contains(notes, "lies on its side") {
				t.Errorf("the notes are %q", notes)
			}
		})
	}
}

// What cannot be cut so is told.
func TestOneWayOnItsSide(t *testing.T) {
	for what, boats := range map[string]block.Unit{
		"geese from triangles": block.Geese{Width: 4 * in, Height: 2 * in, Fabrics: []string{"boats", "sea"}},
		"half-rectangles":      block.HalfRectangle{Width: 4 * in, Height: 2 * in, Fabrics: []string{"sea", "boats"}},
		"strip sets": block.Patches{Columns: []model.Length{2 * in, 2 * in}, Rows: []model.Length{2 * in},
			Fabrics: [][]string{{"boats", "sea"}}, Method: block.StripSets},
	} {
		t.Run(what, func(t *testing.T) {
			d := harbour(boats)
			w, got := sizesOf(t, d, "boats")
			d.Fabrics[0].OneWay = false
			_, want := sizesOf(t, d, "boats")
			if len(got) != len(want) {
				t.Errorf("cut %v, want %v", got, want)
			}
			const told = "Of unit s in block p, 2 of 4 stand turned a quarter in the quilt. The one-way print of boats lies on its side in those"
			if notes := strings.Join(w.Notes, "\n"); !strings.Contains(notes, told) {
				t.Errorf("the notes are %q", notes)
			}
		})
	}
}

// A unit that is turned in a turned block stands upright, and a half turn
// changes no size.
func TestTurnedTwiceIsUpright(t *testing.T) {
	boats := block.Rectangle{Width: 4 * in, Height: 2 * in, Fabric: "boats"}
	d := harbour(boats)
	d.Blocks[0].Rows = [][]block.Cell{{{Unit: "s", Turn: 3}, {Unit: "t", Turn: 1}}}
	d.Setting.Layout = [][]setting.Place{{{Block: "p", Turn: 1}, {Block: "p", Turn: 3}, {Block: "p", Turn: 1}}}
	d.Setting.Columns = 3
	if w, got := sizesOf(t, d, "boats"); len(got) != 1 || got[[2]model.Length{9 * in / 2, 5 * in / 2}] != 6 || len(w.Notes) != 0 {
		t.Errorf("cut %v, with the notes %q", got, w.Notes)
	}
	d.Setting.Layout = [][]setting.Place{{{Block: "p", Turn: 2}}}
	w, got := sizesOf(t, d, "boats")
	if len(got) != 1 || got[[2]model.Length{5 * in / 2, 9 * in / 2}] != 6 {
		t.Errorf("cut %v", got)
	}
	// The block's picture names the piece that is cut for it.
	for _, c := range w.Block(w.Blocks[0]).Cuts {
		if c.Name == "" {
			t.Errorf("a piece of the block has no name: %+v", c)
		}
	}
}

// A block within a block, and one of rounds: turned by what holds them.
func TestOneWayInside(t *testing.T) {
	d := harbour(block.Rectangle{Width: 4 * in, Height: 2 * in, Fabric: "boats"})
	d.Blocks = append(d.Blocks,
		block.Block{Name: "big", Width: 8 * in, Height: 4 * in, Rows: [][]block.Cell{{{Unit: "p"}, {Unit: "p", Turn: 1}}}},
		block.Block{Name: "round", Width: 4 * in, Height: 4 * in, Rounds: &block.Rounds{Side: 4 * in, Centre: block.Centre{Side: 2 * in, Fabric: "boats"},
			Rounds: []block.Round{{Kind: block.LogsAround, Width: in, Fabrics: []string{"boats"}}}}})
	d.Setting.Layout = [][]setting.Place{{{Block: "big"}}}
	if _, got := sizesOf(t, d, "boats"); got[[2]model.Length{9 * in / 2, 5 * in / 2}] != 4 || got[[2]model.Length{5 * in / 2, 9 * in / 2}] != 4 {
		t.Errorf("cut %v", got)
	}
	d.Setting.Layout = [][]setting.Place{{{Block: "round"}, {Block: "round", Turn: 1}}}
	w, _ := sizesOf(t, d, "boats")
	if notes := strings.Join(w.Notes, "\n"); !strings.Contains(notes, "Of block round, 2 of 4 stand turned") {
		t.Errorf("the notes are %q", notes)
	}
}
