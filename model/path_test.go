package model

import (
	"errors"
	"testing"
)

func TestPathWords(t *testing.T) {
	for _, test := range []struct {
		path        Path
		text, words string
	}{
		{PathOf("blocks").At("harbour", "rows").Entry(1), "blocks/harbour/rows/2", `block "harbour": row 2`},
		{PathOf("blocks", "harbour", "rows", "2", "3"), "blocks/harbour/rows/2/3", `block "harbour": row 2: unit 3`},
		{PathOf("setting", "layout", "2", "3"), "setting/layout/2/3", "setting: layout row 2: block 3"},
		{PathOf("sizes", "cot", "between", "1", "2"), "sizes/cot/between/1/2", `size "cot": row between 1: block 2`},
		{PathOf("units", "sea", "fabrics", "1", "2"), "units/sea/fabrics/1/2", `unit "sea": fabrics row 1: fabric 2`},
		{PathOf("blocks", "harbour", "rows"), "blocks/harbour/rows", `block "harbour": rows`},
		{PathOf("setting", "sashing", "width"), "setting/sashing/width", "setting: sashing: width"},
		{PathOf("blocks", "reef", "rounds", "3", "fabrics", "4"), "blocks/reef/rounds/3/fabrics/4", `block "reef": round 3: fabric 4`},
	} {
		if got := test.path.String(); got != test.text {
			t.Errorf("the path is %s, want %s", got, test.text)
		}
		if got := test.path.Words(); got != test.words {
			t.Errorf("%v in words: %s, want %s", test.path, got, test.words)
		}
	}
}

func TestPathUp(t *testing.T) {
	at := PathOf("blocks", "harbour", "rows", "2")
	for _, want := range []string{"blocks/harbour/rows", "blocks/harbour", "blocks", "", ""} {
		if at = at.Up(); at.String() != want || at.IsZero() != (want == "") {
			t.Errorf("got %q, want %q", at, want)
		}
	}
	if PathOf("a", "b") != PathOf("a").At("b") || PathOf("a").Entry(0) != PathOf("a", "1") {
		t.Error("equal paths differ")
	}
}

func TestDesignFault(t *testing.T) {
	var faults Faults
	faults.AddAt(PathOf("blocks", "harbour", "rows", "2"), &ValueError{Value: "11 1/2 in", Err: ErrOffSum, Hint: "it is 1/2 in short of 12 in"})
	err := faults.OrNil()
	if want := `block "harbour": row 2: does not add up ("11 1/2 in"), it is 1/2 in short of 12 in`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
	if !errors.Is(err, ErrOffSum) {
		t.Error("the kind of the fault is not found")
	}
}
