package reports

import (
	"fmt"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
)

// ofSize puts a band with what a size is, where a quilt has several.
func (s *sheet) ofSize(q quiltRows) {
	if s.several() {
		s.spread(q.design.about(), bandLook)
	}
}

// pieces lists every cut size, fabric by fabric, as the quilt file has them.
func (b *book) pieces() {
	u := b.first().unit
	s := b.newSheet(piecesSheet, "Every piece: width across the fabric, height along the selvage", []column{
		{"Piece", 14, strongLook},
		{"Fabric", 24, textLook},
		{"Use", 22, textLook},
		{fmt.Sprintf("Width (%v)", u), 12, lengthLook},
		{fmt.Sprintf("Height (%v)", u), 12, lengthLook},
		{"Count", 10, countLook},
		{"Halve", 9, middleLook},
		{"Triangles", 12, countLook},
		{"May be turned", 10, middleLook},
		{"Grain", 13, middleLook},
	})
	s.sideways()
	for _, q := range b.sizes {
		s.ofSize(q)
		for _, f := range q.fabrics {
			for _, p := range f.pieces {
				s.pieceRow(p, f, q)
			}
			for _, n := range f.strips {
				s.stripNeed(n, f, q)
			}
		}
	}
}

func (s *sheet) pieceRow(p pieceRow, f fabricRows, q quiltRows) {
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

// stripNeed puts a row for each usable width at which strips are so many.
func (s *sheet) stripNeed(n needRow, f fabricRows, q quiltRows) {
	for _, w := range n.widths(f) {
		s.put(0, n.label, strongLook)
		s.put(1, f.label, textLook)
		s.put(2, clean(n.Use), textLook)
		s.length(3, w, q.unit)
		s.length(4, n.Height, q.unit)
		s.put(5, n.count, countLook)
		s.put(6, "", middleLook)
		s.put(7, nil, countLook)
		s.put(8, yesNo(false), middleLook)
		s.put(9, wholeStrip, middleLook)
		s.next()
	}
}

// length puts a length as a number in the quilt's unit.
func (s *sheet) length(col int, l model.Length, u model.Unit) {
	number, format := lengthIn(l, u)
	s.put(col, number, lengthLook.formatted(format))
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

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// making is the sheet on how units and blocks are made, and what they are
// trimmed to. A cutting list has none.
func (b *book) making() {
	some := 0
	for _, q := range b.sizes {
		some += len(q.design.units) + len(q.design.grown) + len(q.design.sets) + len(q.design.notes)
	}
	if some == 0 {
		return
	}
	u, about := b.first().unit, "Units step by step, with what to trim to."
	if !b.several() {
		about = strings.TrimSpace(about + " " + b.first().design.about())
	}
	s := b.newSheet(trimSheet, about, []column{
		{"Done", 7, tickLook},
		{"Unit", 16, strongLook},
		{"Number", 9, countLook},
		{fmt.Sprintf("Width (%v)", u), 11, lengthLook},
		{fmt.Sprintf("Height (%v)", u), 11, lengthLook},
		{fmt.Sprintf("Last seam to edge (%v)", u), 12, lengthLook},
		{"How", 56, textLook},
	})
	for _, q := range b.sizes {
		s.ofSize(q)
		s.makingOf(q)
	}
	s.ticks(firstRow, s.row)
}

// makingOf puts how the units of one size are made.
func (s *sheet) makingOf(q quiltRows) {
	d := q.design
	for _, u := range d.units {
		s.trimRow(u.label, u.count, u.trim, strings.TrimPrefix(u.fabrics+"; "+u.others(), "; "), q)
	}
	for _, g := range d.grown {
		s.spread(fmt.Sprintf("%s, %d of them. %s %s", g.label, g.count, testBlock, g.leftHand()), bandLook)
		for _, step := range g.steps {
			s.trimRow(g.label, g.count, step.trim, step.how(q.unit), q)
		}
	}
	for _, set := range d.sets {
		s.spread(set.sew(q.unit), textLook)
	}
	for _, n := range d.notes {
		s.spread(n, aboutLook)
	}
}

// trimRow puts one step of trimming.
func (s *sheet) trimRow(label string, count int, t block.Trim, how string, q quiltRows) {
	s.put(0, tickBox, tickLook)
	s.put(1, label, strongLook)
	s.put(2, count, countLook)
	s.length(3, t.Width, q.unit)
	s.length(4, t.Height, q.unit)
	if t.SeamToEdge > 0 {
		s.length(5, t.SeamToEdge, q.unit)
	} else {
		s.put(5, nil, lengthLook)
	}
	s.put(6, strings.TrimSuffix(how, "; "), textLook)
	s.next()
}
