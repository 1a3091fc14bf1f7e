package design

import (
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
)

// weirs is a quilt of blocks of rounds in two colourways: a four-patch, two
// rounds of triangles and trimmed logs, 9 in.
func weirs() Design {
	d := pinwheels(2, 2, block.FromTriangles)
	trade := block.Ease{Kind: block.TradeEase}
	round := func(kind block.RoundKind, width model.Length, fabrics ...string) block.Round {
		return block.Round{Kind: kind, Width: width, Fabrics: fabrics, Ease: trade}
	}
	d.Units = []NamedUnit{{"four", block.Patches{
		Columns: []model.Length{in, in}, Rows: []model.Length{in, in}, Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}}}}
	d.Blocks = []block.Block{{
		Name: "weir", Width: 9 * in, Height: 9 * in,
		Rounds: &block.Rounds{Side: 9 * in, Centre: block.Centre{Unit: "four"}, Rounds: []block.Round{
			round(block.Triangles, 0, "foam"), round(block.Triangles, 0, "foam"),
			round(block.LogsTrimmed, 0, "ink"), round(block.LogsTrimmed, 0, "rust"), round(block.LogsTrimmed, 0, "ink"),
			round(block.CornerTriangles, 0, "foam"),
		}},
		Colourways: []block.Colourway{{Name: "dusk", Swap: block.Swap{"ink": "rust", "rust": "ink"}}},
	}}
	plain, dusk := setting.Place{Block: "weir"}, setting.Place{Block: "weir", Colourway: "dusk", Turn: 1}
	d.Setting = &setting.Setting{Rows: 2, Columns: 2, Layout: [][]setting.Place{{plain, dusk}, {plain}}}
	return d
}

// Blocks of rounds and the units in their centres are counted by colourway,
// the width of their logs worked out: 9 = 4 + 4 x 1 1/4.
func TestRoundsInAQuilt(t *testing.T) {
	w, err := weirs().Work("")
	if err != nil {
		t.Fatal(err)
	}
	type row struct {
		fabric        string
		width, height model.Length
		count         int
	}
	want := []row{ // round 3: 2(4-2) + 1.207 + 1/4; 1 1/4 + 1/2 + 1/4
		{"ink", 11 * in / 2, 2 * in, 12}, {"rust", 11 * in / 2, 2 * in, 4},
	}
	for _, c := range w.Quilt.Cuts {
		if c.Use == "round 3, trimmed logs" {
			i := slices.Index(want, row{c.Fabric, c.Width, c.Height, c.Count})
			if i < 0 {
				t.Errorf("cut %+v", c)
				continue
			}
			want = slices.Delete(want, i, i+1)
		}
	}
	if len(want) > 0 {
		t.Errorf("not cut: %v", want)
	}
	var sum geometry.Surd
	for _, s := range w.Shapes() {
		sum = sum.Add(s.Outline.Area())
	}
	if !sum.Equal(geometry.OfArea(model.AreaOf(18*in, 18*in))) {
		t.Errorf("the pieces have %v", sum)
	}
	if len(w.Charts) != 4 || w.Charts[0].Name != "weir" || w.Charts[0].Count != 3 || w.Charts[1].Name != "four" {
		t.Errorf("the charts are %+v", w.Charts)
	}
	if got := w.Charts[2].Trims[2].Pieces; len(got) != 1 || got[0].Fabric != "rust" || got[0].Count != 4 {
		t.Errorf("at dusk round 3 is %+v", got)
	}
	if len(w.Notes) != 2 {
		t.Errorf("the notes are %q", w.Notes)
	}
}
