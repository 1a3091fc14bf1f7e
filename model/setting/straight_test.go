package setting

import (
	"errors"
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

const in = model.Inch

// A layout of two rows alternates over any number of rows and columns.
func TestStraight(t *testing.T) {
	s := Setting{Rows: 3, Columns: 5, Layout: [][]Place{{{Block: "A"}, {Block: "B", Turn: 1}}, {{Block: "B"}, {Block: "A"}}}}
	top := s.Set(block.DefaultRules(model.Inches), 8*in, 10*in)
	if !top.Width.Equal(geometry.Of(40*in)) || !top.Height.Equal(geometry.Of(30*in)) || len(top.Places) != 15 {
		t.Fatalf("%v x %v, %d blocks", top.Width, top.Height, len(top.Places))
	}
	counts := map[string]int{}
	for _, p := range top.Places {
		counts[p.Block]++
	}
	if counts["A"] != 8 || counts["B"] != 7 {
		t.Errorf("got %v", counts)
	}
	if p := top.Places[7]; p.Block != "B" || p.Turn != 0 || !p.X.Equal(geometry.Of(16*in)) || !p.Y.Equal(geometry.Of(10*in)) {
		t.Errorf("the third block of the second row: %+v", p)
	}
}

func TestStraightFaults(t *testing.T) {
	c := block.Checker{Rules: block.DefaultRules(model.Inches)}
	at := func(steps ...string) func(string) model.Path {
		return func(key string) model.Path { return model.PathOf(steps...).At(key) }
	}
	Setting{Rows: 0, Columns: 501, Layout: [][]Place{{}}}.Check(&c, at(KeySetting))
	Setting{Rows: 1, Columns: 1, Way: OnPoint, Sashing: &Sashing{}}.Check(&c, at(KeySizes, "crib"))
	want := `setting: rows: out of range ("0"), write a whole number from 1 to 500
setting: columns: out of range ("501"), write a whole number from 1 to 500
setting: layout row 1: missing, write at least one block
size "crib": layout: missing, write the blocks, row by row
size "crib": way: unknown word ("on point"), write straight
size "crib": sashing: do not go together, leave it out`
	if err := c.Faults.OrNil(); err == nil || err.Error() != want || !errors.Is(err, model.ErrOutOfRange) {
		t.Errorf("got\n%v\nwant\n%s", err, want)
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
