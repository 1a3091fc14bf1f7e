package setting

import (
	"errors"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

const in = model.Inch

var inches = block.DefaultRules(model.Inches)

// A layout of two rows alternates over any number of rows and columns.
func TestStraight(t *testing.T) {
	s := Setting{Rows: 3, Columns: 5, Layout: [][]Place{{{Block: "A"}, {Block: "B", Turn: 1}}, {{Block: "B"}, {Block: "A"}}}}
	top := s.Set(inches, 8*in, 10*in, nil)
	if !top.Width.Equal(geometry.Of(40*in)) || !top.Height.Equal(geometry.Of(30*in)) || len(top.Places) != 15 || len(top.Parts) != 0 {
		t.Fatalf("%v x %v, %d blocks, %+v", top.Width, top.Height, len(top.Places), top.Parts)
	}
	counts := map[string]int{}
	for _, p := range top.Places {
		counts[p.Block]++
	}
	if counts["A"] != 8 || counts["B"] != 7 {
		t.Errorf("got %v", counts)
	}
	corner := top.Block(top.Places[7], geometry.Polygon{{}})[0]
	if p := top.Places[7]; p.Block != "B" || p.Turn != 0 || !corner.Equal(geometry.At(geometry.Of(16*in), geometry.Of(10*in))) {
		t.Errorf("the third block of the second row: %+v at %v", p, corner)
	}
}

func TestSettingFaults(t *testing.T) {
	at := func(steps ...string) func(string) model.Path {
		return func(key string) model.Path { return model.PathOf(steps...).At(key) }
	}
	layout := [][]Place{{{Block: "A"}}}
	ink := Triangles{Fabric: "ink"}
	for _, test := range []struct {
		s    Setting
		want string
	}{
		{Setting{Rows: 0, Columns: 501, Layout: [][]Place{{}}}, `setting: rows: out of range ("0"), write a whole number from 1 to 500
setting: columns: out of range ("501"), write a whole number from 1 to 500
setting: layout row 1: missing, write at least one block`},
		{Setting{Rows: 1, Columns: 1}, `setting: layout: missing, write the blocks, row by row`},
		{Setting{Rows: 400, Columns: 400, Layout: layout}, `setting: rows: too many ("160000"), a quilt has at most 100,000 pieces`},
		{Setting{Rows: 2, Columns: 2, Layout: layout, SettingSquare: "ink", Sides: ink, Corners: ink, Float: in},
			`setting: setting_squares: do not go together, leave it out, or write way: on point
setting: side_triangles: do not go together, leave it out, or write way: on point
setting: corner_triangles: do not go together, leave it out, or write way: on point
setting: float: do not go together, leave it out, or write way: on point`},
		{Setting{Way: OnPoint, Rows: 2, Columns: 2, Layout: layout, Float: 37 * in, Sides: Triangles{Fabric: "jade"}},
			`setting: side_triangles: fabric: not a fabric of this quilt ("jade"), write ink, or add it to the fabrics
setting: corner_triangles: fabric: missing, write the fabric that the piece is cut from
setting: float: out of range ("37 in"), write 0 to 36 in
setting: between: missing, write what stands between the rows: between: with blocks, or setting_squares: with a fabric`},
		{Setting{Way: OnPoint, Rows: 2, Columns: 2, Layout: layout, Between: layout, SettingSquare: "ink", Sides: ink, Corners: ink},
			`setting: setting_squares: do not go together ("ink"), write between: or setting_squares:, not both`},
		{Setting{Way: OnPoint, Rows: 1, Columns: 3, Layout: layout, Sides: ink, Corners: ink, Sashing: &Sashing{Width: in / 8, Fabric: "ink"}},
			`setting: sashing: width: too small ("1/8 in"), it is narrower than its seam allowances: write at least 1/4 in
setting: sashing: around: do not go together, a single row on point has no sashes between its blocks: write around: yes, or leave the sashing out`},
		{Setting{Rows: 1, Columns: 3, Layout: layout, Sashing: &Sashing{Cornerstone: "jade"}},
			`setting: sashing: width: not more than 0 ("0 in"), write the finished size
setting: sashing: fabric: missing, write the fabric that the piece is cut from
setting: sashing: cornerstones: not a fabric of this quilt ("jade"), write ink, or add it to the fabrics`},
	} {
		c := block.Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "ink"}}}
		test.s.Check(&c, at(KeySetting))
		if err := c.Faults.OrNil(); err == nil || err.Error() != test.want {
			t.Errorf("got\n%v\nwant\n%s", err, test.want)
		}
	}
	c := block.Checker{Rules: inches}
	Setting{Columns: 1, Layout: layout}.Check(&c, at(KeySizes, "crib"))
	if err := c.Faults.OrNil(); !errors.Is(err, model.ErrOutOfRange) || err.Error() != `size "crib": rows: out of range ("0"), write a whole number from 1 to 500` {
		t.Errorf("got %v", err)
	}
}

func TestWay(t *testing.T) {
	for _, w := range []Way{Straight, OnPoint} {
		if back, err := ParseWay(w.String()); back != w || err != nil {
			t.Errorf("%v is read as %v, %v", w, back, err)
		}
	}
	if _, err := ParseWay("askew"); !errors.Is(err, model.ErrNotAChoice) {
		t.Errorf("got %v", err)
	}
}
