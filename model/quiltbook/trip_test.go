package quiltbook

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
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

// A fabric or a cut has no field that a workbook cannot hold.
func TestEverythingIsEverything(t *testing.T) {
	for _, v := range []reflect.Value{reflect.ValueOf(everything.Fabrics), reflect.ValueOf(everything.Cuts)} {
		for i := range v.Index(0).NumField() {
			set := false
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

// savedByOffice are workbooks as LibreOffice saves them once it has opened
// them.
func savedByOffice(t testing.TB, quilts map[string]model.Quilt) map[string][]byte {
	t.Helper()
	if _, err := exec.LookPath("soffice"); err != nil {
		t.Fatalf("%v; make test installs it (libreoffice-calc-nogui)", err)
	}
	in, out := t.TempDir(), t.TempDir()
	args := []string{"-env:UserInstallation=file://" + t.TempDir(), "--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", out}
	for name, q := range quilts {
		path := filepath.Join(in, name+".xlsx")
		must(t, os.WriteFile(path, saved(t, filled(t, q)), 0o666))
		args = append(args, path)
	}
	if text, err := exec.Command("soffice", args...).CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	all := make(map[string][]byte)
	for name := range quilts {
		data, err := os.ReadFile(filepath.Join(out, name+".xlsx"))
		must(t, err)
		all[name] = data
	}
	return all
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
