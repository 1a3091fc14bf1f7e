package reports

import (
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

// The headings of the sheet Widths that formulas look for.
const (
	highest    = "Highest strip"
	leastTakes = "At least"
	handTakes  = "By hand"
)

// widthsColumns are the columns of the sheet Widths.
func (b *book) widthsColumns() []column {
	columns := []column{{"Fabric", 26, strongLook}}
	if b.several() {
		columns = append(columns, column{"Size", 12, textLook})
	}
	return append(columns, []column{
		{widthHeading, 10, lengthLook}, {"Strips", 8, countLook}, {highest, 10, lengthLook},
		{takeHeading, 11, lengthLook}, {leastTakes, 11, lengthLook}, {handTakes, 11, lengthLook}, {"Used", 9, lengthLook},
	}...)
}

// widthsCell is how a formula calls a plan's cell on the sheet Widths.
func (b *book) widthsCell(heading string, p *planAt) string {
	return planCell(widthsSheet, b.widthsColumns(), heading, p)
}

// widths is the sheet that puts usable widths side by side.
func (b *book) widths() {
	s := b.newSheet(widthsSheet, fmt.Sprintf("What wider cloth saves. Lengths are in %s, as the strips take them, before shrinkage, "+
		"straightening and the shop's cut.", unitWords[b.first().unit]), b.widthsColumns())
	b.planRows(s, s.widthsRow)
	s.next()
	for _, n := range []term{
		{leastTakes, "what is proven to be needed, at the least, by any plan of this style"},
		{handTakes, byHand},
		{"Used", "the share of the strips' cloth that ends up in pieces"},
	} {
		s.spread(n.word+": "+n.meaning+".", aboutLook)
	}
	pages := s.newPages()
	for size := range b.sizes {
		s.next()
		from := s.row
		s.widthsChart(size)
		pages.together(from)
	}
}

// widthsRow puts a plan's lengths beside the fabric's name.
func (s *sheet) widthsRow(p *planAt) {
	u, col := p.quilt.unit, 1
	add := func(formula string, value any, l look) {
		s.formula(col, formula, value, l)
		col++
	}
	length := func(formula string, l model.Length, marks ...model.Length) {
		n, _ := lengthIn(l, u)
		add(formula, n, lengthLook.formatted(sumFormat(u, marks...)))
	}
	formula := func(format, cells string) string {
		if cells == "" {
			return ""
		}
		return fmt.Sprintf(format, cells)
	}
	if s.several() {
		add("", s.sizes[p.size].design.size, textLook)
	}
	length("", p.Width, p.Width)
	add(formula("SUM(%s)", p.strips()), p.stripCount, countLook)
	heights := p.stripHeights()
	length(formula("MAX(%s)", p.heights), slices.Max(append(heights, 0)), heights...)
	length(formula("SUM(%s)", p.takes), p.length, heights...)
	length("", p.Result.Bound, p.Result.Bound)
	length("", p.Plain.Length(), p.Plain.Length())
	width, taken := fmt.Sprintf("%s%d", s.at(widthHeading), s.row), fmt.Sprintf("%s%d", s.at(takeHeading), s.row)
	add(fmt.Sprintf("IF(%s=0,0,%s/(%s*%[1]s))", taken, areaIn(p.UsedArea, u), width), ratio(p.UsedArea, p.CutArea), lengthLook.formatted(shares))
	s.next()
}

// ratio is used/cut; of no cloth it is 0.
func ratio(used, cut model.Area) float64 {
	if cut <= 0 {
		return 0
	}
	return float64(used) / float64(cut)
}

// areaIn is an area in the quilt's unit, squared, as a formula has it.
func areaIn(a model.Area, u model.Unit) string {
	unit := model.Inch
	if u == model.Centimetres {
		unit = model.Centimetre
	}
	return fmt.Sprintf("(%d/%d/%d)", a, unit, unit)
}

// widthsChart puts what to buy of each fabric at each usable width, all in one
// unit, as a table and as a chart.
func (s *sheet) widthsChart(size int) {
	q := s.sizes[size]
	unit := model.ShopCut{Unit: q.fabrics[0].fabric.SoldBy.Unit}.PriceUnit()
	title := fmt.Sprintf("What to buy at each usable width, in %v", unit)
	if s.several() {
		title += ", " + q.design.size
	}
	s.spread(title, bandLook)
	widths := widthsOf(q)
	s.put(0, "Fabric", headingLook)
	for i, w := range widths {
		s.put(1+i, measure(w, q.unit), headingLook.aligned("right"))
	}
	s.next()
	first := s.row
	for fabric, f := range q.fabrics {
		s.put(0, f.label, strongLook)
		for i := range widths {
			s.put(1+i, nil, lengthLook)
		}
		for _, p := range s.plansOf(size, fabric) {
			n, format := soldIn(p.Buy.Length, unit)
			s.formula(1+slices.Index(widths, p.Width), s.inUnit(p, unit), n, lengthLook.formatted(live(format)))
		}
		s.next()
	}
	s.chart(title, first, len(widths), unit)
}

// inUnit is what to buy of a fabric in another unit of sale.
func (s *sheet) inUnit(p *planAt, unit model.CutUnit) string {
	cell := s.buyCell(p)
	from, to := saleUnits[s.cloth[p.fabric].unit], saleUnits[unit]
	if from == to {
		return cell
	}
	return fmt.Sprintf("%s*%d/%d", cell, from, to)
}

// widthsOf are the usable widths of all fabrics, narrowest first.
func widthsOf(q quiltRows) []model.Length {
	var widths []model.Length
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			widths = append(widths, w.Width)
		}
	}
	slices.Sort(widths)
	return slices.Compact(widths)
}

// chart puts a chart of the rows from first to the last one filled, below
// them: the fabrics one below the other, a bar for each width.
func (s *sheet) chart(title string, first, widths int, unit model.CutUnit) {
	const row, most = 18, 60 // the height of a row in points, and the most rows that a chart takes
	last := s.row - 1
	chart := &excelize.Chart{
		Type:     excelize.Bar,
		Title:    excelize.ChartTitle{Paragraph: chartText(title, 12, true)},
		Legend:   excelize.ChartLegend{Position: "bottom", Font: chartFont(10)},
		XAxis:    excelize.ChartAxis{ReverseOrder: true, Font: *chartFont(10)},
		YAxis:    excelize.ChartAxis{MajorGridLines: true, Font: *chartFont(10)},
		PlotArea: excelize.ChartPlotArea{ShowVal: true},
		Format:   excelize.GraphicOptions{AltText: title, Positioning: "oneCell", OffsetX: 4, OffsetY: 4},
	}
	if unit == model.Yards {
		chart.YAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: "# ?/?"}
	}
	for i := range widths {
		col := columnName(1 + i)
		name := func(from, to int, col string) string {
			return fmt.Sprintf("%s!$%s$%d:$%s$%d", quoted(s.name), col, from, col, to)
		}
		chart.Series = append(chart.Series, excelize.ChartSeries{
			Name:       fmt.Sprintf("%s!$%s$%d", quoted(s.name), col, first-1),
			Categories: name(first, last, "A"), Values: name(first, last, col),
			Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{chartColours[i%len(chartColours)]}},
		})
	}
	var width float64
	for _, c := range s.columns {
		width += points(c.width, digitPixels)
	}
	rows := min(5+(last-first+1)*(widths+1), most)
	// Columns are a little narrower in some programs.
	chart.Dimension = excelize.ChartDimension{
		Width: uint(slack * width * screenDPI / pointsPerInch), Height: uint(rows*row*screenDPI/pointsPerInch) - 8,
	}
	s.do(s.file.AddChart(s.name, cellName(0, s.row), chart))
	for range rows {
		s.next()
	}
}

// chartColours tell bars apart in black and white too.
var chartColours = []string{inkColour, "9AA7C2", "5F7099", "D3DAE8"}

func chartFont(size float64) *excelize.Font {
	return &excelize.Font{Family: fontFamily, Size: size, Color: inkColour}
}

func chartText(text string, size float64, bold bool) []excelize.RichTextRun {
	font := chartFont(size)
	font.Bold = bold
	return []excelize.RichTextRun{{Text: text, Font: font}}
}
