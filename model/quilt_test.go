package model

import (
	"errors"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// size reads a cut size in inches for the tables.
func size(t *testing.T, text string) (width, height Length) {
	t.Helper()
	width, height, err := ParseSize(text, Inches)
	if err != nil {
		t.Fatal(err)
	}
	return width, height
}

// steps is a quilt that keeps every rule. Each call makes a new one.
func steps(t *testing.T) Quilt {
	ink, oat := DefaultFabric(Inches), DefaultFabric(Inches)
	ink.ID, ink.Name = "ink", "Ink solid"
	oat.ID, oat.OneWay, oat.UsableWidths = "oat", true, []Length{44 * Inch, 42 * Inch}
	q := Quilt{Title: "Harbour steps", Ruler: Inch / 8, Fabrics: []Fabric{ink, oat}}
	for _, c := range []struct {
		size string
		cut  Cut
	}{
		{"2 1/2 x 4 1/2", Cut{Name: "A", Fabric: "ink", Count: 96, Use: "star points"}},
		{"2 7/8", Cut{Name: "B", Fabric: "ink", Count: 40, Halve: HalvedOnce}},
		{"6 1/2 x 60 1/2", Cut{Name: "C", Fabric: "oat", Count: 2, Grain: Lengthwise}},
		{"60 1/2 x 3", Cut{Name: "D", Fabric: "ink", Count: 2}},
		{"3 x 5", Cut{Name: "E", Fabric: "ink", Count: 1, NoTurn: true}},
	} {
		c.cut.Width, c.cut.Height = size(t, c.size)
		q.Cuts = append(q.Cuts, c.cut)
	}
	return q
}

func TestCutList(t *testing.T) {
	q := steps(t)
	list, err := q.CutList()
	if err != nil {
		t.Fatal(err)
	}
	ink, oat := list.Fabrics[0], list.Fabrics[1]
	if list.Title != q.Title || list.Ruler != q.Ruler || len(list.Fabrics) != 2 || len(ink.Pieces) != 4 || len(oat.Pieces) != 1 {
		t.Fatalf("the cut list is %+v", list)
	}
	want := Piece{Name: "A", Use: "star points", Along: in(5, 2), Across: in(9, 2), Count: 96, Turnable: true}
	if ink.Pieces[0] != want {
		t.Errorf("A is %+v, want %+v", ink.Pieces[0], want)
	}
	// 40 squares make 80 triangles; the count stays that of the squares.
	if b := ink.Pieces[1]; b.Count != 40 || b.Count*b.Halve.Shapes() != 80 || b.Turnable {
		t.Errorf("B is %+v", b)
	}
	if c := oat.Pieces[0]; c.Turnable || c.Grain != Lengthwise || c.Size(Inches) != "6 1/2 x 60 1/2" {
		t.Errorf("C is %+v", c)
	}
	if !ink.Pieces[2].Turnable || ink.Pieces[3].Turnable {
		t.Error("D may be turned, E may not")
	}
	if !slices.IsSorted(oat.Fabric.UsableWidths) || q.Fabrics[1].UsableWidths[0] != 44*Inch {
		t.Error("the cut list has its widths ascending, and leaves the quilt's as they are")
	}
	area := 96*AreaOf(in(5, 2), in(9, 2)) + 40*AreaOf(in(23, 8), in(23, 8)) + 2*AreaOf(in(121, 2), 3*Inch) + AreaOf(3*Inch, 5*Inch)
	if ink.Count() != 96+40+2+1 || ink.Area() != area {
		t.Errorf("ink has %d pieces of %d square ticks, want %d", ink.Count(), ink.Area(), area)
	}
}

func TestDefaults(t *testing.T) {
	for _, test := range []struct {
		unit   Unit
		ruler  string
		widths []Length
		soldBy string
	}{
		{Inches, "1/8", []Length{40 * Inch, 42 * Inch}, "1/8 yd"},
		{Centimetres, "0.1", []Length{102 * Centimetre, 107 * Centimetre}, "10 cm"},
	} {
		f := DefaultFabric(test.unit)
		want := Fabric{UsableWidths: test.widths, SoldBy: f.SoldBy}
		if !reflect.DeepEqual(f, want) || f.SoldBy.String() != test.soldBy || DefaultRuler(test.unit).Format(test.unit) != test.ruler {
			t.Errorf("in %v: %+v, ruler %v", test.unit, f, DefaultRuler(test.unit))
		}
	}
	if got := (Piece{Along: Inch, Across: Inch}).Size(Inches); got != "1" {
		t.Errorf("a square of 1 in is %q", got)
	}
	if Halving(9).String() != "" || Grain(9).String() != "" || CutUnit(9).String() != "yd" {
		t.Error("a value without a word has one")
	}
}

// A square has no long side: its grain is dropped.
func TestGrainOfSquare(t *testing.T) {
	q := steps(t)
	q.Cuts[1].Grain = Lengthwise
	list, err := q.CutList()
	if err != nil || list.Fabrics[0].Pieces[1].Grain != AnyGrain {
		t.Errorf("a square with a grain: %+v, %v", list.Fabrics, err)
	}
}

func TestRules(t *testing.T) {
	cut := func(i int, change func(*Cut)) func(*Quilt) { return func(q *Quilt) { change(&q.Cuts[i]) } }
	fabric := func(i int, change func(*Fabric)) func(*Quilt) { return func(q *Quilt) { change(&q.Fabrics[i]) } }
	sized := func(i int, text string) func(*Quilt) {
		return cut(i, func(c *Cut) { c.Width, c.Height = size(t, text) })
	}
	for _, test := range []struct {
		name   string
		change func(*Quilt)
		kind   error
		says   string // the whole message
	}{
		{"title of two lines", func(q *Quilt) { q.Title = "a\nb" }, ErrNotPrintable,
			`title: not plain text on one line ("a\nb"), leave out line breaks, tabs and control characters`},
		{"title not UTF-8", func(q *Quilt) { q.Title = "\xff" }, ErrNotPrintable,
			`title: not plain text on one line ("\xff"), leave out line breaks, tabs and control characters`},
		{"title with a space", func(q *Quilt) { q.Title = " a" }, ErrNotPrintable,
			`title: not plain text on one line (" a"), leave out the spaces around it`},
		{"unknown unit", func(q *Quilt) { q.Unit = 7 }, ErrNotAUnit, "unit: not a unit, write in or cm"},
		{"no ruler", func(q *Quilt) { q.Ruler = 0 }, ErrNotPositive, `ruler: not more than 0 ("0 in"), write a mark such as 1/8`},
		{"negative ruler", func(q *Quilt) { q.Ruler = -Inch }, ErrNotPositive, `ruler: not more than 0 ("-1 in"), write a mark such as 1/8`},
		{"no fabrics", func(q *Quilt) { q.Fabrics, q.Cuts = nil, nil }, ErrMissing,
			"fabrics: missing, write at least one\ncuts: missing, write at least one"},
		{"too many fabrics", func(q *Quilt) {
			for i := range MaxFabrics {
				f := DefaultFabric(Centimetres)
				f.ID = strings.Repeat("f", i%50+1) + strconv.Itoa(i)
				q.Fabrics = append(q.Fabrics, f)
			}
		}, ErrTooMany, "fabrics: too many, write at most 500"},
		{"too many cuts", func(q *Quilt) {
			for i := range MaxCuts {
				q.Cuts = append(q.Cuts, Cut{Name: strconv.Itoa(i), Fabric: "ink", Width: Inch, Height: Inch, Count: 1})
			}
		}, ErrTooMany, "cuts: too many, write at most 2000"},
		{"ruler of a yard", func(q *Quilt) { q.Ruler, q.Cuts = Yard, nil }, ErrOutOfRange,
			"ruler: out of range (\"36 in\"), write a mark such as 1/8\ncuts: missing, write at least one"},
		{"ruler of ticks", func(q *Quilt) { q.Ruler = 24 }, ErrTooFine,
			`ruler: finer than 1/64 in, 1/24 in or 0.1 mm ("1/1016 in"), write a mark such as 1/8`},
		{"fabric without ID", func(q *Quilt) { q.Fabrics = append(q.Fabrics, DefaultFabric(Inches)) }, ErrMissing,
			"fabric 3: id: missing, write a label such as A"},
		{"fabric twice", func(q *Quilt) { q.Fabrics = append(q.Fabrics, q.Fabrics[0]) }, ErrDuplicate,
			`fabric "ink": id: used twice ("ink"), write another label`},
		{"no widths", fabric(0, func(f *Fabric) { f.UsableWidths = nil }), ErrMissing,
			`fabric "ink": usable_widths: missing, write at least one width, as in [40, 42]`},
		{"nine widths", fabric(0, func(f *Fabric) {
			for i := range Length(9) {
				f.UsableWidths = append(f.UsableWidths[:i:i], (40+i)*Inch)
			}
		}), ErrTooMany, `fabric "ink": usable_widths: too many, write at most 8`},
		{"narrow width", fabric(0, func(f *Fabric) { f.UsableWidths[1] = in(1, 2) }), ErrOutOfRange,
			`fabric "ink": usable_widths: out of range ("1/2 in"), write 1 in to 130 in`},
		{"wide width", fabric(0, func(f *Fabric) { f.UsableWidths[1] = 131 * Inch }), ErrOutOfRange,
			`fabric "ink": usable_widths: out of range ("131 in"), write 1 in to 130 in`},
		{"width twice", fabric(0, func(f *Fabric) { f.UsableWidths[1] = 40 * Inch }), ErrDuplicate,
			`fabric "ink": usable_widths: used twice ("40 in"), write each width once`},
		{"sold by nothing", fabric(0, func(f *Fabric) { f.SoldBy.Step = 0 }), ErrNotPositive,
			`fabric "ink": sold_by: not more than 0 ("0 yd"), write a step such as 1/8 yd or 10 cm`},
		{"sold by the bolt", fabric(0, func(f *Fabric) { f.SoldBy.Step = 5*Yard + 1 }), ErrOutOfRange,
			`fabric "ink": sold_by: out of range ("5.0001 yd"), write a step of at most 5 yd`},
		{"straighten below 0", fabric(0, func(f *Fabric) { f.Straighten = -1 }), ErrOutOfRange,
			`fabric "ink": straighten: out of range ("-0.0001 in"), write 0 to 36 in`},
		{"straighten a yard and more", fabric(0, func(f *Fabric) { f.Straighten = 37 * Inch }), ErrOutOfRange,
			`fabric "ink": straighten: out of range ("37 in"), write 0 to 36 in`},
		{"shrinks by more than half", fabric(0, func(f *Fabric) { f.Shrinkage = 5001 }), ErrNotAPercent,
			`fabric "ink": shrinkage: not a share from 0% to 50% ("50.01%"), write it like 2% or 2.5%`},
		{"dear beyond reason", fabric(0, func(f *Fabric) { f.Price = MaxPrice + 1 }), ErrNotAPrice,
			`fabric "ink": price: not a price ("1000000.01"), write at most 1000000.00`},
		{"price below 0", fabric(0, func(f *Fabric) { f.Price = -1 }), ErrNotAPrice,
			`fabric "ink": price: not a price ("-0.01"), write at most 1000000.00`},
		{"cut without name", cut(0, func(c *Cut) { c.Name = "" }), ErrMissing, "cut 1: name: missing, write a label such as A"},
		{"cut twice, of two fabrics", cut(2, func(c *Cut) { c.Name = "A" }), ErrDuplicate,
			`cut "A": name: used twice ("A"), write another label`},
		{"long name", cut(0, func(c *Cut) { c.Name = strings.Repeat("n", 61) }), ErrTooManyChars,
			`cut "` + strings.Repeat("n", 61) + `": name: too long a text ("` + strings.Repeat("n", 60) + `…"), write at most 60 characters`},
		{"no fabric", cut(0, func(c *Cut) { c.Fabric = "" }), ErrMissing,
			`cut "A": fabric: missing, write the fabric that the piece is cut from`},
		{"unknown fabric", cut(0, func(c *Cut) { c.Fabric = "inc" }), ErrUnknown,
			`cut "A": fabric: not a fabric of this quilt ("inc"), write one of ink, oat, or add it to the fabrics`},
		{"count 0", cut(0, func(c *Cut) { c.Count = 0 }), ErrOutOfRange,
			`cut "A": count: out of range ("0"), write a whole number from 1 to 100,000`},
		{"count -3", cut(0, func(c *Cut) { c.Count = -3 }), ErrOutOfRange,
			`cut "A": count: out of range ("-3"), write a whole number from 1 to 100,000`},
		{"count 1e9", cut(0, func(c *Cut) { c.Count = 1e9 }), ErrOutOfRange,
			`cut "A": count: out of range ("1000000000"), write a whole number from 1 to 100,000`},
		{"too many pieces", cut(1, func(c *Cut) { c.Count = 100_000 }), ErrTooMany,
			`cut "B": count: too many ("100000"), with it the quilt has more than 100,000 pieces, cut fewer`},
		{"no size", cut(0, func(c *Cut) { c.Width = 0 }), ErrNotPositive,
			`cut "A": size: not more than 0 ("0 x 4 1/2"), write the size that the blade cuts`},
		{"long side", sized(2, "6 1/2 x 1000 1/8"), ErrOutOfRange,
			`cut "C": size: out of range ("6 1/2 x 1000 1/8"), no side is longer than 1000 in`},
		{"off the mark", sized(0, "2 9/16 x 4 1/2"), ErrOffMark,
			`cut "A": size: off the ruler's mark ("2 9/16 x 4 1/2"), write 2 5/8 x 4 1/2 or ruler: 1/16`},
		{"thirds on an eighth ruler", sized(1, "3 1/3"), ErrOffMark,
			`cut "B": size: off the ruler's mark ("3 1/3"), write 3 3/8 or ruler: 1/24`},
		{"millimetres on an inch ruler", sized(1, "7 cm"), ErrOffMark,
			`cut "B": size: off the ruler's mark ("7 cm"), write 2 7/8 or unit: cm`},
		{"centimetres that miss the ruler", func(q *Quilt) {
			q.Unit, q.Ruler = Centimetres, 5*Millimetre
			q.Cuts = []Cut{{Name: "A", Fabric: "ink", Width: mm(123), Height: mm(500), Count: 1}}
		}, ErrOffMark, `cut "A": size: off the ruler's mark ("1.23 x 5"), write 1.5 x 5 or ruler: 0.01`},
		{"64ths with thirds", sized(1, "1/64 x 1/3"), ErrOffMark,
			`cut "B": size: off the ruler's mark ("1/64 x 1/3"), write the size that the blade cuts, at least 1/8 in`},
		{"unknown halving", cut(1, func(c *Cut) { c.Halve = 9 }), ErrNotAChoice, `cut "B": halve: unknown word, write once or twice`},
		{"rectangle halved twice", cut(0, func(c *Cut) { c.Halve = HalvedTwice }), ErrNotSquare,
			`cut "A": halve: only a square is halved twice ("2 1/2 x 4 1/2"), write a square, or halve: once`},
		{"unknown grain", cut(0, func(c *Cut) { c.Grain = 9 }), ErrNotAChoice, `cut "A": grain: unknown word, write crosswise or lengthwise`},
		{"lengthwise, written crosswise", sized(2, "60 1/2 x 6 1/2"), ErrGrain,
			`cut "C": grain: the long side runs the other way ("lengthwise"), write size: 6 1/2 x 60 1/2 (width across the fabric x height along it)`},
		{"crosswise, written lengthwise", cut(0, func(c *Cut) { c.Grain = Crosswise }), ErrGrain,
			`cut "A": grain: the long side runs the other way ("crosswise"), write size: 4 1/2 x 2 1/2 (width across the fabric x height along it)`},
		{"too wide both ways", sized(0, "45 x 50"), ErrTooWide,
			`cut "A": size: wider than the fabric ("45 x 50"), the usable width is 40 in: cut it in parts and join them, or use wider fabric`},
		{"too wide for the narrower width", cut(3, func(c *Cut) { c.Width, c.Height = 41*Inch, 41*Inch }), ErrTooWide,
			`cut "D": size: wider than the fabric ("41"), the usable width is 40 in: cut it in parts and join them, or use wider fabric`},
		{"too wide, turn: no", cut(3, func(c *Cut) { c.NoTurn = true }), ErrTooWide,
			`cut "D": size: wider than the fabric ("60 1/2 x 3"), the usable width is 40 in: cut it lengthwise, without turn: no or with size: 3 x 60 1/2`},
		{"too wide, crosswise", cut(3, func(c *Cut) { c.Grain = Crosswise }), ErrTooWide,
			`cut "D": size: wider than the fabric ("60 1/2 x 3"), the usable width is 40 in: cut it lengthwise, with size: 3 x 60 1/2 and grain: lengthwise`},
		{"too wide, one-way", cut(3, func(c *Cut) { c.Fabric = "oat" }), ErrTooWide,
			`cut "D": size: wider than the fabric ("60 1/2 x 3"), the usable width is 42 in: write size: 3 x 60 1/2 if the print may lie on its side, or join two parts`},
	} {
		t.Run(test.name, func(t *testing.T) {
			q := steps(t)
			test.change(&q)
			list, err := q.CutList()
			if !errors.Is(err, test.kind) || err.Error() != test.says {
				t.Errorf("got  %v\nwant %s", err, test.says)
			}
			if !reflect.DeepEqual(list, CutList{}) {
				t.Errorf("a cut list besides the error: %+v", list)
			}
		})
	}
}

// Every fault is told, with its place.
func TestAllFaults(t *testing.T) {
	q := steps(t)
	q.Ruler = 0
	q.Fabrics[1].SoldBy.Step = 0
	q.Fabrics[1].UsableWidths[1] = 0
	q.Cuts[0].Count = 0
	q.Cuts[3].Name = "A"
	q.Cuts[3].Use = "\t"
	q.Cuts[4].Fabric = "none"
	_, err := q.CutList()
	var faults Faults
	if !errors.As(err, &faults) {
		t.Fatal(err)
	}
	want := []Fault{
		{Part: WholeQuilt, Index: -1, Field: FieldRuler},
		{Part: FabricPart, Index: 1, Name: "oat", Field: FieldUsableWidths, Item: 1},
		{Part: FabricPart, Index: 1, Name: "oat", Field: FieldSoldBy},
		{Part: CutPart, Index: 0, Name: "A", Field: FieldCount},
		{Part: CutPart, Index: 3, Name: "A", Field: FieldName},
		{Part: CutPart, Index: 3, Name: "A", Field: FieldUse},
		{Part: CutPart, Index: 4, Name: "E", Field: FieldFabric},
	}
	for i, fault := range faults {
		at := *fault
		at.Err = nil
		if i >= len(want) || at != want[i] {
			t.Errorf("fault %d is %+v", i, at)
		}
	}
	if len(faults) != len(want) {
		t.Errorf("%d faults, want %d", len(faults), len(want))
	}
	var fault *Fault
	if !errors.As(err, &fault) || fault.Field != FieldRuler {
		t.Errorf("the first fault is %+v", fault)
	}
}

func TestManyFabricsInMessage(t *testing.T) {
	q := steps(t)
	for _, id := range strings.Split("abcdefghij", "") {
		f := DefaultFabric(Inches)
		f.ID = id
		q.Fabrics = append(q.Fabrics, f)
	}
	q.Cuts[0].Fabric = "z"
	_, err := q.CutList()
	if err == nil || !strings.Contains(err.Error(), "write one of ink, oat, a, b, c, d, e, f, …, or add it") {
		t.Errorf("got %v", err)
	}
}

func TestWithWidths(t *testing.T) {
	list, err := steps(t).CutList()
	if err != nil {
		t.Fatal(err)
	}
	before := slices.Clone(list.Fabrics)
	got, err := list.WithWidths([]Length{45 * Inch, 36 * Inch})
	if err != nil {
		t.Fatal(err)
	}
	for i, f := range got.Fabrics {
		if !slices.Equal(f.Fabric.UsableWidths, []Length{36 * Inch, 45 * Inch}) || !slices.Equal(f.Pieces, list.Fabrics[i].Pieces) {
			t.Errorf("fabric %d became %+v", i, f)
		}
	}
	if !reflect.DeepEqual(list.Fabrics, before) {
		t.Error("the list that it was made of has changed")
	}
	for _, test := range []struct {
		widths []Length
		kind   error
		says   string
	}{
		{nil, ErrMissing, "usable_widths: missing, write at least one width, as in [40, 42]"},
		{[]Length{0}, ErrOutOfRange, `usable_widths: out of range ("0 in"), write 1 in to 130 in`},
		{[]Length{40 * Inch, 40 * Inch}, ErrDuplicate, `usable_widths: used twice ("40 in"), write each width once`},
		{[]Length{42 * Inch, 5 * Inch, 4 * Inch}, ErrTooWide,
			`cut "C": size: wider than the fabric ("6 1/2 x 60 1/2"), the usable width is 4 in: cut it in parts and join them, or use wider fabric`},
	} {
		got, err := list.WithWidths(test.widths)
		if !errors.Is(err, test.kind) || err.Error() != test.says || !reflect.DeepEqual(got, CutList{}) {
			t.Errorf("WithWidths(%v) = %v, %v, want %s", test.widths, got, err, test.says)
		}
	}
}

// Whatever a quilt says, a cut list comes out that keeps the rules, or faults.
func TestCutListKeepsRules(t *testing.T) {
	side := rapid.SampledFrom([]Length{-1, 0, 1, Inch, 41 * Inch, 60 * Inch, 2000 * Inch})
	rapid.Check(t, func(rt *rapid.T) {
		q := steps(t)
		q.Ruler = rapid.SampledFrom([]Length{-1, 0, Inch / 8, Inch, 13 * Inch}).Draw(rt, "ruler")
		for i := range q.Cuts {
			c := &q.Cuts[i]
			if rapid.Bool().Draw(rt, "change") {
				c.Width, c.Height = side.Draw(rt, "width"), side.Draw(rt, "height")
				c.Grain = Grain(rapid.IntRange(0, 3).Draw(rt, "grain"))
				c.Halve = Halving(rapid.IntRange(0, 3).Draw(rt, "halve"))
				c.NoTurn = rapid.Bool().Draw(rt, "turn: no")
			}
		}
		list, err := q.CutList()
		if err != nil {
			if err.Error() == "" || !reflect.DeepEqual(list, CutList{}) {
				rt.Fatalf("%+v and the error %q", list, err)
			}
			return
		}
		pieces := 0
		for _, f := range list.Fabrics {
			pieces += len(f.Pieces)
			for _, p := range f.Pieces {
				across := p.Along
				if p.Turnable {
					across = min(p.Along, p.Across)
				}
				if p.Along <= 0 || p.Across <= 0 || across > f.Fabric.UsableWidths[0] || !p.Along.OnMark(list.Ruler) {
					rt.Fatalf("%+v on %+v", p, f.Fabric)
				}
			}
		}
		if pieces != len(q.Cuts) {
			rt.Fatalf("%d sizes of %d cuts", pieces, len(q.Cuts))
		}
	})
}

// An Area holds the largest quilt that the rules allow.
func TestAreaHoldsLargestQuilt(t *testing.T) {
	one := AreaOf(MaxUsableWidth, MaxSide)
	if all := one * MaxPieces; one <= 0 || all/MaxPieces != one || all <= 0 {
		t.Errorf("%d pieces of %d square ticks are %d", MaxPieces, one, all)
	}
}

func TestLongValueIsCut(t *testing.T) {
	_, err := ParseLength(strings.Repeat("é", 100), Inches)
	if want := `not a length ("` + strings.Repeat("é", 60) + `…"), write it like 12 1/2, 12.5 or 31.75 cm`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}
