package reports

import (
	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/reports/drawing"
)

// Classes of shapes in the drawings of cloth.
const (
	clothClass  = "cloth"
	stripClass  = "strip"
	pieceClass  = "piece"
	offcutClass = "offcut"
)

// area is an upright rectangle on the cloth.
type area struct{ from, to drawing.Point }

func areaAt(x, y, width, height model.Length) area {
	return area{drawing.Point{X: x, Y: y}, drawing.Point{X: x + width, Y: y + height}}
}

func (a area) outline() []drawing.Point { return drawing.Box(a.from, a.to) }
func (a area) width() model.Length      { return a.to.X - a.from.X }
func (a area) height() model.Length     { return a.to.Y - a.from.Y }
func (a area) middle() drawing.Point {
	return drawing.Point{X: (a.from.X + a.to.X) / 2, Y: (a.from.Y + a.to.Y) / 2}
}

// lyingPiece is a piece where it lies on the cloth.
type lyingPiece struct {
	area
	piece  pieceRow
	turned bool
}

// lay is where the pieces of a strip lie whose upper left corner is at (0, top),
// and what is left of it.
func lay(s pack.Strip, pieces []pieceRow, top, width model.Length) (lying []lyingPiece, left []area) {
	x := model.Length(0)
	for _, g := range s.Segments {
		for range g.Repeat {
			y := top
			for _, p := range g.Stack {
				lying = append(lying, lyingPiece{areaAt(x, y, p.Along, p.Across), pieces[p.Item], p.Turned})
				if p.Along < g.Along {
					left = append(left, areaAt(x+p.Along, y, g.Along-p.Along, p.Across))
				}
				y += p.Across
			}
			if y < top+s.Height {
				left = append(left, areaAt(x, y, g.Along, top+s.Height-y))
			}
			x += g.Along
		}
	}
	if x < width {
		left = append(left, areaAt(x, top, width-x, s.Height))
	}
	return lying, left
}

// marks are what the pictures of a plan use that needs a word of explanation.
type marks struct{ offcut, turned, halved, oneWay bool }

// strip draws one strip with all that is cut from it.
func (c *canvas) strip(s pack.Strip, w widthRows, f fabricRows, u model.Unit, top model.Length) marks {
	var used marks
	lying, left := lay(s, w.pieces, top, w.Width)
	for _, a := range left {
		used.offcut = true
		c.Add(drawing.Shape{Outline: a.outline(), Fill: drawing.White, Hatch: c.wasteHatch(), Stroke: c.pen(4, drawing.Grey), Class: offcutClass})
	}
	for _, p := range lying {
		c.piece(p, f.fabric.OneWay, u)
		used.turned = used.turned || p.turned
		used.halved = used.halved || len(p.diagonals()) > 0
		used.oneWay = used.oneWay || f.fabric.OneWay
	}
	for _, a := range left {
		c.fit(a, "", measured(a, u), writing{tone: drawing.Ink, halo: true})
	}
	c.Add(drawing.Shape{Outline: areaAt(0, top, w.Width, s.Height).outline(), Hollow: true, Stroke: c.pen(9, drawing.Ink), Class: stripClass})
	return used
}

func measured(a area, u model.Unit) string { return model.FormatSize(a.width(), a.height(), u) }

// piece draws a piece: its outline, the diagonals it is cut on, and the marks of
// a turned one and of a print with an up.
func (c *canvas) piece(p lyingPiece, oneWay bool, u model.Unit) {
	c.Add(drawing.Shape{Outline: p.outline(), Fill: drawing.White, Stroke: c.pen(6, drawing.Ink), Class: pieceClass, Name: p.piece.label})
	cut := c.dashed(5, 30, 18, drawing.Grey)
	diagonals := p.diagonals()
	for _, d := range diagonals {
		c.diagonal(cut, p.area, d)
	}
	if p.turned {
		c.turnMark(p.area)
	}
	room := p.area
	if oneWay && room.width() > c.tenths(140) && room.height() > c.tenths(110) {
		x, y, half := room.from.X+c.tenths(55), room.middle().Y, min(c.tenths(80), room.height()*2/5)
		c.arrow(drawing.Point{X: x, Y: y + half}, drawing.Point{X: x, Y: y - half}, drawing.Grey)
		room.from.X += c.tenths(80)
	}
	folded := room.from.X < c.foldAt && c.foldAt < room.to.X
	c.fit(room, p.piece.label, measured(p.area, u), writing{tone: drawing.Ink, halo: folded || len(diagonals) > 0})
}

// turnMark is a black corner.
func (c *canvas) turnMark(a area) {
	leg := min(c.tenths(60), a.width()/3, a.height()/3)
	c.Add(drawing.Shape{Outline: []drawing.Point{{X: a.to.X - leg, Y: a.from.Y}, {X: a.to.X, Y: a.from.Y}, {X: a.to.X, Y: a.from.Y + leg}}, Fill: drawing.Ink})
}

// fit writes a name and a size into an area, as large as they fit: one above the
// other, level or upright, then the name alone.
func (c *canvas) fit(a area, name, size string, w writing) {
	w.anchor = drawing.Middle
	wide, high := a.width()-c.tenths(30), a.height()-c.tenths(20)
	for _, upward := range []bool{false, true} {
		if upward {
			wide, high = a.height()-c.tenths(30), a.width()-c.tenths(20)
		}
		w.upward = upward
		if name != "" && high >= c.tenths(170) && c.textWidth(name, 90, true) <= wide && c.textWidth(size, 65, false) <= wide {
			c.lines(a.middle(), name, size, w)
			return
		}
	}
	sizes := []int{80, 65, 52}
	if name == "" {
		sizes = []int{65, 52, 45}
	}
	for _, points := range sizes {
		for _, upward := range []bool{false, true} {
			wide, high := a.width()-c.tenths(30), a.height()-c.tenths(16)
			if upward {
				wide, high = a.height()-c.tenths(30), a.width()-c.tenths(16)
			}
			w.upward, w.size = upward, points
			text := size
			if name != "" {
				text = name + "  " + size
			}
			if high >= c.tenths(points) && c.textWidth(text, points, false)*105/100 <= wide {
				c.write(a.middle(), text, w)
				return
			}
		}
	}
	if name == "" {
		return
	}
	for _, points := range []int{90, 70, 55, 45} {
		for _, upward := range []bool{false, true} {
			wide, high := a.width()-c.tenths(8), a.height()-c.tenths(4)
			if upward {
				wide, high = high, wide
			}
			if high >= c.tenths(points*8/10) && c.textWidth(name, points, true) <= wide {
				w.upward, w.size, w.bold = upward, points, true
				c.write(a.middle(), name, w)
				return
			}
		}
	}
	// A long name: what there is room for of it.
	w.upward, w.size, w.bold = a.height() > a.width(), 60, false
	if room := max(a.width(), a.height()) - c.tenths(16); min(a.width(), a.height()) >= c.tenths(60) {
		c.write(a.middle(), c.shortened(name, 60, false, room), w)
	}
}

// lines are a name in bold and a size below it.
func (c *canvas) lines(at drawing.Point, name, size string, w writing) {
	up, down := at, at
	if w.upward {
		up.X, down.X = up.X-c.tenths(42), down.X+c.tenths(48)
	} else {
		up.Y, down.Y = up.Y-c.tenths(42), down.Y+c.tenths(48)
	}
	w.size, w.bold = 90, true
	c.write(up, name, w)
	w.size, w.bold = 65, false
	c.write(down, size, w)
}
