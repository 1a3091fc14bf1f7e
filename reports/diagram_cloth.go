package reports

import (
	"fmt"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/reports/drawing"
)

// room is what a drawing may take, in points; a height of 0 is as much as it
// needs.
type room struct{ width, height int }

// What stands beside the cloth, in points.
const (
	clothLeft    = 66 // numbers, heights and a selvage
	clothRight   = 14 // a selvage
	clothTop     = 24
	selvageWidth = 8
	legendLine   = 13
)

// mostDrawn is how many pieces of a plan are drawn one by one. Of a plan with
// more, strips that are cut alike are drawn once in full.
const mostDrawn = 4000

// clothDrawing is a plan on its cloth, to scale: every strip with its number and
// height, every piece with its name and cut size, offcuts hatched, the selvages
// and the fold. The usable width begins at (0, 0), where the cloth has been
// straightened at the top.
func clothDrawing(f fabricRows, w widthRows, q quiltRows, r room) drawing.Drawing {
	title := fmt.Sprintf("%s, usable width %s: %s on the cloth, %s to buy", f.label, measure(w.Width, q.unit),
		counted(w.stripCount, "strip", "strips"), w.Buy.Text)
	c := newCanvas(title, w.Width, r.width-clothLeft-clothRight)
	over := leftOver(f, w)
	length := w.length + over
	if most := model.Length(r.height - clothTop - 4*legendLine); r.height > 0 {
		c.Scale = max(c.Scale, (f.fabric.Straighten+length+most-1)/most)
	}
	c.foldAt = w.Width / 2
	c.cloth(f, w, q.unit, over)
	used, y := marks{}, model.Length(0)
	total := 0
	for _, p := range w.pieces {
		total += p.Count
	}
	for _, s := range w.strips {
		used.add(c.step(s, f, w, q.unit, y, total > mostDrawn))
		y += s.Height * model.Length(s.count())
	}
	writings := c.takeTexts()
	c.fold(w.Width, -f.fabric.Straighten, length)
	c.Add(writings...)
	c.legend(used, w.Width, length+c.tenths(10*legendLine), f)
	return c.Drawing
}

func (m *marks) add(n marks) {
	*m = marks{m.offcut || n.offcut, m.turned || n.turned, m.halved || n.halved, m.oneWay || n.oneWay}
}

// leftOver is the length of the cloth that is left below the strips, after the
// wash.
func leftOver(f fabricRows, w widthRows) model.Length {
	over := w.Buy.Length - w.Need
	return over * model.Length(100_00-f.fabric.Shrinkage) / 100_00
}

// cloth draws the cloth itself.
func (c *canvas) cloth(f fabricRows, w widthRows, u model.Unit, over model.Length) {
	top, bottom := -f.fabric.Straighten, w.length+over
	whole := areaAt(0, top, w.Width, bottom-top)
	c.Add(drawing.Shape{Outline: whole.outline(), Fill: drawing.White, Stroke: c.pen(5, drawing.Ink), Class: clothClass})
	c.show(drawing.Point{X: -c.tenths(10 * clothLeft), Y: top - c.tenths(10*clothTop)}, drawing.Point{X: w.Width + c.tenths(10*clothRight), Y: bottom + c.tenths(40)})
	band := c.tenths(10 * selvageWidth)
	for _, x := range []model.Length{-band, w.Width} {
		a := areaAt(x, top, band, bottom-top)
		c.Add(drawing.Shape{Outline: a.outline(), Fill: drawing.Mist, Stroke: c.pen(4, drawing.Grey), Class: "selvage"})
		if a.height() > c.tenths(400) {
			c.write(a.middle(), "selvage", writing{size: 60, anchor: drawing.Middle, upward: true, tone: drawing.Ink})
		}
	}
	c.leftOver(areaAt(0, top, w.Width, -top), "to straighten", u)
	c.leftOver(areaAt(0, w.length, w.Width, over), "left over", u)
	c.measureLevel(0, w.Width, top-c.tenths(140), "usable width "+measure(w.Width, u))
}

// leftOver draws cloth that no strip takes.
func (c *canvas) leftOver(a area, what string, u model.Unit) {
	if a.height() <= 0 {
		return
	}
	c.Add(drawing.Shape{Outline: a.outline(), Fill: drawing.White, Hatch: c.wasteHatch(), Stroke: c.pen(4, drawing.Grey), Class: "rest"})
	if a.height() >= c.tenths(80) {
		at := a.middle()
		at.X = a.from.X + a.width()/4
		c.write(at, what+" "+measure(a.height().CeilTo(markOf(u)), u), writing{size: 65, anchor: drawing.Middle, halo: true})
	}
}

// markOf is a fine mark of a ruler, for lengths that are only told.
func markOf(u model.Unit) model.Length {
	if u == model.Centimetres {
		return model.Millimetre
	}
	return model.Inch / 16
}

// step draws the strips of one step below each other, with its number and their
// heights. In brief, all but the first are outlines.
func (c *canvas) step(s stripRow, f fabricRows, w widthRows, u model.Unit, top model.Length, brief bool) marks {
	var used marks
	y := top
	for i := range s.count() {
		one := s.Strip
		if i >= s.Repeat {
			one = *s.part
		}
		if brief && i > 0 {
			c.alike(areaAt(0, y, w.Width, s.Height), s.number)
		} else {
			used.add(c.strip(one, w, f, u, y))
		}
		c.heightOf(areaAt(0, y, w.Width, s.Height), u)
		y += s.Height
	}
	x := -c.tenths(10 * (clothLeft - 22))
	c.line(c.pen(8, drawing.Ink), drawing.Point{X: x + c.tenths(30), Y: top + c.tenths(8)}, drawing.Point{X: x, Y: top + c.tenths(8)},
		drawing.Point{X: x, Y: y - c.tenths(8)}, drawing.Point{X: x + c.tenths(30), Y: y - c.tenths(8)})
	if y-top >= c.tenths(60) {
		c.write(drawing.Point{X: x - c.tenths(30), Y: (top + y) / 2}, fmt.Sprint(s.number), writing{size: 100, bold: true, anchor: drawing.End})
	}
	return used
}

// alike is a strip that is cut like the first of its step.
func (c *canvas) alike(a area, step int) {
	c.Add(drawing.Shape{Outline: a.outline(), Fill: drawing.White, Stroke: c.pen(9, drawing.Ink), Class: stripClass})
	if a.height() >= c.tenths(80) {
		c.write(a.middle(), fmt.Sprintf("as the first of %d", step), writing{size: 65, anchor: drawing.Middle})
	}
}

// heightOf writes a strip's height beside it.
func (c *canvas) heightOf(a area, u model.Unit) {
	text, size := a.height().Format(u), 75
	if a.height() < c.tenths(80) {
		size = 55
	}
	if a.height() < c.tenths(50) {
		return
	}
	at := drawing.Point{X: -c.tenths(10*selvageWidth + 30), Y: a.middle().Y}
	if c.textWidth(text, size, false) > c.tenths(290) {
		size = 55
	}
	c.write(at, text, writing{size: size, anchor: drawing.End})
}

// fold marks where the cloth is folded on its bolt: selvage to selvage.
func (c *canvas) fold(width, top, bottom model.Length) {
	x := width / 2
	c.line(c.dashed(5, 60, 40, drawing.Grey), drawing.Point{X: x, Y: top - c.tenths(60)}, drawing.Point{X: x, Y: top})
	c.line(c.dashed(4, 60, 60, drawing.Grey), drawing.Point{X: x, Y: top}, drawing.Point{X: x, Y: bottom})
	c.line(c.dashed(5, 60, 40, drawing.Grey), drawing.Point{X: x, Y: bottom}, drawing.Point{X: x, Y: bottom + c.tenths(60)})
	c.write(drawing.Point{X: x + c.tenths(25), Y: top - c.tenths(45)}, "fold", writing{size: 60})
}

// legend explains the marks, line by line.
func (c *canvas) legend(used marks, width, y model.Length, f fabricRows) {
	x, gap, end := model.Length(0), c.tenths(140), c.To.X
	entry := func(is bool, text string, sample func(a area)) {
		if !is {
			return
		}
		wide := c.tenths(170) + c.textWidth(text, 65, false)*108/100
		if x > 0 && x+wide > width {
			x, y = 0, y+c.tenths(10*legendLine)
		}
		sample(areaAt(x, y-c.tenths(40), c.tenths(120), c.tenths(80)))
		c.write(drawing.Point{X: x + c.tenths(160), Y: y}, text, writing{size: 65})
		end = max(end, x+wide) // cloth may be narrower than an entry
		x += wide + gap
	}
	box := func(a area, h drawing.Hatch) {
		c.Add(drawing.Shape{Outline: a.outline(), Fill: drawing.White, Hatch: h, Stroke: c.pen(4, drawing.Grey)})
	}
	cut := c.dashed(5, 30, 18, drawing.Grey)
	entry(used.offcut, "offcut, or to be trimmed off", func(a area) { box(a, c.wasteHatch()) })
	entry(used.turned, "lies turned", func(a area) { box(a, drawing.Hatch{}); c.turnMark(a) })
	entry(used.halved, "cut on this line after the piece is cut", func(a area) {
		box(a, drawing.Hatch{})
		c.diagonal(cut, a, model.Rising)
	})
	entry(used.oneWay, "up of the print", func(a area) {
		x := a.middle().X
		c.arrow(drawing.Point{X: x, Y: a.to.Y}, drawing.Point{X: x, Y: a.from.Y}, drawing.Grey)
	})
	entry(true, "fold", func(a area) {
		c.line(c.dashed(5, 40, 30, drawing.Grey), drawing.Point{X: a.from.X, Y: y}, drawing.Point{X: a.to.X, Y: y})
	})
	c.show(c.From, drawing.Point{X: end, Y: y + c.tenths(80)})
}

// stepDrawing is one step by itself, as wide as there is room.
func stepDrawing(s stripRow, f fabricRows, w widthRows, q quiltRows, r room) drawing.Drawing {
	const left, right = 34, 2
	title := fmt.Sprintf("Step %d: a strip %s high", s.number, measure(s.Height, q.unit))
	c := newCanvas(title, w.Width, r.width-left-right)
	strips := []pack.Strip{s.Strip}
	if s.part != nil {
		strips = append(strips, *s.part)
	}
	if most := model.Length(r.height); r.height > 0 {
		c.Scale = max(c.Scale, (s.Height*model.Length(len(strips))+most-1)/most)
	}
	y := model.Length(0)
	for i, one := range strips {
		if i > 0 {
			y += c.tenths(40)
		}
		c.strip(one, w, f, q.unit, y)
		c.measureUpright(y, y+s.Height, -c.tenths(120), s.Height.Format(q.unit))
		y += s.Height
	}
	c.show(drawing.Point{X: -c.tenths(10 * left), Y: -c.tenths(10)}, drawing.Point{X: w.Width + c.tenths(10*right), Y: y + c.tenths(10)})
	return c.Drawing
}
