package reports

import (
	"strings"

	"crossgrain/model"
	"crossgrain/reports/drawing"
)

// canvas is a drawing in the making. Sizes on paper are given in tenths of a
// point.
type canvas struct {
	drawing.Drawing
	// foldAt is where the fold of a cloth crosses what is drawn; 0 without one.
	foldAt model.Length
}

// newCanvas is a canvas on which a length of what is drawn takes a number of
// points.
func newCanvas(title string, l model.Length, points int) *canvas {
	p := model.Length(max(points, 1))
	return &canvas{Drawing: drawing.Drawing{Scale: max(1, (l+p-1)/p), Title: unglued(title)}}
}

// tenths is a size on paper in the units of the drawing.
func (c *canvas) tenths(n int) model.Length { return c.Scale * model.Length(n) / 10 }

// show makes what lies between two corners seen, and what was seen before.
func (c *canvas) show(from, to drawing.Point) {
	if c.From == c.To {
		c.From, c.To = from, to
		return
	}
	c.From = drawing.Point{X: min(c.From.X, from.X), Y: min(c.From.Y, from.Y)}
	c.To = drawing.Point{X: max(c.To.X, to.X), Y: max(c.To.Y, to.Y)}
}

// pen is a line of a width in tenths of a point.
func (c *canvas) pen(width int, tone drawing.Tone) drawing.Stroke {
	return drawing.Stroke{Width: max(1, c.tenths(width)), Tone: tone}
}

// dashed is a broken line.
func (c *canvas) dashed(width, dash, gap int, tone drawing.Tone) drawing.Stroke {
	s := c.pen(width, tone)
	s.Dash, s.Gap = c.tenths(dash), c.tenths(gap)
	return s
}

// wasteHatch is the hatch of what is left over.
func (c *canvas) wasteHatch() drawing.Hatch {
	return drawing.Hatch{Kind: drawing.Rising, Gap: c.tenths(32), Stroke: c.pen(4, drawing.Grey)}
}

func (c *canvas) line(s drawing.Stroke, points ...drawing.Point) {
	c.Add(drawing.Line{Points: points, Stroke: s})
}

// arrow ends a line with a head.
func (c *canvas) arrow(from, to drawing.Point, tone drawing.Tone) {
	c.line(c.pen(7, tone), from, to)
	c.head(from, to, tone)
}

// head is the head of an arrow that comes from a point, level or upright.
func (c *canvas) head(from, to drawing.Point, tone drawing.Tone) {
	long, half := c.tenths(40), c.tenths(16)
	back := func(a, b model.Length) model.Length {
		switch {
		case b > a:
			return -long
		case b < a:
			return long
		}
		return 0
	}
	dx, dy := back(from.X, to.X), back(from.Y, to.Y)
	side := drawing.Point{X: half}
	if dx != 0 {
		side = drawing.Point{Y: half}
	}
	base := drawing.Point{X: to.X + dx, Y: to.Y + dy}
	c.Add(drawing.Shape{Outline: []drawing.Point{to,
		{X: base.X + side.X, Y: base.Y + side.Y}, {X: base.X - side.X, Y: base.Y - side.Y}}, Fill: tone})
}

// words are a text as it stands in drawings: with fractions as one sign.
func words(s string) string { return drawing.Fractions(unglued(s)) }

// writing is how a text looks.
type writing struct {
	size   int // in tenths of a point
	bold   bool
	anchor drawing.Anchor
	upward bool
	tone   drawing.Tone
	halo   bool // with white behind it
}

// write puts a text with its middle height at a point.
func (c *canvas) write(at drawing.Point, s string, w writing) {
	if s == "" {
		return
	}
	size := c.tenths(w.size)
	// Capitals are about 0.72 of the size high.
	drop := size * 36 / 100
	t := drawing.Text{At: drawing.Point{X: at.X, Y: at.Y + drop}, Size: size, Text: words(s), Anchor: w.anchor, Bold: w.bold, Tone: w.tone}
	if w.upward {
		t.Upward, t.At = true, drawing.Point{X: at.X + drop, Y: at.Y}
	}
	if w.halo {
		c.halo(at, t)
	}
	c.Add(t)
}

// haloClass is that of the white behind a text.
const haloClass = "halo"

// halo is white behind a text.
func (c *canvas) halo(at drawing.Point, t drawing.Text) {
	wide, half := c.width(t.Text, t.Size, t.Bold)+c.tenths(20), t.Size/2+c.tenths(6)
	from := drawing.Point{X: at.X - wide*model.Length(t.Anchor)/2, Y: at.Y - half}
	to := drawing.Point{X: from.X + wide, Y: at.Y + half}
	if t.Anchor != drawing.Middle {
		shift := c.tenths(10) * (model.Length(t.Anchor) - 1)
		from.X, to.X = from.X+shift, to.X+shift
	}
	if t.Upward {
		from, to = drawing.Point{X: at.X - half, Y: at.Y - wide/2}, drawing.Point{X: at.X + half, Y: at.Y + wide/2}
	}
	c.Add(drawing.Shape{Outline: drawing.Box(from, to), Fill: drawing.White, Class: haloClass})
}

// takeTexts takes the texts and what is behind them off the drawing, so that
// lines can be drawn below them.
func (c *canvas) takeTexts() []drawing.Item {
	var texts, others []drawing.Item
	for _, item := range c.Items {
		shape, isShape := item.(drawing.Shape)
		if _, isText := item.(drawing.Text); isText || isShape && shape.Class == haloClass {
			texts = append(texts, item)
			continue
		}
		others = append(others, item)
	}
	c.Items = others
	return texts
}

// width is how wide a text is; other fonts than ours may be a little wider.
func (c *canvas) width(s string, size model.Length, bold bool) model.Length {
	return drawing.TextWidth(s, size, bold)
}

// textWidth is the width of a text of a size in tenths of a point.
func (c *canvas) textWidth(s string, size int, bold bool) model.Length {
	return c.width(words(s), c.tenths(size), bold)
}

// shortened is a text cut off where it becomes wider than the room.
func (c *canvas) shortened(s string, size int, bold bool, room model.Length) string {
	if c.textWidth(s, size, bold) <= room {
		return s
	}
	runes := []rune(s)
	for len(runes) > 1 {
		runes = runes[:len(runes)-1]
		if short := strings.TrimSpace(string(runes)) + "…"; c.textWidth(short, size, bold) <= room {
			return short
		}
	}
	return ""
}

// measureLevel is a level line with arrows at both ends and a text in it.
func (c *canvas) measureLevel(from, to, y model.Length, text string) {
	a, b := drawing.Point{X: from, Y: y}, drawing.Point{X: to, Y: y}
	c.line(c.pen(4, drawing.Grey), a, b)
	if to-from > c.tenths(100) {
		c.head(b, a, drawing.Grey)
		c.head(a, b, drawing.Grey)
	}
	c.ends(a, b, drawing.Point{Y: c.tenths(25)})
	c.write(drawing.Point{X: (from + to) / 2, Y: y}, text, writing{size: 70, anchor: drawing.Middle, halo: true})
}

// measureUpright is the same upright; the text is read upwards.
func (c *canvas) measureUpright(from, to, x model.Length, text string) {
	a, b := drawing.Point{X: x, Y: from}, drawing.Point{X: x, Y: to}
	c.line(c.pen(4, drawing.Grey), a, b)
	if to-from > c.tenths(100) {
		c.head(b, a, drawing.Grey)
		c.head(a, b, drawing.Grey)
	}
	c.ends(a, b, drawing.Point{X: c.tenths(25)})
	c.write(drawing.Point{X: x, Y: (from + to) / 2}, text, writing{size: 70, anchor: drawing.Middle, upward: true, halo: true})
}

// ends are the short lines across the ends of a measure.
func (c *canvas) ends(a, b, half drawing.Point) {
	for _, p := range []drawing.Point{a, b} {
		c.line(c.pen(4, drawing.Grey), drawing.Point{X: p.X - half.X, Y: p.Y - half.Y}, drawing.Point{X: p.X + half.X, Y: p.Y + half.Y})
	}
}
