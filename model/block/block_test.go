package block

import (
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// A unit keeps its area and its place however it is turned, and its upper left
// triangle goes round clockwise.
func TestPlace(t *testing.T) {
	u := HalfSquare{Side: 2 * in, Fabrics: []string{"ink", "foam"}}
	x, y := geometry.Of(5*in), geometry.Of(7*in)
	for turn, right := range []geometry.Point{ // where the right angle is
		{X: x, Y: y}, {X: geometry.Of(7 * in), Y: y},
		{X: geometry.Of(7 * in), Y: geometry.Of(9 * in)}, {X: x, Y: geometry.Of(9 * in)},
	} {
		p := Placed{Unit: u, X: x, Y: y, Turn: Turn(turn)}
		outline := p.Place(u.outlines()[0])
		from, to := outline.Bounds()
		if !from.Equal(geometry.At(x, y)) || !to.Equal(geometry.At(geometry.Of(7*in), geometry.Of(9*in))) || !outline[0].Equal(right) {
			t.Errorf("turned by %d: %v", turn, outline)
		}
	}
}

func TestContents(t *testing.T) {
	units := Units{"step": HalfSquare{Side: 2 * in, Fabrics: []string{"ink", "foam"}}}
	b := Block{Width: 4 * in, Height: 4 * in, Rows: [][]Cell{{{"step", 0}, {"step", 1}}, {{"step", 3}, {"step", 2}}}}
	got := b.Contents(units)
	if len(got) != 4 {
		t.Fatalf("%d units", len(got))
	}
	last := got[3]
	if !last.X.Equal(geometry.Of(2*in)) || !last.Y.Equal(geometry.Of(2*in)) || last.Turn != 2 {
		t.Errorf("the last unit: %+v", last)
	}
	b.Colourways = []Colourway{{"rusty", Swap{"ink": "rust"}}}
	if swap, known := b.Swap("rusty"); !known || swap["ink"] != "rust" {
		t.Errorf("the colourway exchanges %v", swap)
	}
	if _, known := b.Swap(""); !known {
		t.Error("a block has no fabrics of its own")
	}
	if _, known := b.Swap("dusty"); known {
		t.Error("a colourway that is not there is known")
	}
}

func TestBlockFaults(t *testing.T) {
	step := HalfSquare{Side: 2 * in, Fabrics: []string{"ink", "foam"}}
	small := HalfSquare{Side: 3 * in / 2, Fabrics: []string{"ink", "foam"}}
	c := Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "ink"}, {ID: "foam"}}, Units: Units{"step": step, "small": small}}
	Block{Name: "reef", Width: 4 * in, Height: 7 * in / 2, Rows: [][]Cell{
		{{"step", 0}, {"small", 0}}, {{"small", 0}, {"small", 0}}, {{"stp", 0}}, {},
	}, Colourways: []Colourway{{"rusty", Swap{"ink": "rust"}}}}.Check(&c, model.PathOf(KeyBlocks, "reef"))
	Block{Name: "bay", Width: 4 * in, Height: 4 * in, Rows: [][]Cell{
		{{"step", 0}, {"step", 0}}, {{"small", 1}, {"small", 2}},
	}}.Check(&c, model.PathOf(KeyBlocks, "bay"))
	Block{Name: "cove", Width: 4 * in, Height: 2 * in}.Check(&c, model.PathOf(KeyBlocks, "cove"))
	want := `block "reef": colourway "rusty": ink: not a fabric of this quilt ("rust"), write one of ink, foam, or add it to the fabrics
block "reef": row 1: unit 2: does not add up ("small"), it is 1 1/2 in high, those before it in the row 2 in
block "reef": row 2: does not add up ("3 in"), that is 1 in too little: the block is 4 in wide
block "reef": row 3: unit 1: not in this quilt ("stp"), write the label of a unit, or add it to the units
block "reef": row 4: missing, write at least one unit
block "bay": row 2: does not add up ("3 in"), that is 1 in too little: the block is 4 in wide
block "bay": rows: does not add up ("3 1/2 in"), that is 1/2 in too little: the block is 4 in high
block "cove": rows: missing, write the units, row by row, or a centre and rounds`
	if err := c.Faults.OrNil(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

func TestMethodAndEaseWords(t *testing.T) {
	for m := FromTriangles; m <= StripSets; m++ {
		if back, err := ParseMethod(m.String(), []Method{m}); back != m || err != nil {
			t.Errorf("%s is read as %v, %v", m, back, err)
		}
	}
	if got := FromTriangles.use("goose") + "; " + FlipAndTrim.use("goose"); got != "goose; goose, flip-and-trim" {
		t.Errorf("uses %q", got)
	}
	for _, text := range []string{"", "strip sets", "3 at a time"} {
		const hint = "this unit is made from triangles, flip and trim or 4 at a time"
		if _, err := ParseMethod(text, GeeseMethods); err == nil || !strings.HasSuffix(err.Error(), hint) {
			t.Errorf("%q is read with the error %v", text, err)
		}
	}
	for _, text := range []string{"none", "trade", "3/8"} {
		e, err := ParseEase(text, model.Inches)
		if err != nil || e.Written(model.Inches) != text {
			t.Errorf("%s is written %s, %v", text, e.Written(model.Inches), err)
		}
	}
	if _, err := ParseEase("much", model.Inches); err == nil {
		t.Error("an ease in words was read")
	}
}
