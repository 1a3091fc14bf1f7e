package reports

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
)

// The headings of the sheet Buy that formulas look for.
const (
	takeHeading  = "Strips take"
	needHeading  = "Needed"
	buyHeading   = "Buy"
	handHeading  = "By hand"
	costHeading  = "Cost"
	widthHeading = "Usable width"
)

// buyColumns are the columns of the sheet Buy.
func (b *book) buyColumns() []column {
	columns := []column{{"Fabric", 26, strongLook}}
	if b.several() {
		columns = append(columns, column{"Size", 12, textLook})
	}
	columns = append(columns, []column{
		{widthHeading, 10, lengthLook}, {takeHeading, 11, lengthLook}, {needHeading, 11, lengthLook},
		{buyHeading, 10, lengthLook}, {"Unit", 6, middleLook},
	}...)
	if b.first().compares() {
		columns = append(columns, column{handHeading, 10, lengthLook}, column{"Saved", 9, lengthLook})
	}
	return append(columns, column{"Price", 10, lengthLook}, column{costHeading, 11, lengthLook}, column{"Proven", 9, middleLook})
}

// newBuySheet makes the sheet to take to the shop, without its rows.
func (b *book) newBuySheet() *sheet {
	q := b.first()
	s := b.newSheet(buySheet, fmt.Sprintf("What to buy, with %v plans. Widths and strips are in %s, what to buy is in the unit beside it. "+
		"Change the shop's cut, straightening, shrinkage, price or spare strips on the sheet %s, and it follows.",
		q.style, unitWords[q.unit], assumptionsSheet), b.buyColumns())
	s.sideways()
	return s
}

// buyCell is how a formula calls what to buy for a plan.
func (b *book) buyCell(p *planAt) string { return planCell(buySheet, b.buyColumns(), buyHeading, p) }

// planCell is how a formula calls the cell of a plan in the column with a
// heading.
func planCell(sheet string, columns []column, heading string, p *planAt) string {
	at := slices.IndexFunc(columns, func(c column) bool { return c.heading == heading })
	return fmt.Sprintf("%s!$%s$%d", quoted(sheet), columnName(at), p.row)
}

// buy fills the sheet to take to the shop.
func (b *book) buy(s *sheet) {
	b.planRows(s, s.buyRow)
	s.totals()
	s.next()
	s.buyNotes()
}

// planRows puts a row for every plan, begun by the name of its fabric, which is
// pale where it stands above already.
func (b *book) planRows(s *sheet, row func(*planAt)) {
	last := ""
	for _, p := range b.plans {
		name := strongLook
		if label := fmt.Sprint(p.size, p.fabric); label != last {
			last = label
		} else {
			name.bold, name.colour = false, paleColour
		}
		s.put(0, p.cuts.label, name)
		row(p)
	}
}

// buyRow puts what is bought beside the fabric's name.
func (s *sheet) buyRow(p *planAt) {
	c, u, col := s.cloth[p.fabric], p.quilt.unit, 1
	add := func(formula string, value any, l look) {
		s.formula(col, formula, value, l)
		col++
	}
	here := func(heading string) string { return fmt.Sprintf("%s%d", s.at(heading), s.row) }
	length := func(formula string, l model.Length, marks ...model.Length) {
		n, _ := lengthIn(l, u)
		add(formula, n, lengthLook.formatted(sumFormat(u, marks...)))
	}
	sale := func(formula string, l model.Length, look look) {
		n, format := soldIn(l, c.unit)
		add(formula, n, look.formatted(live(format)))
	}
	if s.several() {
		add("", s.sizes[p.size].design.size, textLook)
	}
	length("", p.Width, p.Width)
	length(s.takeFormula(p), p.length, p.stripHeights()...)
	need := p.Need.CeilTo(p.quilt.ruler)
	mark := literal(p.quilt.ruler, u)
	length(fmt.Sprintf("IF(%s=0,0,%s*%s)", here(takeHeading), stepsFormula(c.needFormula(here(takeHeading)), mark), mark), need, p.quilt.ruler)
	sale(c.buyFormula(here(takeHeading), u), p.Buy.Length, boughtLook)
	add("", c.unit.String(), middleLook)
	if p.quilt.compares() {
		sale(c.buyFormula(s.withSpares(p, s.widthsCell(handTakes, p)), u), p.PlainBuy.Length, lengthLook)
		sale(fmt.Sprintf("ROUND(%s-%s,9)", here(handHeading), here(buyHeading)), p.Saved.Length, lengthLook)
	}
	add(fmt.Sprintf(`IF(%s="","",%[1]s)`, c.name(price)), orEmpty(c.values[price]), lengthLook.formatted(money))
	add(c.costFormula(here(buyHeading)), p.costValue(), boughtLook.formatted(money))
	add(fmt.Sprintf(`IF(%s>=%s,"yes","no")`, c.buyFormula(s.withSpares(p, s.widthsCell(leastTakes, p)), u), here(buyHeading)),
		yesNo(p.BuyProven), middleLook)
	s.next()
}

// orEmpty is a value, or an empty text where there is none.
func orEmpty(value any) any {
	if value == nil {
		return ""
	}
	return value
}

// costValue is what a purchase costs, or an empty text where the price is not
// known.
func (p *planAt) costValue() any {
	if p.cuts.fabric.Price == 0 {
		return ""
	}
	return float64(p.Cost) / 100
}

// takeFormula is what the strips that are listed take, and the spare ones.
func (b *book) takeFormula(p *planAt) string {
	if p.takes == "" {
		return ""
	}
	return b.withSpares(p, "SUM("+p.takes+")")
}

// withSpares is a length and what spare strips take, each as high as the
// highest strip that is listed.
func (b *book) withSpares(p *planAt, length string) string {
	if p.takes == "" {
		return length
	}
	return fmt.Sprintf("%s+%s*%s", length, b.cloth[p.fabric].name(spareStrips), b.widthsCell(highest, p))
}

// totals puts what all fabrics cost together: of each size, at each usable
// width that all fabrics have, or else at their narrowest and at their widest.
func (s *sheet) totals() {
	for size, q := range s.sizes {
		for _, t := range totalsOf(q) {
			var cells []string
			var sum model.Money
			known := false
			for fabric := range q.fabrics {
				plans := s.plansOf(size, fabric)
				p := plans[t.pick(len(plans))]
				cells = append(cells, fmt.Sprintf("%s%d", s.at(costHeading), p.row))
				sum += p.Cost
				known = known || p.cuts.fabric.Price > 0
			}
			label := t.label
			if s.several() {
				label = q.design.size + ", " + label
			}
			s.totalRow(label, cells, sum, known)
		}
	}
}

// total is one way to choose a usable width of every fabric.
type total struct {
	label string
	pick  func(widths int) int
}

// totalsOf are the ways to choose the usable widths of a quilt's fabrics.
func totalsOf(q quiltRows) []total {
	alike := true
	for _, f := range q.fabrics {
		alike = alike && sameWidthsAs(f, q.fabrics[0])
	}
	if !alike {
		return []total{
			{"each fabric at its narrowest width", func(int) int { return 0 }},
			{"each fabric at its widest width", func(widths int) int { return widths - 1 }},
		}
	}
	var all []total
	for i, w := range q.fabrics[0].widths {
		all = append(all, total{"usable width " + measure(w.Width, q.unit), func(int) int { return i }})
	}
	return all
}

func sameWidthsAs(f, other fabricRows) bool {
	if len(f.widths) != len(other.widths) {
		return false
	}
	for i, w := range f.widths {
		if w.Width != other.widths[i].Width {
			return false
		}
	}
	return true
}

// totalRow puts a sum of costs. A function takes only so many values, so that
// many are summed in groups.
func (s *sheet) totalRow(label string, cells []string, sum model.Money, known bool) {
	const most = 200
	var groups []string
	for len(cells) > 0 {
		n := min(most, len(cells))
		groups = append(groups, strings.Join(cells[:n], ","))
		cells = cells[n:]
	}
	all := "SUM(" + strings.Join(groups, ")+SUM(") + ")"
	count := "COUNT(" + strings.Join(groups, ")+COUNT(") + ")"
	var value any = ""
	if known {
		value = float64(sum) / 100
	}
	at := len(s.columns) - 2
	s.across(0, at-1, "Total cost, "+label, totalLook.aligned("left"))
	s.formula(at, fmt.Sprintf(`IF(%s=0,"",%s)`, count, all), value, totalLook.formatted(money))
	s.put(at+1, nil, totalLook)
	s.next()
}

// buyNotes says what is not settled, and what the headings mean.
func (s *sheet) buyNotes() {
	for _, p := range s.plans {
		where := fmt.Sprintf("%s at %s", p.cuts.label, measure(p.Width, p.quilt.unit))
		if s.several() {
			where += ", " + p.quilt.design.size
		}
		if !p.BuyProven {
			s.spread(fmt.Sprintf("%s, as it was planned: %s.", where, known(p.widthRows, p.cuts.fabric)), noteLook)
		}
		if said := simpler(p.widthRows); said != "" {
			s.spread(fmt.Sprintf("%s, as it was planned: %s", where, said), aboutLook)
		}
	}
	notes := []term{
		{takeHeading, "the heights of all strips on the cutting list, and of the spare strips, each as high as the highest"},
		{needHeading, "that length, grown for shrinkage, with straightening, up to the next mark of the ruler"},
	}
	if s.first().compares() {
		notes = append(notes, term{handHeading, byHand})
	}
	notes = append(notes, term{"Price", "of a yard, or of a metre where the fabric is sold in m or cm"},
		term{"Proven", proven(s.first().style)})
	for _, n := range notes {
		s.spread(n.word+": "+n.meaning+".", aboutLook)
	}
}
