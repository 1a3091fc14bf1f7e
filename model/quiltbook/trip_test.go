package quiltbook

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// quilts are the quilts of the demo and of published patterns that are cutting
// lists, by their files, and one that says everything.
func quilts(t testing.TB) map[string]model.Quilt {
	t.Helper()
	all := map[string]model.Quilt{"everything": everything}
	for _, pattern := range []string{"../../testdata/quilts/*.yaml", "../../testdata/published/quilts/*.yaml"} {
		files, err := filepath.Glob(pattern)
		must(t, err)
		for _, file := range files {
			if q, err := quiltfile.Read(file); err == nil {
				all[filepath.Base(file)] = q
			}
		}
	}
	if len(all) < 10 {
		t.Fatalf("only %d quilts", len(all))
	}
	return all
}

// everything has a value in every field that a workbook has.
var everything = model.Quilt{
	Title: "Skerry, “two” & <three>", Unit: model.Centimetres, Ruler: 5 * model.Millimetre,
	Fabrics: []model.Fabric{
		{
			ID: "1/2", Name: "Kelp = green", OneWay: true, UsableWidths: []model.Length{105 * model.Centimetre, 42 * model.Inch},
			SoldBy: model.ShopCut{Step: model.Metre / 4, Unit: model.Metres}, Straighten: 25 * model.Millimetre,
			Shrinkage: 250, Price: 1890,
		},
		{ID: "true", UsableWidths: []model.Length{102 * model.Centimetre}, SoldBy: model.ShopCut{Step: model.Yard / 8}},
	},
	Cuts: []model.Cut{
		{Name: "1", Fabric: "1/2", Width: 65 * model.Millimetre, Height: 115 * model.Millimetre, Count: 4, NoTurn: true, Use: "=A1"},
		{Name: "2-3", Fabric: "true", Width: 13 * model.Centimetre, Height: 13 * model.Centimetre, Count: 40, Halve: model.HalvedTwice},
		{Name: "C", Fabric: "true", Width: 95 * model.Millimetre, Height: 151 * model.Centimetre, Count: 2, Grain: model.Lengthwise},
	},
}

// A fabric or a cut has no field that a workbook cannot hold, but for the
// diagonal, which is worked out from a design and which no quilt file writes.
func TestEverythingIsEverything(t *testing.T) {
	for _, v := range []reflect.Value{reflect.ValueOf(everything.Fabrics), reflect.ValueOf(everything.Cuts)} {
		for i := range v.Index(0).NumField() {
			set := v.Index(0).Type().Field(i).Name == "Diagonal"
			for j := range v.Len() {
				set = set || !v.Index(j).Field(i).IsZero()
			}
			if !set {
				t.Errorf("no %v has %s: give it a column", v.Index(0).Type(), v.Index(0).Type().Field(i).Name)
			}
		}
	}
}

// A starter that is filled in gives the quilt of the quilt file.
func TestFilledIn(t *testing.T) {
	for name, want := range quilts(t) {
		got, err := Parse(name, saved(t, filled(t, want)))
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v\n%s", name, err, cmp.Diff(want, got))
		}
	}
}

// office converts files, by their names, to files of another kind, as
// LibreOffice saves them once it has opened them.
func office(t testing.TB, files map[string][]byte, to string, flags ...string) map[string][]byte {
	t.Helper()
	if _, err := exec.LookPath("soffice"); err != nil {
		t.Fatalf("%v; make test installs it (libreoffice-calc-nogui)", err)
	}
	in, out := t.TempDir(), t.TempDir()
	args := append([]string{"-env:UserInstallation=file://" + t.TempDir(), "--headless", "--convert-to", to, "--outdir", out}, flags...)
	for name, data := range files {
		path := filepath.Join(in, name)
		must(t, os.WriteFile(path, data, 0o666))
		args = append(args, path)
	}
	if text, err := exec.Command("soffice", args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	ending, _, _ := strings.Cut(to, ":")
	all := make(map[string][]byte)
	for name := range files {
		data, err := os.ReadFile(filepath.Join(out, strings.TrimSuffix(name, filepath.Ext(name))+"."+ending))
		must(t, err)
		all[name] = data
	}
	return all
}

const asXLSX = "xlsx:Calc MS Excel 2007 XML"

// savedByOffice are workbooks filled in with quilts and saved by LibreOffice.
func savedByOffice(t testing.TB, quilts map[string]model.Quilt) map[string][]byte {
	t.Helper()
	files := make(map[string][]byte)
	for name, q := range quilts {
		files[name+".xlsx"] = saved(t, filled(t, q))
	}
	all := make(map[string][]byte)
	for name, data := range office(t, files, asXLSX) {
		all[strings.TrimSuffix(name, ".xlsx")] = data
	}
	return all
}

// What is typed into cells that are not text cells becomes what LibreOffice
// takes it for: numbers, dates, shares, truths.
func TestTypedInLibreOffice(t *testing.T) {
	const typed = "1/2,2 1/2,2-1/2,5/8,3%,TRUE,$12.50,3/32,2½,1.5\n"
	data := office(t, map[string][]byte{"Cuts.csv": []byte(typed)}, asXLSX,
		"--infilter=CSV:44,34,76,1,,1033,false,true")["Cuts.csv"] // UTF-8, American, numbers found as when they are typed
	b, err := openWorkbook(data)
	must(t, err)
	part, err := b.sheet(cutsSheet)
	must(t, err)
	g, _, err := b.grid(part)
	must(t, err)
	v := values{}
	half := 5 * model.Inch / 2
	for column, want := range map[int]model.Length{2: half, 3: half, 8: 3 * model.Inch / 32, 9: half, 10: 3 * model.Inch / 2} {
		if got, err := v.length(g.cell(at{1, column})); err != nil || got != want {
			t.Errorf("%s: %v, %v", at{1, column}, got, err)
		}
	}
	for column, want := range map[int]string{1: "if that was 1/2, type '1/2", 4: "if that was 5/8, type '5/8"} {
		if _, err := v.length(g.cell(at{1, column})); !errors.Is(err, ErrDate) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", at{1, column}, err)
		}
	}
	share, err1 := v.percent(g.cell(at{1, 5}))
	yes, err2 := v.yes(g.cell(at{1, 6}))
	price, err3 := v.price(g.cell(at{1, 7}))
	if share != 300 || !yes || price != 1250 || errors.Join(err1, err2, err3) != nil {
		t.Errorf("got %v, %v, %v, %v, %v, %v", share, yes, price, err1, err2, err3)
	}
}

// Other kinds of files, as programs write them, are told.
func TestOtherKindsOfFiles(t *testing.T) {
	start := map[string][]byte{"q.xlsx": smallFile(t)}
	for to, want := range map[string]string{
		"ods": "an OpenDocument file, .ods", "xls:MS Excel 97": "a file in the older .xls form", "csv": "plain text, or something else",
	} {
		_, err := Parse("q.xlsx", office(t, start, to)["q.xlsx"])
		if !errors.Is(err, ErrNotAWorkbook) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", to, err)
		}
	}
	var b bytes.Buffer
	must(t, small(t).Write(&b, excelize.Options{Password: "selvage"}))
	if _, err := Parse("q.xlsx", b.Bytes()); !errors.Is(err, ErrLocked) {
		t.Errorf("with a password: %v", err)
	}
}

// So does one that LibreOffice opened and saved.
func TestSavedByLibreOffice(t *testing.T) {
	all := quilts(t)
	for name, data := range savedByOffice(t, all) {
		got, err := Parse(name, data)
		if err != nil || !reflect.DeepEqual(got, all[name]) {
			t.Errorf("%s: %v\n%s", name, err, cmp.Diff(all[name], got))
		}
	}
}

var update = flag.Bool("update", false, "fill in the workbook of the demo anew, and save it with LibreOffice")

// The demo quilt is there as a workbook too, as LibreOffice saved it.
func TestDemoWorkbook(t *testing.T) {
	const file = "../../testdata/quilts/harbour-steps"
	want, err := quiltfile.Read(file + ".yaml")
	must(t, err)
	if *update {
		data := savedByOffice(t, map[string]model.Quilt{"demo": want})["demo"]
		must(t, os.WriteFile(file+".xlsx", data, 0o666))
	}
	got, err := Read(file + ".xlsx")
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%v; -update fills it in anew\n%s", err, cmp.Diff(want, got))
	}
}

// The example of a workbook is that of the quilt file, and both are a quilt.
func TestExample(t *testing.T) {
	want, err := quiltfile.Parse("start.yaml", quiltfile.Start())
	must(t, err)
	f := starterFile(t)
	put := func(sheet string, rows [][]string) {
		for i, row := range rows {
			for j, text := range row {
				must(t, f.SetCellStr(sheet, at{headingRow + 1 + i, j + 1}.String(), text))
			}
		}
	}
	put(fabricsSheet, exampleFabrics)
	put(cutsSheet, exampleCuts)
	must(t, f.SetCellStr(quiltSheet, quiltCells["Title"], want.Title))
	got, err := Parse("q.xlsx", saved(t, f))
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("%v\n%s", err, cmp.Diff(want, got))
	}
	if _, err := quiltfile.ParseDesign("start.yaml", quiltfile.StartDesign()); err != nil {
		t.Error(err)
	}
}

// Every starter has the same bytes, and nothing in it but what is to be filled
// in.
func TestStart(t *testing.T) {
	var a, b bytes.Buffer
	must(t, WriteStart(&a))
	must(t, WriteStart(&b))
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two starters differ")
	}
	_, err := Parse("q.xlsx", a.Bytes())
	want := "q.xlsx: Fabrics!A5: fabrics: missing, write at least one\nq.xlsx: Cuts!A5: cuts: missing, write at least one"
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// Cells have lists to choose from, which stand on a hidden sheet, and headings
// have notes.
func TestStartHelps(t *testing.T) {
	f := starterFile(t)
	for sheet, want := range map[string]map[string]string{
		quiltSheet:   {"B5": "Lists!$A$1:$A$2", "B10": "Lists!$B$1:$B$8"},
		fabricsSheet: {"C5:C504": "Lists!$C$1:$C$2", "E5:E504": "Lists!$D$1:$D$8"},
		cutsSheet: {
			"B5:B2004": "OFFSET(Fabrics!$A$5,0,0,MAX(1,COUNTA(Fabrics!$A$5:$A$504)),1)",
			"F5:F2004": "Lists!$E$1:$E$2", "H5:H2004": "Lists!$F$1:$F$2", "I5:I2004": "Lists!$G$1:$G$2",
		},
	} {
		all, err := f.GetDataValidations(sheet)
		must(t, err)
		got := map[string]string{}
		for _, v := range all {
			got[v.Sqref] = v.Formula1
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", sheet, diff)
		}
	}
	for sheet, want := range map[string]int{fabricsSheet: len(fabricFields), cutsSheet: len(cutFields)} {
		notes, err := f.GetComments(sheet)
		must(t, err)
		if len(notes) != want {
			t.Errorf("%s has %d notes, want %d", sheet, len(notes), want)
		}
	}
	if visible, err := f.GetSheetVisible(listsSheet); err != nil || visible {
		t.Errorf("the sheet of lists is visible: %v", err)
	}
	lists, err := f.GetCols(listsSheet)
	must(t, err)
	for i := range lists {
		lists[i] = slices.DeleteFunc(lists[i], func(s string) bool { return s == "" })
	}
	want := [][]string{{"in", "cm"}, shopCuts, yesNo, shopCuts, {"once", "twice"}, yesNo, {"crosswise", "lengthwise"}}
	if diff := cmp.Diff(want, lists); diff != "" {
		t.Errorf("lists (-want +got):\n%s", diff)
	}
	// What is typed into the boxes for sizes stays text.
	style, err := f.GetCellStyle(cutsSheet, "C5")
	must(t, err)
	look, err := f.GetStyle(style)
	must(t, err)
	if look.NumFmt != 49 {
		t.Errorf("the format of a size is %d", look.NumFmt)
	}
	if _, err := excelize.OpenReader(bytes.NewReader(saved(t, f))); err != nil {
		t.Error(err)
	}
}
