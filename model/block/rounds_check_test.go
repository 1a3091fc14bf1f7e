package block

import (
	"slices"
	"testing"

	"crossgrain/model"
)

func TestRoundsFaults(t *testing.T) {
	units := Units{
		"four": Patches{Columns: lengths(1, 1), Rows: lengths(1, 1), Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}},
		"bar":  Rectangle{Width: 2 * in, Height: 3 * in, Fabric: "ink"},
		"nest": logCabin(),
	}
	logs := Round{Kind: LogsAround, Width: in}
	wide := func(kind RoundKind, width model.Length) Round { return Round{Kind: kind, Width: width} }
	for name, test := range map[string]struct {
		change func(r *Rounds)
		want   string
	}{
		"none": {func(*Rounds) {}, ""},
		"too narrow": {func(r *Rounds) { r.Rounds[8].Width = in / 2 },
			`block "x": rounds: does not add up ("11 in"), that is 1 in too little: the block is 12 in wide; with logs of 1 in they would fill it`},
		"logs that close it are on no mark": {func(r *Rounds) { *r = roundsOf(12*in, 5*in/4, times(3, wide(LogsOpposite, in))...) },
			`block "x": rounds: does not add up ("7 1/4 in"), that is 4 3/4 in too little: the block is 12 in wide; leave out the width of some logs, to have it worked out`},
		"no logs": {func(r *Rounds) { r.Rounds = times(2, Round{Kind: Triangles, Fabrics: []string{"foam"}}) },
			`block "x": rounds: does not add up ("4 in"), that is 8 in too little: the block is 12 in wide; leave out the size of the centre, to have it worked out`},
		"too wide": {func(r *Rounds) { r.Rounds[8].Width = 5 * in / 2 },
			`block "x": round 10: kind: too large, with it the rounds are larger than the block of 12 in: with logs of 1 in they would fill it`},
		"many triangles": {func(r *Rounds) { r.Rounds = times(100, Round{Kind: Triangles, Fabrics: []string{"foam"}}) },
			`block "x": round 6: kind: too large, with it the rounds are larger than the block of 12 in: leave out the size of the centre, to have it worked out`},
		"tiny centre": {func(r *Rounds) {
			r.Centre.Side, r.Rounds = 0, times(100, Round{Kind: Triangles, Fabrics: []string{"foam"}})
		},
			`block "x": centre: too small, the rounds leave nothing for it in a block of 12 in: make them narrower, or leave some out`},
		"no centre": {func(r *Rounds) { r.Centre.Side = 0; r.Rounds[2].Width = 5 * in },
			`block "x": centre: too small, the rounds leave nothing for it in a block of 12 in: make them narrower, or leave some out`},
		"no logs left": {func(r *Rounds) { r.Rounds[2].Width = 0; r.Centre.Side = 6 * in },
			`block "x": rounds: too small, nothing is left for the logs in a block of 12 in: make the centre smaller, or leave rounds out`},
		"of no account": {func(r *Rounds) { r.Rounds[3].Width = 0 },
			`block "x": round 4: width: missing, the block is of one size whatever it is: write it`},
		"nothing given": {func(r *Rounds) { r.Rounds[3].Width = 0; r.Centre.Side = 0 },
			`block "x": centre: missing, write the size of the centre, or the width of every round of logs`},
		"pointed": {func(r *Rounds) { r.Rounds[2].Width = 2 * in },
			`block "x": round 3: width: too large ("2 in"), the logs would come to a point and end: write less than 2 in`},
		"pointed, worked out": {func(r *Rounds) { *r = roundsOf(12*in, 3*in, wide(LogsTrimmed, 0), corners) },
			`block "x": round 1: width: too large ("4 1/2 in"), the logs would come to a point and end: make the centre larger, or add rounds`},
		"below nothing": {func(r *Rounds) { r.Rounds[2].Width = -in },
			`block "x": round 3: width: not more than 0 ("-1 in"), write the finished size`},
		"off the mark": {func(r *Rounds) { r.Rounds[2].Width = in / 16 },
			`block "x": round 3: width: off the ruler's mark ("1/16 in"), with its seams it is 9/16 in: write 1/8, or a finer ruler`},
		"triangles with a width": {func(r *Rounds) { r.Rounds[0].Width = in },
			`block "x": round 1: width: do not go together ("1 in"), leave it out: the width of triangles follows from the round before`},
		"a kind that is none": {func(r *Rounds) { r.Rounds[0].Kind = 77 },
			`block "x": round 1: kind: unknown word ("77"), write triangles, logs around, logs opposite, trimmed logs or corner triangles`},
		"corners first": {func(r *Rounds) { r.Rounds[0] = Round{Kind: CornerTriangles, Fabrics: []string{"foam"}} },
			`block "x": round 1: kind: do not go together ("corner triangles"), they close trimmed logs, and there are none before: write triangles`},
		"logs on eight sides": {func(r *Rounds) { logs.Fabrics = []string{"foam"}; r.Rounds[4] = logs },
			`block "x": round 5: kind: do not go together ("logs around"), after trimmed logs write trimmed logs or corner triangles`},
		"open corners": {func(r *Rounds) { r.Rounds = r.Rounds[:9] },
			`block "x": rounds: does not add up, trimmed logs leave the corners open: add a round of corner triangles`},
		"no rounds": {func(r *Rounds) { r.Rounds = nil }, `block "x": rounds: missing, write at least one round`},
		"101 rounds": {func(r *Rounds) { r.Rounds = times(101, r.Rounds[0]) },
			`block "x": rounds: too many ("101"), write at most 100 rounds`},
		"fabrics": {func(r *Rounds) {
			r.Rounds[0].Fabrics, r.Rounds[1].Fabrics, r.Rounds[2].Fabrics = nil, []string{"ink", "foam"}, []string{"ink", "fom", "ink", "ink"}
			r.Centre.Fabric, r.Rounds[3].Fabrics, r.Rounds[4].Ease = "", []string{"in"}, Ease{OwnEase, -in}
		}, `block "x": centre: fabric: missing, write the fabric that the piece is cut from
block "x": round 1: fabric: missing, write one fabric, or four: one for each side
block "x": round 2: fabrics: wrong number of fabrics ("2"), write one fabric, or four: one for each side
block "x": round 3: fabric 2: not a fabric of this quilt ("fom"), write one of ink, foam, rust, or add it to the fabrics
block "x": round 4: fabric: not a fabric of this quilt ("in"), write one of ink, foam, rust, or add it to the fabrics
block "x": round 5: ease: out of range ("-1 in"), write none, trade, or a length up to 6 in`},
		"unknown unit": {func(r *Rounds) { r.Centre = Centre{Unit: "fur"} },
			`block "x": centre: unit: not in this quilt ("fur"), write the label of a unit, or add it to the units`},
		"unit and fabric": {func(r *Rounds) { r.Centre.Unit = "four" },
			`block "x": centre: unit: do not go together ("four"), write the unit alone, or leave it out`},
		"unit not square": {func(r *Rounds) { r.Centre = Centre{Unit: "bar"} },
			`block "x": centre: unit: not a square ("bar"), it is 2 in x 3 in: write a unit that is as wide as it is high`},
		"rounds in rounds": {func(r *Rounds) { r.Centre = Centre{Unit: "nest"} },
			`block "x": centre: unit: do not go together ("nest"), write a unit that has no other inside`},
		"unit on point": {func(r *Rounds) {
			*r = roundsOf(12*in, 0, triangles, Round{Kind: LogsAround})
			r.Centre = Centre{Unit: "four"}
		},
			`block "x": centre: unit: do not go together ("four"), with these rounds it would stand on point: add a round of triangles`},
	} {
		r, c := pineapple(Ease{}), Checker{Rules: inches, Fabrics: threeFabrics, Units: units}
		test.change(&r)
		Block{Name: "x", Width: 12 * in, Height: 12 * in, Rounds: &r}.Check(&c, model.PathOf(KeyBlocks, "x"))
		got := ""
		if err := c.Faults.OrNil(); err != nil {
			got = err.Error()
		}
		if got != test.want {
			t.Errorf("%s: got\n%s\nwant\n%s", name, got, test.want)
		}
	}
}

func TestBlockOfRoundsFaults(t *testing.T) {
	r := pineapple(Ease{})
	swap := func(from, to string) Colourway { return Colourway{Name: "dusk", Swap: Swap{from: to}} }
	for _, test := range []struct {
		block Block
		want  string
	}{
		{Block{Width: 12 * in, Height: 13 * in, Rounds: &r}, `block "x": finished: not a square ("12 x 13"), a block of rounds is square: write one size`},
		{Block{Width: 12 * in, Height: 12 * in, Rounds: &r, Rows: [][]Cell{{{"four", 0}}}},
			`block "x": rounds: do not go together, write rows or rounds, not both`},
		{Block{Width: 12 * in, Height: 12 * in, Rounds: &r, Colourways: []Colourway{swap("rust", "ink"), swap("ink", "rust"), {Swap: Swap{}}}},
			`block "x": colourway "dusk": rust: not in this block ("rust"), the block has no such fabric: write foam or ink
block "x": colourway "dusk": used twice ("dusk"), write another label
block "x": colourway "": missing, write a label`},
	} {
		c := Checker{Rules: inches, Fabrics: threeFabrics}
		test.block.Check(&c, model.PathOf(KeyBlocks, "x"))
		if err := c.Faults.OrNil(); err == nil || err.Error() != test.want {
			t.Errorf("got\n%v\nwant\n%s", err, test.want)
		}
	}
	units := Units{"four": Patches{Columns: lengths(1, 1), Rows: lengths(1, 1), Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}}}
	r = roundsOf(4*in, 0, Round{Kind: LogsAround})
	r.Centre = Centre{Unit: "four"}
	if got := (Block{Width: 4 * in, Height: 4 * in, Rounds: &r}).uses(units); !slices.Equal(got, []string{"foam", "ink"}) {
		t.Errorf("with the unit in its centre the block has %v", got)
	}
}
