package block

import (
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
)

// drawRounds is a block of some rounds that can be sewn one after another,
// which need not fit it.
func drawRounds(t *rapid.T) Rounds {
	eighths := func(low, high int64, name string) model.Length {
		return model.Length(rapid.Int64Range(low, high).Draw(t, name)) * eighth
	}
	open := rapid.Bool().Draw(t, "widths are worked out")
	var rounds []Round
	add := func(kind RoundKind) {
		round := Round{Kind: kind, Fabrics: []string{"foam"}}
		if rapid.Bool().Draw(t, "four fabrics") {
			round.Fabrics = []string{"ink", "foam", "foam", "rust"}
		}
		if kind.isLogs() && !open {
			round.Width = eighths(1, 12, "width")
		}
		rounds = append(rounds, round)
	}
	for range rapid.IntRange(1, 4).Draw(t, "steps") {
		switch kind := rapid.SampledFrom([]RoundKind{Triangles, LogsAround, LogsOpposite, LogsTrimmed}).Draw(t, "kind"); kind {
		case LogsTrimmed:
			for range rapid.IntRange(1, 3).Draw(t, "trimmed logs") {
				add(LogsTrimmed)
			}
			add(CornerTriangles)
		default:
			add(kind)
		}
	}
	r := Rounds{Side: eighths(32, 160, "side"), Centre: Centre{Fabric: "ink"}, Rounds: rounds}
	if r.open() {
		r.Centre.Side = eighths(4, 32, "centre")
	}
	return r
}

// fitting are drawn blocks of rounds that have no faults.
func fitting(t *testing.T, test func(t *rapid.T, r Rounds)) {
	accepted := 0
	rapid.Check(t, func(t *rapid.T) {
		r := drawRounds(t)
		c := Checker{Rules: inches, Fabrics: threeFabrics}
		r.Check(&c, model.PathOf(KeyBlocks, "x"))
		if c.Faults == nil {
			accepted++
			test(t, r)
		}
	})
	if accepted < 20 {
		t.Errorf("only %d blocks were without faults", accepted)
	}
}

// Any mix of rounds that has no faults fills its block, ends at the block's
// unfinished size, and each trim is at least the one before of its family.
func TestRandomRoundsFill(t *testing.T) {
	fitting(t, func(t *rapid.T, r Rounds) {
		checkRounds(t, r)
		trims := r.Make(inches, 1).Trims
		if last := trims[len(trims)-1]; last.Width != r.Side+in/2 || last.OnPoint {
			t.Errorf("%+v is trimmed last to %+v", r, last)
		}
		var before [2]model.Length
		for i, trim := range trims {
			family := map[bool]family{true: diagonal}[trim.OnPoint]
			if trim.Width < before[family] || trim.SeamToEdge == 0 && trim.PastPoints == 0 {
				t.Errorf("%+v: round %d is trimmed to %+v", r, i+1, trim)
			}
			before[family] = trim.Width
		}
	})
}

// Each cut holds its finished shape with seams, and one mark smaller it would
// not.
func TestRandomRoundsHold(t *testing.T) {
	fitting(t, func(t *rapid.T, r Rounds) {
		y := r.Make(inches, 1)
		for _, s := range y.Shapes {
			cut := y.Cuts[s.Cut]
			if err := holds(cut, s.Outline, inches.Seam); err != nil {
				t.Errorf("%+v: %v", r, err)
			}
			narrow, low := cut, cut
			narrow.Width -= eighth
			low.Height -= eighth
			if cut.Halve != model.NotHalved {
				narrow.Height = narrow.Width
				low = narrow
			}
			for _, less := range []model.Cut{narrow, low} {
				if holds(less, s.Outline, inches.Seam) == nil {
					t.Errorf("%+v: %+v would do for %v", r, less, s.Outline)
				}
			}
		}
	})
}

// The units of a block of rows fill it, however they are turned.
func TestRandomRowsFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inchesOf := func(name string) model.Length { return model.Length(rapid.IntRange(1, 3).Draw(t, name)) * in }
		units := Units{}
		b := Block{Name: "x"}
		columns := make([]model.Length, rapid.IntRange(1, 3).Draw(t, "columns"))
		for i := range columns {
			columns[i] = inchesOf("width")
			b.Width += columns[i]
		}
		for range rapid.IntRange(1, 3).Draw(t, "rows") {
			height := inchesOf("height")
			b.Height += height
			var row []Cell
			for _, width := range columns {
				turn := Turn(rapid.IntRange(0, 3).Draw(t, "turn"))
				w, h := width, height
				if turn%2 == 1 {
					w, h = height, width
				}
				name := model.FormatSize(w, h, model.Inches)
				units[name] = HalfRectangle{Width: w, Height: h, Fabrics: []string{"ink", "foam"}}
				row = append(row, Cell{name, turn})
			}
			b.Rows = append(b.Rows, row)
		}
		c := Checker{Rules: inches, Fabrics: threeFabrics, Units: units}
		b.Check(&c, model.PathOf(KeyBlocks, "x"))
		if err := c.Faults.OrNil(); err != nil {
			t.Fatalf("%+v: %v", b, err)
		}
		var sum geometry.Surd
		var shapes []Shape
		for _, p := range b.Contents(units) {
			for _, s := range p.Unit.Make(inches, 1).Shapes {
				s.Outline = p.Place(s.Outline)
				sum = sum.Add(s.Outline.Area())
				if slices.ContainsFunc(shapes, func(o Shape) bool { return geometry.Overlap(o.Outline, s.Outline) }) {
					t.Errorf("%+v: %v overlaps others", b, s.Outline)
				}
				shapes = append(shapes, s)
			}
		}
		if !sum.Equal(box(b.Width, b.Height).Area()) {
			t.Errorf("%+v: the units have %v", b, sum)
		}
		// A block that is one mark wider or higher does not add up.
		wrong := b
		wrong.Width += eighth
		wrong.Check(&c, model.PathOf(KeyBlocks, "x"))
		if len(c.Faults) != len(b.Rows) {
			t.Errorf("%d faults of %d rows that are too narrow", len(c.Faults), len(b.Rows))
		}
	})
}

// Whatever stands in a block of rounds, it is checked without a panic; and
// without faults it is made without one.
func TestHostileRounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := rapid.SampledFrom([]model.Length{-in, 0, 1, eighth, in, 3 * in, 12 * in, MaxFinished, MaxFinished + in, 1 << 62})
		label := rapid.SampledFrom([]string{"", "ink", "foam", "four", "fom"})
		rounds := make([]Round, rapid.IntRange(0, 110).Draw(t, "rounds"))
		for i := range rounds {
			rounds[i] = Round{
				Kind:    RoundKind(rapid.IntRange(0, 5).Draw(t, "kind")),
				Width:   length.Draw(t, "width"),
				Fabrics: rapid.SliceOfN(label, 0, 5).Draw(t, "fabrics"),
				Ease:    Ease{EaseKind(rapid.IntRange(0, 2).Draw(t, "ease")), length.Draw(t, "own")},
			}
		}
		side := length.Draw(t, "side")
		r := Rounds{Side: side, Centre: Centre{length.Draw(t, "centre"), label.Draw(t, "fabric"), label.Draw(t, "unit")}, Rounds: rounds}
		units := Units{"four": Rectangle{Width: length.Draw(t, "unit wide"), Height: in, Fabric: "ink"}}
		c := Checker{Rules: inches, Fabrics: threeFabrics, Units: units}
		b := Block{Name: "x", Width: side, Height: side, Rounds: &r, Colourways: []Colourway{{Name: "y", Swap: Swap{"ink": "foam"}}}}
		b.Check(&c, model.PathOf(KeyBlocks, "x"))
		if c.Faults == nil {
			for _, p := range b.Contents(units) {
				p.Unit.Make(inches, 3)
			}
		}
	})
}
