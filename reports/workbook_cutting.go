package reports

import (
	"fmt"
	"strings"
	"unicode/utf16"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// The columns of the sheet of cutting, counted from 0.
const (
	doneColumn = iota
	numberColumn
	stripsColumn
	heightColumn
	fromColumn
	offcutColumn
	takesColumn
	clothColumn
)

// cutting makes the sheets to take to the cutting table, one for each size.
func (b *book) cutting() {
	taken := map[string]bool{}
	for _, s := range []string{sizesSheet, buySheet, piecesSheet, trimSheet, widthsSheet, assumptionsSheet} {
		taken[strings.ToLower(s)] = true
	}
	for size, q := range b.sizes {
		name, about := cuttingSheet, "Cutting, strip by strip, the highest first."
		if b.several() {
			name = sheetName(cuttingSheet+" "+q.design.size, taken)
		}
		if said := q.design.about(); said != "" {
			about += " " + said
		}
		b.cuttingSheet(name, about, size)
	}
}

// sheetName makes a sheet's name of a text: not too long, without what no name
// may have, and no other's. Names differ in more than capitals.
func sheetName(text string, taken map[string]bool) string {
	text = strings.Trim(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`:\/?*[]`, r) {
			return '-'
		}
		return r
	}, text), "'")
	name := shortened(text, excelize.MaxSheetNameLength)
	for n := 2; taken[strings.ToLower(name)]; n++ {
		end := fmt.Sprintf(" %d", n)
		name = shortened(text, excelize.MaxSheetNameLength-len(end)) + end
	}
	taken[strings.ToLower(name)] = true
	return name
}

// shortened is the beginning of a text, of so many units of UTF-16 at most.
func shortened(text string, most int) string {
	n := 0
	for i, r := range text {
		if n += utf16.RuneLen(r); n > most {
			return strings.TrimSpace(text[:i])
		}
	}
	return text
}

func (b *book) cuttingSheet(name, about string, size int) {
	q := b.sizes[size]
	s := b.newSheet(name, about, []column{
		{"Done", 6, tickLook},
		{"No.", 5, countLook},
		{"Strips", 7, countLook},
		{fmt.Sprintf("Height (%v)", q.unit), 9, lengthLook},
		{"From each strip", 44, textLook},
		{fmt.Sprintf("Offcut (%v)", q.unit), 9, lengthLook},
		{fmt.Sprintf("Takes (%v)", q.unit), 9, lengthLook},
		{"On the cloth", 56, textLook},
	})
	s.sideways()
	pages := s.newPages()
	for fabric, f := range q.fabrics {
		if f.nothing() {
			from := s.row
			s.spread(f.label+": nothing is cut from it", bandLook)
			pages.together(from)
			continue
		}
		var starts []int
		for _, p := range b.plansOf(size, fabric) {
			starts = append(starts, s.row)
			s.cuttingList(p)
		}
		pages.together(starts...)
	}
	from := s.row
	s.next()
	s.spread("Before you cut", noteLook)
	for _, c := range cautions {
		s.spread(c, aboutLook)
	}
	pages.together(from)
	s.ticks(firstRow, from)
}

// cuttingList puts the strips of one plan, and notes where they stand.
func (s *sheet) cuttingList(p *planAt) {
	u := p.quilt.unit
	s.across(doneColumn, fromColumn, fmt.Sprintf("%s, usable width %s", p.cuts.label, measure(p.Width, u)), bandLook)
	s.acrossBy(offcutColumn, takesColumn, s.boughtText(p), "buy "+p.Buy.Text, bandLook.aligned("right"))
	s.put(clothColumn, nil, bandLook)
	s.next()
	s.spread(taken(p.widthRows, u), bandNote)
	first := s.row
	for _, r := range p.widthRows.strips {
		s.strip(r, p)
	}
	p.heights = s.cells(s.columns[heightColumn].heading, first, s.row)
	p.takes = s.cells(s.columns[takesColumn].heading, first, s.row)
	for _, piece := range p.cuts.pieces {
		if piece.triangles > 0 {
			s.fill(tickBox, nil, nil, nil, halve(piece), nil, nil)
		}
	}
	for col := range clothColumn {
		s.put(col, nil, s.columns[col].look)
	}
	s.put(fromColumn, together(p.widthRows), textLook)
	n, _ := lengthIn(p.length, u)
	s.formula(takesColumn, "SUM("+p.takes+")", n,
		boughtLook.formatted(sumFormat(u, p.stripHeights()...)))
	s.next()
	s.onTheCloth(p, first)
}

// strip puts one step of cutting.
func (s *sheet) strip(r stripRow, p *planAt) {
	u := p.quilt.unit
	s.put(doneColumn, tickBox, tickLook)
	s.put(numberColumn, r.number, countLook)
	s.put(stripsColumn, r.count(), countLook)
	s.length(heightColumn, r.Height, u)
	s.put(fromColumn, subcuts(r, u), textLook)
	s.length(offcutColumn, r.Offcut, u)
	height := r.Height
	for range r.count() - 1 {
		height += r.Height
	}
	n, _ := lengthIn(height, u)
	s.formula(takesColumn, fmt.Sprintf("%s%d*%s%d", columnName(stripsColumn), s.row, columnName(heightColumn), s.row),
		n, lengthLook.formatted(sumFormat(u, r.Height)))
	s.next()
}

// stripHeights are the heights of a plan's strips.
func (p *planAt) stripHeights() []model.Length {
	heights := []model.Length{}
	for _, s := range p.Result.Plan.Strips {
		heights = append(heights, s.Height)
	}
	return heights
}

// strips are the cells of a plan that hold how many strips are cut.
func (p *planAt) strips() string {
	return strings.ReplaceAll(p.takes, "$"+columnName(takesColumn)+"$", "$"+columnName(stripsColumn)+"$")
}

// boughtText is what to buy, as one says it in the shop. A fraction's format
// leaves room around it, which is taken out.
func (s *sheet) boughtText(p *planAt) string {
	cell := s.buyCell(p)
	unit := s.cloth[p.fabric].unit
	if _, format := soldIn(0, unit); format != decimals {
		cell = fmt.Sprintf(`TRIM(TEXT(%s,"# ??/??"))`, cell)
	}
	return fmt.Sprintf(`"buy "&%s&" %v"`, cell, unit)
}

// ticks lets the boxes from a row up to another be ticked, and greys what is
// done.
func (s *sheet) ticks(from, to int) {
	if to <= from {
		return
	}
	boxes := cellName(doneColumn, from) + ":" + cellName(doneColumn, to-1)
	list := excelize.NewDataValidation(true)
	list.SetSqref(boxes)
	s.do(list.SetDropList([]string{tickBox, tickedBox}))
	s.do(s.file.AddDataValidation(s.name, list))
	done, err := s.file.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: paleColour, Strike: true}})
	s.do(err)
	rows := cellName(numberColumn, from) + ":" + cellName(len(s.columns)-1, to-1)
	s.do(s.file.SetConditionalFormat(s.name, rows, []excelize.ConditionalFormatOptions{{
		Type: "formula", Criteria: fmt.Sprintf(`$%s%d="%s"`, columnName(doneColumn), from, tickedBox), Format: &done,
	}}))
}

const (
	tickBox   = "☐"
	tickedBox = "☑"
)

// subcuts lists what a strip is cut into, one cut a line.
func subcuts(r stripRow, u model.Unit) string {
	if r.part != nil {
		return fmt.Sprintf("From all: %s. Offcut of the last: %s.", subcutAll(r, u), measure(r.part.Offcut, u))
	}
	var lines []string
	for _, c := range r.cuts {
		lines = append(lines, sentence(subcut(c, u)))
	}
	return strings.Join(lines, "\n")
}
