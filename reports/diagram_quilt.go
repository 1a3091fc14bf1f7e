package reports

import (
	"fmt"
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/geometry"
	"crossgrain/reports/drawing"
)

// Classes of shapes in the drawings of quilts and blocks.
const (
	patchClass = "patch"
	trimClass  = "trim"
)

// settingDrawing is the quilt top with its borders, as it is finished: the
// shapes of a whole.
func settingDrawing(w design.Whole, shapes []block.Shape, r room) drawing.Drawing {
	title := "The finished quilt, " + finished(w)
	if w.Size != "" {
		title += ", size " + clean(w.Size)
	}
	const beside = 18
	c := figureCanvas(title, w.Width, w.Height, room{r.width - beside - 4, r.height - beside - 4})
	p := newPalette(w.Quilt.Fabrics)
	for _, s := range shapes {
		c.Add(c.fill(drawing.Shape{Outline: outlineOf(s.Outline), Stroke: c.pen(3, drawing.Ink), Class: patchClass, Name: s.Fabric}, p[s.Fabric]))
	}
	width, height := w.Width.CeilTo(1), w.Height.CeilTo(1)
	c.frame(areaAt(0, 0, width, height), onMark(w.Width, w.Quilt.Ruler), onMark(w.Height, w.Quilt.Ruler), w.Quilt.Unit)
	return c.Drawing
}

// figureCanvas is a canvas for a figure of a finished size, as large as the room
// allows.
func figureCanvas(title string, width, height geometry.Surd, r room) *canvas {
	c := newCanvas(title, width.CeilTo(1), r.width)
	if most := model.Length(r.height); r.height > 0 {
		c.Scale = max(c.Scale, (height.CeilTo(1)+most-1)/most)
	}
	return c
}

// frame draws the outline of what is finished, and its measures at the top and
// on the left.
func (c *canvas) frame(a area, width, height model.Length, u model.Unit) {
	c.Add(drawing.Shape{Outline: a.outline(), Hollow: true, Stroke: c.pen(9, drawing.Ink), Class: "finished"})
	c.measureLevel(a.from.X, a.to.X, a.from.Y-c.tenths(90), measure(width, u))
	c.measureUpright(a.from.Y, a.to.Y, a.from.X-c.tenths(90), measure(height, u))
	c.show(drawing.Point{X: a.from.X - c.tenths(160), Y: a.from.Y - c.tenths(160)}, drawing.Point{X: a.to.X + c.tenths(20), Y: a.to.Y + c.tenths(20)})
}

// patches draws the shapes of a figure, each with the name of its piece.
func (c *canvas) patches(f design.Figure, p palette) {
	for _, s := range f.Shapes {
		c.Add(c.fill(drawing.Shape{Outline: outlineOf(s.Outline), Stroke: c.pen(5, drawing.Ink), Class: patchClass, Name: s.Fabric}, p[s.Fabric]))
	}
	for _, s := range f.Shapes {
		if s.Cut < 0 {
			continue
		}
		outline := outlineOf(s.Outline)
		if name := f.Cuts[s.Cut].Name; c.roomy(outline, name) {
			c.write(centre(outline), name, writing{size: 65, bold: true, anchor: drawing.Middle, halo: true})
		}
	}
}

// roomy reports whether a name can stand in the middle of a shape without
// hiding it.
func (c *canvas) roomy(outline []drawing.Point, name string) bool {
	from, to := outline[0], outline[0]
	for _, p := range outline {
		from = drawing.Point{X: min(from.X, p.X), Y: min(from.Y, p.Y)}
		to = drawing.Point{X: max(to.X, p.X), Y: max(to.Y, p.Y)}
	}
	return min(to.X-from.X, to.Y-from.Y) >= c.tenths(110) && to.X-from.X >= c.textWidth(name, 65, true)+c.tenths(50)
}

// blockDrawing is a finished block with the names of its pieces.
func blockDrawing(b design.BlockCount, w design.Whole, r room) drawing.Drawing {
	f := w.Block(b)
	c := figureCanvas("Block "+blockLabel(b.Block, b.Colourway)+", finished", f.Width, f.Height, room{r.width - 20, r.height - 20})
	c.patches(f, newPalette(w.Quilt.Fabrics))
	width, height := f.Width.CeilTo(1), f.Height.CeilTo(1)
	c.frame(areaAt(0, 0, width, height), width, height, w.Quilt.Unit)
	return c.Drawing
}

// unitDrawing is what a unit is cut from, side by side, and then the unit with
// the line that it is trimmed to.
func unitDrawing(chart design.Chart, w design.Whole, r room) drawing.Drawing {
	f := w.Unit(chart)
	c := newCanvas("Unit "+clean(chart.Name)+": as cut, and finished within its trim line", model.Inch, 72)
	cuts := f.Cuts
	total, tallest := f.Width.CeilTo(1), f.Height.CeilTo(1)
	if n := len(chart.Trims); n > 0 {
		total, tallest = max(total, chart.Trims[n-1].Width), max(tallest, chart.Trims[n-1].Height)
	}
	for _, cut := range cuts {
		total, tallest = total+cut.Width, max(tallest, cut.Height)
	}
	gaps := model.Length(14*len(cuts) + 50)
	c.Scale = max(1, (total+model.Length(r.width)-gaps-1)/(model.Length(r.width)-gaps), (tallest+model.Length(r.height)-41)/model.Length(r.height-40))
	p, u := newPalette(w.Quilt.Fabrics), w.Quilt.Unit
	x := model.Length(0)
	for _, cut := range cuts {
		c.asCut(areaAt(x, (tallest-cut.Height)/2, cut.Width, cut.Height), cut, p, u)
		x += cut.Width + c.tenths(140)
	}
	if len(cuts) > 0 {
		c.arrow(drawing.Point{X: x, Y: tallest / 2}, drawing.Point{X: x + c.tenths(160), Y: tallest / 2}, drawing.Ink)
		x += c.tenths(380)
	}
	c.trimmed(f, chart, w, drawing.Point{X: x, Y: tallest / 2})
	c.show(drawing.Point{X: -c.tenths(20), Y: -c.tenths(20)}, drawing.Point{X: x, Y: tallest + c.tenths(20)})
	return c.Drawing
}

// asCut draws one piece as it is cut, with its name, number and size below.
func (c *canvas) asCut(a area, cut model.Cut, p palette, u model.Unit) {
	c.Add(c.fill(drawing.Shape{Outline: a.outline(), Stroke: c.pen(7, drawing.Ink), Class: pieceClass, Name: cut.Name}, p[cut.Fabric]))
	line := c.dashed(7, 35, 20, drawing.Ink)
	for _, d := range halvedOn(cut.Halve, cut.Diagonal, cut.Width == cut.Height) {
		c.diagonal(line, a, d)
	}
	c.write(a.middle(), cut.Name, writing{size: 80, bold: true, anchor: drawing.Middle, halo: true})
	size := model.FormatSize(cut.Width, cut.Height, u)
	if cut.Count > 1 {
		size = fmt.Sprintf("%d of %s", cut.Count, size)
	}
	at := drawing.Point{X: a.middle().X, Y: a.to.Y + c.tenths(70)}
	c.write(at, size, writing{size: 65, anchor: drawing.Middle})
	half := c.textWidth(size, 65, false)/2 + c.tenths(10)
	c.show(drawing.Point{X: min(a.from.X, at.X-half), Y: a.from.Y}, drawing.Point{X: max(a.to.X, at.X+half), Y: at.Y + c.tenths(60)})
}

// trimmed draws a finished unit and its trim line around it; at is the middle
// of its left edge.
func (c *canvas) trimmed(f design.Figure, chart design.Chart, w design.Whole, at drawing.Point) {
	width, height := f.Width.CeilTo(1), f.Height.CeilTo(1)
	edge := areaAt(at.X, at.Y-height/2, width, height)
	if n := len(chart.Trims); n > 0 {
		t := chart.Trims[n-1]
		edge = areaAt(at.X, at.Y-t.Height/2, t.Width, t.Height)
	}
	moved := geometry.At(geometry.Of(edge.from.X+(edge.width()-width)/2), geometry.Of(edge.from.Y+(edge.height()-height)/2))
	f.Shapes = slices.Clone(f.Shapes)
	for i, s := range f.Shapes {
		f.Shapes[i].Outline = s.Outline.Moved(moved)
	}
	c.patches(f, newPalette(w.Quilt.Fabrics))
	if len(chart.Trims) > 0 {
		c.Add(drawing.Shape{Outline: edge.outline(), Hollow: true, Stroke: c.dashed(10, 45, 25, drawing.Ink), Class: trimClass})
	}
	u := w.Quilt.Unit
	text := model.FormatSize(edge.width(), edge.height(), u)
	if len(chart.Trims) > 0 {
		text = "trim to " + text
	}
	below := drawing.Point{X: edge.middle().X, Y: edge.to.Y + c.tenths(70)}
	c.write(below, text, writing{size: 65, anchor: drawing.Middle, bold: true})
	half := c.textWidth(text, 65, true)/2 + c.tenths(10)
	c.show(drawing.Point{X: min(edge.from.X, below.X-half), Y: edge.from.Y - c.tenths(20)},
		drawing.Point{X: max(edge.to.X+c.tenths(20), below.X+half), Y: below.Y + c.tenths(60)})
}

// setDrawing is a strip set with the sections that are cut across it.
func setDrawing(name string, s setRow, q model.Quilt, r room) drawing.Drawing {
	const shown = 3 // sections
	sum := model.Length(0)
	for _, h := range s.Heights {
		sum += h
	}
	sum -= model.Length(len(s.Heights)-1) * 2 * s.seam
	width := s.Section*shown + s.Section/2
	c := newCanvas(fmt.Sprintf("Strip set of %s, with sections %s wide", name, measure(s.Section, q.Unit)), width, r.width-70)
	c.Scale = max(c.Scale, sum/model.Length(r.height-30)+1)
	p, y := newPalette(q.Fabrics), model.Length(0)
	for i, h := range s.Heights {
		// What is seen of a strip once it is sewn to those beside it.
		seen := h - 2*s.seam
		if i == 0 {
			seen += s.seam
		}
		if i == len(s.Heights)-1 {
			seen += s.seam
		}
		a := areaAt(0, y, width, seen)
		c.Add(c.fill(drawing.Shape{Outline: a.outline(), Stroke: c.pen(6, drawing.Ink), Class: patchClass, Name: s.Fabrics[i]}, p[s.Fabrics[i]]))
		c.write(drawing.Point{X: width + c.tenths(40), Y: a.middle().Y}, "cut "+h.Format(q.Unit), writing{size: 65})
		y += seen
	}
	for i := range shown {
		x := s.Section * model.Length(i+1)
		c.line(c.dashed(9, 45, 25, drawing.Ink), drawing.Point{X: x, Y: -c.tenths(50)}, drawing.Point{X: x, Y: y + c.tenths(50)})
	}
	c.measureLevel(0, s.Section, y+c.tenths(110), s.Section.Format(q.Unit))
	c.show(drawing.Point{X: -c.tenths(40), Y: -c.tenths(60)}, drawing.Point{X: width + c.tenths(500), Y: y + c.tenths(180)})
	return c.Drawing
}
