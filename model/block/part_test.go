package block

import (
	"errors"
	"fmt"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// reefs are blocks inside blocks: a reef of four steps, a bay of four reefs in
// two colourways, and a cove that grows around a reef.
func reefs() (Units, []Block) {
	units := Units{"step": HalfSquare{Side: 2 * in, Fabrics: []string{"ink", "foam"}}}
	reef := Block{Name: "reef", Width: 4 * in, Height: 4 * in,
		Rows:       [][]Cell{{{"step", 0}, {"step", 1}}, {{"step", 3}, {"step", 2}}},
		Colourways: []Colourway{{"night", Swap{"foam": "rust"}}, {"day", Swap{"ink": "foam", "foam": "ink"}}}}
	bay := Block{Name: "bay", Width: 8 * in, Height: 8 * in,
		Rows:       [][]Cell{{{"reef", 0}, {"reef/night", 1}}, {{"reef/day", 2}, {"reef", 3}}},
		Colourways: []Colourway{{"dusk", Swap{"ink": "plum", "rust": "gold"}}}}
	cove := Block{Name: "cove", Width: 6 * in, Height: 6 * in, Rounds: &Rounds{Side: 6 * in, Centre: Centre{Unit: "reef/night"},
		Rounds: []Round{{Kind: LogsAround, Width: in, Fabrics: []string{"plum"}}}}}
	return units, []Block{reef, bay, cove}
}

// The finished pieces of blocks inside a block fill it and do not overlap, in
// its colourways exchanged from the inside out.
func TestParts(t *testing.T) {
	units, blocks := reefs()
	fabrics := []model.Fabric{{ID: "ink"}, {ID: "foam"}, {ID: "rust"}, {ID: "plum"}, {ID: "gold"}}
	c := Checker{Rules: inches, Fabrics: fabrics, Units: units}
	for _, b := range blocks {
		b.Check(&c, model.PathOf(KeyBlocks, b.Name))
		for label, part := range b.Parts(units) {
			units[label] = part
		}
	}
	if err := c.Faults.OrNil(); err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		block Block
		swap  Swap
		areas map[string]int // in square inches
	}{
		{blocks[1], nil, map[string]int{"ink": 8 + 8 + 8 + 8, "foam": 8 + 8 + 8, "rust": 8}},
		{blocks[1], blocks[1].Colourways[0].Swap, map[string]int{"plum": 32, "foam": 24, "gold": 8}},
		{blocks[2], nil, map[string]int{"ink": 8, "rust": 8, "plum": 20}},
	} {
		areas := map[string]geometry.Surd{}
		var all []geometry.Polygon
		for _, p := range test.block.Contents(units) {
			for _, s := range p.Unit.Recolour(test.swap).Make(inches, 1).Shapes {
				outline := p.Place(s.Outline)
				areas[s.Fabric] = areas[s.Fabric].Add(outline.Area())
				for _, other := range all {
					if geometry.Overlap(outline, other) {
						t.Errorf("%s: %v and %v overlap", test.block.Name, outline, other)
					}
				}
				all = append(all, outline)
			}
		}
		for fabric, area := range areas {
			if want := geometry.OfArea(model.AreaOf(in, in)).Times(test.areas[fabric]); !area.Equal(want) {
				t.Errorf("%s in %v: %s has %v, want %v", test.block.Name, test.swap, fabric, area, want)
			}
		}
		if len(areas) != len(test.areas) {
			t.Errorf("%s in %v: got %v", test.block.Name, test.swap, areas)
		}
	}
}

// A block is no unit of itself or of one before it, and blocks inside blocks do
// not grow without end.
func TestPartFaults(t *testing.T) {
	units, blocks := reefs()
	c := Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "ink"}, {ID: "foam"}}, Units: units}
	blocks[1].Check(&c, model.PathOf(KeyBlocks, "bay"))
	if err := c.Faults.OrNil(); !errors.Is(err, model.ErrUnknownName) {
		t.Errorf("a block that stands behind: %v", err)
	}
	c.Faults = nil
	last := "step"
	for i := range 20 {
		side := 4 * in
		b := Block{Name: fmt.Sprint("b", i), Width: side, Height: side, Rows: [][]Cell{{{last, 0}, {last, 0}}, {{last, 0}, {last, 0}}}}
		b.Check(&c, model.PathOf(KeyBlocks, b.Name))
		parts := b.Parts(units)
		if parts == nil {
			break
		}
		for label, part := range parts {
			units[label] = part
		}
		last = b.Name
	}
	if err := c.Faults.OrNil(); !errors.Is(err, model.ErrTooMany) {
		t.Errorf("fourfold twenty times: %v", err)
	}
}
