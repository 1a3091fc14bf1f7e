package reports

import (
	"archive/zip"
	"bytes"
	"fmt"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
)

func workbookOf(t testing.TB, sizes ...Quilt) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteWorkbook(&b, sizes); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func openWorkbook(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = f.Close() })
	return f
}

// dump lists every cell that holds something: what it shows, then in brackets
// what it holds, where that differs, then its formula, where it has one.
func dump(t *testing.T, f *excelize.File) []byte {
	t.Helper()
	var b bytes.Buffer
	for _, sheet := range f.GetSheetList() {
		fmt.Fprintf(&b, "== %s\n", sheet)
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for c, shown := range row {
				cell, err := excelize.CoordinatesToCellName(c+1, r+1)
				if err != nil {
					t.Fatal(err)
				}
				held, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
				if err != nil {
					t.Fatal(err)
				}
				formula, err := f.GetCellFormula(sheet, cell)
				if err != nil {
					t.Fatal(err)
				}
				if shown = strings.TrimSpace(shown); shown == "" && formula == "" { // empty, or covered by a wider cell
					continue
				}
				fmt.Fprintf(&b, "%-4s %s", cell, strings.ReplaceAll(unglued(shown), "\n", "\n     "))
				if held != shown {
					fmt.Fprintf(&b, "  [%s]", held)
				}
				if formula != "" {
					fmt.Fprintf(&b, "  =%s", formula)
				}
				b.WriteByte('\n')
			}
		}
	}
	return b.Bytes()
}

func TestWorkbookGolden(t *testing.T) {
	golden(t, "harbour.cells.txt", dump(t, openWorkbook(t, workbookOf(t, harbour(t)))))
	golden(t, "dunes.cells.txt", dump(t, openWorkbook(t, workbookOf(t, dunes(t)))))
}

func TestWorkbookIsTheSameEveryTime(t *testing.T) {
	first := workbookOf(t, harbour(t))
	for range 5 {
		if !bytes.Equal(first, workbookOf(t, harbour(t))) {
			t.Fatal("two workbooks of one quilt differ")
		}
	}
}

// What a maker sees on opening and on printing, beside the cells.
func TestWorkbookPages(t *testing.T) {
	f := openWorkbook(t, workbookOf(t, harbour(t)))
	titles := map[string]string{}
	for _, n := range f.GetDefinedName() {
		if strings.HasPrefix(n.Name, "_xlnm") {
			titles[n.Scope] = n.Name + " " + n.RefersTo
		}
	}
	for _, sheet := range []string{"Buy", "Cutting", "Pieces", "Assumptions"} {
		panes, err := f.GetPanes(sheet)
		if err != nil || !panes.Freeze || panes.YSplit != 4 {
			t.Errorf("%s: headings are not frozen: %+v, %v", sheet, panes, err)
		}
		layout, err := f.GetPageLayout(sheet)
		fits := *layout.FitToWidth == 1
		if sheet == "Cutting" { // it has page breaks of its own
			fits = *layout.AdjustTo > 60 && *layout.AdjustTo <= 100
		}
		if err != nil || !fits {
			t.Errorf("%s: not as wide as the page: %+v, %v", sheet, layout, err)
		}
		const letter = 1
		if *layout.Size != letter {
			t.Errorf("%s: on paper %d, want letter for inches", sheet, *layout.Size)
		}
		if got, want := titles[sheet], fmt.Sprintf("_xlnm.Print_Titles %s!$4:$4", sheet); got != want {
			t.Errorf("%s: headings on every page: %q, want %q", sheet, got, want)
		}
	}
	props, err := f.GetDocProps()
	if err != nil || props.Title != "Harbour steps" || props.Created != workbookDate {
		t.Errorf("properties %+v, %v", props, err)
	}
}

// A quilt in centimetres is printed on A4.
func TestWorkbookPaper(t *testing.T) {
	f := openWorkbook(t, workbookOf(t, dunes(t)))
	const a4 = 9
	if layout, err := f.GetPageLayout("Cutting"); err != nil || *layout.Size != a4 {
		t.Errorf("%+v, %v, want A4", layout, err)
	}
}

// Rows that fit on a page stay together; more than a page of rows flow on.
func TestWorkbookKeepsRowsTogether(t *testing.T) {
	b := newBook()
	defer b.file.Close()
	b.sizes = []quiltRows{newRows(harbour(t))}
	s := b.newSheet("Rows", "Blocks of rows", []column{{"Text", 99, textLook}})
	p := s.newPages()
	for _, rows := range []int{30, 20, 60, 1} {
		from := s.row
		for range rows {
			s.fill("x")
		}
		p.together(from)
	}
	s.stream()
	if b.err != nil {
		t.Fatal(b.err)
	}
	// Some 37 rows of 18 points go on a page after the title, so that only the
	// second block is moved.
	var data bytes.Buffer
	if err := b.file.Write(&data); err != nil {
		t.Fatal(err)
	}
	archive, err := zip.NewReader(bytes.NewReader(data.Bytes()), int64(data.Len()))
	if err != nil {
		t.Fatal(err)
	}
	part, err := archive.Open("xl/worksheets/sheet2.xml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(part)
	if err != nil {
		t.Fatal(err)
	}
	if got := regexp.MustCompile(`<brk id="(\d+)"`).FindAllStringSubmatch(string(text), -1); len(got) != 1 || got[0][1] != "34" {
		t.Errorf("breaks %v, want one below row 34", got)
	}
}

// A text from a quilt file is never a formula, and none becomes part of one.
func TestWorkbookTakesNoFormula(t *testing.T) {
	q := harbour(t)
	plain := formulasOf(t, openWorkbook(t, workbookOf(t, q)))
	q.Title, q.Fabrics[0].Pieces[0].Name, q.Fabrics[1].Fabric.Name = "=1+1", "=HYPERLINK(1)", `"&A1&"`
	if diff := cmp.Diff(plain, formulasOf(t, openWorkbook(t, workbookOf(t, q)))); diff != "" {
		t.Errorf("names change formulas (-before +after):\n%s", diff)
	}
	q.Fabrics[0].Fabric.ID = "=1+1 & it's \"A1\""
	for cell, formula := range formulasOf(t, openWorkbook(t, workbookOf(t, q))) {
		if strings.ContainsAny(formula, "'\"") && strings.Contains(formula, "it's") {
			t.Errorf("%s holds %q", cell, formula)
		}
	}
}

// formulasOf are the formulas of a workbook, by sheet and cell.
func formulasOf(t *testing.T, f *excelize.File) map[string]string {
	t.Helper()
	formulas := map[string]string{}
	eachCell(t, f, func(sheet, cell string) {
		formula, err := f.GetCellFormula(sheet, cell)
		if err != nil {
			t.Fatal(err)
		}
		if formula != "" {
			formulas[sheet+"!"+cell] = formula
		}
	})
	return formulas
}

// eachCell calls do for every cell of a workbook.
func eachCell(t *testing.T, f *excelize.File, do func(sheet, cell string)) {
	t.Helper()
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for c := range rows[r] {
				do(sheet, cellName(c, r+1))
			}
		}
	}
}

// LibreOffice opens the workbook and prints what it should. The font of the
// workbook may be missing on a machine, so that nothing here hangs on where a
// line is broken within a heading.
func TestWorkbookInLibreOffice(t *testing.T) {
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Fatalf("%v; make test installs it (poppler-utils)", err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "harbour.xlsx")
	if err := os.WriteFile(path, workbookOf(t, harbour(t)), 0o666); err != nil {
		t.Fatal(err)
	}
	office(t, dir, "--headless", "--convert-to", "pdf", "--outdir", dir, path)
	printed, err := exec.Command("pdftotext", "-layout", filepath.Join(dir, "harbour.pdf"), "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(unglued(string(printed))), " ")
	for _, want := range []string{
		"Harbour steps", "Needed", "Ink solid 40 11 7/8 12 3/8 3/8 yd 1/2 1/8 11.99 4.50 yes",
		"44 1/2 60 1/2 62 3/8 1 3/4 yd 2 1/4 1/2 13.50 23.63 yes", "Total cost, each fabric at its narrowest width 28.13",
		"1 3/4 yd is enough; whether 1 1/2 yd would do is not settled",
		"From each strip", "Offcut", "Ink solid, usable width 42 in buy 3/8 yd", "Subcut 6 B, 2 7/8 in square.",
		"Halve all 10 B once on the diagonal: 20 triangles.", "Together: 17 A, 10 B, 4 C, 4 D. 11 7/8",
		"E", "60 1/2", "lengthwise", "3% for shrinkage", "close the blade every time", "What to buy at each usable width, in yd",
		"Page 1 of ",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("LibreOffice does not print %q in\n%s", want, printed)
		}
	}
	if strings.Contains(text, "###") {
		t.Errorf("a column is too narrow in\n%s", printed)
	}
}

// Names of cells and sheets are such as every program takes, and no two alike.
func TestWorkbookNames(t *testing.T) {
	taken := map[string]bool{everyFabric: true}
	for _, test := range []struct{ label, want string }{
		{"ink", "ink"}, {"Ink", "Ink_2"}, {"INK", "INK_3"}, {"2nd best", "_2nd_best"}, {"all", "all_2"}, {"é", "é"},
		{"=A1", "__A1"}, {"ink-", "ink_"}, {"🧵", "__"}, {"", "_"},
	} {
		if got := freeName(test.label, taken); got != test.want {
			t.Errorf("%q becomes %q, want %q", test.label, got, test.want)
		}
	}
	taken = map[string]bool{"buy": true}
	for _, test := range []struct{ text, want string }{
		{"Cutting lap", "Cutting lap"}, {"cutting LAP", "cutting LAP 2"}, {"Buy", "Buy 2"}, {"a/b:c*[d]?\\", "a-b-c--d---"},
		{"'it's'", "it's"}, {strings.Repeat("long ", 9), "long long long long long long l"},
		{strings.Repeat("long ", 9), "long long long long long long 2"}, {strings.Repeat("🧵", 20), strings.Repeat("🧵", 15)},
	} {
		got := sheetName(test.text, taken)
		if got != test.want {
			t.Errorf("%q becomes %q, want %q", test.text, got, test.want)
		}
		f := excelize.NewFile()
		if _, err := f.NewSheet(got); err != nil {
			t.Error(err)
		}
	}
}

// A quilt in several sizes has a sheet of cutting for each, whatever the sizes
// are called.
func TestWorkbookOfSizes(t *testing.T) {
	f := openWorkbook(t, workbookOf(t, twoSizes(t)...))
	want := []string{"Sizes", "Buy", "Cutting it's -big-", "Cutting IT'S -BIG- 2", "Pieces", "Trim chart", "Widths", "Assumptions"}
	if diff := cmp.Diff(want, f.GetSheetList()); diff != "" {
		t.Errorf("sheets (-want +got):\n%s", diff)
	}
}

// What is done may be ticked off, in a program too.
func TestWorkbookTicks(t *testing.T) {
	f := openWorkbook(t, workbookOf(t, lagoon(t, 1)))
	for _, sheet := range []string{cuttingSheet, trimSheet} {
		rules, err := f.GetDataValidations(sheet)
		if err != nil || len(rules) != 1 || !strings.Contains(rules[0].Formula1, tickBox+","+tickedBox) {
			t.Errorf("%s: %v, %v", sheet, rules, err)
		}
		if formats, err := f.GetConditionalFormats(sheet); err != nil || len(formats) != 1 {
			t.Errorf("%s: %v, %v", sheet, formats, err)
		}
	}
}

// The widths have a chart that is the spreadsheet's own, of the cells beside it.
func TestWorkbookChart(t *testing.T) {
	data := workbookOf(t, harbour(t))
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	part, err := archive.Open("xl/charts/chart1.xml")
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(part)
	if err != nil {
		t.Fatal(err)
	}
	f := openWorkbook(t, data)
	series := regexp.MustCompile(`<f>Widths!\$(\w)\$(\d+)</f>`).FindAllStringSubmatch(string(text), -1)
	var widths []string
	for _, s := range series {
		widths = append(widths, rawValue(t, f, widthsSheet, s[1]+s[2]))
	}
	if diff := cmp.Diff([]string{"40\u00a0in", "42\u00a0in", "44\u00a01/2\u00a0in"}, widths); diff != "" {
		t.Errorf("bars (-want +got):\n%s", diff)
	}
}

// Beside the strips of each plan stands the cloth, clear of the next plan.
func TestWorkbookPictures(t *testing.T) {
	q := harbour(t)
	f := openWorkbook(t, workbookOf(t, q))
	width, err := f.GetColWidth(cuttingSheet, columnName(clothColumn))
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for i, p := range plansIn(q) {
		if len(p.Result.Plan.Strips) == 0 {
			continue
		}
		from := bandRow(t, f, i) + 2
		pictures, err := f.GetPictures(cuttingSheet, cellName(clothColumn, from))
		if err != nil || len(pictures) != 1 {
			t.Fatalf("plan %d: %d pictures, %v", i, len(pictures), err)
		}
		seen++
		config, err := png.DecodeConfig(bytes.NewReader(pictures[0].File))
		if err != nil {
			t.Fatal(err)
		}
		room := 0.0
		for row := from; ; row++ {
			text := rawValue(t, f, cuttingSheet, cellName(doneColumn, row))
			if strings.Contains(text, "usable width") || strings.Contains(text, "nothing is cut") {
				break
			}
			height, err := f.GetRowHeight(cuttingSheet, row)
			if err != nil {
				t.Fatal(err)
			}
			room += height
		}
		const points = pointsPerInch / (pictureDots * screenDPI)
		if high := float64(config.Height) * points; high > room {
			t.Errorf("plan %d: a picture %g points high beside %g points of rows", i, high, room)
		}
		if wide := float64(config.Width) * points; wide > (width*digitPixels+5)*pointsPerInch/screenDPI {
			t.Errorf("plan %d: a picture %g points wide in a column of %g characters", i, wide, width)
		}
		if alt := pictures[0].Format.AltText; !strings.Contains(alt, p.Buy.Text+" to buy") {
			t.Errorf("plan %d: its picture is told as %q", i, alt)
		}
	}
	if seen != 4 {
		t.Errorf("%d pictures, want 4", seen)
	}
}
