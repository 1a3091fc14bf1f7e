package block

import (
	"testing"

	"crossgrain/model"
)

// twoByTwo is a four-patch of finished patches of a size.
func twoByTwo(patch model.Length, method Method, ease Ease) Patches {
	return Patches{Columns: []model.Length{patch, patch}, Rows: []model.Length{patch, patch},
		Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}, Method: method, Ease: ease}
}

func TestStripSetsPublished(t *testing.T) {
	for _, row := range readPublished(t).StripSets {
		u := Patches{Fabrics: row.Fabrics, Method: StripSets, SetLength: model.Length(row.SetLength)}
		for range row.Fabrics[0] {
			u.Columns = append(u.Columns, model.Length(row.PatchWidth))
		}
		for range row.Fabrics {
			u.Rows = append(u.Rows, model.Length(row.PatchHeight))
		}
		c := Checker{Rules: inches, Fabrics: []model.Fabric{{ID: "a"}, {ID: "b"}}}
		u.Check(&c, model.PathOf(KeyUnits, "x"))
		if err := c.Faults.OrNil(); err != nil {
			t.Errorf("%s, %s: %v", row.Name, row.Source, err)
		}
		y := u.Make(inches, row.Units)
		if len(y.Sets) != 1 {
			t.Fatalf("%s, %s: %d sets", row.Name, row.Source, len(y.Sets))
		}
		width := model.Length(row.Width)
		set := y.Sets[0].strips()[0]
		if per, sets := set.PerStrip(width), set.Strips(width)/set.Beside; per != row.PerSet || sets != row.Sets {
			t.Errorf("%s, %s: %d sets of %d, want %d of %d", row.Name, row.Source, sets, per, row.Sets, row.PerSet)
		}
		strips := map[string]int{}
		for _, s := range y.Strips {
			strips[s.Fabric] += s.Strips(width)
		}
		for _, cut := range y.Cuts {
			strips[cut.Fabric] += cut.Count
		}
		for fabric, n := range row.Strips {
			if strips[fabric] != n {
				t.Errorf("%s, %s: %d strips of %s, want %d", row.Name, row.Source, strips[fabric], fabric, n)
			}
		}
		if stated := row.StatedSets != 0 || row.StatedPerSet != 0; stated != (row.Difference != "") || row.StatedSets != 0 && row.StatedSets < row.Sets {
			t.Errorf("%s, %s: a difference is not explained", row.Name, row.Source)
		}
	}
}

// Four-patches of finished patches of 1 in, oversize: strips of 1 3/4 in, sewn
// to 3 in, trimmed to 2 1/2 in (common practice, no source).
func TestOversizeFourPatch(t *testing.T) {
	y := twoByTwo(in, StripSets, trade).Make(inches, 8)
	strip := y.Strips[0]
	if strip.Height != 7*in/4 || strip.Each != 7*in/4 || strip.Count != 16 || len(y.Strips) != 2 || len(y.Sets) != 1 {
		t.Errorf("got %+v", y)
	}
	if sewn := 2*strip.Height - 2*inches.Seam; sewn != 3*in {
		t.Errorf("it is sewn to %s", sewn.Format(model.Inches))
	}
	if trim := y.Trims[0]; trim.Width != 5*in/2 || trim.Height != 5*in/2 || trim.Step != "four-patch" {
		t.Errorf("it is trimmed to %+v", trim)
	}
	compareCuts(t, "piece by piece", twoByTwo(in, PieceByPiece, trade).Make(inches, 8),
		printedCut{"ink", "1 3/4", "1 3/4", 16}, printedCut{"foam", "1 3/4", "1 3/4", 16})
}

// A nine-patch of 4 1/2 in: strips of 4.5/3 + .5 = 2 in
// (generations-quilt-patterns.com, nine-patch quilt). Its two outer rows share a
// set. The page cuts the strips an inch longer than the sections are.
func TestNinePatchPublished(t *testing.T) {
	third := 3 * in / 2
	size := []model.Length{third, third, third}
	a, b := []string{"ink", "foam", "ink"}, []string{"foam", "ink", "foam"}
	u := Patches{Columns: size, Rows: size, Fabrics: [][]string{a, b, a}, Method: StripSets}
	y := u.Make(inches, 1)
	if len(y.Sets) != 2 || y.Sets[0].Count != 2 || y.Sets[1].Count != 1 || y.Sets[0].Section != 2*in || y.Trims[0].Step != "nine-patch" {
		t.Errorf("got %+v", y)
	}
	want := []model.Strip{
		{Fabric: "ink", Use: "strip sets", Height: 2 * in, Count: 2, First: 2 * in, Each: 2 * in, Beside: 2},
		{Fabric: "foam", Use: "strip sets", Height: 2 * in, Count: 2, First: 2 * in, Each: 2 * in, Beside: 1},
		{Fabric: "foam", Use: "strip sets", Height: 2 * in, Count: 1, First: 2 * in, Each: 2 * in, Beside: 2},
		{Fabric: "ink", Use: "strip sets", Height: 2 * in, Count: 1, First: 2 * in, Each: 2 * in, Beside: 1},
	}
	for i, s := range y.Strips {
		if s != want[i] {
			t.Errorf("got  %+v\nwant %+v", s, want[i])
		}
	}
	u.Method = PieceByPiece
	compareCuts(t, "piece by piece", u.Make(inches, 10), printedCut{"ink", "2", "2", 50}, printedCut{"foam", "2", "2", 40})
}

// Rows share a set if one is the other backwards, widths and all; not if their
// sections differ.
func TestSharedSets(t *testing.T) {
	fabrics := [][]string{{"ink", "foam"}, {"foam", "ink"}}
	even := Patches{Columns: lengths(2, 2), Rows: lengths(2, 2), Fabrics: fabrics, Method: StripSets}
	uneven := Patches{Columns: lengths(1, 2), Rows: lengths(2, 2), Fabrics: fabrics, Method: StripSets}
	sections := Patches{Columns: lengths(2, 2), Rows: lengths(2, 3), Fabrics: fabrics, Method: StripSets}
	for _, test := range []struct {
		unit Patches
		sets int
	}{{even, 1}, {uneven, 2}, {sections, 2}} {
		if got := len(test.unit.Make(inches, 1).Sets); got != test.sets {
			t.Errorf("%+v: %d sets", test.unit, got)
		}
	}
}

// Strips of a set length: 8 sections of 2 1/2 from 21 in, so 20 take two whole
// sets and a part of 4.
func TestSetLength(t *testing.T) {
	u := twoByTwo(2*in, StripSets, Ease{})
	u.SetLength = 21 * in
	y := u.Make(inches, 10)
	compareCuts(t, "strip sets of 21 in", y,
		printedCut{"ink", "21", "2 1/2", 2}, printedCut{"ink", "10", "2 1/2", 1},
		printedCut{"foam", "21", "2 1/2", 2}, printedCut{"foam", "10", "2 1/2", 1})
	if len(y.Strips) != 0 || y.Sets[0].Length != 21*in || y.Sets[0].Count != 20 {
		t.Errorf("got %+v", y)
	}
	compareCuts(t, "one part set", u.Make(inches, 1), printedCut{"ink", "5", "2 1/2", 1}, printedCut{"foam", "5", "2 1/2", 1})
}

func TestPatchesFaults(t *testing.T) {
	good := twoByTwo(2*in, StripSets, Ease{})
	with := func(change func(u *Patches)) Patches {
		u := good
		change(&u)
		return u
	}
	checkFaults(t, inches,
		faultTest{good, nil, ""},
		faultTest{with(func(u *Patches) { u.Columns = nil }), model.ErrMissing,
			`unit "x": patches: missing, write the finished size of a patch`},
		faultTest{with(func(u *Patches) { u.Columns = lengths(2, 0) }), model.ErrNotPositive,
			`unit "x": column 2: not more than 0 ("0 in"), write the finished size`},
		faultTest{with(func(u *Patches) { u.Rows = lengths(201, 2) }), model.ErrOutOfRange,
			`unit "x": height 1: out of range ("201 in"), write at most 200 in`},
		faultTest{with(func(u *Patches) { u.Rows = lengths(200, 200) }), model.ErrTooLarge,
			`unit "x": patches: too large ("4 x 400 in"), all patches together are at most 200 in wide and high`},
		faultTest{with(func(u *Patches) { u.Fabrics = u.Fabrics[:1] }), model.ErrFabricCount,
			`unit "x": fabrics: wrong number of fabrics ("1"), write the fabrics of 2 rows`},
		faultTest{with(func(u *Patches) { u.Fabrics = [][]string{{"ink", "fom"}, {"ink"}} }), model.ErrUnknown,
			`unit "x": fabrics row 1: fabric 2: not a fabric of this quilt ("fom"), write one of ink, foam, rust, or add it to the fabrics` + "\n" +
				`unit "x": fabric 2: wrong number of fabrics ("1"), write 2 in each row, one for each patch`},
		faultTest{with(func(u *Patches) { u.Method = FlipAndTrim }), model.ErrNotAChoice,
			`unit "x": method: unknown word ("flip and trim"), this unit is made piece by piece or strip sets`},
		faultTest{with(func(u *Patches) { u.Rows, u.Ease = lengths(2, 1), trade }), model.ErrNotTogether,
			`unit "x": ease: do not go together ("trade"), only 2 by 2 patches of one size can be trimmed without moving a seam: leave ease out`},
		faultTest{with(func(u *Patches) { u.SetLength, u.Method = 21*in, DefaultMethod }), model.ErrNotTogether,
			`unit "x": set_length: do not go together ("21 in"), write method: strip sets, or leave it out`},
		faultTest{with(func(u *Patches) { u.SetLength = 2 * in }), model.ErrTooSmall,
			`unit "x": set_length: too small ("2 in"), a section is 2 1/2 in wide: write at least that`},
		faultTest{with(func(u *Patches) { u.SetLength = 21*in + 1 }), model.ErrOffMark,
			`unit "x": set_length: off the ruler's mark ("21.0001 in"), write 21 1/8, or a finer ruler`},
		faultTest{with(func(u *Patches) { u.SetLength = 131 * in }), model.ErrOutOfRange,
			`unit "x": set_length: out of range ("131 in"), write at most 130 in`},
		faultTest{with(func(u *Patches) { u.SetLength = -in }), model.ErrNotPositive,
			`unit "x": set_length: not more than 0 ("-1 in"), write the length of the strips, or leave it out for the whole width`},
	)
}
