package reports

import (
	"fmt"
	"strings"

	"crossgrain/model"
	"crossgrain/yardage"
)

// buy is the sheet to take to the shop.
func (b *book) buy(q quiltRows) {
	columns := []column{
		{"Fabric", 34, strongLook},
		{fmt.Sprintf("Usable width (%v)", q.unit), 13, lengthLook},
		{"Buy", 11, lengthLook},
	}
	if q.compares() {
		columns = append(columns, column{"By hand", 11, lengthLook}, column{"Saved", 11, lengthLook})
	}
	columns = append(columns, column{"Unit", 7, middleLook}, column{"Proven", 9, middleLook})
	s := b.newSheet(buySheet, q, fmt.Sprintf("What to buy, with %v plans", q.style), columns)
	for _, f := range q.fabrics {
		name := strongLook
		for _, w := range f.widths {
			s.put(0, f.label, name)
			s.buyRow(f, w, q)
			name.bold, name.colour = false, paleColour
		}
	}
	s.next()
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			if !w.BuyProven {
				s.spread(fmt.Sprintf("%s at %s: %s.", f.label, measure(w.Width, q.unit), known(w, f.fabric)), noteLook)
			}
		}
	}
	if q.compares() {
		s.spread("By hand: "+byHand+".", aboutLook)
	}
	s.spread("Proven: "+proven(q.style)+".", aboutLook)
}

// buyRow puts what is bought beside the fabric's name.
func (s *sheet) buyRow(f fabricRows, w widthRows, q quiltRows) {
	s.length(1, w.Width, q.unit)
	purchases := []yardage.Purchase{w.Buy}
	if q.compares() {
		purchases = append(purchases, w.PlainBuy, w.Saved)
	}
	for i, p := range purchases {
		number, format := soldIn(p.Length, f.fabric.SoldBy.Unit)
		l := lengthLook.formatted(format)
		l.bold = i == 0
		s.put(2+i, number, l)
	}
	s.put(2+len(purchases), f.fabric.SoldBy.Unit.String(), middleLook)
	s.put(3+len(purchases), yesNo(w.BuyProven), middleLook)
	s.next()
}

// length puts a length as a number in the quilt's unit.
func (s *sheet) length(col int, l model.Length, u model.Unit) {
	number, format := lengthIn(l, u)
	s.put(col, number, lengthLook.formatted(format))
}

// cutting is the sheet to take to the cutting table.
func (b *book) cutting(q quiltRows) {
	s := b.newSheet(cuttingSheet, q, "Cutting, strip by strip, the highest first", []column{
		{"Done", 7, tickLook},
		{"No.", 6, countLook},
		{"Strips", 8, countLook},
		{fmt.Sprintf("Height (%v)", q.unit), 12, lengthLook},
		{"From each strip", 54, textLook},
		{fmt.Sprintf("Offcut (%v)", q.unit), 12, lengthLook},
	})
	pages := s.newPages()
	for _, f := range q.fabrics {
		if f.nothing() {
			from := s.row
			s.spread(f.label+": nothing is cut from it", bandLook)
			pages.together(from)
			continue
		}
		var starts []int
		for _, w := range f.widths {
			starts = append(starts, s.row)
			s.cuttingList(f, w, q)
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
}

func (s *sheet) cuttingList(f fabricRows, w widthRows, q quiltRows) {
	s.spread(fmt.Sprintf("%s, usable width %s, buy %s", f.label, measure(w.Width, q.unit), w.Buy.Text), bandLook)
	s.spread(about(w, f.fabric, q), bandNote)
	for _, r := range w.strips {
		s.put(0, tickBox, tickLook)
		s.put(1, r.number, countLook)
		s.put(2, r.count(), countLook)
		s.length(3, r.Height, q.unit)
		s.put(4, subcuts(r, q.unit), textLook)
		s.length(5, r.Offcut, q.unit)
		s.next()
	}
	for _, p := range f.pieces {
		if p.triangles > 0 {
			s.fill(tickBox, nil, nil, nil, halve(p), nil)
		}
	}
	s.fill("", nil, nil, nil, together(w), nil)
}

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

// pieces lists every cut size, fabric by fabric, as the quilt file has them.
func (b *book) pieces(q quiltRows) {
	s := b.newSheet(piecesSheet, q, "Every piece: width across the fabric, height along the selvage", []column{
		{"Piece", 14, strongLook},
		{"Fabric", 24, textLook},
		{"Use", 20, textLook},
		{fmt.Sprintf("Width (%v)", q.unit), 12, lengthLook},
		{fmt.Sprintf("Height (%v)", q.unit), 12, lengthLook},
		{"Count", 10, countLook},
		{"Halve", 9, middleLook},
		{"Triangles", 12, countLook},
		{"May be turned", 10, middleLook},
		{"Grain", 13, middleLook},
	})
	s.sideways()
	for _, f := range q.fabrics {
		for _, p := range f.pieces {
			s.length(3, p.Along, q.unit)
			s.length(4, p.Across, q.unit)
			s.put(0, p.label, strongLook)
			s.put(1, f.label, textLook)
			s.put(2, clean(p.Use), textLook)
			s.put(5, p.Count, countLook)
			s.put(6, p.Halve.String(), middleLook)
			s.put(7, triangles(p), countLook)
			s.put(8, mayTurn(p), middleLook)
			s.put(9, p.Grain.String(), middleLook)
			s.next()
		}
		for _, n := range f.strips {
			s.stripNeed(n, f, q)
		}
	}
}

// stripNeed puts a row for each usable width at which strips are so many.
func (s *sheet) stripNeed(n needRow, f fabricRows, q quiltRows) {
	widths := n.at
	if widths == nil {
		widths = f.fabric.UsableWidths
	}
	for _, w := range widths {
		s.put(0, n.label, strongLook)
		s.put(1, f.label, textLook)
		s.put(2, clean(n.Use), textLook)
		s.length(3, w, q.unit)
		s.length(4, n.Height, q.unit)
		s.put(5, n.count, countLook)
		s.put(6, "", middleLook)
		s.put(7, nil, countLook)
		s.put(8, yesNo(false), middleLook)
		s.put(9, "whole strip", middleLook)
		s.next()
	}
}

// triangles is the number that halving makes, or an empty cell.
func triangles(p pieceRow) any {
	if p.triangles == 0 {
		return nil
	}
	return p.triangles
}

// mayTurn says whether a piece may be turned; a square need not be.
func mayTurn(p pieceRow) string {
	if p.Along == p.Across {
		return "square"
	}
	return yesNo(p.Turnable)
}

// assumptions says what the figures rest on, and what the words mean.
func (b *book) assumptions(q quiltRows) {
	s := b.newSheet(assumptionsSheet, q, "What the figures rest on", []column{
		{"About", 26, strongLook},
		{"What is assumed", 72, textLook},
	})
	for _, t := range assumed(q) {
		s.fill(t.word, t.meaning)
	}
	s.spread("Words", bandLook)
	for _, t := range terms(q) {
		s.fill(t.word, t.meaning)
	}
	s.spread("Before you cut", bandLook)
	for i, c := range cautions {
		s.fill(i+1, c)
	}
}

const tickBox = "☐"

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
