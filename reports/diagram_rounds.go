package reports

import (
	"fmt"
	"math"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/reports/drawing"
)

// vector is a place or a way on a block, measured from its middle. Only what is
// drawn is worked out in it.
type vector struct{ x, y float64 }

func (v vector) plus(w vector, times float64) vector { return vector{v.x + w.x*times, v.y + w.y*times} }

func (v vector) point() drawing.Point {
	return drawing.Point{X: model.Length(math.Round(v.x)), Y: model.Length(math.Round(v.y))}
}

// roundDrawings are the steps of a block of rounds: what is there, what is sewn
// on as it is cut, and the lines that it is trimmed to.
func roundDrawings(chart design.Chart, w design.Whole, r room) []drawing.Drawing {
	rounds, is := chart.Rounds()
	if !is {
		return nil
	}
	f := w.Unit(chart)
	centred := make([][]drawing.Point, len(f.Shapes))
	half := f.Width.CeilTo(1) / 2
	for i, s := range f.Shapes {
		centred[i] = outlineOf(s.Outline)
		for j, p := range centred[i] {
			centred[i][j] = drawing.Point{X: p.X - half, Y: p.Y - half}
		}
	}
	first := f.Inner
	if first == 0 {
		first = 1 // the centre
	}
	var drawings []drawing.Drawing
	for i := range rounds.Rounds {
		n := first + 4*i
		if i < len(chart.Trims) && n+4 <= len(f.Shapes) {
			d := roundStep{f, centred, n, chart.Trims[i], w}
			drawings = append(drawings, d.draw(i+1, r))
		}
	}
	return drawings
}

// roundStep is one round: the shapes before place n are there, the four from n
// on are sewn on.
type roundStep struct {
	design.Figure
	outlines [][]drawing.Point
	n        int
	trim     block.Trim
	whole    design.Whole
}

func (s roundStep) draw(number int, r room) drawing.Drawing {
	u := s.whole.Quilt.Unit
	c := newCanvas(fmt.Sprintf("%s, trimmed to %s", capital(clean(s.trim.Step)), measure(s.trim.Width, u)), 1, 1)
	var raw [][]drawing.Point
	reach := s.trim.Width/2 + s.trim.Width/16
	if s.trim.OnPoint {
		reach = reach * 1415 / 1000
	}
	for i := s.n; i < s.n+4; i++ {
		raw = append(raw, s.asCut(i))
		for _, p := range raw[len(raw)-1] {
			reach = max(reach, p.X, -p.X, p.Y, -p.Y)
		}
	}
	points := model.Length(min(r.width, r.height-34) - 8)
	c.Scale = max(1, (2*reach+points-1)/points)
	p := newPalette(s.whole.Quilt.Fabrics)
	for i, outline := range raw {
		shape := s.Shapes[s.n+i]
		c.Add(c.fill(drawing.Shape{Outline: outline, Stroke: c.pen(6, drawing.Ink), Class: pieceClass, Name: s.Cuts[shape.Cut].Name}, p[shape.Fabric]))
	}
	for i, outline := range s.outlines[:s.n] {
		c.Add(c.fill(drawing.Shape{Outline: outline, Stroke: c.pen(4, drawing.Ink), Class: patchClass, Name: s.Shapes[i].Fabric}, p[s.Shapes[i].Fabric]))
	}
	for i := range raw {
		shape := s.Shapes[s.n+i]
		c.write(centre(s.outlines[s.n+i]), s.Cuts[shape.Cut].Name, writing{size: 70, bold: true, anchor: drawing.Middle, halo: true})
	}
	c.Add(drawing.Shape{Outline: s.line(), Hollow: true, Stroke: c.dashed(11, 50, 25, drawing.Ink), Class: trimClass})
	text := fmt.Sprintf("%d: trim to %s", number, measure(s.trim.Width, u))
	c.write(drawing.Point{Y: reach + c.tenths(90)}, text, writing{size: 75, bold: true, anchor: drawing.Middle})
	half := max(reach+c.tenths(30), c.textWidth(text, 75, true)/2)
	y := reach + c.tenths(90)
	for _, past := range s.beyond(u) {
		y += c.tenths(90)
		c.write(drawing.Point{Y: y}, past, writing{size: 65, anchor: drawing.Middle})
		half = max(half, c.textWidth(past, 65, false)/2)
	}
	c.show(drawing.Point{X: -half, Y: -reach - c.tenths(30)}, drawing.Point{X: half, Y: y + c.tenths(70)})
	return c.Drawing
}

// beyond is how far the ruler's edge lies beyond points and seams.
func (s roundStep) beyond(u model.Unit) []string {
	var lines []string
	if s.trim.PastPoints > 0 {
		lines = append(lines, measure(s.trim.PastPoints, u)+" beyond the points")
	}
	if s.trim.SeamToEdge > 0 {
		lines = append(lines, measure(s.trim.SeamToEdge, u)+" beyond the last seam")
	}
	return lines
}

// line is the outline that the step is trimmed to.
func (s roundStep) line() []drawing.Point {
	half := s.trim.Width / 2
	if !s.trim.OnPoint {
		return drawing.Box(drawing.Point{X: -half, Y: -half}, drawing.Point{X: half, Y: half})
	}
	far := half * 14142 / 10000
	return []drawing.Point{{Y: -far}, {X: far}, {Y: far}, {X: -far}}
}

// asCut is a piece where it is sewn on, before it is trimmed. The outline of a
// finished piece begins with its inner edge, which is a seam.
func (s roundStep) asCut(i int) []drawing.Point {
	g := s.outlines[i]
	a, b := vector{float64(g[0].X), float64(g[0].Y)}, vector{float64(g[1].X), float64(g[1].Y)}
	middle := vector{(a.x + b.x) / 2, (a.y + b.y) / 2}
	long := math.Hypot(b.x-a.x, b.y-a.y)
	along := vector{(b.x - a.x) / long, (b.y - a.y) / long}
	out := vector{along.y, -along.x}
	if out.x*middle.x+out.y*middle.y < 0 {
		out = vector{-out.x, -out.y}
	}
	cut, seam := s.Cuts[s.Shapes[i].Cut], float64(s.whole.Rules().Seam)
	base := middle.plus(out, -seam)
	if cut.Halve != model.NotHalved {
		half := float64(cut.Width) * math.Sqrt2 / 2
		return []drawing.Point{base.plus(along, -half).point(), base.plus(along, half).point(), base.plus(out, half).point()}
	}
	half, high := float64(cut.Width)/2, float64(cut.Height)
	left, right := base.plus(along, -half), base.plus(along, half)
	return []drawing.Point{left.point(), right.point(), right.plus(out, high).point(), left.plus(out, high).point()}
}
