package reports

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"

	"crossgrain/model/design"
)

func csvOf(t *testing.T, write func(w *bytes.Buffer) error) [][]string {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(written(t, write))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

func TestCSVGolden(t *testing.T) {
	one, two := lagoon(t, 1), lagoon(t, 2)
	golden(t, "harbour-buy.csv", written(t, func(w *bytes.Buffer) error { return WriteBuyCSV(w, []Quilt{harbour(t)}) }))
	golden(t, "lagoon-buy.csv", written(t, func(w *bytes.Buffer) error { return WriteBuyCSV(w, []Quilt{one, two}) }))
	golden(t, "lagoon-pieces.csv", written(t, func(w *bytes.Buffer) error {
		return WritePiecesCSV(w, []design.Whole{one.Whole, two.Whole})
	}))
}

// The table of what to buy has the figures of the workbook.
func TestCSVAgrees(t *testing.T) {
	for _, q := range []Quilt{harbour(t), dunes(t)} {
		rows := csvOf(t, func(w *bytes.Buffer) error { return WriteBuyCSV(w, []Quilt{q}) })
		at := map[string]int{}
		for i, heading := range rows[0] {
			at[heading] = i
		}
		f := openWorkbook(t, workbookOf(t, q))
		for i, row := range rows[1:] {
			for heading, col := range map[string]string{
				"usable_width": "B", "length": "C", "needed": "D", "buy": "E", "sold_in": "F", "by_hand": "G", "saved": "H",
				"price": "I", "cost": "J", "proven": "K",
			} {
				if held := rawValue(t, f, buySheet, fmt.Sprint(col, firstRow+i)); !sameValue(row[at[heading]], held) {
					t.Errorf("%s: row %d: %s is %q, the workbook has %q", q.Title, i, heading, row[at[heading]], held)
				}
			}
		}
	}
}

// A text with commas, quotes or line breaks is one cell, and never a formula.
func TestCSVKeepsCells(t *testing.T) {
	q := harbour(t)
	q.Fabrics[0].Fabric.Name = `Ink, "deep"` + "\nblue"
	q.Fabrics[1].Fabric.Name = "=HYPERLINK(1)"
	q.Fabrics[2].Fabric.Name = "-blue"
	rows := csvOf(t, func(w *bytes.Buffer) error { return WriteBuyCSV(w, []Quilt{q}) })
	for i, want := range map[int]string{1: `Ink, "deep" blue`, 3: "'=HYPERLINK(1)", 5: "'-blue"} {
		if rows[i][2] != want {
			t.Errorf("row %d is of %q, want %q", i, rows[i][2], want)
		}
	}
	for _, row := range rows {
		for _, cell := range row {
			if strings.ContainsAny(cell, "\u00a0\n") {
				t.Errorf("a cell holds %q", cell)
			}
		}
	}
}
