package quiltbook

import (
	"archive/zip"
	"bytes"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// starterFile is a starter, opened to be filled in.
func starterFile(t testing.TB) *excelize.File {
	t.Helper()
	var b bytes.Buffer
	if err := WriteStart(&b); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { must(t, f.Close()) })
	return f
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// saved is the workbook as a file has it.
func saved(t testing.TB, f *excelize.File) []byte {
	t.Helper()
	var b bytes.Buffer
	must(t, f.Write(&b))
	return b.Bytes()
}

// quiltCells are the cells of the sheet on the whole quilt.
var quiltCells = map[string]string{
	"Unit": "B5", "Title": "B6", "Ruler": "B7",
	"Usable widths": "B9", "Sold by": "B10", "Straighten": "B11", "Shrinkage": "B12", "Price": "B13",
}

// write puts values into cells, "Cuts!C7" and the like, as texts if they are
// texts.
func write(t testing.TB, f *excelize.File, cells map[string]any) {
	t.Helper()
	for place, value := range cells {
		sheet, cell, _ := strings.Cut(place, "!")
		must(t, f.SetCellValue(sheet, cell, value))
	}
}

// filled is a starter filled in with a quilt, every cell as its maker would
// type it.
func filled(t testing.TB, q model.Quilt) *excelize.File {
	t.Helper()
	f := starterFile(t)
	cells := map[string]any{
		"Quilt!" + quiltCells["Unit"]:  q.Unit.String(),
		"Quilt!" + quiltCells["Title"]: q.Title,
		"Quilt!" + quiltCells["Ruler"]: q.Ruler.Written(q.Unit),
	}
	yes := map[bool]string{true: "yes", false: ""}
	for i, fabric := range q.Fabrics {
		row := strconv.Itoa(headingRow + 1 + i)
		var widths []string
		for _, w := range fabric.UsableWidths {
			widths = append(widths, w.Written(q.Unit))
		}
		for column, value := range map[string]string{
			"A": fabric.ID, "B": fabric.Name, "C": yes[fabric.OneWay], "D": strings.Join(widths, ", "),
			"E": fabric.SoldBy.String(), "F": fabric.Straighten.Written(q.Unit), "G": fabric.Shrinkage.String(),
			"H": fabric.Price.String(),
		} {
			cells["Fabrics!"+column+row] = value
		}
	}
	for i, c := range q.Cuts {
		row := strconv.Itoa(headingRow + 1 + i)
		height := c.Height.Written(q.Unit)
		if c.Height == c.Width {
			height = ""
		}
		turn := ""
		if c.NoTurn {
			turn = "no"
		}
		for column, value := range map[string]string{
			"A": c.Name, "B": c.Fabric, "C": c.Width.Written(q.Unit), "D": height,
			"F": c.Halve.String(), "G": c.Use, "H": turn, "I": c.Grain.String(),
		} {
			cells["Cuts!"+column+row] = value
		}
		cells["Cuts!E"+row] = c.Count
	}
	write(t, f, cells)
	return f
}

// parts are the parts of a workbook, by their names.
func parts(t testing.TB, data []byte) map[string]string {
	t.Helper()
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	all := make(map[string]string)
	for _, f := range r.File {
		part, err := f.Open()
		must(t, err)
		text, err := io.ReadAll(part)
		must(t, err)
		all[f.Name] = string(text)
	}
	return all
}

// archived is a workbook of parts.
func archived(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		part, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		must(t, err)
		_, err = io.WriteString(part, parts[name])
		must(t, err)
	}
	must(t, w.Close())
	return b.Bytes()
}

// rewritten is a workbook with another part in the place of a sheet's.
func rewritten(t testing.TB, data []byte, sheet string, change func(string) string) []byte {
	t.Helper()
	b, err := openWorkbook(data)
	must(t, err)
	part, err := b.sheet(sheet)
	must(t, err)
	all := parts(t, data)
	all[part.part] = change(all[part.part])
	return archived(t, all)
}

// smallFiles keeps the file of small, which takes a while to make.
var smallFiles sync.Map

// smallFile is small as a file.
func smallFile(t testing.TB) []byte {
	t.Helper()
	data, there := smallFiles.Load("")
	if !there {
		data, _ = smallFiles.LoadOrStore("", saved(t, small(t)))
	}
	return bytes.Clone(data.([]byte))
}

// small is a starter filled in with one fabric and one cut.
func small(t testing.TB) *excelize.File {
	t.Helper()
	f := starterFile(t)
	write(t, f, map[string]any{
		"Fabrics!A5": "ink", "Cuts!A5": "A", "Cuts!B5": "ink", "Cuts!C5": "2 1/2", "Cuts!E5": 3,
	})
	return f
}
