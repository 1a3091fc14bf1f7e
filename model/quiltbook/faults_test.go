package quiltbook

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// faultsOf are the faults of a workbook, one to a line, without its name.
func faultsOf(t testing.TB, f *excelize.File) []string {
	t.Helper()
	q, err := Parse("q.xlsx", saved(t, f))
	var errs quiltfile.Errors
	if !errors.As(err, &errs) || len(errs) == 0 {
		t.Fatalf("%+v, %v", q, err)
	}
	return strings.Split(strings.ReplaceAll(err.Error(), "q.xlsx: ", ""), "\n")
}

// set are changes to a small workbook, and the faults that it has then.
var faults = []struct {
	name string
	set  map[string]any
	want []string
}{
	{"sizes", map[string]any{
		"Cuts!C5": "two", "Cuts!D5": "2 1/7", "Cuts!A6": "B", "Cuts!B6": "ink", "Cuts!C6": "2,5", "Cuts!E6": 1,
		"Cuts!A7": "C", "Cuts!B7": "ink", "Cuts!C7": 2.1, "Cuts!E7": 1, "Cuts!A8": "D", "Cuts!B8": "ink", "Cuts!C8": "5 x 7", "Cuts!D8": 7, "Cuts!E8": 1,
		"Cuts!A9": "E", "Cuts!B9": "ink", "Cuts!C9": "2 9/16", "Cuts!E9": 1, "Cuts!A10": "F", "Cuts!B10": "ink", "Cuts!C10": "50 x 60", "Cuts!E10": 1,
		"Cuts!A11": "G", "Cuts!B11": "ink", "Cuts!C11": -2, "Cuts!E11": 1, "Cuts!A12": "H", "Cuts!B12": "ink", "Cuts!C12": "=2*3", "Cuts!E12": 1,
	}, []string{
		`Cuts!C5: cut "A": width: not a length ("two"), write it like 12 1/2, 12.5 or 31.75 cm`,
		`Cuts!D5: cut "A": height: finer than 1/64 in, 1/24 in or 0.1 mm ("2 1/7"), the next length up is 2 5/32 in`,
		`Cuts!C6: cut "B": width: comma in a number ("2,5"), write a point for decimals, as in 12.5, and nothing between thousands`,
		`Cuts!C7: cut "C": width: finer than 1/64 in, 1/24 in or 0.1 mm ("2.1"), the next length up is 2 7/64 in`,
		`Cuts!D8: cut "D": height: do not go together, the width has both sides already: leave the height blank`,
		`Cuts!C9: cut "E": size: off the ruler's mark ("2 9/16"), write 2 5/8 or ruler: 1/16`,
		`Cuts!C10: cut "F": size: wider than the fabric ("50 x 60"), the usable width is 40 in: cut it in parts and join them, or use wider fabric`,
		`Cuts!C11: cut "G": width: a length has no sign ("-2"), leave out the sign`,
		`Cuts!C12: cut "H": width: a formula without its result ("=2*3"), it stands in a cell for texts: type what it should give`,
	}},
	{"words", map[string]any{
		"Fabrics!C5": "perhaps", "Cuts!F5": "thrice", "Cuts!H5": "maybe", "Cuts!I5": "bias", "Cuts!E5": "9.5", "Quilt!B5": "ft",
	}, []string{
		`Quilt!B5: unit: not a unit ("ft"), write in or cm`,
		`Fabrics!C5: fabric "ink": one-way: not yes or no ("perhaps"), write yes or no`,
		`Cuts!E5: cut "A": count: not a whole number ("9.5"), write it in digits, as in 96`,
		`Cuts!F5: cut "A": halve: unknown word ("thrice"), write once or twice`,
		`Cuts!H5: cut "A": turn: not yes or no ("maybe"), write yes or no`,
		`Cuts!I5: cut "A": grain: unknown word ("bias"), write crosswise or lengthwise`,
	}},
	{"fabrics", map[string]any{
		"Fabrics!D5": "102,5", "Fabrics!E5": "1/8", "Fabrics!F5": "37", "Fabrics!G5": 3, "Fabrics!H5": "12 or so",
		"Fabrics!A6": "ink", "Fabrics!D6": 4042, "Fabrics!B7": "Foam", "Fabrics!A8": "oat", "Fabrics!D8": "40-42", "Fabrics!A9": "rust", "Fabrics!D9": "40, 40",
	}, []string{
		`Fabrics!D5: fabric "ink": usable widths: comma in a number ("102,5"), write a point for decimals, as in 12.5, and nothing between thousands`,
		`Fabrics!E5: fabric "ink": sold by: not a length that cloth is sold by ("1/8"), write it with yd, m, cm or in, as in 1/8 yd or 10 cm`,
		`Fabrics!F5: fabric "ink": straighten: out of range ("37 in"), write 0 to 36 in`,
		`Fabrics!G5: fabric "ink": shrinkage: not a share from 0% to 50% ("3"), write it like 2% or 2.5%`,
		`Fabrics!H5: fabric "ink": price: not a price ("12 or so"), write a number alone, as in 12 or 12.50`,
		`Fabrics!A6: fabric "ink": label: used twice ("ink"), write another label`,
		`Fabrics!D6: fabric "ink": usable widths: out of range ("4042 in"), write 1 in to 130 in`,
		`Fabrics!A7: fabric 3: label: missing, write a label such as ink`,
		`Fabrics!D8: fabric "oat": usable widths: not a length ("40-42"), write widths with a comma and a space between them, as in 40, 42`,
		`Fabrics!D9: fabric "rust": usable widths: used twice ("40 in"), write each width once`,
	}},
	{"what all fabrics have", map[string]any{"Fabrics!A6": "foam", "Quilt!B9": 400, "Quilt!B10": "0 yd", "Quilt!B7": "0"}, []string{
		`Quilt!B7: ruler: not more than 0 ("0 in"), write a mark such as 1/8`,
		`Quilt!B9: usable widths: out of range ("400 in"), write 1 in to 130 in`,
		`Quilt!B10: sold by: not more than 0 ("0 yd"), write a step such as 1/8 yd or 10 cm`,
	}},
	{"nothing where something belongs", map[string]any{
		"Cuts!A6": "B", "Cuts!C6": 3, "Cuts!B7": "inc", "Cuts!C7": 3, "Cuts!E7": 0, "Cuts!A8": "Borders", "Cuts!G9": "of next year", "Cuts!E10": 12,
		"Cuts!A11": "A", "Cuts!B11": "ink", "Cuts!C11": 3, "Cuts!E11": 200_000,
	}, []string{
		`Cuts!B6: cut "B": fabric: missing, write the fabric that the piece is cut from`,
		`Cuts!E6: cut "B": count: missing, write how many to cut`,
		`Cuts!A7: cut 3: piece: missing, write a label such as A`,
		`Cuts!B7: cut 3: fabric: not a fabric of this quilt ("inc"), write ink, or add it to the fabrics`,
		`Cuts!E7: cut 3: count: out of range ("0"), write a whole number from 1 to 100,000`,
		`Cuts!B8: cut "Borders": fabric: missing, write the fabric, the width and the count; or, if this row is a note, move it to a column right of the table`,
		`Cuts!B9: cut 5: fabric: missing, write the fabric, the width and the count; or, if this row is a note, move it to a column right of the table`,
		`Cuts!A10: cut 6: piece: missing, write a label such as A`,
		`Cuts!B10: cut 6: fabric: missing, write the fabric that the piece is cut from`,
		`Cuts!C10: cut 6: width: missing, write the size that the blade cuts`,
		`Cuts!A11: cut "A": piece: used twice ("A"), write another label`,
		`Cuts!E11: cut "A": count: out of range ("200000"), write a whole number from 1 to 100,000`,
	}},
	{"headings", map[string]any{"Cuts!E4": "Cuont", "Cuts!G4": "Fabric", "Fabrics!A4": "Colour", "Quilt!A9": "Usable width", "Quilt!B9": 44}, []string{
		`Quilt!A9: no such heading ("Usable width"), did you mean Usable widths?`,
		`Fabrics!A4: no such heading ("Label"), write it over its column in this row`,
		`Cuts!E4: no such heading ("Cuont"), did you mean Count?`,
		`Cuts!G4: used twice ("Fabric"), call one of the two columns something else`,
	}},
	{"no unit", map[string]any{"Quilt!B5": nil, "Cuts!C5": "1/7"}, []string{`Quilt!B5: unit: missing, write in or cm`}},
	{"no label of the unit", map[string]any{"Quilt!A5": nil, "Quilt!B5": nil, "Quilt!C5": nil, "Quilt!D5": nil}, []string{
		`Quilt: unit: no such heading ("Unit"), write it in the first column, and right of it what it is: write in or cm`,
	}},
	{"dates", map[string]any{
		"Cuts!C5": time.Date(2026, 1, 2, 0, 0, 0, 0, time.UTC), "Fabrics!E5": time.Date(2026, 1, 8, 0, 0, 0, 0, time.UTC),
		"Cuts!D5": 46024, "Cuts!A5": time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC),
	}, []string{
		`Fabrics!E5: fabric "ink": sold by: a date ("8 January 2026"), the spreadsheet made it of what was typed: if that was 1/8, type '1/8, with the apostrophe`,
		`Cuts!A5: cut 1: piece: a date ("1 January 2026"), the spreadsheet made it of what was typed: type it again with an apostrophe before it, as in '1/2`,
		`Cuts!C5: cut 1: width: a date ("2 January 2026"), the spreadsheet made it of what was typed: if that was 1/2, type '1/2, with the apostrophe`,
		`Cuts!D5: cut 1: height: a date ("2 January 2026"), the spreadsheet made it of what was typed: if that was 1/2, type '1/2, with the apostrophe`,
	}},
}

func TestFaults(t *testing.T) {
	for _, test := range faults {
		t.Run(test.name, func(t *testing.T) {
			f := small(t)
			write(t, f, test.set)
			if diff := cmp.Diff(test.want, faultsOf(t, f)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

// Formulas give their results; those without one are told.
func TestFormulas(t *testing.T) {
	f := small(t)
	write(t, f, map[string]any{"Cuts!C5": nil, "Cuts!E5": nil})
	must(t, f.SetCellFormula(cutsSheet, "C5", "5/2"))
	must(t, f.SetCellFormula(cutsSheet, "E5", "1+2"))
	want := []string{
		`Cuts!C5: cut "A": width: a formula without its result, open the file in your spreadsheet program and save it, or type the value`,
		`Cuts!E5: cut "A": count: a formula without its result, open the file in your spreadsheet program and save it, or type the value`,
	}
	if diff := cmp.Diff(want, faultsOf(t, f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What stands far from the table is told; on a sheet that is not read it may
// stand.
func TestFarAway(t *testing.T) {
	const far = `<row r="1048576"><c r="XFD1048576" t="inlineStr"><is><t>here</t></is></c></row></sheetData>`
	put := func(sheet string) (model.Quilt, error) {
		return Parse("q.xlsx", rewritten(t, smallFile(t), sheet, func(s string) string {
			return strings.Replace(s, "</sheetData>", far, 1)
		}))
	}
	_, err := put(cutsSheet)
	want := `q.xlsx: Cuts!XFD1048576: too far from the table ("here"), delete this cell and what else stands right of column AX or below row 10000, or move it to another sheet`
	if err == nil || err.Error() != want || !errors.Is(err, ErrFarAway) {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	if q, err := put(exampleSheet); err != nil {
		t.Errorf("%v, %v", q, err)
	}
}

// Sheets that are missing are told, and what they may have been called.
func TestMissingSheets(t *testing.T) {
	f := small(t)
	must(t, f.SetSheetName(cutsSheet, "Cut"))
	want := []string{`no such sheet ("Cuts"), did you mean the sheet "Cut"? call it Cuts`}
	if diff := cmp.Diff(want, faultsOf(t, f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	must(t, f.DeleteSheet("Cut"))
	must(t, f.DeleteSheet(quiltSheet))
	want = []string{
		`no such sheet ("Quilt"), take the one that crossgrain start writes`,
		`no such sheet ("Cuts"), take the one that crossgrain start writes`,
	}
	if diff := cmp.Diff(want, faultsOf(t, f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	for _, name := range []string{"Buy", "Cutting"} {
		_, err := f.NewSheet(name)
		must(t, err)
	}
	if got := faultsOf(t, f)[0]; got != `no such sheet ("Quilt"), this workbook is a result: name the one that you filled in` {
		t.Error(got)
	}
}

// A table without headings is told once.
func TestNoHeadings(t *testing.T) {
	f := small(t)
	must(t, f.RemoveRow(fabricsSheet, headingRow))
	want := []string{`Fabrics: no such heading, write the headings Label, Name, One-way, Usable widths, Sold by, Straighten, Shrinkage, Price in one row, as crossgrain start does`}
	if diff := cmp.Diff(want, faultsOf(t, f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// The faults keep their kinds and places.
func TestErrorKinds(t *testing.T) {
	f := small(t)
	write(t, f, map[string]any{"Cuts!C5": "2 1/16"})
	_, err := Parse("q.xlsx", saved(t, f))
	var e *quiltfile.Error
	var fault *model.Fault
	if !errors.As(err, &e) || e.Cell != "Cuts!C5" || !e.Placed() || e.Line != 0 ||
		!errors.As(err, &fault) || fault.Part != model.CutPart || !errors.Is(err, model.ErrOffMark) {
		t.Errorf("got %v", err)
	}
}

// A quilt that is too long is told once.
func TestTooMany(t *testing.T) {
	f := small(t)
	for row := 5; row < 5+model.MaxCuts+20; row++ {
		for column, value := range map[int]any{1: row, 2: "ink", 3: 2, 5: 1} {
			must(t, f.SetCellValue(cutsSheet, at{row, column}.String(), value))
		}
	}
	want := []string{`Cuts!A5: cuts: too many, write at most 2000`}
	if diff := cmp.Diff(want, faultsOf(t, f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
