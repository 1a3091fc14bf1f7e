package setting

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/block"
)

// Nine stars of 13 in, sashed all round (APQ, Stars and Sashing): 24 sashes
// of 13 1/2 x 1 1/2 and 16 squares.
func TestSashingPublished(t *testing.T) {
	s := Setting{Rows: 3, Columns: 3, Layout: [][]Place{{{Block: "star"}}},
		Sashing: &Sashing{Width: in, Fabric: "ink", Cornerstone: "rust", Around: true}}
	top := s.Set(inches, 13*in, 13*in, wide)
	if got, want := pieces(top.Parts[0].Yield), "24 13 1/2 x 1 1/2, 16 1 1/2"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	// Rows of four stars of 10 x 8 in (APQ, Seventies-Style): three long sashes
	// from 42 in, or joined where the fabric is narrower.
	s = Setting{Rows: 4, Columns: 1, Layout: [][]Place{{{Block: "row"}}}, Sashing: &Sashing{Width: 2 * in, Fabric: "ink"}}
	for _, row := range []struct {
		usable model.Length
		want   string
	}{{42 * in, "3 40 1/2 x 2 1/2"}, {40 * in, "3 strips of 2 1/2 for 121 1/2"}} {
		fabrics := []model.Fabric{{ID: "ink", UsableWidths: []model.Length{row.usable}}}
		top := s.Set(inches, 40*in, 8*in, fabrics)
		if got := pieces(top.Parts[0].Yield); got != row.want {
			t.Errorf("at %v: got %s, want %s", row.usable, got, row.want)
		}
	}
}

// Without cornerstones, sashes stand between the blocks of a row and long ones
// between the rows. A fabric with an up keeps both kinds as they stand.
func TestLongSashes(t *testing.T) {
	s := Setting{Rows: 2, Columns: 3, Layout: [][]Place{{{Block: "A"}}}, Sashing: &Sashing{Width: in, Fabric: "ink"}}
	fabrics := []model.Fabric{{ID: "ink", UsableWidths: []model.Length{42 * in}, OneWay: true}}
	if got, want := pieces(s.Set(inches, 8*in, 8*in, fabrics).Parts[0].Yield), "4 1 1/2 x 8 1/2, 1 26 1/2 x 1 1/2"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	s.Sashing.Around = true
	y := s.Set(inches, 16*in, 8*in, wide).Parts[0].Yield
	if got, want := pieces(y), "8 8 1/2 x 1 1/2, 4 strips of 1 1/2 for 157 1/2"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if want := "Long sashes: join the strips to one length, and cut from it 3 of 52 1/2 in."; len(y.Notes) != 1 || y.Notes[0] != want {
		t.Errorf("got %v", y.Notes)
	}
}

// Triangles may have an ease of the maker's own: 10 1/2 and 5 3/4 for 6 in
// (kristamoser.com) are 3/4 and 5/8 more than 9 3/4 and 5 1/8.
func TestOwnEaseOfTriangles(t *testing.T) {
	s := onPoint(2, 2)
	s.Sides.Ease, s.Corners.Ease = block.Ease{Kind: block.OwnEase, Own: 3 * in / 4}, block.Ease{Kind: block.OwnEase, Own: 5 * in / 8}
	cuts := s.Set(inches, 6*in, 6*in, nil).cuts()
	if side, corner := cuts["side triangles"].Width, cuts["corner triangles"].Width; side != 21*in/2 || corner != 23*in/4 {
		t.Errorf("got %v and %v", side, corner)
	}
}

func TestCheckBlocks(t *testing.T) {
	at := func(key string) model.Path { return model.PathOf(KeySetting, key) }
	c := block.Checker{Rules: inches}
	s := onPoint(2, 2)
	s.CheckBlocks(&c, at, 8*in, 10*in)
	s.Float = 5 * in // 6√2/2 is 4.24
	s.CheckBlocks(&c, at, 6*in, 6*in)
	s.CheckBlocks(&c, at, 8*in, 8*in)
	Setting{}.CheckBlocks(&c, at, 8*in, 10*in)
	want := `setting: way: not a square ("8 x 10"), only square blocks are set on point: write way: straight, or make the blocks square
setting: float: too large ("5 in"), write at most 4 1/8 in, and a border around it`
	if err := c.Faults.OrNil(); err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}
