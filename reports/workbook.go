package reports

import (
	"io"

	"github.com/xuri/excelize/v2"
)

// The sheets, in order.
const (
	buySheet         = "Buy"
	cuttingSheet     = "Cutting"
	piecesSheet      = "Pieces"
	assumptionsSheet = "Assumptions"
)

// workbookDate stands in a workbook's properties for the time of writing, so
// that the same quilt gives the same file.
const workbookDate = "2000-01-01T00:00:00Z"

// WriteWorkbook writes the quilt as an .xlsx workbook: what to buy, the
// cutting list, the pieces, of a design how it is made, and what was assumed.
// The same quilt gives the
// same bytes.
func WriteWorkbook(w io.Writer, q Quilt) (err error) {
	b := &book{file: excelize.NewFile(), styles: map[look]int{}}
	defer func() {
		if e := b.file.Close(); err == nil {
			err = e
		}
	}()
	rows := newRows(q)
	b.properties(rows)
	b.buy(rows)
	b.cutting(rows)
	b.pieces(rows)
	b.making(rows)
	b.assumptions(rows)
	return b.finish(w)
}

// finish writes the workbook.
func (b *book) finish(w io.Writer) error {
	b.do(b.file.DeleteSheet("Sheet1"))
	b.file.SetActiveSheet(0)
	if b.err != nil {
		return b.err
	}
	return b.file.Write(w)
}

// book is a workbook in the making. It keeps the first error; after one,
// nothing more is done.
type book struct {
	file   *excelize.File
	styles map[look]int
	err    error
}

func (b *book) do(err error) {
	if b.err == nil {
		b.err = err
	}
}

func (b *book) properties(q quiltRows) {
	b.do(b.file.SetDefaultFont(fontFamily))
	b.do(b.file.SetDocProps(&excelize.DocProperties{
		Title: q.heading(), Subject: "What to buy and how to cut", Creator: "crossgrain",
		LastModifiedBy: "crossgrain", Language: "en",
		Created: workbookDate, Modified: workbookDate,
	}))
	b.do(b.file.SetAppProps(&excelize.AppProperties{Application: "crossgrain"}))
}

// sheet is one sheet, filled from the top.
type sheet struct {
	*book
	name    string
	columns []column
	row     int     // the row being filled, from 1
	height  float64 // what its cells need so far, in points
	heights []float64
	paper   paper
}

// column is one column of a sheet's table.
type column struct {
	heading string
	width   float64 // in characters
	look    look
}

// newSheet makes a sheet with a title, a line on what it is, and a table's
// headings, which stay in view and are printed on every page.
func (b *book) newSheet(name string, q quiltRows, about string, columns []column) *sheet {
	_, err := b.file.NewSheet(name)
	b.do(err)
	s := &sheet{book: b, name: name, columns: columns, row: 1, paper: paperFor(q.unit)}
	s.page()
	for i, c := range columns {
		col, err := excelize.ColumnNumberToName(i + 1)
		b.do(err)
		b.do(b.file.SetColWidth(name, col, col, c.width))
	}
	s.spread(q.heading(), titleLook)
	s.spread(about, aboutLook)
	s.next()
	for i, c := range columns {
		s.put(i, c.heading, headingLook.aligned(c.look.align))
	}
	s.keepHeadings()
	s.next()
	return s
}

// put sets one cell of the current row; col counts from 0. A text is never
// taken for a formula.
func (s *sheet) put(col int, value any, l look) {
	cell, err := excelize.CoordinatesToCellName(col+1, s.row)
	s.do(err)
	if text, ok := value.(string); ok {
		s.do(s.file.SetCellStr(s.name, cell, text))
		s.height = max(s.height, l.height(text, s.columns[col].width))
	} else {
		s.do(s.file.SetCellValue(s.name, cell, value))
	}
	s.do(s.file.SetCellStyle(s.name, cell, cell, s.style(l)))
}

// fill puts a row's values under the columns, each in its column's look, and
// goes on to the next row.
func (s *sheet) fill(values ...any) {
	for i, v := range values {
		s.put(i, v, s.columns[i].look)
	}
	s.next()
}

// spread puts one text across all columns and goes on to the next row.
func (s *sheet) spread(text string, l look) {
	var width float64
	for _, c := range s.columns {
		width += c.width
	}
	first, err := excelize.CoordinatesToCellName(1, s.row)
	s.do(err)
	last, err := excelize.CoordinatesToCellName(len(s.columns), s.row)
	s.do(err)
	s.do(s.file.SetCellStr(s.name, first, text))
	s.do(s.file.SetCellStyle(s.name, first, last, s.style(l)))
	s.do(s.file.MergeCell(s.name, first, last))
	s.height = l.height(text, width)
	s.next()
}

// next goes on to the next row. The height of the one before is set, since
// not every program fits rows to wrapped text when it opens a workbook.
func (s *sheet) next() {
	const least, most = 18, 409 // most is what a row may be high
	height := min(max(s.height, least), most)
	s.do(s.file.SetRowHeight(s.name, s.row, height))
	s.heights = append(s.heights, height)
	s.row, s.height = s.row+1, 0
}
