package quiltbook

import (
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// told are the fields of a sheet and whether they must be there.
func told[T any](into map[string]bool, sheet string, fields []field[T]) {
	for _, f := range fields {
		into[sheet+" "+f.heading] = f.needed != ""
	}
}

// The README has every line and column of the workbook, says which must be
// there, and has no others.
func TestReadmeFields(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	must(t, err)
	_, chapter, found := strings.Cut(string(data), "\n| sheet | what |")
	if !found {
		t.Fatal("README.md has no table of the workbook")
	}
	want, got := map[string]bool{}, map[string]bool{}
	told(want, quiltSheet, quiltFields)
	told(want, quiltSheet, defaultFields)
	told(want, fabricsSheet, fabricFields)
	told(want, cutsSheet, cutFields)
	for line := range strings.Lines(chapter) {
		cells := strings.Split(strings.TrimSpace(line), "|")
		if line == "\n" {
			break
		}
		if len(cells) != 6 || strings.HasPrefix(line, "|--") {
			continue
		}
		for what := range strings.SplitSeq(cells[2], ",") {
			got[strings.TrimSpace(cells[1])+" "+strings.TrimSpace(what)] = strings.TrimSpace(cells[3]) == "yes"
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-columns +README.md):\n%s", diff)
	}
}
