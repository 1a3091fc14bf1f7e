package reports

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
	"crossgrain/reports/drawing"
)

// fabricLook is how a fabric is told from others in black and white. What the
// fabrics look like is not known.
type fabricLook struct {
	tone  drawing.Tone
	hatch drawing.HatchKind
	gap   int // of the hatch, in tenths of a point
}

// fabricLooks are given to the fabrics of a quilt in turn.
var fabricLooks = []fabricLook{
	{tone: 0xc4},
	{tone: drawing.White},
	{tone: drawing.White, hatch: drawing.Rising, gap: 34},
	{tone: 0x8a},
	{tone: drawing.White, hatch: drawing.Dots, gap: 36},
	{tone: 0xdc, hatch: drawing.Falling, gap: 34},
	{tone: drawing.White, hatch: drawing.Grid, gap: 40},
	{tone: drawing.White, hatch: drawing.Upright, gap: 30},
	{tone: 0xe6, hatch: drawing.Crossed, gap: 46},
	{tone: drawing.White, hatch: drawing.Level, gap: 30},
	{tone: 0xb4, hatch: drawing.Dots, gap: 36},
	{tone: 0x60},
}

// palette has the looks of a quilt's fabrics by their labels.
type palette map[string]fabricLook

func newPalette(fabrics []model.Fabric) palette {
	p := palette{}
	for i, f := range fabrics {
		p[f.ID] = fabricLooks[i%len(fabricLooks)]
	}
	return p
}

// fill gives a shape the look of a fabric.
func (c *canvas) fill(s drawing.Shape, look fabricLook) drawing.Shape {
	s.Fill = look.tone
	if look.hatch != drawing.NoHatch {
		width := 4
		if look.hatch == drawing.Dots {
			width = 9
		}
		s.Hatch = drawing.Hatch{Kind: look.hatch, Gap: max(1, c.tenths(look.gap)), Stroke: c.pen(width, drawing.Grey)}
	}
	return s
}

// outlineOf is an outline in whole ticks. Points that are the same stay so.
func outlineOf(g geometry.Polygon) []drawing.Point {
	points := make([]drawing.Point, len(g))
	for i, p := range g {
		points[i] = drawing.Point{X: p.X.CeilTo(1), Y: p.Y.CeilTo(1)}
	}
	return points
}

// centre is the middle of the corners of a shape.
func centre(g []drawing.Point) drawing.Point {
	var sum drawing.Point
	for _, p := range g {
		sum.X, sum.Y = sum.X+p.X, sum.Y+p.Y
	}
	n := model.Length(len(g))
	return drawing.Point{X: sum.X / n, Y: sum.Y / n}
}

// fabricLegend explains the looks of fabrics, below each other.
func fabricLegend(labels []string, fabrics []model.Fabric, p palette, r room) drawing.Drawing {
	c := newCanvas("The fabrics of the drawings", model.Inch, 72)
	y := model.Length(0)
	for _, label := range labels {
		swatch := areaAt(0, y, c.tenths(220), c.tenths(130))
		c.Add(c.fill(drawing.Shape{Outline: swatch.outline(), Stroke: c.pen(6, drawing.Ink)}, p[label]))
		name := c.shortened(fabricName(label, fabrics), 85, false, c.tenths(10*r.width-300))
		c.write(drawing.Point{X: c.tenths(290), Y: swatch.middle().Y}, name, writing{size: 85})
		y += c.tenths(190)
	}
	c.show(drawing.Point{X: -c.tenths(5), Y: -c.tenths(5)}, drawing.Point{X: c.tenths(10*r.width - 10), Y: y})
	return c.Drawing
}
