package reports

import (
	"fmt"

	"codeberg.org/go-pdf/fpdf"

	"crossgrain/model"
	"crossgrain/reports/drawing"
)

// Sizes of a printed page, in points.
const (
	sheetSide   = 46
	sheetTop    = 46
	sheetBottom = 54 // with the page number
	bodySize    = 9.5
	lineSpace   = 1.36
)

// sheetPage is a printed document in the making: it is written from the top
// down, and a new page begins where there is no room left. Sizes are in points.
type sheetPage struct {
	pdf           *fpdf.Fpdf
	width, height float64 // of the page
	y             float64
	title         string
}

// ink is how a text of a document looks.
type ink struct {
	size float64
	bold bool
	tone drawing.Tone
}

var (
	bodyInk  = ink{size: bodySize, tone: drawing.Ink}
	boldInk  = ink{size: bodySize, bold: true, tone: drawing.Ink}
	smallInk = ink{size: 8, tone: drawing.Grey}
)

func newSheetPage(title string, p paper) *sheetPage {
	s := &sheetPage{pdf: drawing.NewPDF(title, p.width, p.height), width: p.width, height: p.height, title: title}
	s.pdf.SetSubject("What to buy and how to cut", true)
	s.page()
	return s
}

// page begins a new page.
func (s *sheetPage) page() {
	s.pdf.AddPage()
	s.y = sheetTop
}

// inner is the width between the margins.
func (s *sheetPage) inner() float64 { return s.width - 2*sheetSide }

// bottom is where a page ends.
func (s *sheetPage) bottom() float64 { return s.height - sheetBottom }

// ensure begins a new page if there is no room for a height. Nothing is done at
// the top of a page.
func (s *sheetPage) ensure(height float64) {
	if s.y+height > s.bottom() && s.y > sheetTop {
		s.page()
	}
}

func (s *sheetPage) space(height float64) {
	if s.y > sheetTop {
		s.y += height
	}
}

// textScale is how finely texts are measured: in hundredths of a point.
const textScale = 100

// textPoints is how wide a text is, in points.
func textPoints(text string, i ink) float64 {
	return float64(drawing.TextWidth(words(text), model.Length(i.size*textScale), i.bold)) / textScale
}

// lines breaks a text into lines no wider than the width.
func lines(text string, width float64, i ink) []string {
	return wrapBy(text, int(width*textScale), func(s string) int { return int(textPoints(s, i) * textScale) })
}

// text writes one line with its base line at y.
func (s *sheetPage) text(x, y float64, text string, i ink) {
	style := ""
	if i.bold {
		style = "B"
	}
	s.pdf.SetFont(drawing.FontFamily, style, i.size)
	s.pdf.SetTextColor(int(i.tone), int(i.tone), int(i.tone))
	s.pdf.Text(x, y, drawing.Printable(words(text)))
}

// paragraph writes a text from x on, broken into lines.
func (s *sheetPage) paragraph(x float64, text string, i ink) {
	for _, l := range lines(text, s.width-sheetSide-x, i) {
		s.ensure(i.size * lineSpace)
		s.text(x, s.y+i.size, l, i)
		s.y += i.size * lineSpace
	}
}

// hang writes a paragraph behind a lead.
func (s *sheetPage) hang(lead string, indent float64, text string, i ink) {
	s.ensure(i.size * lineSpace)
	s.text(sheetSide, s.y+i.size, lead, i)
	s.paragraph(sheetSide+indent, text, i)
	s.y += 2
}

// heading is a line of its own, kept together with a height that follows. It is
// a bookmark of its level too.
func (s *sheetPage) heading(text string, level int, follows float64) {
	i := ink{size: []float64{22, 15, 12, 10.5}[level], bold: true, tone: drawing.Ink}
	all := lines(text, s.inner(), i)
	s.space([]float64{0, 16, 12, 8}[level])
	s.ensure(float64(len(all))*i.size*lineSpace + 4 + follows)
	s.pdf.Bookmark(drawing.Printable(words(text)), level, s.y)
	for _, l := range all {
		s.text(sheetSide, s.y+i.size, l, i)
		s.y += i.size * 1.25
	}
	if level == 1 {
		s.rule(s.y+1, 0.8)
		s.y += 3
	}
	s.y += 4
}

// rule is a line from margin to margin.
func (s *sheetPage) rule(y, width float64) {
	s.pdf.SetDrawColor(int(drawing.Grey), int(drawing.Grey), int(drawing.Grey))
	s.pdf.SetLineWidth(width)
	s.pdf.Line(sheetSide, y, s.width-sheetSide, y)
}

// tickBox is a box to tick, beside a line of body text that begins at y.
func (s *sheetPage) tickBox(x, y float64) {
	s.pdf.SetDrawColor(int(drawing.Ink), int(drawing.Ink), int(drawing.Ink))
	s.pdf.SetLineWidth(0.8)
	s.pdf.Rect(x, y+1.5, 8, 8, "D")
}

// place puts a drawing at x; the page goes on below it.
func (s *sheetPage) place(d drawing.Drawing, x float64) {
	_, height := d.Size()
	s.ensure(float64(height))
	drawing.Place(s.pdf, d, x, s.y)
	s.y += float64(height)
}

// captionWidth is the least room of a caption.
const captionWidth = 84

// captioned is the width of a drawing with its caption, and the caption in lines;
// a long one is cut off.
func captioned(f figure) (width float64, caption []string) {
	const most = 2
	w, _ := f.Size()
	width = max(float64(w), captionWidth)
	caption = lines(f.caption, width, smallInk)
	if len(caption) > most {
		caption = append(caption[:most-1], title(caption[most-1]+" "+caption[most], width-8))
	}
	return width, caption
}

// figures puts drawings in rows, each with its caption below.
func (s *sheetPage) figures(all []figure) {
	const gap, caption = 14, 22
	for len(all) > 0 {
		x, n := float64(sheetSide), 0
		for _, f := range all {
			width, _ := captioned(f)
			if n > 0 && x+width > s.width-sheetSide {
				break
			}
			x, n = x+width+gap, n+1
		}
		tall := tallest(all[:n])
		s.ensure(tall + caption + gap)
		x = sheetSide
		for _, f := range all[:n] {
			width, words := captioned(f)
			_, height := f.Size()
			drawing.Place(s.pdf, f.Drawing, x, s.y+tall-float64(height))
			for i, line := range words {
				s.text(x, s.y+tall+9+float64(i)*10, line, smallInk)
			}
			x += width + gap
		}
		s.y += tall + caption + gap
		all = all[n:]
	}
}

// tallest is the height of the tallest of some drawings.
func tallest(all []figure) float64 {
	most := 0
	for _, f := range all {
		_, height := f.Size()
		most = max(most, height)
	}
	return float64(most)
}

// sheetColumn is a column of a table. A width of 0 shares what the others leave.
type sheetColumn struct {
	heading string
	width   float64
	right   bool
	bold    bool
}

// table writes rows under headings, which each page repeats.
func (s *sheetPage) table(columns []sheetColumn, rows [][]string) {
	s.rows(s.fitted(columns, rows), rows)
}

// cellPad is the room on each side of a cell.
const cellPad = 5

// rows is a table whose columns have their widths.
func (s *sheetPage) rows(columns []sheetColumn, rows [][]string) {
	var headings []string
	for _, c := range columns {
		headings = append(headings, c.heading)
	}
	head := s.broken(columns, headings, true)
	for r, row := range rows {
		cells := s.broken(columns, row, false)
		if r == 0 {
			s.ensure(head.height + cells.height)
			s.row(columns, head)
		} else if s.y+cells.height > s.bottom() && s.y > sheetTop {
			s.page()
			s.row(columns, head)
		} else {
			s.rule(s.y-1, 0.25)
		}
		s.row(columns, cells)
	}
	s.y += 6
}

// sheetRow is a row of a table: the lines of each cell.
type sheetRow struct {
	cells  [][]string
	height float64
	head   bool
}

// broken breaks the cells of a row into lines.
func (s *sheetPage) broken(columns []sheetColumn, row []string, head bool) sheetRow {
	r, most := sheetRow{head: head}, 1
	for i, c := range columns {
		cell := lines(row[i], c.width-2*cellPad, ink{size: bodySize, bold: c.bold || head})
		r.cells, most = append(r.cells, cell), max(most, len(cell))
	}
	r.height = float64(most)*bodySize*lineSpace + 3
	return r
}

// row writes a row; a head is ruled off.
func (s *sheetPage) row(columns []sheetColumn, r sheetRow) {
	x := float64(sheetSide)
	for i, c := range columns {
		for n, line := range r.cells[i] {
			y := s.y + 1 + float64(n)*bodySize*lineSpace
			s.cell(x+cellPad, y, c.width-2*cellPad, line, ink{bodySize, c.bold || r.head, drawing.Ink}, c.right)
		}
		x += c.width
	}
	s.y += r.height
	if r.head {
		s.rule(s.y-1, 0.6)
	}
}

// fitted gives each column the width that its cells take, up to its own, and the
// rest to those that have none.
func (s *sheetPage) fitted(columns []sheetColumn, rows [][]string) []sheetColumn {
	fitted := append([]sheetColumn(nil), columns...)
	left, open := s.inner(), 0
	for i, c := range columns {
		if c.width == 0 {
			open++
			continue
		}
		need := textPoints(c.heading, boldInk)
		for _, row := range rows {
			need = max(need, textPoints(row[i], ink{size: bodySize, bold: c.bold}))
		}
		fitted[i].width = min(need+2*cellPad+1, c.width)
		left -= fitted[i].width
	}
	for i, c := range columns {
		if c.width == 0 {
			fitted[i].width = max(left/float64(open), 60)
		}
	}
	return fitted
}

// cell writes a line into a cell whose upper edge is at y.
func (s *sheetPage) cell(x, y, width float64, text string, i ink, right bool) {
	if right {
		x += width - textPoints(text, i)
	}
	s.text(x, y+i.size, text, i)
}

// numbers writes the title and the number of the page at the foot of each.
func (s *sheetPage) numbers() {
	n := s.pdf.PageCount()
	short := title(s.title, s.inner()-120)
	for page := 1; page <= n; page++ {
		s.pdf.SetPage(page)
		// The font on this page may be another than the last one set.
		s.pdf.SetFont(drawing.FontFamily, "", 1)
		number := fmt.Sprintf("Page %d of %d", page, n)
		s.text(sheetSide, s.height-30, short, smallInk)
		s.text(s.width-sheetSide-textPoints(number, smallInk), s.height-30, number, smallInk)
	}
}

// title is a title cut off where it is too wide for its line.
func title(text string, width float64) string {
	first := lines(text, width, smallInk)
	if len(first) > 1 {
		return first[0] + " …"
	}
	return text
}
