package quiltbook

import (
	"strconv"

	"crossgrain/model"
)

// The rows of the example, under the headings of the sheets. It is the quilt of
// the quilt file that start writes.
var (
	exampleFabrics = [][]string{
		{"dusk", "Dusk blue"},
		{"lamp", "Lamp stripe", "yes", "", "1/4 yd"},
	}
	exampleCuts = [][]string{
		{"A", "dusk", "5", "7 1/2", "7", "", "panels"},
		{"B", "lamp", "5", "2 1/2", "3", "", "hanging tabs"},
		{"C", "dusk", "3 7/8", "", "10", "once", "corners"},
		{"D", "lamp", "3 1/2", "36 1/2", "2", "", "side borders", "", "lengthwise"},
	}
)

// example shows a filled-in quilt.
func (s *starter) example() {
	widths := []float64{12, 22, 12, 16, 12, 12, 24, 10, 13}
	for i, width := range widths {
		name := columnName(i + 1)
		s.do(s.file.SetColWidth(exampleSheet, name, name, width))
	}
	columns := len(widths)
	s.spread(exampleSheet, 1, columns, "An example", titleLook)
	s.do(s.file.SetRowHeight(exampleSheet, 1, 30))
	s.spread(exampleSheet, 2, columns, "So a small quilt is filled in. This sheet is not read.", aboutLook)
	row := exampleTable(s, 4, columns, "On the sheet Fabrics", fabricFields, exampleFabrics)
	exampleTable(s, row+1, columns, "On the sheet Cuts", cutFields, exampleCuts)
	s.page(exampleSheet, "landscape", 0)
}

// exampleTable shows a table from a row on, and gives the row after it.
func exampleTable[T any](s *starter, row, columns int, title string, fields []field[T], rows [][]string) int {
	s.spread(exampleSheet, row, columns, title, bandLook)
	s.do(s.file.SetRowHeight(exampleSheet, row, 22))
	row++
	for i, f := range fields {
		l := headingLook
		l.align = lookOf(f.name).align
		s.put(exampleSheet, at{row, i + 1}, f.heading, l)
	}
	s.do(s.file.SetRowHeight(exampleSheet, row, 22))
	for _, cells := range rows {
		row++
		s.do(s.file.SetRowHeight(exampleSheet, row, rowHeight))
		for i, f := range fields {
			text := ""
			if i < len(cells) {
				text = cells[i]
			}
			s.put(exampleSheet, at{row, i + 1}, text, lookOf(f.name))
			if count, err := strconv.Atoi(text); err == nil && f.name == model.FieldCount {
				s.do(s.file.SetCellInt(exampleSheet, at{row, i + 1}.String(), int64(count)))
			}
		}
	}
	return row + 1
}
