package reports

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/pack/glpk"
	"crossgrain/yardage"
)

// recalculate has LibreOffice compute all formulas of workbooks anew, and gives
// the workbooks that it saves. The values that were stored are taken out first:
// by itself, LibreOffice trusts them.
func recalculate(t *testing.T, files ...*excelize.File) []*excelize.File {
	t.Helper()
	dir := t.TempDir()
	args := []string{"--headless", "--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir", filepath.Join(dir, "out")}
	for i, f := range files {
		if err := f.UpdateLinkedValue(); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, fmt.Sprintf("book%d.xlsx", i))
		if err := f.SaveAs(path); err != nil {
			t.Fatal(err)
		}
		args = append(args, path)
	}
	office(t, dir, args...)
	var computed []*excelize.File
	for i := range files {
		data, err := os.ReadFile(filepath.Join(dir, "out", fmt.Sprintf("book%d.xlsx", i)))
		if err != nil {
			t.Fatal(err)
		}
		computed = append(computed, openWorkbook(t, data))
	}
	return computed
}

// plainWorkbookOf is a workbook without its pictures, which take time.
func plainWorkbookOf(t *testing.T, sizes ...Quilt) []byte {
	t.Helper()
	b := newBook()
	b.plain = true
	return written(t, func(w *bytes.Buffer) error { return b.write(w, sizes) })
}

// alwaysRecalculate is LibreOffice's setting for workbooks that others saved.
const alwaysRecalculate = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// office runs LibreOffice with a profile of its own in a folder.
func office(t *testing.T, dir string, args ...string) {
	t.Helper()
	if _, err := exec.LookPath("soffice"); err != nil {
		t.Fatalf("%v; make test installs it (libreoffice-calc-nogui)", err)
	}
	profile := filepath.Join(dir, "profile", "user")
	if err := os.MkdirAll(profile, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(profile, "registrymodifications.xcu"), []byte(alwaysRecalculate), 0o666); err != nil {
		t.Fatal(err)
	}
	args = append([]string{"-env:UserInstallation=file://" + filepath.Join(dir, "profile")}, args...)
	if out, err := exec.Command("soffice", args...).CombinedOutput(); err != nil {
		t.Fatalf("soffice: %v\n%s", err, out)
	}
}

// compareValues checks that the cells of formulas hold the same in two
// workbooks, and returns how many there are.
func compareValues(t *testing.T, name string, got, want *excelize.File, sheets ...string) int {
	t.Helper()
	compared := 0
	for cell := range formulasOf(t, want) {
		sheet, at, _ := strings.Cut(cell, "!")
		if len(sheets) > 0 && sheet != sheets[0] {
			continue
		}
		compared++
		g, w := rawValue(t, got, sheet, at), rawValue(t, want, sheet, at)
		if !sameValue(g, w) {
			formula, _ := want.GetCellFormula(sheet, at)
			t.Errorf("%s: %s is %q when it is computed, want %q; its formula is %s", name, cell, g, w, formula)
		}
	}
	return compared
}

func rawValue(t *testing.T, f *excelize.File, sheet, cell string) string {
	t.Helper()
	value, err := f.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return value
}

// sameValue compares two texts, or two numbers but for what binary fractions
// are off.
func sameValue(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX == nil && errY == nil {
		return math.Abs(x-y) <= 1e-9*max(1, math.Abs(y))
	}
	return a == b
}

// Every formula comes to the figure of the program that is stored with it.
func TestWorkbookComputesWhatIsStored(t *testing.T) {
	books := map[string][]Quilt{
		"harbour": {harbour(t)}, "dunes": {dunes(t)}, "lagoon": {lagoon(t, 1)}, "two sizes": twoSizes(t),
		"in": {anyCloth(t, model.Inches, 1)}, "cm": {anyCloth(t, model.Centimetres, 2)},
	}
	var names []string
	var files, want []*excelize.File
	for name, sizes := range books {
		data := plainWorkbookOf(t, sizes...)
		names, files, want = append(names, name), append(files, openWorkbook(t, data)), append(want, openWorkbook(t, data))
	}
	for i, got := range recalculate(t, files...) {
		if n := compareValues(t, names[i], got, want[i]); n < 12 {
			t.Errorf("%s: only %d formulas", names[i], n)
		}
	}
}

// twoSizes is a quilt in two sizes with names that no sheet can have.
func twoSizes(t *testing.T) []Quilt {
	t.Helper()
	one, two := lagoon(t, 1), lagoon(t, 2)
	one.Whole.Size, two.Whole.Size = "it's [big]", "IT'S [BIG]"
	return []Quilt{one, two}
}

// When a reader changes figures, what to buy and what it costs become what the
// program works out for these.
func TestWorkbookFollowsItsFigures(t *testing.T) {
	var files, want []*excelize.File
	for _, u := range []model.Unit{model.Inches, model.Centimetres} {
		before, after := anyCloth(t, u, 3), anyCloth(t, u, 3)
		for i := range before.Fabrics {
			before.Fabrics[i].Fabric = plainCloth(before.Fabrics[i].Fabric)
		}
		f := openWorkbook(t, plainWorkbookOf(t, planned(t, before)))
		for _, c := range after.Fabrics {
			fill(t, f, c.Fabric, u)
		}
		files, want = append(files, f), append(want, openWorkbook(t, plainWorkbookOf(t, after)))
	}
	for i, got := range recalculate(t, files...) {
		if n := compareValues(t, []string{"in", "cm"}[i], got, want[i], buySheet); n < 100 {
			t.Errorf("only %d formulas", n)
		}
	}
}

// fill writes the figures of a fabric into their cells.
func fill(t *testing.T, f *excelize.File, fabric model.Fabric, u model.Unit) {
	t.Helper()
	step, _ := soldIn(fabric.SoldBy.Step, fabric.SoldBy.Unit)
	straight, _ := lengthIn(fabric.Straighten, u)
	c := clothFigures{prefix: fabric.ID}
	setFigure(t, f, c.name(soldBy), step)
	setFigure(t, f, c.name(straighten), straight)
	setFigure(t, f, c.name(shrinkage), float64(fabric.Shrinkage)/10_000)
	if fabric.Price > 0 {
		setFigure(t, f, c.name(price), float64(fabric.Price)/100)
	}
}

// setFigure writes a number into the cell of a name, over what is there.
func setFigure(t *testing.T, f *excelize.File, name string, value float64) {
	t.Helper()
	for _, n := range f.GetDefinedName() {
		if n.Name != name {
			continue
		}
		sheet, cell, _ := strings.Cut(strings.ReplaceAll(n.RefersTo, "$", ""), "!")
		if err := f.SetCellFormula(sheet, cell, ""); err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellValue(sheet, cell, value); err != nil {
			t.Fatal(err)
		}
		return
	}
	t.Fatalf("no cell is called %s", name)
}

// anyCloth is a quilt of many fabrics, planned by hand, whose strips, steps of
// sale and shares are drawn so that many purchases are filled to the tick.
func anyCloth(t *testing.T, u model.Unit, seed int) Quilt {
	t.Helper()
	list := rapid.Custom(func(r *rapid.T) model.CutList {
		list := model.CutList{Title: "Any cloth", Unit: u, Ruler: model.DefaultRuler(u)}
		for i := range 60 {
			list.Fabrics = append(list.Fabrics, anyFabric(r, u, fmt.Sprintf("f%d", i)))
		}
		return list
	}).Example(seed)
	q, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Plain})
	if err != nil {
		t.Fatal(err)
	}
	return Quilt{Quilt: q}
}

func anyFabric(r *rapid.T, u model.Unit, id string) model.FabricCuts {
	steps := []model.ShopCut{
		{Step: model.Yard / 8}, {Step: model.Yard / 3}, {Step: model.Inch, Unit: model.InchesOfCloth}, {Step: model.Yard / 4},
	}
	ruler := model.DefaultRuler(u)
	if u == model.Centimetres {
		steps = []model.ShopCut{
			{Step: 10 * model.Centimetre, Unit: model.CentimetresOfCloth}, {Step: model.Metre / 10, Unit: model.Metres},
			{Step: model.Centimetre, Unit: model.CentimetresOfCloth}, {Step: model.Metre / 4, Unit: model.Metres},
		}
	}
	f := model.Fabric{
		ID: id, UsableWidths: []model.Length{40 * model.Inch, 42 * model.Inch},
		SoldBy:     rapid.SampledFrom(steps).Draw(r, "sold by"),
		Straighten: ruler * model.Length(rapid.IntRange(0, 24).Draw(r, "straighten")),
		Shrinkage:  model.Percent(rapid.SampledFrom([]int64{0, 0, 250, 300, 1000, 2000, 5000, 333}).Draw(r, "shrinkage")),
		Price:      model.Money(rapid.IntRange(0, 4000).Draw(r, "price")),
	}
	cuts := model.FabricCuts{Fabric: f}
	for n := range rapid.IntRange(0, 4).Draw(r, "sizes") {
		cuts.Pieces = append(cuts.Pieces, model.Piece{
			Name: fmt.Sprintf("%s%d", id, n), Along: ruler * model.Length(rapid.IntRange(4, 160).Draw(r, "along")),
			Across: ruler * model.Length(rapid.IntRange(4, 120).Draw(r, "across")), Count: rapid.IntRange(1, 90).Draw(r, "count"),
		})
	}
	return cuts
}

// plainCloth is a fabric without anything that changes what to buy, and
// without a price; its unit of sale stays.
func plainCloth(f model.Fabric) model.Fabric {
	f.Straighten, f.Shrinkage, f.Price = 0, 0, 0
	f.SoldBy.Step = 36 * model.Inch
	if f.SoldBy.PriceUnit() == model.Metres {
		f.SoldBy.Step = model.Metre
	}
	return f
}

// planned is a quilt planned anew, by hand.
func planned(t *testing.T, q Quilt) Quilt {
	t.Helper()
	list := model.CutList{Title: q.Title, Unit: q.Unit, Ruler: q.Ruler}
	for _, f := range q.Fabrics {
		list.Fabrics = append(list.Fabrics, f.FabricCuts)
	}
	one, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Plain})
	if err != nil {
		t.Fatal(err)
	}
	return Quilt{Quilt: one}
}

// With the shop's cut of all fabrics at 1/4 yd, what to buy is what a plan for
// 1/4 yd buys.
func TestWorkbookAtAnotherShopsCut(t *testing.T) {
	eighths, quarters := lampRow(t, model.Yard/8), lampRow(t, model.Yard/4)
	f := openWorkbook(t, workbookOf(t, eighths))
	setFigure(t, f, everyFabric+"_sold_by", 0.25)
	got := recalculate(t, f)[0]
	changed := false
	for i, p := range plansIn(eighths) {
		want := plansIn(quarters)[i].Buy
		held := rawValue(t, got, buySheet, "E"+strconv.Itoa(firstRow+i))
		if number, _ := soldIn(want.Length, model.Yards); !sameValue(held, fmt.Sprint(number)) {
			t.Errorf("%d: buy %s, want %s", i, held, want.Text)
		}
		changed = changed || want != p.Buy
		if said := rawValue(t, got, cuttingSheet, "F"+strconv.Itoa(bandRow(t, got, i))); said != "buy "+want.Text {
			t.Errorf("%d: the cutting list says %q, want buy %s", i, said, want.Text)
		}
	}
	if !changed {
		t.Error("1/4 yd buys what 1/8 yd does; the quilt tests nothing")
	}
}

// bandRow is the row of a workbook's cutting list that the list of a plan
// begins with, the plans counted from 0.
func bandRow(t *testing.T, f *excelize.File, plan int) int {
	t.Helper()
	rows, err := f.GetRows(cuttingSheet)
	if err != nil {
		t.Fatal(err)
	}
	for r, row := range rows {
		if len(row) > 0 && strings.Contains(row[0], "usable width") {
			if plan--; plan < 0 {
				return r + 1
			}
		}
	}
	t.Fatal("there are fewer cutting lists than plans")
	return 0
}

// plansIn are the plans of a quilt, in order.
func plansIn(q Quilt) []yardage.Requirement {
	var plans []yardage.Requirement
	for _, f := range q.Fabrics {
		plans = append(plans, f.Widths...)
	}
	return plans
}

// lampRow is a demo quilt, planned for a shop's cut in yards.
func lampRow(t *testing.T, step model.Length) Quilt {
	t.Helper()
	d, err := quiltfile.ReadDesign("../testdata/quilts/lamp-row.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i := range d.Fabrics {
		d.Fabrics[i].SoldBy.Step = step
	}
	whole, err := d.Work("")
	if err != nil {
		t.Fatal(err)
	}
	list, err := whole.Quilt.CutList()
	if err != nil {
		t.Fatal(err)
	}
	q, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Shared, Work: 1e7})
	if errors.Is(err, glpk.ErrUnavailable) {
		t.Skip("the solver is not in this build")
	}
	if err != nil {
		t.Fatal(err)
	}
	return Quilt{Quilt: q, Whole: whole}
}

// Spare strips are as high as the highest, and a longer list of strips takes
// more cloth.
func TestWorkbookSpareStrips(t *testing.T) {
	f := openWorkbook(t, workbookOf(t, harbour(t)))
	setFigure(t, f, "ink_spare_strips", 3)
	if err := f.SetCellValue(cuttingSheet, "C9", 2); err != nil { // the strip of 2 7/8 in at 40 in
		t.Fatal(err)
	}
	got := recalculate(t, f)[0]
	// 4 1/2 + 4 1/2 + 2 x 2 7/8 = 14 3/4, and 3 x 4 1/2; with 1/2 for
	// straightening it is 28 3/4: 7/8 yd of 31 1/2 in, at 11.99. A plan need not
	// take that; at 42 in it need: 11 7/8 + 13 1/2 + 1/2 = 25 7/8 are 3/4 yd.
	for cell, want := range map[string]string{
		"C5": "28.25", "D5": "28.75", "E5": "0.875", "J5": "10.49", "K5": "no",
		"C6": "25.375", "D6": "25.875", "E6": "0.75", "J6": "8.99", "K6": "yes",
	} {
		if held := rawValue(t, got, buySheet, cell); !sameValue(held, want) {
			t.Errorf("%s holds %s, want %s", cell, held, want)
		}
	}
}
