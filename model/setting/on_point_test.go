package setting

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
)

// onPoint is a setting on point, blocks of one kind and plain squares.
func onPoint(rows, columns int) Setting {
	return Setting{
		Way: OnPoint, Rows: rows, Columns: columns, Layout: [][]Place{{{Block: "A"}}}, SettingSquare: "foam",
		Sides: Triangles{Fabric: "foam"}, Corners: Triangles{Fabric: "foam"},
	}
}

// cuts are all cuts of a top by their use.
func (t Top) cuts() map[string]model.Cut {
	cuts := make(map[string]model.Cut)
	for _, p := range t.Parts {
		for _, c := range p.Yield.Cuts {
			cuts[c.Use] = c
		}
	}
	return cuts
}

// The patterns of two quilts: their squares and triangles, and their sizes.
func TestOnPointPublished(t *testing.T) {
	trade := block.Ease{Kind: block.TradeEase}
	for _, test := range []struct {
		source                 string
		rows, columns          int
		ease                   block.Ease
		blocks, squares, sides int // sides: the squares for side triangles
		side, corner           model.Length
		width, height          model.Length // of the sewn top, up to 1/2 in; 0 is not checked
	}{
		// Of 36 side triangles 34 are used.
		{"APQ, Summer Salsa", 10, 9, block.Ease{}, 90, 72, 9, 39 * in / 4, 41 * in / 8, 77 * in, 171 * in / 2},
		{"APQ, Table Manners", 4, 3, trade, 12, 6, 3, 10 * in, 11 * in / 2, 0, 0},
	} {
		s := onPoint(test.rows, test.columns)
		s.Sides.Ease, s.Corners.Ease = test.ease, test.ease
		top := s.Set(inches, 6*in, 6*in, nil)
		cuts := top.cuts()
		if len(top.Places) != test.blocks || cuts["setting squares"].Count != test.squares || cuts["setting squares"].Width != 13*in/2 {
			t.Errorf("%s: %d blocks, squares %+v", test.source, len(top.Places), cuts["setting squares"])
		}
		sewn := func(s geometry.Surd) model.Length { return s.Add(geometry.Of(in / 2)).CeilTo(in / 2) }
		if w, h := sewn(top.Width), sewn(top.Height); test.width > 0 && (w != test.width || h != test.height) {
			t.Errorf("%s: sewn %v x %v", test.source, w, h)
		}
		if c := cuts["side triangles"]; c.Count != test.sides || c.Width != test.side || c.Halve != model.HalvedTwice {
			t.Errorf("%s: side triangles %+v", test.source, c)
		}
		if c := cuts["corner triangles"]; c.Count != 2 || c.Width != test.corner || c.Halve != model.HalvedOnce {
			t.Errorf("%s: corner triangles %+v", test.source, c)
		}
	}
}

// Blocks, squares, sashes and triangles fill a top on point of any size, with
// and without sashing and float, and every cut is large enough.
func TestOnPointFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := onPoint(rapid.IntRange(1, 3).Draw(t, "rows"), rapid.IntRange(1, 3).Draw(t, "columns"))
		s.Float = model.Length(rapid.IntRange(0, 3).Draw(t, "float")) * in / 2
		if rapid.Bool().Draw(t, "between") {
			s.SettingSquare, s.Between = "", [][]Place{{{Block: "B"}, {Block: "A"}}}
		}
		drawSashing(t, &s)
		b := model.Length(rapid.IntRange(4, 60).Draw(t, "block")) * in / 4
		c := block.Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "foam"}, {ID: "ink"}, {ID: "rust"}}}
		s.Check(&c, func(key string) model.Path { return model.PathOf(KeySetting, key) })
		if single := min(s.Rows, s.Columns) == 1 && max(s.Rows, s.Columns) > 1; len(c.Faults) > 0 {
			if !single || s.Sashing == nil || s.Sashing.Around {
				t.Errorf("%v", c.Faults)
			}
			return
		}
		s.CheckBlocks(&c, func(key string) model.Path { return model.PathOf(KeySetting, key) }, b, b)
		if len(c.Faults) > 0 {
			if s.Float <= b/2 {
				t.Errorf("%v", c.Faults)
			}
			return
		}
		checkTop(t, inches, s.Set(inches, b, b, wide), b, b)
	})
}

// wide is a fabric of 40 and 42 in.
var wide = []model.Fabric{{ID: "ink", UsableWidths: []model.Length{42 * in, 40 * in}}}

func drawSashing(t *rapid.T, s *Setting) {
	switch rapid.IntRange(0, 3).Draw(t, "sashing") {
	case 1:
		s.Sashing = &Sashing{Width: 3 * in / 2, Fabric: "ink"}
	case 2:
		s.Sashing = &Sashing{Width: in, Fabric: "ink", Cornerstone: "rust"}
	case 3:
		s.Sashing = &Sashing{Width: 2 * in, Fabric: "ink", Around: true}
		if rapid.Bool().Draw(t, "cornerstones") {
			s.Sashing.Cornerstone = "rust"
		}
	}
}

func TestStraightFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Setting{Rows: rapid.IntRange(1, 4).Draw(t, "rows"), Columns: rapid.IntRange(1, 4).Draw(t, "columns"), Layout: [][]Place{{{Block: "A"}}}}
		drawSashing(t, &s)
		w := model.Length(rapid.IntRange(4, 60).Draw(t, "width")) * in / 4
		h := model.Length(rapid.IntRange(4, 60).Draw(t, "height")) * in / 4
		checkTop(t, inches, s.Set(inches, w, h, wide), w, h)
	})
}

// With sashing on point the triangles are those of a block and a sash; all sums
// are those of a quilt of 2 x 2 blocks and one between.
func TestSashedOnPoint(t *testing.T) {
	s := onPoint(2, 2)
	s.Sashing = &Sashing{Width: 2 * in, Fabric: "ink", Cornerstone: "rust"}
	cuts := s.Set(inches, 19*in/2, 19*in/2, nil).cuts()
	for _, test := range []struct {
		use           string
		width, height model.Length
		count         int
	}{
		{"sashes", 10 * in, 5 * in / 2, 4},
		{"side triangles", 141 * in / 8, 141 * in / 8, 1}, // 17 5/8 of 11 1/2
		{"corner triangles", 61 * in / 8, 61 * in / 8, 2}, // those of 9 1/2: 6.718 + 0.854
	} {
		if c := cuts[test.use]; c.Width != test.width || c.Height != test.height || c.Count != test.count {
			t.Errorf("%+v", c)
		}
	}
	s.Sashing.Around = true
	top := s.Set(inches, 19*in/2, 19*in/2, nil)
	cuts = top.cuts()
	for use, count := range map[string]int{"sashes": 16, "cornerstones": 12, "side triangles": 1, "corner triangles": 2} {
		if cuts[use].Count != count {
			t.Errorf("sashed around, %d %s", cuts[use].Count, use)
		}
	}
	if want := geometry.Root2(25 * in); !top.Width.Equal(want) { // 11 1/2, 9 1/2 and twice 2
		t.Errorf("the top is %v wide, want %v", top.Width, want)
	}
}

// In centimetres the squares for triangles are the least on the ruler's mark that
// hold them. Our own arithmetic: blocks of 15 with seams of 0.75 and a ruler of
// 0.5 take 15√2 + 0.75(2+2√2) = 24.834 and 15/√2 + 0.75(2+√2) = 13.167.
func TestTrianglesInCentimetresAreExact(t *testing.T) {
	const mm = model.Millimetre
	rules := block.Rules{Unit: model.Centimetres, Seam: 15 * mm / 2, Ruler: 5 * mm}
	cuts := onPoint(2, 2).Set(rules, 150*mm, 150*mm, nil).cuts()
	if side, corner := cuts["side triangles"].Width, cuts["corner triangles"].Width; side != 250*mm || corner != 135*mm {
		t.Errorf("got %v and %v cm", side.Format(model.Centimetres), corner.Format(model.Centimetres))
	}
	rapid.Check(t, func(t *rapid.T) {
		rules := block.Rules{Unit: model.Centimetres, Ruler: model.Length(rapid.SampledFrom([]int{1, 2, 5, 10}).Draw(t, "ruler")) * mm}
		rules.Seam = model.Length(rapid.IntRange(1, 20).Draw(t, "seam")) * mm / 2
		b := model.Length(rapid.IntRange(20, 600).Draw(t, "block")) * mm
		s := onPoint(2, 2)
		s.Float = model.Length(rapid.IntRange(0, 20).Draw(t, "float")) * mm
		cuts := s.Set(rules, b, b, nil).cuts()
		float := geometry.Of(2 * s.Float)
		for use, exact := range map[string]geometry.Surd{
			"side triangles":   rules.QuarterSquareCut(geometry.Root2(b).Add(float)),
			"corner triangles": rules.HalfSquareCut(geometry.Of(b).OverRoot2().Add(float)),
		} {
			over := geometry.Of(cuts[use].Width).Sub(exact)
			if over.Sign() < 0 || over.Cmp(geometry.Of(rules.Ruler)) >= 0 {
				t.Errorf("the square for %s is %v over what it must be", use, over)
			}
		}
	})
}
