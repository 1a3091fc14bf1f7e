package model

import (
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// Sections of strips, as printed:
//   - 16 sections of 2 1/2 from a set at 40 in, 3 sets for 48 sections
//     (warpedspinster.blogspot.com, 2016-10);
//   - 96, 64, 123 and 82 sections of 2 1/2 from 6, 4, 8 and 6 sets at 40 in
//     (Gigi's Thimble, two-colour Irish chain, 2020-01, weeks 3 and 4);
//   - 3 rails of 10 1/2 at 40 in, 4 at 42 in (scribd.com/doc/16219348).
func TestStripSections(t *testing.T) {
	const half = Inch / 2
	for _, test := range []struct {
		each, width        Length
		count, per, strips int
		part               Length
	}{
		{5 * half, 40 * Inch, 48, 16, 3, 0},
		{5 * half, 40 * Inch, 96, 16, 6, 0},
		{5 * half, 40 * Inch, 64, 16, 4, 0},
		{5 * half, 40 * Inch, 123, 16, 8, 55 * half},
		{5 * half, 40 * Inch, 82, 16, 6, 10 * half},
		{21 * half, 40 * Inch, 42, 3, 14, 0},
		{21 * half, 42 * Inch, 42, 4, 11, 42 * half},
	} {
		s := Strip{Height: Inch, Count: test.count, First: test.each, Each: test.each}
		if got := s.PerStrip(test.width); got != test.per {
			t.Errorf("%v at %v: %d sections a strip, want %d", test.each, test.width, got, test.per)
		}
		if got := s.Strips(test.width); got != test.strips {
			t.Errorf("%d sections of %v at %v: %d strips, want %d", test.count, test.each, test.width, got, test.strips)
		}
		if _, part, ok := s.At(test.width); part != test.part || !ok {
			t.Errorf("%d sections of %v at %v: the part strip is %v, want %v", test.count, test.each, test.width, part, test.part)
		}
	}
}

// Joined, the strips reach the run, and without the last one they do not.
func TestStripRun(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Strip{
			Height: Inch,
			Run:    Length(rapid.Int64Range(1, 600).Draw(t, "run")) * Inch / 2,
			Join:   Length(rapid.Int64Range(0, 9).Draw(t, "join")) * Inch / 2,
		}
		width := Length(rapid.Int64Range(10, 90).Draw(t, "width")) * Inch / 2
		whole, part, ok := s.At(width)
		if !ok || part < 0 || part >= width {
			t.Fatalf("%d strips and a part of %v, %v", whole, part, ok)
		}
		n := Length(s.Strips(width))
		length := Length(whole)*width + part
		if length-(n-1)*s.Join != s.Run {
			t.Errorf("%d strips and %v make %v, want %v", whole, part, length-(n-1)*s.Join, s.Run)
		}
		if n > 1 && (n-1)*width-(n-2)*s.Join >= s.Run {
			t.Errorf("%d strips, one fewer would do", n)
		}
	})
}

func TestStripThatDoesNotFit(t *testing.T) {
	for _, s := range []Strip{
		{Height: Inch, Count: 1, First: 41 * Inch, Each: 2 * Inch},
		{Height: Inch, Count: 1, First: 21 * Inch, Each: 2 * Inch, Longest: 20 * Inch},
		{Height: 40 * Inch, Run: 90 * Inch, Join: 40 * Inch},
	} {
		if whole, part, ok := s.At(40 * Inch); ok {
			t.Errorf("%+v: %d strips and %v", s, whole, part)
		}
		q := Quilt{Ruler: Inch / 8, Fabrics: []Fabric{DefaultFabric(Inches)}, Strips: []Strip{s}}
		q.Fabrics[0].ID, q.Strips[0].Name, q.Strips[0].Fabric = "ink", "A", "ink"
		if _, err := q.CutList(); !errors.Is(err, ErrTooWide) {
			t.Errorf("%+v: got %v", s, err)
		}
	}
}

func TestPiecesAt(t *testing.T) {
	fabric := DefaultFabric(Inches)
	fabric.ID = "ink"
	q := Quilt{
		Ruler: Inch / 8, Fabrics: []Fabric{fabric},
		Cuts:   []Cut{{Name: "A", Fabric: "ink", Width: 2 * Inch, Height: 3 * Inch, Count: 4}},
		Strips: []Strip{{Name: "B", Fabric: "ink", Use: "binding", Height: 2 * Inch, Run: 100 * Inch, Join: 2 * Inch}},
	}
	list, err := q.CutList()
	if err != nil {
		t.Fatal(err)
	}
	want := []Piece{
		{Name: "A", Along: 2 * Inch, Across: 3 * Inch, Count: 4, Turnable: true},
		{Name: "B", Use: "binding", Along: 42 * Inch, Across: 2 * Inch, Count: 2, Grain: Crosswise},
		{Name: "B part", Use: "binding", Along: 20 * Inch, Across: 2 * Inch, Count: 1, Grain: Crosswise},
	}
	if got := list.Fabrics[0].PiecesAt(42 * Inch); !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v", got)
	}
	f := list.Fabrics[0]
	f.Strips = []Strip{{Name: "B", Height: 2 * Inch, Count: 25, First: 4 * Inch, Each: 4 * Inch, Beside: 3}}
	if got := f.PiecesAt(42 * Inch); got[1].Count != 6 || got[2].Count != 3 || got[2].Along != 20*Inch || f.Strips[0].Strips(42*Inch) != 9 {
		t.Errorf("three strips beside each other: %+v", got)
	}
	if _, err := list.WithWidths([]Length{2 * Inch}); !errors.Is(err, ErrTooWide) {
		t.Errorf("a strip as wide as it is high was joined: %v", err)
	}
	q.Strips[0].Name, q.Strips[0].Height = "A", Inch/16
	_, err = q.CutList()
	if !errors.Is(err, ErrDuplicate) || !errors.Is(err, ErrOffMark) {
		t.Errorf("got %v", err)
	}
}
