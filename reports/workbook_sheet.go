package reports

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// headingRow is the row of a sheet's headings, below its title and a line on
// what it is; firstRow is the one below it.
const (
	headingRow = 4
	firstRow   = headingRow + 1
)

// sheet is one sheet, filled from the top. Its rows are gathered, and written
// when the workbook is done: excelize stores the value of a formula only in a
// sheet that is streamed, and streams rows in their order.
type sheet struct {
	*book
	name    string
	columns []column
	rows    []gatheredRow
	row     int // the row being filled, from 1
	current gatheredRow
	merged  [][2]string
	paper   paper
}

// gatheredRow is one row: its cells, and its height in points.
type gatheredRow struct {
	cells  []excelize.Cell
	height float64
}

// column is one column of a sheet's table.
type column struct {
	heading string
	width   float64 // in characters
	look    look
}

// newSheet makes a sheet with a title, a line on what it is, and a table's
// headings, which stay in view and are printed on every page.
func (b *book) newSheet(name, about string, columns []column) *sheet {
	_, err := b.file.NewSheet(name)
	b.do(err)
	s := &sheet{book: b, name: name, columns: columns, row: 1, paper: paperFor(b.first().unit)}
	b.sheets = append(b.sheets, s)
	s.page()
	for i, c := range columns {
		b.do(b.file.SetColWidth(name, columnName(i), columnName(i), c.width))
	}
	s.spread(b.first().heading(), titleLook)
	s.spread(about, aboutLook)
	s.next()
	s.headings(columns)
	s.keepHeadings()
	return s
}

// headings puts a row of headings.
func (s *sheet) headings(columns []column) {
	for i, c := range columns {
		s.put(i, c.heading, headingLook.aligned(c.look.align))
	}
	s.next()
}

// columnName is the letter of a column that is counted from 0.
func columnName(col int) string {
	// The one error is a column beyond what a sheet has, which no table of ours
	// comes near.
	name, _ := excelize.ColumnNumberToName(col + 1)
	return name
}

// cellName is a cell's name; col counts from 0, row from 1.
func cellName(col, row int) string { return fmt.Sprintf("%s%d", columnName(col), row) }

// at is the letter of the column with a heading.
func (s *sheet) at(heading string) string {
	for i, c := range s.columns {
		if c.heading == heading {
			return columnName(i)
		}
	}
	s.do(fmt.Errorf("the sheet %s has no column %q", s.name, heading))
	return "A"
}

// cell is how a formula on another sheet calls a cell of this one, in the
// column with a heading.
func (s *sheet) cell(heading string, row int) string {
	return fmt.Sprintf("%s!$%s$%d", quoted(s.name), s.at(heading), row)
}

// cells are the cells of a column from one row up to another.
func (s *sheet) cells(heading string, from, to int) string {
	return fmt.Sprintf("%s:$%s$%d", s.cell(heading, from), s.at(heading), to-1)
}

// quoted is the name of a sheet as formulas have it.
func quoted(sheet string) string {
	if !strings.ContainsFunc(sheet, func(r rune) bool { return (r < 'A' || r > 'Z') && (r < 'a' || r > 'z') }) {
		return sheet
	}
	return "'" + strings.ReplaceAll(sheet, "'", "''") + "'"
}

// put sets one cell of the current row; col counts from 0. A text is never
// taken for a formula.
func (s *sheet) put(col int, value any, l look) { s.formula(col, "", value, l) }

// formula sets one cell of the current row to a formula and the value that it
// has now.
func (s *sheet) formula(col int, formula string, value any, l look) {
	for len(s.current.cells) <= col {
		s.current.cells = append(s.current.cells, excelize.Cell{})
	}
	s.current.cells[col] = excelize.Cell{StyleID: s.style(l), Formula: formula, Value: value}
	if text, ok := value.(string); ok && col < len(s.columns) {
		s.current.height = max(s.current.height, l.height(text, s.columns[col].width))
	}
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
	s.across(0, len(s.columns)-1, text, l)
	s.next()
}

// across puts one text across columns of the current row.
func (s *sheet) across(from, to int, text string, l look) { s.acrossBy(from, to, "", text, l) }

// acrossBy puts a formula whose value is a text across columns of the current
// row.
func (s *sheet) acrossBy(from, to int, formula, text string, l look) {
	var width float64
	for col := from; col <= to; col++ {
		width += s.columns[col].width
		s.put(col, nil, l)
	}
	height := max(s.current.height, l.height(text, width))
	s.formula(from, formula, text, l)
	s.current.height = height
	if to > from {
		s.merged = append(s.merged, [2]string{cellName(from, s.row), cellName(to, s.row)})
	}
}

// next goes on to the next row. The height of the one before is set, since
// not every program fits rows to wrapped text when it opens a workbook.
func (s *sheet) next() {
	const least, most = 18, 409 // most is what a row may be high
	s.current.height = min(max(s.current.height, least), most)
	s.rows = append(s.rows, s.current)
	s.row, s.current = s.row+1, gatheredRow{}
}

// total is the height of the rows from one up to another.
func (s *sheet) total(from, to int) float64 {
	var sum float64
	for _, row := range s.rows[from-1 : to-1] {
		sum += row.height
	}
	return sum
}

// stream writes the rows.
func (s *sheet) stream() {
	out, err := s.file.NewStreamWriter(s.name)
	if s.do(err); s.err != nil {
		return
	}
	for i, row := range s.rows {
		values := make([]any, len(row.cells))
		for col, c := range row.cells {
			if c.StyleID != 0 || c.Value != nil {
				values[col] = c
			}
		}
		s.do(out.SetRow(cellName(0, i+1), values, excelize.RowOpts{Height: row.height}))
	}
	for _, m := range s.merged {
		s.do(out.MergeCell(m[0], m[1]))
	}
	s.do(out.Flush())
}
