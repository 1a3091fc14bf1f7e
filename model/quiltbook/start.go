package quiltbook

import (
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// The sheets of a starter that are not read.
const (
	helpSheet    = "Start here"
	exampleSheet = "Example"
	listsSheet   = "Lists" // what the drop-down lists have; hidden
)

// On which row the headings of a starter stand, and how many rows below them
// have boxes to write in. The drop-down lists go on as far as a quilt may.
const (
	headingRow = 4
	fabricRows = 20
	cutRows    = 72 // LibreOffice does not print 84 rows that look alike
	rowHeight  = 18 // in points
)

// startDate stands in a starter's properties for the time of writing, so that
// every starter has the same bytes.
const startDate = "2000-01-01T00:00:00Z"

// WriteStart writes a workbook to fill in: a sheet that says how, the sheets
// that [Parse] reads, and an example. It gives the same bytes each time.
func WriteStart(w io.Writer) (err error) {
	s := &starter{file: excelize.NewFile(), styles: map[look]int{}}
	defer func() {
		if e := s.file.Close(); err == nil {
			err = e
		}
	}()
	s.do(s.file.SetDefaultFont(fontFamily))
	s.do(s.file.SetDocProps(&excelize.DocProperties{
		Title: "A quilt to fill in", Subject: "Fabrics and cut pieces of one quilt", Creator: "crossgrain",
		LastModifiedBy: "crossgrain", Language: "en", Created: startDate, Modified: startDate,
	}))
	s.do(s.file.SetAppProps(&excelize.AppProperties{Application: "crossgrain"}))
	for _, name := range []string{helpSheet, quiltSheet, fabricsSheet, cutsSheet, exampleSheet, listsSheet} {
		_, err := s.file.NewSheet(name)
		s.do(err)
	}
	s.do(s.file.DeleteSheet("Sheet1"))
	s.help()
	s.quilt()
	startTable(s, tableStart[model.Fabric]{
		sheet: fabricsSheet, title: "The fabrics",
		about:  "One row for each fabric. Only the label is needed; what is left blank is as the sheet Quilt says.",
		fields: fabricFields, rows: fabricRows, most: model.MaxFabrics,
	})
	startTable(s, tableStart[cutRow]{
		sheet: cutsSheet, title: "The cuts",
		about:  "One row for each size of each fabric, as the blade cuts it: with its seam allowances. Rows may stay blank.",
		fields: cutFields, rows: cutRows, most: model.MaxCuts,
	})
	s.example()
	s.do(s.file.SetSheetVisible(listsSheet, false))
	s.file.SetActiveSheet(0)
	if s.err != nil {
		return s.err
	}
	return s.file.Write(w)
}

// starter is a starter in the making. It keeps the first error.
type starter struct {
	file   *excelize.File
	styles map[look]int
	lists  int // how many columns the sheet of lists has
	err    error
}

func (s *starter) do(err error) {
	if s.err == nil {
		s.err = err
	}
}

// put writes a text into a cell; it is never taken for a formula.
func (s *starter) put(sheet string, a at, text string, l look) {
	if text != "" {
		s.do(s.file.SetCellStr(sheet, a.String(), text))
	}
	s.do(s.file.SetCellStyle(sheet, a.String(), a.String(), s.style(l)))
}

// spread writes a text over some columns of a row.
func (s *starter) spread(sheet string, row, columns int, text string, l look) {
	first, last := at{row, 1}, at{row, columns}
	s.do(s.file.SetCellStr(sheet, first.String(), text))
	s.do(s.file.SetCellStyle(sheet, first.String(), last.String(), s.style(l)))
	s.do(s.file.MergeCell(sheet, first.String(), last.String()))
}

// helpLines are what the first sheet says; a line of two parts is a heading.
var helpLines = []struct{ label, says string }{
	{"How to fill it in", ""},
	{"1  Quilt", "Choose inches or centimetres first, then give the quilt a title. What you leave blank is as the sheet says."},
	{"2  Fabrics", "One row for each fabric, with a short label of your own, such as ink. Measure the usable width of your cloth between the selvages."},
	{"3  Cuts", "One row for each size that you cut: its label, its fabric, width and height as the blade cuts them (seam allowances and all), and how many. Leave the height blank for a square."},
	{"4  Save", "Save the file as .xlsx, close it, and type in a terminal: crossgrain plan NAME.xlsx (with the name of this file). It says what to buy and how to cut it."},
	{"If it cannot be read", "The program names the cell, as in Cuts!C7: the sheet Cuts, column C, row 7. Mend what it says there, save, and run it again."},
	{"How to write a size", ""},
	{"In inches", `2 1/2, 2-1/2, 2½, 2.5 and 2 1/2" are all the same.`},
	{"In centimetres", "6.5 with a point. A size in the other unit has its unit behind it: 6.5 cm."},
	{"Both sides in one", "2 1/2 x 4 1/2 in the column Width will do too; then leave the height blank."},
	{"A date appears?", "The cream boxes keep what you type. Elsewhere a spreadsheet may turn 1/2 into a date: type '1/2 there, with the apostrophe."},
	{"Good to know", ""},
	{"Full-width strips", "Binding and other strips are pieces too: 40 x 2 1/2 with the count of strips, no longer than the narrowest usable width. What the joins take is yours to add."},
	{"Triangles", "Write the square that is cut, count the squares, and choose once or twice under Halve."},
	{"Your own notes", "Blank rows, further sheets and columns right of the table are yours: they are not read. The sheet Example is not read either; delete it if you like."},
	{"Headings", "Do not rename the sheets Quilt, Fabrics and Cuts, nor the headings. You may move columns and hide them."},
}

func (s *starter) help() {
	s.do(s.file.SetColWidth(helpSheet, "A", "A", 22))
	s.do(s.file.SetColWidth(helpSheet, "B", "B", 76))
	s.spread(helpSheet, 1, 2, "A quilt to fill in", titleLook)
	s.do(s.file.SetRowHeight(helpSheet, 1, 30))
	row := 3
	for _, line := range helpLines {
		if line.says == "" {
			if row > 3 {
				row++
			}
			s.spread(helpSheet, row, 2, line.label, bandLook)
			s.do(s.file.SetRowHeight(helpSheet, row, 22))
		} else {
			s.put(helpSheet, at{row, 1}, line.label, strongLook)
			s.put(helpSheet, at{row, 2}, line.says, textLook)
			s.do(s.file.SetRowHeight(helpSheet, row, heightOf(line.says, 76)))
		}
		row++
	}
	s.page(helpSheet, "portrait", 0)
}

// quilt makes the sheet on the whole quilt: what each line is called, a box,
// what it is if the box stays blank, and what it says.
func (s *starter) quilt() {
	for i, width := range []float64{18, 24, 24, 62} {
		name := columnName(i + 1)
		s.do(s.file.SetColWidth(quiltSheet, name, name, width))
	}
	s.spread(quiltSheet, 1, 4, "The quilt", titleLook)
	s.do(s.file.SetRowHeight(quiltSheet, 1, 30))
	s.spread(quiltSheet, 2, 4, "Write in the cream boxes. Only the unit is needed.", aboutLook)
	for i, heading := range []string{"What", "Write here", "If it stays blank", "What it says"} {
		s.put(quiltSheet, at{headingRow, i + 1}, heading, headingLook)
	}
	s.do(s.file.SetRowHeight(quiltSheet, headingRow, 22))
	row := quiltLines(s, headingRow+1, quiltFields)
	s.spread(quiltSheet, row, 4, "For every fabric that says nothing else on the sheet Fabrics", bandLook)
	s.do(s.file.SetRowHeight(quiltSheet, row, 22))
	quiltLines(s, row+1, defaultFields)
	unit := at{headingRow + 1, 2}
	s.do(s.file.SetCellStr(quiltSheet, unit.String(), "in"))
	s.page(quiltSheet, "landscape", 0)
}

// quiltLines fills the lines from a row on, and gives the row after them.
func quiltLines[T any](s *starter, row int, fields []field[T]) int {
	for _, f := range fields {
		s.put(quiltSheet, at{row, 1}, f.heading, strongLook)
		s.put(quiltSheet, at{row, 2}, "", inputLook)
		s.put(quiltSheet, at{row, 3}, f.hint, paleLook)
		s.put(quiltSheet, at{row, 4}, f.note, textLook)
		s.do(s.file.SetRowHeight(quiltSheet, row, heightOf(f.note, 62)))
		s.choose(quiltSheet, at{row, 2}.String(), f.choices, f.open)
		s.do(s.file.AddIgnoredErrors(quiltSheet, at{row, 2}.String(), excelize.IgnoredErrorsNumberStoredAsText))
		row++
	}
	return row
}

// tableStart is a sheet with a table to fill in.
type tableStart[T any] struct {
	sheet, title, about string
	fields              []field[T]
	rows, most          int // with boxes, and with drop-down lists
}

func startTable[T any](s *starter, t tableStart[T]) {
	columns := len(t.fields)
	for i, f := range t.fields {
		// Below the boxes, too, what is typed stays as it is typed.
		l := lookOf(f.name)
		l.boxed, l.fill = false, ""
		s.do(s.file.SetColStyle(t.sheet, columnName(i+1), s.style(l)))
	}
	s.spread(t.sheet, 1, columns, t.title, titleLook)
	s.do(s.file.SetRowHeight(t.sheet, 1, 30))
	s.spread(t.sheet, 2, columns, t.about, aboutLook)
	s.do(s.file.SetRowHeight(t.sheet, 3, 40))
	for i, f := range t.fields {
		name := columnName(i + 1)
		first, last := at{headingRow + 1, i + 1}, at{headingRow + t.most, i + 1}
		cells := first.String() + ":" + last.String()
		s.do(s.file.SetColWidth(t.sheet, name, name, f.width))
		l := lookOf(f.name)
		for row := range t.rows {
			s.put(t.sheet, at{first.row + row, i + 1}, "", l)
		}
		hint := hintLook
		hint.align = l.align
		s.put(t.sheet, at{3, i + 1}, f.hint, hint)
		s.heading(t.sheet, at{headingRow, i + 1}, f.heading, f.note, l.align)
		if f.name == model.FieldFabric {
			s.chooseFabric(t.sheet, cells)
		} else {
			s.choose(t.sheet, cells, f.choices, f.open)
		}
		s.do(s.file.AddIgnoredErrors(t.sheet, cells, excelize.IgnoredErrorsNumberStoredAsText))
	}
	s.do(s.file.SetRowHeight(t.sheet, headingRow, 22))
	for row := range t.rows {
		s.do(s.file.SetRowHeight(t.sheet, headingRow+1+row, rowHeight))
	}
	s.page(t.sheet, "landscape", headingRow)
}

// heading writes the heading of a column, with a note.
func (s *starter) heading(sheet string, a at, text, note, align string) {
	l := headingLook
	l.align = align
	s.put(sheet, a, text, l)
	s.do(s.file.AddComment(sheet, excelize.Comment{
		Cell: a.String(), Author: "crossgrain", Width: 260, Height: uint(30 + heightOf(note, 34)),
		Paragraph: []excelize.RichTextRun{{Text: note, Font: &excelize.Font{Family: fontFamily, Size: fontSize - 1}}},
	}))
}

// choose gives cells a drop-down list, which stands on the sheet of lists: a
// list in the cell itself is cut off by some programs, or at its commas.
func (s *starter) choose(sheet, cells string, choices []string, open bool) {
	if len(choices) == 0 {
		return
	}
	s.lists++
	for i, c := range choices {
		s.put(listsSheet, at{i + 1, s.lists}, c, textCellLook)
	}
	name := columnName(s.lists)
	v := excelize.NewDataValidation(true)
	v.SetSqref(cells)
	v.SetSqrefDropList(fmt.Sprintf("%s!$%s$1:$%s$%d", listsSheet, name, name, len(choices)))
	if !open {
		v.SetError(excelize.DataValidationErrorStyleStop, "Not in the list", "Choose from the list, or leave the cell blank.")
	}
	v.ShowErrorMessage = !open
	s.do(s.file.AddDataValidation(sheet, v))
}

// chooseFabric gives cells a list of the labels that the sheet of fabrics has
// by then.
func (s *starter) chooseFabric(sheet, cells string) {
	first, last := headingRow+1, headingRow+model.MaxFabrics
	v := excelize.NewDataValidation(true)
	v.SetSqref(cells)
	v.SetSqrefDropList(fmt.Sprintf("OFFSET(%s!$A$%d,0,0,MAX(1,COUNTA(%[1]s!$A$%[2]d:$A$%d)),1)", fabricsSheet, first, last))
	v.SetError(excelize.DataValidationErrorStyleWarning, "No such fabric yet", "The sheet Fabrics has no fabric of this label.")
	s.do(s.file.AddDataValidation(sheet, v))
}
