package reports

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// The text, the JSON and the workbook of a quilt must give the same figures.
// The JSON is read back here; each of its figures is looked for in the others.
func TestWritersAgree(t *testing.T) {
	for _, q := range []Quilt{harbour(t), dunes(t), lagoon(t, 1)} {
		t.Run(q.Title, func(t *testing.T) {
			var read jsonQuilt
			if err := json.Unmarshal(jsonOf(t, q), &read); err != nil {
				t.Fatal(err)
			}
			if len(read.Fabrics) != len(q.Fabrics) {
				t.Fatalf("%d fabrics, want %d", len(read.Fabrics), len(q.Fabrics))
			}
			text := strings.Join(strings.Fields(textOf(t, q, TextOptions{})), " ")
			f := openWorkbook(t, workbookOf(t, q))
			buyRows := numbersOf(t, f, buySheet, 1, 4, 6, 7)
			cutRows := numbersOf(t, f, cuttingSheet, 1, 2, 3, 5)
			for i, fabric := range read.Fabrics {
				unit := q.Fabrics[i].Fabric.SoldBy.Unit
				for _, plan := range fabric.Plans {
					agreeOnBuy(t, q.Unit, unit, plan, text, &buyRows)
					agreeOnCutting(t, q.Unit, plan, text, &cutRows)
				}
			}
			if len(buyRows) > 0 || len(cutRows) > 0 {
				t.Errorf("the workbook has more: %v, %v", buyRows, cutRows)
			}
		})
	}
}

func agreeOnBuy(t *testing.T, u model.Unit, sold model.CutUnit, p jsonPlan, text string, rows *[][]float64) {
	t.Helper()
	width, buy := length(t, p.UsableWidth.String(), u), length(t, p.Buy.Length.String(), u)
	hand := length(t, p.Plain.Buy.Length.String(), u)
	saved := model.ShopCut{Unit: sold}.Format(hand - buy)
	proven := "yes"
	if !p.Buy.Proven {
		proven = "no *"
	}
	row := strings.Join([]string{width.FormatWithUnit(u), p.Buy.Text, p.Plain.Buy.Text, saved, proven}, " ")
	if p.Buy.Cost != "" {
		row = strings.Join([]string{width.FormatWithUnit(u), p.Buy.Text, p.Plain.Buy.Text, saved, p.Buy.Cost.String(), proven}, " ")
	}
	if !strings.Contains(text, row) {
		t.Errorf("the text does not say %q", row)
	}
	want := []float64{lengthNumber(width, u), soldNumber(buy, sold), soldNumber(hand, sold), soldNumber(hand-buy, sold)}
	next(t, rows, want)
}

func agreeOnCutting(t *testing.T, u model.Unit, p jsonPlan, text string, rows *[][]float64) {
	t.Helper()
	strips := 0
	for _, s := range p.Strips {
		strips += s.Repeat
	}
	for i, s := range joined(p.Strips) {
		height, offcut := length(t, s.Height.String(), u), length(t, s.Offcut.String(), u)
		line := fmt.Sprintf("[ ] %d Cut %s %s high.", i+1, counted(s.Repeat, "strip", "strips"), height.FormatWithUnit(u))
		if !strings.Contains(text, unglued(line)) {
			t.Errorf("the text does not say %q", unglued(line))
		}
		next(t, rows, []float64{float64(i + 1), float64(s.Repeat), lengthNumber(height, u), lengthNumber(offcut, u)})
	}
	if strips != p.StripCount || len(p.Strips) != p.LayoutCount {
		t.Errorf("%d strips in %d layouts, counted %d in %d", p.StripCount, p.LayoutCount, strips, len(p.Strips))
	}
}

// joined puts the one strip that holds fewer of a piece to those before it that
// hold more of it, as they are cut in one step.
func joined(strips []jsonStrip) []jsonStrip {
	var steps []jsonStrip
	for _, s := range strips {
		if len(steps) > 0 {
			last := &steps[len(steps)-1]
			alone := len(s.Segments) == 1 && len(s.Segments[0].Stack) == 1 &&
				len(last.Segments) == 1 && len(last.Segments[0].Stack) == 1
			if alone && s.Repeat == 1 && s.Height == last.Height &&
				s.Segments[0].Stack[0] == last.Segments[0].Stack[0] && s.Segments[0].Repeat < last.Segments[0].Repeat {
				last.Repeat++
				continue
			}
		}
		steps = append(steps, s)
	}
	return steps
}

// next takes the first row off and compares it.
func next(t *testing.T, rows *[][]float64, want []float64) {
	t.Helper()
	if len(*rows) == 0 {
		t.Fatalf("the workbook has no row for %v", want)
	}
	if got := (*rows)[0]; fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("the workbook has %v, want %v", got, want)
	}
	*rows = (*rows)[1:]
}

func lengthNumber(l model.Length, u model.Unit) float64 {
	n, _ := lengthIn(l, u)
	return n
}

func soldNumber(l model.Length, u model.CutUnit) float64 {
	n, _ := soldIn(l, u)
	return n
}

// numbersOf reads the rows of a sheet that hold a number in each of the
// columns, which count from 0.
func numbersOf(t *testing.T, f *excelize.File, sheet string, columns ...int) [][]float64 {
	t.Helper()
	rows, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	var found [][]float64
	for _, row := range rows {
		var numbers []float64
		for _, c := range columns {
			if c < len(row) {
				if n, err := strconv.ParseFloat(row[c], 64); err == nil {
					numbers = append(numbers, n)
				}
			}
		}
		if len(numbers) == len(columns) {
			found = append(found, numbers)
		}
	}
	return found
}
