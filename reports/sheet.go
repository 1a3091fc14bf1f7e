package reports

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"crossgrain/reports/drawing"
)

// WriteSheet writes a quilt, in one or several sizes, as a PDF to print: what to
// buy, the cautions, and for each size the pieces, the cutting with its drawings,
// and what units are trimmed to. It is on Letter paper for a quilt in inches and
// on A4 for one in centimetres. The same quilts give the same bytes.
func WriteSheet(w io.Writer, quilts []Quilt) error {
	var all []quiltRows
	for _, q := range quilts {
		all = append(all, newRows(q))
	}
	first := all[0]
	d := &document{sheetPage: newSheetPage(unglued(first.heading()), paperFor(first.unit))}
	d.front(all)
	for _, q := range all {
		d.size(q, len(all) > 1)
	}
	d.wordList(all)
	d.numbers()
	return d.pdf.Output(w)
}

// document is a printed sheet about a quilt.
type document struct{ *sheetPage }

// front is what stands before all sizes: the materials and the cautions.
func (d *document) front(all []quiltRows) {
	q := all[0]
	d.heading(q.heading(), 0, 0)
	if len(all) == 1 {
		if about := q.design.about(); about != "" {
			d.paragraph(sheetSide, about, bodyInk)
			d.space(6)
		}
		d.setting(q)
	}
	d.heading("What to buy", 1, 60)
	if len(all) == 1 {
		d.materials(q)
	} else {
		d.materialsOfSizes(all)
	}
	d.cautions()
}

// setting is the drawing of the quilt beside the fabrics in it.
func (d *document) setting(q quiltRows) {
	r := room{int(d.inner()) - 160, 250}
	figures := newDesignFigures(q.design, r, onlyQuilt)
	for _, f := range figures.quilt {
		width, height := f.Size()
		d.ensure(float64(height))
		drawing.Place(d.pdf, f.Drawing, sheetSide, d.y)
		legend := fabricLegend(figures.fabrics, q.design.whole.Quilt.Fabrics, newPalette(q.design.whole.Quilt.Fabrics), room{width: int(d.inner()) - width - 20})
		drawing.Place(d.pdf, legend, sheetSide+float64(width)+16, d.y+18)
		_, beside := legend.Size()
		d.y += max(float64(height), float64(beside)+18) + 8
	}
}

// materials is the table of what to buy for one size.
func (d *document) materials(q quiltRows) {
	columns := []sheetColumn{{heading: "Fabric", bold: true}, {heading: "Usable width", width: 80, right: true}, {heading: "Buy", width: 90, right: true, bold: true}}
	priced := slices.ContainsFunc(q.fabrics, func(f fabricRows) bool { return f.fabric.Price > 0 })
	if priced {
		columns = append(columns, sheetColumn{heading: "Cost", width: 70, right: true})
	}
	if q.compares() {
		columns = append(columns, sheetColumn{heading: "By hand", width: 80, right: true}, sheetColumn{heading: "Saved", width: 80, right: true})
	}
	columns = append(columns, sheetColumn{heading: "Proven", width: 50})
	var rows [][]string
	var notes []string
	for _, f := range q.fabrics {
		label := f.label
		for _, w := range f.widths {
			row := []string{label, measure(w.Width, q.unit), glued(w.Buy.Text)}
			if priced {
				row = append(row, costOf(w, f))
			}
			if q.compares() {
				row = append(row, glued(w.PlainBuy.Text), glued(w.Saved.Text))
			}
			proven := "yes"
			if !w.BuyProven {
				proven = "no" + glue + "*"
				notes = append(notes, fmt.Sprintf("%s at %s: %s.", f.label, measure(w.Width, q.unit), known(w, f.fabric)))
			}
			rows, label = append(rows, append(row, proven)), ""
		}
	}
	d.table(columns, rows)
	for _, n := range notes {
		d.hang("*", 10, n, bodyInk)
	}
	if q.design.batting != "" {
		d.paragraph(sheetSide, "Batting: "+q.design.batting+".", bodyInk)
	}
}

// costOf is what a purchase costs; nothing where that is not known.
func costOf(w widthRows, f fabricRows) string {
	if f.fabric.Price == 0 {
		return ""
	}
	return w.Cost.String()
}

// materialsOfSizes are what the sizes are, and what to buy for each.
func (d *document) materialsOfSizes(all []quiltRows) {
	var sizes [][]string
	batting := slices.ContainsFunc(all, func(q quiltRows) bool { return q.design.batting != "" })
	columns := []sheetColumn{{heading: "Size", width: 120, bold: true}, {heading: "Finished", width: 130}}
	if batting {
		columns = append(columns, sheetColumn{heading: "Batting", width: 120})
	}
	for _, q := range all {
		row := []string{q.design.size, q.design.finished}
		if batting {
			row = append(row, q.design.batting)
		}
		sizes = append(sizes, append(row, strings.Join(q.design.blocks, ", ")))
	}
	d.table(append(columns, sheetColumn{heading: "Blocks"}), sizes)
	const most = 4 // sizes beside each other
	for part := range slices.Chunk(all, most) {
		columns := []sheetColumn{{heading: "Fabric", bold: true}, {heading: "Usable width", width: 80, right: true}}
		for _, q := range part {
			columns = append(columns, sheetColumn{heading: q.design.size, width: 85, right: true})
		}
		var rows [][]string
		for i, f := range part[0].fabrics {
			label := f.label
			for j, w := range f.widths {
				row := []string{label, measure(w.Width, part[0].unit)}
				for _, q := range part {
					row = append(row, bought(q.fabrics[i].widths[j]))
				}
				rows, label = append(rows, row), ""
			}
		}
		d.table(columns, rows)
	}
	if slices.ContainsFunc(all, func(q quiltRows) bool {
		return slices.ContainsFunc(q.fabrics, func(f fabricRows) bool {
			return slices.ContainsFunc(f.widths, func(w widthRows) bool { return !w.BuyProven })
		})
	}) {
		d.hang("*", 10, sizesNotProven, bodyInk)
	}
}

// testSquare is one inch, in points: what shows whether a sheet was printed to
// scale.
const testSquare = pointsPerInch

// cautions are what to know before the first cut, beside the test square.
func (d *document) cautions() {
	d.heading("Before you cut", 1, testSquare+20)
	top, page := d.y, d.pdf.PageNo()
	d.square(d.width-sheetSide-testSquare, top+2)
	wide := d.width
	d.width -= testSquare + 20
	for _, c := range cautions {
		d.hang("•", 10, c, bodyInk)
	}
	d.width = wide
	if d.pdf.PageNo() == page {
		d.y = max(d.y, top+testSquare+8)
	}
}

// square is a frame of one inch from outer edge to outer edge. It stands on whole
// dots of 300 to the inch, and so does the width of its lines.
func (d *document) square(x, y float64) {
	const dot = pointsPerInch / 300.0
	x, y = math.Floor(x/dot)*dot, d.height-math.Floor((d.height-y)/dot)*dot
	d.pdf.SetFillColor(0, 0, 0)
	for _, side := range [][4]float64{
		{x, y, testSquare, 2 * dot}, {x, y + testSquare - 2*dot, testSquare, 2 * dot},
		{x, y, 2 * dot, testSquare}, {x + testSquare - 2*dot, y, 2 * dot, testSquare},
	} {
		d.pdf.Rect(side[0], side[1], side[2], side[3], "F")
	}
	for i, l := range lines("This square is 1 inch (2.54 cm) if the page was printed at 100 %.", testSquare-10, smallInk) {
		d.text(x+5, y+14+float64(i)*10, l, smallInk)
	}
}

// size is all of one size: its pieces, its cutting and its making.
func (d *document) size(q quiltRows, several bool) {
	if several {
		d.page()
		d.heading("Size "+q.design.size, 1, 60)
		d.paragraph(sheetSide, q.design.about(), bodyInk)
		d.space(6)
		d.setting(q)
		d.materials(q)
	}
	d.heading("Pieces", 1, 80)
	d.pieces(q)
	for _, f := range q.fabrics {
		d.cutting(f, q)
	}
	d.making(q)
}

// pieces lists every piece of every fabric, in tables that are alike.
func (d *document) pieces(q quiltRows) {
	columns := []sheetColumn{{heading: "Piece", width: 110, bold: true}, {heading: "Count", width: 60, right: true},
		{heading: "Cut size", width: 190}, {heading: "Halve", width: 60}, {heading: "Use"}}
	tables := make([][][]string, len(q.fabrics))
	for i, f := range q.fabrics {
		for _, p := range f.pieces {
			tables[i] = append(tables[i], []string{p.label, fmt.Sprint(p.Count), size(p.Along, p.Across, q.unit), p.Halve.String(), clean(p.Use)})
		}
		for _, n := range f.strips {
			tables[i] = append(tables[i], []string{n.label, fmt.Sprint(n.count), stripSize(n, q.unit), "", clean(n.Use)})
		}
	}
	columns = d.fitted(columns, slices.Concat(tables...))
	for i, f := range q.fabrics {
		if !f.nothing() {
			d.heading(f.label, 2, 40)
			d.rows(columns, tables[i])
		}
	}
}

// cutting is how one fabric is cut at each of its usable widths.
func (d *document) cutting(f fabricRows, q quiltRows) {
	if f.nothing() {
		d.heading("Cutting: "+f.label+": nothing is cut from it", 1, 0)
		return
	}
	for i, w := range f.widths {
		drawn, small := clothFor(f, w, q, int(d.inner()))
		_, height := drawn.Size()
		follows := float64(height) + 40
		if i == 0 {
			d.heading("Cutting: "+f.label, 1, follows+40)
		}
		d.heading(fmt.Sprintf("%s, usable width %s: buy %s", f.label, measure(w.Width, q.unit), glued(w.Buy.Text)), 2, follows)
		d.paragraph(sheetSide, about(w, f.fabric, q), bodyInk)
		d.space(4)
		d.place(drawn, sheetSide)
		d.space(8)
		for _, s := range w.strips {
			d.step(s, f, w, q, small)
		}
		for _, p := range f.pieces {
			if p.triangles > 0 {
				d.ticked("", halve(p))
			}
		}
		d.hang("", stepIndent, together(w), bodyInk)
	}
}

// How high a cloth is drawn, in points: to the scale of its labels if it is not
// too long, else as a survey, with a drawing for each step.
const (
	wholeCloth  = 500
	surveyCloth = 300
	stepHigh    = 150
)

// clothFor is a plan on its cloth; survey says that it is drawn smaller than its
// labels ask for.
func clothFor(f fabricRows, w widthRows, q quiltRows, width int) (d drawing.Drawing, survey bool) {
	d = clothDrawing(f, w, q, room{width: width})
	if _, height := d.Size(); height <= wholeCloth {
		return d, false
	}
	return clothDrawing(f, w, q, room{width, surveyCloth}), true
}

// stepIndent is where the words of a step begin, dashIndent where those of a list
// in it do.
const (
	stepIndent = 38
	dashIndent = 10
)

// ticked is a paragraph behind a box to tick and a number.
func (d *document) ticked(number, text string) {
	d.ensure(bodySize * lineSpace * float64(min(2, len(lines(text, d.inner()-stepIndent, bodyInk)))))
	d.tickBox(sheetSide, d.y)
	d.text(sheetSide+16, d.y+bodySize, number, boldInk)
	d.paragraph(sheetSide+stepIndent, text, bodyInk)
	d.y += 3
}

// step is one step of cutting, with a drawing of its own where that of the cloth
// is small.
func (d *document) step(s stripRow, f fabricRows, w widthRows, q quiltRows, drawn bool) {
	first, cuts, left := stepWords(s, q.unit)
	n := len(lines(first, d.inner()-stepIndent, bodyInk))
	for _, c := range cuts {
		n += len(lines(c, d.inner()-stepIndent-dashIndent, bodyInk))
	}
	if left != "" {
		n += len(lines(left, d.inner()-stepIndent, bodyInk))
	}
	height := float64(n)*bodySize*lineSpace + float64(len(cuts)) + 6
	var picture drawing.Drawing
	if drawn {
		picture = stepDrawing(s, f, w, q, room{int(d.inner()) - stepIndent, stepHigh})
		_, high := picture.Size()
		height += float64(high) + 8
	}
	d.ensure(height)
	d.ticked(fmt.Sprint(s.number), first)
	for _, c := range cuts {
		d.dashed(c)
	}
	if left != "" {
		d.paragraph(sheetSide+stepIndent, left, bodyInk)
	}
	if drawn {
		d.space(2)
		d.place(picture, sheetSide+stepIndent)
	}
	d.space(4)
}

// dashed is one entry of a list in a step.
func (d *document) dashed(text string) {
	d.ensure(bodySize * lineSpace)
	d.text(sheetSide+stepIndent, d.y+bodySize, "–", bodyInk)
	d.paragraph(sheetSide+stepIndent+dashIndent, text, bodyInk)
	d.y++
}
