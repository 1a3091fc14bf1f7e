package reports

import (
	"fmt"

	"crossgrain/model"
	"crossgrain/reports/drawing"
)

// halve says how a piece's squares are cut on; nothing where they are not.
func halve(p pieceRow) string {
	all := "all "
	if p.Count == 1 {
		all = ""
	}
	pieces := fmt.Sprintf("%s%d%s%s", all, p.Count, glue, p.label)
	triangles := counted(p.triangles, "triangle", "triangles")
	switch p.Halve {
	case model.HalvedOnce:
		text := fmt.Sprintf("Halve %s once on the diagonal: %s.", pieces, triangles)
		if p.Along != p.Across {
			text += " " + onDiagonal(p)
		}
		return text
	case model.HalvedTwice:
		return fmt.Sprintf("Halve %s twice, on both diagonals: %s.", pieces, triangles)
	}
	return ""
}

// onDiagonal says on which diagonal rectangles are halved.
func onDiagonal(p pieceRow) string {
	if p.Diagonal == model.EitherDiagonal {
		return "Cut all on the same diagonal, right side up and in single layers: the other diagonal gives mirror images."
	}
	stands := "upright, the long side up"
	if p.Along > p.Across {
		stands = "lying, the long side level"
	}
	return fmt.Sprintf("Cut all right side up and in single layers, %s, %v: the other diagonal gives mirror images.", stands, p.Diagonal)
}

// halvedOn are the diagonals to draw in a piece as it stands. Those of a square
// that is halved once are alike; a rectangle has none where the quilt does not
// say which.
func halvedOn(h model.Halving, d model.Diagonal, square bool) []model.Diagonal {
	switch {
	case h == model.HalvedTwice:
		return []model.Diagonal{model.Rising, model.Falling}
	case h == model.NotHalved:
		return nil
	case square:
		return []model.Diagonal{model.Rising}
	case d == model.EitherDiagonal:
		return nil
	}
	return []model.Diagonal{d}
}

// diagonals are those that the piece is cut on, as it lies.
func (p lyingPiece) diagonals() []model.Diagonal {
	d := p.piece.Diagonal
	if p.turned {
		d = d.Turned()
	}
	return halvedOn(p.piece.Halve, d, p.piece.Along == p.piece.Across)
}

// diagonal draws a diagonal of an area.
func (c *canvas) diagonal(s drawing.Stroke, a area, d model.Diagonal) {
	if d == model.Falling {
		c.line(s, a.from, a.to)
		return
	}
	c.line(s, drawing.Point{X: a.from.X, Y: a.to.Y}, drawing.Point{X: a.to.X, Y: a.from.Y})
}
