package reports

import (
	"fmt"
	"strings"
)

// sizesPage is the sheet of what to buy in each size, of a quilt in several.
func (b *book) sizesPage(sizes []Quilt) {
	if !b.several() {
		return
	}
	all, q := newSizeRows(sizes), b.first()
	columns := []column{{"Fabric", 30, strongLook}, {fmt.Sprintf("Usable width (%v)", q.unit), 13, lengthLook}, {"Unit", 7, middleLook}}
	for _, name := range all.names {
		columns = append(columns, column{name, 12, lengthLook})
	}
	s := b.newSheet(sizesSheet, fmt.Sprintf("What to buy in each size, with %v plans", q.style), columns)
	s.sideways()
	for i, row := range all.buys {
		s.put(0, row.fabric.label, strongLook)
		s.length(1, row.width, q.unit)
		unit := row.fabric.fabric.SoldBy.Unit
		s.put(2, unit.String(), middleLook)
		for size, n := range row.needs {
			number, format := soldIn(n.Buy.Length, unit)
			s.formula(3+size, b.buyCell(b.plans[size*len(all.buys)+i]), number, lengthLook.formatted(live(format)))
		}
		s.next()
	}
	s.next()
	for i, d := range all.designs {
		s.spread(fmt.Sprintf("%s: finished %s; blocks: %s.", all.names[i], d.finished, strings.Join(d.blocks, ", ")), aboutLook)
	}
}

// assumptions holds the figures that a reader may vary, says what the others
// rest on, and what the words mean.
func (b *book) assumptions() {
	q := b.first()
	s := b.newSheet(assumptionsSheet, "Change the shaded figures to those of your shop and your cloth: "+
		"what to buy and what it costs follow. What is written for all fabrics holds for each, "+
		"until you write another figure beside its name. The strips stay as they are listed.",
		[]column{
			{"Fabric", 28, strongLook},
			{"Shop's cut", 11, lengthLook},
			{"Unit", 7, middleLook},
			{fmt.Sprintf("Straightening (%v)", q.unit), 15, lengthLook},
			{"Shrinkage", 11, lengthLook},
			{"Price", 11, lengthLook},
			{"For one", 9, middleLook},
			{"Spare strips", 9, countLook},
		})
	s.figures(b.cloth, q)
	s.next()
	s.terms("As it was planned", assumed(q))
	s.terms("Words", terms(q))
	s.spread("Before you cut", bandLook)
	for _, c := range cautions {
		s.spread(c, textLook)
	}
}

// terms puts what a word means beside it.
func (s *sheet) terms(heading string, list []term) {
	s.spread(heading, bandLook)
	for _, t := range list {
		s.across(1, len(s.columns)-1, t.meaning, textLook)
		s.put(0, t.word, strongLook)
		s.next()
	}
}
