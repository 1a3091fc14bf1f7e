package quiltbook

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// formatted gives cells a number format.
func formatted(t testing.TB, f *excelize.File, format string, places ...string) {
	t.Helper()
	style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format})
	must(t, err)
	for _, place := range places {
		sheet, cell, _ := strings.Cut(place, "!")
		must(t, f.SetCellStyle(sheet, cell, cell, style))
	}
}

// parsed is what a workbook holds.
func parsed(t testing.TB, f *excelize.File) model.Quilt {
	t.Helper()
	q, err := Parse("q.xlsx", saved(t, f))
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// One size, in the ways that it is typed or kept.
func TestSizesAsTyped(t *testing.T) {
	const ofTwoAndAHalf = 5 * model.Inch / 2
	for _, value := range []any{
		"2 1/2", "2½", "2 ½", "2-1/2", "2–1/2", "2.5", "2.50", `2 1/2"`, "2½”", "2 1/2 in", "2 1/2 inches", "'2 1/2", " 2 1/2\n",
		"2\u00a01/2", "6.35 cm", "63.5 mm", "2 1/2 x 2 1/2", "2.5 X 2.5", 2.5, float32(2.5), "2½ by 2½",
	} {
		f := small(t)
		write(t, f, map[string]any{"Cuts!C5": value})
		if c := parsed(t, f).Cuts[0]; c.Width != ofTwoAndAHalf || c.Height != ofTwoAndAHalf {
			t.Errorf("%q: %v x %v", value, c.Width, c.Height)
		}
	}
	// Fractions that no binary number holds, and results of sums.
	for value, want := range map[float64]model.Length{
		2.3333333333333335: 7 * model.Inch / 3, 1.1 + 2.2 - 3.3 + 2.125: 17 * model.Inch / 8, 0.1 + 0.7 + 0.2: model.Inch,
		31.75 / 2.54: 25 * model.Inch / 2, 65 / 2.54: 65 * model.Centimetre, 5.0 / 64: 5 * model.Inch / 64,
	} {
		f := small(t)
		write(t, f, map[string]any{"Quilt!B7": "1/24384", "Cuts!C5": value})
		_, err := Parse("q.xlsx", saved(t, f))
		if err == nil {
			t.Error("a ruler of a tick is read")
		}
		write(t, f, map[string]any{"Quilt!B7": "0.1 mm"})
		if want.OnMark(model.Inch / 64) {
			write(t, f, map[string]any{"Quilt!B7": "1/64"})
		}
		if want.OnMark(model.Inch/24) && !want.OnMark(model.Inch/64) {
			write(t, f, map[string]any{"Quilt!B7": "1/24"})
		}
		if got := parsed(t, f).Cuts[0].Width; got != want {
			t.Errorf("%v: %s, want %s", value, got.Exact(), want.Exact())
		}
	}
}

// What is typed in ways of its own gives the same quilt as what is chosen from
// the lists.
func TestOtherSpellings(t *testing.T) {
	f := starterFile(t)
	write(t, f, map[string]any{
		"Quilt!B5": "Inches", "Quilt!B6": 2026, "Quilt!B9": `40" and 42 in.`, "Quilt!B10": "¼ yard", "Quilt!B12": 0.025, "Quilt!B13": "$ 12.50",
		"Fabrics!A5": "Ink", "Fabrics!B5": "Ink\nsolid ", "Fabrics!C5": "Y", "Fabrics!D5": 42, "Fabrics!H5": 9.99,
		// A blank row, and one with a blank that is none.
		"Fabrics!A7": " ",
		"Fabrics!A8": 7, "Fabrics!B8": "Foam white", "Fabrics!C8": false, "Fabrics!D8": "42;40", "Fabrics!F8": "½",
		"Cuts!A5": "A", "Cuts!B5": "ink", "Cuts!C5": "2½", "Cuts!D5": 4.5, "Cuts!E5": "96", "Cuts!F5": "None", "Cuts!H5": true, "Cuts!K5": "my note",
		"Cuts!A9": "B", "Cuts!B9": "FOAM WHITE", "Cuts!C9": "5 1/4", "Cuts!E9": 5.0, "Cuts!F9": "Twice", "Cuts!G9": "hour\tglass", "Cuts!H9": "N",
		"Cuts!A900": 3, "Cuts!B900": "7", "Cuts!C900": "2 1/2 x 4 1/2", "Cuts!E900": 2, "Cuts!F900": 1, "Cuts!I900": "Lengthwise",
	})
	formatted(t, f, "0.0%", "Quilt!B12")
	formatted(t, f, `"$"#,##0.00;[Red]-"$"#,##0.00`, "Fabrics!H5")
	quarter := model.ShopCut{Step: model.Yard / 4}
	want := model.Quilt{
		Title: "2026", Unit: model.Inches, Ruler: model.Inch / 8,
		Fabrics: []model.Fabric{
			{ID: "Ink", Name: "Ink solid", OneWay: true, UsableWidths: []model.Length{42 * model.Inch}, SoldBy: quarter, Shrinkage: 250, Price: 999},
			{ID: "7", Name: "Foam white", UsableWidths: []model.Length{42 * model.Inch, 40 * model.Inch}, SoldBy: quarter,
				Straighten: model.Inch / 2, Shrinkage: 250, Price: 1250},
		},
		Cuts: []model.Cut{
			{Name: "A", Fabric: "Ink", Width: 5 * model.Inch / 2, Height: 9 * model.Inch / 2, Count: 96},
			{Name: "B", Fabric: "7", Width: 21 * model.Inch / 4, Height: 21 * model.Inch / 4, Count: 5, Halve: model.HalvedTwice, Use: "hour glass", NoTurn: true},
			{Name: "3", Fabric: "7", Width: 5 * model.Inch / 2, Height: 9 * model.Inch / 2, Count: 2, Halve: model.HalvedOnce, Grain: model.Lengthwise},
		},
	}
	if got := parsed(t, f); !reflect.DeepEqual(got, want) {
		t.Error(cmp.Diff(want, got))
	}
}

// Sheets and columns are found by their names, wherever they stand.
func TestMoved(t *testing.T) {
	f := small(t)
	want := parsed(t, f)
	must(t, f.DeleteSheet(helpSheet))
	must(t, f.DeleteSheet(exampleSheet))
	must(t, f.InsertRows(cutsSheet, 2, 5))
	must(t, f.InsertCols(cutsSheet, "A", 2))
	must(t, f.InsertRows(quiltSheet, 1, 3))
	must(t, f.RemoveCol(fabricsSheet, "D"))
	must(t, f.SetSheetName(fabricsSheet, "FABRICS "))
	_, err := f.NewSheet("Shopping")
	must(t, err)
	write(t, f, map[string]any{"Cuts!D9": "FABRIC:", "Shopping!A1": "thread", "Cuts!A11": 12, "Cuts!B3": "Count them twice"})
	if got := parsed(t, f); !reflect.DeepEqual(got, want) {
		t.Error(cmp.Diff(want, got))
	}
}

// Dates are found by how they are shown, in every way that a workbook says it.
func TestDates(t *testing.T) {
	for format, isDate := range map[string]bool{
		"m/d/yyyy": true, "d-mmm": true, "mmm-yy": true, "[$-409]d mmm yyyy;@": true, "yyyy\\-mm\\-dd": true, "[h]:mm": true, "h:mm AM/PM": true,
		"General": false, "0.00": false, "# ?/?": false, "# ??/??": false, `0.0 "yards"`: false, `0\m`: false, "[Red]0": false, "0.00E+00": false, `_d0_)`: false,
	} {
		if got := formatOf(format) == dateFormat; got != isDate {
			t.Errorf("%s: a date %v", format, got)
		}
	}
	for day, typed := range map[string]string{
		"2026-01-02": "1/2", "2026-02-01": "1/2", "2026-03-08": "3/8", "2026-08-03": "3/8", "2026-07-08": "7/8", "2026-03-16": "3/16",
		"1932-03-01": "3/32", "2002-02-01": "2 1/2", "2002-01-02": "2 1/2", "2004-04-03": "4 3/4", "2008-05-12": "12 5/8",
		"2026-01-01": "", "2026-04-05": "", "2026-02-04": "", "2026-09-09": "", "2026-11-30": "",
	} {
		d, err := time.Parse(time.DateOnly, day)
		must(t, err)
		if got := typedAs(d); got != typed {
			t.Errorf("%s was typed as %q, want %q", day, got, typed)
		}
	}
}

// A workbook that counts days from 1904 has the same days.
func TestDaysFrom1904(t *testing.T) {
	from1900, ok1 := values{}.day(cell{kind: number, value: "46024"})
	from1904, ok2 := values{since1904: true}.day(cell{kind: number, value: "44562"})
	want := time.Date(2026, time.January, 2, 0, 0, 0, 0, time.UTC)
	if !ok1 || !ok2 || !from1900.Equal(want) || !from1904.Equal(want) {
		t.Errorf("got %v and %v", from1900, from1904)
	}
	written, ok := values{}.day(cell{kind: date, value: "2026-01-02T00:00:00"})
	if !ok || !written.Equal(want) {
		t.Errorf("got %v", written)
	}
	for _, value := range []string{"-1", "0", "1e300", "NaN", "x", ""} {
		if day, ok := (values{}).day(cell{kind: number, value: value}); ok {
			t.Errorf("%s is %v", value, day)
		}
	}
}
