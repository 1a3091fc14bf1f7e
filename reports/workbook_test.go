package reports

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

func workbookOf(t *testing.T, q Quilt) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteWorkbook(&b, q); err != nil {
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
// what it holds, where that differs.
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
				if shown = strings.TrimSpace(shown); shown == "" && held == "" {
					continue
				}
				fmt.Fprintf(&b, "%-4s %s", cell, strings.ReplaceAll(unglued(shown), "\n", "\n     "))
				if held != shown {
					fmt.Fprintf(&b, "  [%s]", held)
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
		titles[n.Scope] = n.Name + " " + n.RefersTo
	}
	for _, sheet := range []string{"Buy", "Cutting", "Pieces", "Assumptions"} {
		panes, err := f.GetPanes(sheet)
		if err != nil || !panes.Freeze || panes.YSplit != 4 {
			t.Errorf("%s: headings are not frozen: %+v, %v", sheet, panes, err)
		}
		layout, err := f.GetPageLayout(sheet)
		fits := *layout.FitToWidth == 1
		if sheet == "Cutting" { // it has page breaks of its own
			fits = *layout.AdjustTo > 70 && *layout.AdjustTo <= 100
		}
		if err != nil || !fits {
			t.Errorf("%s: not as wide as the page: %+v, %v", sheet, layout, err)
		}
		const letter = 1
		if *layout.Size != letter {
			t.Errorf("%s: on paper %d, want letter for inches", sheet, *layout.Size)
		}
		if got, want := titles[sheet], fmt.Sprintf("_xlnm.Print_Titles '%s'!$4:$4", sheet); got != want {
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
	b := &book{file: excelize.NewFile(), styles: map[look]int{}}
	defer b.file.Close()
	s := b.newSheet("Rows", newRows(harbour(t)), "Blocks of rows", []column{{"Text", 99, textLook}})
	p := s.newPages()
	for _, rows := range []int{30, 20, 60, 1} {
		from := s.row
		for range rows {
			s.fill("x")
		}
		p.together(from)
	}
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

// A text from a quilt file is never a formula.
func TestWorkbookTakesNoFormula(t *testing.T) {
	q := harbour(t)
	q.Title, q.Fabrics[0].Pieces[0].Name = "=1+1", "=HYPERLINK(1)"
	f := openWorkbook(t, workbookOf(t, q))
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r := range rows {
			for c := range rows[r] {
				cell, _ := excelize.CoordinatesToCellName(c+1, r+1)
				if formula, err := f.GetCellFormula(sheet, cell); formula != "" || err != nil {
					t.Errorf("%s!%s holds the formula %q, %v", sheet, cell, formula, err)
				}
			}
		}
	}
}

// LibreOffice opens the workbook and prints what it should.
func TestWorkbookInLibreOffice(t *testing.T) {
	for _, tool := range []string{"soffice", "pdftotext"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Fatalf("%v; make test installs it (libreoffice-calc-nogui, poppler-utils)", err)
		}
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "harbour.xlsx")
	if err := os.WriteFile(path, workbookOf(t, harbour(t)), 0o666); err != nil {
		t.Fatal(err)
	}
	profile := "-env:UserInstallation=file://" + filepath.Join(dir, "profile")
	for _, command := range [][]string{
		{"soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", dir, path},
		{"pdftotext", "-layout", filepath.Join(dir, "harbour.pdf"), filepath.Join(dir, "harbour.txt")},
	} {
		if out, err := exec.Command(command[0], command[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%v: %v\n%s", command, err, out)
		}
	}
	printed, err := os.ReadFile(filepath.Join(dir, "harbour.txt"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(unglued(string(printed))), " ")
	for _, want := range []string{
		"Harbour steps", "Usable width", "Ink solid 40 3/8 1/2 1/8 yd yes",
		"44 1/2 1 3/4 2 1/4 1/2 yd yes", "1 3/4 yd is enough; whether 1 1/2 yd would do is not settled",
		"From each strip", "Offcut (in)",
		"Ink solid, usable width 42 in, buy 3/8 yd", "Subcut 6 B, 2 7/8 in square.",
		"Halve all 10 B once on the diagonal: 20 triangles.",
		"E", "60 1/2", "lengthwise", "3% for shrinkage", "close the blade every time",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("LibreOffice does not print %q in\n%s", want, printed)
		}
	}
	if strings.Contains(text, "###") {
		t.Errorf("a column is too narrow in\n%s", printed)
	}
}
