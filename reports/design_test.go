package reports

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"
	"github.com/xuri/excelize/v2"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/geometry"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// lagoon is a design, worked out and planned by hand: units made in one step
// and in several, strip sets, and strips that are fewer in wider cloth. Its
// figures grow with the number of times that it is made.
func lagoon(t testing.TB, times int) Quilt {
	quarter := model.Yard / 4
	teal := model.FabricCuts{
		Fabric: model.Fabric{ID: "teal", Name: "Teal solid", UsableWidths: []model.Length{in(t, "40"), in(t, "42")},
			SoldBy: model.ShopCut{Step: quarter}},
		Pieces: []model.Piece{piece(t, model.Inches, "A: 5 1/2", 2*times)},
		Strips: []model.Strip{
			{Name: "B", Fabric: "teal", Height: in(t, "2 1/2"), Run: in(t, "116 3/4"), Join: in(t, "2 1/2"), Use: "binding"},
			{Name: "C", Fabric: "teal", Height: in(t, "2 1/2"), Count: 3, First: in(t, "2 1/2"), Each: in(t, "2 1/2"), Use: "strip sets"},
		},
	}
	teal.Pieces[0].Halve, teal.Pieces[0].Use = model.HalvedOnce, "round 1, triangles"
	cut := model.Cut{Name: "A", Fabric: "teal", Width: in(t, "5 1/2"), Height: in(t, "5 1/2"), Count: 2 * times,
		Halve: model.HalvedOnce, Use: "round 1, triangles"}
	whole := design.Whole{
		Size:  []string{"", "wall", "lap"}[times],
		Quilt: model.Quilt{Title: "Lagoon", Ruler: model.Inch / 8, Fabrics: []model.Fabric{teal.Fabric}, Cuts: []model.Cut{cut}, Strips: teal.Strips},
		Width: geometry.Root2(in(t, "20")), Height: geometry.Root2(in(t, "20")),
		BattingWidth: in(t, "36"), BattingHeight: in(t, "40"),
		Blocks: []design.BlockCount{{Block: "pool", Count: times}, {Block: "pool", Colourway: "deep", Count: 2}},
		Charts: []design.Chart{
			{Name: "four", Fabrics: []string{"teal", "sand", "sand", "teal"}, Count: 3, Made: 4,
				Trims: []block.Trim{{Step: "four-patch", Width: in(t, "4 1/2"), Height: in(t, "4 1/2")}},
				Sets: []block.StripSet{{Fabrics: []string{"teal", "sand"}, Heights: []model.Length{in(t, "2 1/2"), in(t, "2 1/2")},
					Section: in(t, "2 1/2"), Count: 3}}},
			{Name: "pool", Fabrics: []string{"teal"}, Count: times, Made: times, Trims: []block.Trim{
				{Step: "round 1, triangles", Width: in(t, "6 1/8"), Height: in(t, "6 1/8"), PastPoints: in(t, "1/4"), AllRound: true, OnPoint: true,
					Pieces: []model.Cut{{Fabric: "teal", Width: cut.Width, Height: cut.Height, Count: 2, Halve: model.HalvedOnce}}},
				{Step: "round 2, trimmed logs", Width: in(t, "8 1/2"), Height: in(t, "8 1/2"), SeamToEdge: in(t, "1 1/4"), AllRound: true,
					Pieces: []model.Cut{{Fabric: "sand", Width: in(t, "7"), Height: in(t, "1 1/2"), Count: 4}}},
			}},
		},
		Notes: []string{"Border 1: join the strips to one length, and cut from it 2 of 45 1/2 in."},
	}
	q := yardage.Quilt{Title: "Lagoon", Unit: model.Inches, Ruler: model.Inch / 8, Style: pack.Shared,
		Fabrics: []yardage.FabricRequirement{{FabricCuts: teal}}}
	for i, w := range teal.Fabric.UsableWidths {
		at := teal
		at.Pieces = teal.PiecesAt(w)
		rows := []*layout{strip(at, w, in(t, "5 1/2"), 1).add(2*times, "A")}
		if i == 0 {
			// 40 + 2 x 37 1/2 = 115, and 1 3/4 + 2 1/2 more
			rows = append(rows, strip(at, w, in(t, "2 1/2"), 3).add(1, "B"),
				strip(at, w, in(t, "2 1/2"), 1).add(1, "B part"), strip(at, w, in(t, "2 1/2"), 1).add(1, "C part"))
		} else {
			// 42 + 39 1/2 = 81 1/2, and 35 1/4 + 2 1/2 more
			rows = append(rows, strip(at, w, in(t, "2 1/2"), 2).add(1, "B"), strip(at, w, in(t, "2 1/2"), 1).add(1, "B part"),
				strip(at, w, in(t, "2 1/2"), 1).add(1, "C part"))
		}
		p := plan(pack.Shared, w, rows...)
		plain := p
		plain.Style = pack.Plain
		q.Fabrics[0].Widths = append(q.Fabrics[0].Widths, requirement(teal, p, plain, p.Length()))
	}
	return Quilt{Quilt: q, Whole: whole}
}

// written is what a writer writes.
func written(t *testing.T, write func(b *bytes.Buffer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestDesignGolden(t *testing.T) {
	one, two := lagoon(t, 1), lagoon(t, 2)
	golden(t, "lagoon.txt", []byte(textOf(t, one, TextOptions{})))
	golden(t, "lagoon.json", jsonOf(t, one))
	golden(t, "lagoon.cells.txt", dump(t, openWorkbook(t, workbookOf(t, one))))
	golden(t, "lagoon-pieces.txt", written(t, func(b *bytes.Buffer) error { return WritePieces(b, one.Whole, TextOptions{}) }))
	golden(t, "lagoon-pieces.json", written(t, func(b *bytes.Buffer) error { return WritePiecesJSON(b, []design.Whole{one.Whole}) }))
	golden(t, "lagoon-sizes.txt", written(t, func(b *bytes.Buffer) error { return WriteSizes(b, []Quilt{one, two}, TextOptions{}) }))
	golden(t, "lagoon-sizes-pieces.txt", written(t, func(b *bytes.Buffer) error {
		return WritePieceSizes(b, []design.Whole{one.Whole, two.Whole}, TextOptions{})
	}))
	golden(t, "lagoon-sizes.cells.txt", dump(t, openWorkbook(t, workbookOf(t, one, two))))
}

// Sizes that are side by side show the figures of each, and a table of sizes in
// a workbook holds them as numbers.
func TestSizesAgree(t *testing.T) {
	one, two := lagoon(t, 1), lagoon(t, 2)
	out := strings.Join(strings.Fields(string(written(t, func(b *bytes.Buffer) error {
		return WriteSizes(b, []Quilt{one, two}, TextOptions{})
	}))), " ")
	f := openWorkbook(t, workbookOf(t, one, two))
	for i, w := range one.Fabrics[0].Widths {
		buys := []yardage.Purchase{w.Buy, two.Fabrics[0].Widths[i].Buy}
		if line := w.Width.FormatWithUnit(model.Inches) + " " + buys[0].Text + " " + buys[1].Text; !strings.Contains(out, line) {
			t.Errorf("no line %q in\n%s", line, out)
		}
		for j, b := range buys {
			cell, err := excelize.CoordinatesToCellName(4+j, 5+i)
			if err != nil {
				t.Fatal(err)
			}
			held, err := f.GetCellValue(sizesSheet, cell, excelize.Options{RawCellValue: true})
			if want := fmt.Sprint(soldNumber(b.Length, model.Yards)); err != nil || held != want {
				t.Errorf("%s holds %s, %v, want %v", cell, held, err, want)
			}
		}
	}
}

// No text goes beyond its width, however long the names of a design are.
func TestDesignFitsItsWidth(t *testing.T) {
	for _, name := range []string{strings.Repeat("endless", 40), strings.Repeat("a word or two ", 14), strings.Repeat("布", 60)} {
		var quilts []Quilt
		var wholes []design.Whole
		for range 9 {
			q := lagoon(t, 1)
			q.Whole.Size, q.Whole.Blocks[0].Block, q.Whole.Notes[0] = name, name, name
			q.Whole.Quilt.Cuts[0].Use = strings.TrimSpace(name[:min(len(name), 180)])
			q.Whole.Charts[0].Name, q.Whole.Charts[1].Trims[0].Step = name, name
			q.Whole.Quilt.Fabrics[0].Name = strings.TrimSpace(name[:min(len(name), 180)])
			quilts, wholes = append(quilts, q), append(wholes, q.Whole)
		}
		for _, width := range []int{60, 80, 132} {
			o := TextOptions{Width: width}
			for kind, write := range map[string]func(b *bytes.Buffer) error{
				"text":   func(b *bytes.Buffer) error { return WriteText(b, quilts[0], o) },
				"pieces": func(b *bytes.Buffer) error { return WritePieces(b, wholes[0], o) },
				"sizes":  func(b *bytes.Buffer) error { return WriteSizes(b, quilts, o) },
				"counts": func(b *bytes.Buffer) error { return WritePieceSizes(b, wholes, o) },
			} {
				for line := range strings.Lines(string(written(t, write))) {
					if n := text.StringWidth(strings.TrimSuffix(line, "\n")); n > width {
						t.Errorf("%s of %.20q at width %d: a line of %d columns: %s", kind, name, width, n, line)
					}
				}
			}
		}
	}
}
