package design

import (
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
)

// Figures are filled by their shapes, and made of pieces that the quilt has.
func TestFigures(t *testing.T) {
	d := metric()
	d.Units = append(d.Units, NamedUnit{"glass", block.QuarterSquare{Side: 12 * model.Centimetre, Fabrics: []string{"ink", "foam", "ink", "foam"}}})
	d.Blocks[0].Rows[0][0] = block.Cell{Unit: "glass", Turn: 1}
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	figures := map[string]Figure{}
	for _, b := range w.Blocks {
		figures[b.Block] = w.Block(b)
	}
	for _, c := range w.Charts {
		figures[c.Name] = w.Unit(c)
	}
	if len(figures) != 3 {
		t.Fatalf("%d figures", len(figures))
	}
	for name, f := range figures {
		var sum geometry.Surd
		for _, s := range f.Shapes {
			sum = sum.Add(s.Outline.Area())
			if s.Cut < 0 || s.Cut >= len(f.Cuts) || f.Cuts[s.Cut].Fabric != s.Fabric {
				t.Errorf("%s: a shape of %s has the cut %d", name, s.Fabric, s.Cut)
			}
		}
		if !sum.Equal(f.Width.Mul(f.Height)) {
			t.Errorf("%s: its shapes take %v of %v by %v", name, sum, f.Width, f.Height)
		}
		for _, c := range f.Cuts {
			if !slices.ContainsFunc(w.Quilt.Cuts, func(have model.Cut) bool {
				have.Count = c.Count
				return have == c
			}) {
				t.Errorf("%s: the quilt has no piece %+v", name, c)
			}
		}
	}
}

// A block of rounds is told, and so is what is in its centre.
func TestFigureOfRounds(t *testing.T) {
	in := model.Inch
	d := pinwheels(1, 1, block.FromTriangles)
	d.Units[0].Unit = block.HalfSquare{Side: 4 * in, Fabrics: []string{"ink", "foam"}}
	d.Blocks[0] = block.Block{Name: "ring", Width: 8 * in, Height: 8 * in, Rounds: &block.Rounds{
		Side: 8 * in, Centre: block.Centre{Unit: d.Units[0].Name},
		Rounds: []block.Round{{Kind: block.LogsAround, Width: 2 * in, Fabrics: []string{"rust"}}},
	}}
	d.Setting.Layout = [][]setting.Place{{{Block: "ring"}}}
	w, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range w.Charts {
		f := w.Unit(c)
		_, is := c.Rounds()
		if is != (c.Name == "ring") {
			t.Errorf("%s is a block of rounds: %v", c.Name, is)
		}
		if want := map[bool]int{true: 2}[is]; f.Inner != want || is && len(f.Shapes) != 6 {
			t.Errorf("%s has %d shapes inside of %d", c.Name, f.Inner, len(f.Shapes))
		}
	}
	if f := w.Unit(Chart{}); len(f.Shapes) > 0 {
		t.Error("no unit has shapes")
	}
}
