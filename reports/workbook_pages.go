package reports

import (
	"fmt"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// The margins of a page, in inches.
const (
	sideMargin = 0.6
	endMargin  = 0.75
)

// paper is a size of paper: its number in a workbook, and its sides in points
// when it stands upright.
type paper struct {
	code          int
	width, height float64
}

// sideways is the paper laid on its side.
func (p paper) sideways() paper { return paper{p.code, p.height, p.width} }

// paperFor is Letter for quilts in inches and A4 for those in centimetres.
func paperFor(u model.Unit) paper {
	if u == model.Centimetres {
		return paper{9, 595, 842}
	}
	return paper{1, 612, 792}
}

// pointsPerInch is what typographers count.
const pointsPerInch = 72

// pages says where the pages of a sheet end. A program that fits a
// sheet to the width of a page need not heed breaks, so that the sheet is
// scaled by a number of ours instead.
type pages struct {
	*sheet
	room    float64 // on a page, in points of the sheet
	heading float64 // what the headings take that each page repeats
	used    float64 // of the current page
}

// slack is the share of a page that is planned with: programs differ a little
// in the widths of columns and the heights of rows.
const slack = 0.94

// A digit of the workbook's font has so many pixels; where that font is
// missing, the one that stands in for it may be wider by one.
const (
	digitPixels     = 8
	wideDigitPixels = 9
	screenDPI       = 96 // pixels to an inch
)

// points is how wide a column of so many characters is: that many digits, and
// 5 pixels.
func points(characters, digit float64) float64 {
	return (characters*digit + 5) * pointsPerInch / screenDPI
}

// newPages scales the sheet to the page and counts its rows so far.
func (s *sheet) newPages() *pages {
	var width float64
	for _, c := range s.columns {
		width += points(c.width, wideDigitPixels)
	}
	percent := uint(min(100, 100*(s.paper.width-2*sideMargin*pointsPerInch)/width))
	fit := false
	s.do(s.file.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	s.do(s.file.SetPageLayout(s.name, &excelize.PageLayoutOptions{AdjustTo: &percent}))
	p := &pages{sheet: s, heading: s.rows[headingRow-1].height}
	p.room = slack * (s.paper.height - 2*endMargin*pointsPerInch) * 100 / float64(percent)
	p.used = p.total(1, s.row)
	return p
}

// together keeps the blocks of rows that begin at the rows given, down to the
// last row filled, on one page, if they fit on one; if not, each block by itself.
func (p *pages) together(starts ...int) {
	last := len(starts) - 1
	if last < 0 {
		return
	}
	if last > 0 && p.heading+p.total(starts[0], p.row) > p.room {
		for i, from := range starts[:last] {
			p.keep(from, starts[i+1])
		}
		starts = starts[last:]
	}
	p.keep(starts[0], p.row)
}

// keep begins a page at the rows from one up to another, if they would not fit
// on the current page and do fit on a new one.
func (p *pages) keep(from, to int) {
	total := p.total(from, to)
	if p.used+total > p.room && p.heading+total <= p.room {
		p.do(p.file.InsertPageBreak(p.name, fmt.Sprintf("A%d", from)))
		p.used = p.heading
	}
	for _, row := range p.rows[from-1 : to-1] {
		if p.used+row.height > p.room {
			p.used = p.heading
		}
		p.used += row.height
	}
}
