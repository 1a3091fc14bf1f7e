package setting

import (
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// edges are the lines of a border: in each direction the outer edge, the inner
// one, the far inner one and the far outer one. Two of them are the same where
// the border is not on that side.
type edges struct {
	Border
	x, y [4]geometry.Surd
}

func (b Border) edges(width, height geometry.Surd) edges {
	e := edges{Border: b}
	e.x[1], e.y[1] = geometry.Of(b.on(block.Left)), geometry.Of(b.on(block.Top))
	e.x[2], e.y[2] = e.x[1].Add(width), e.y[1].Add(height)
	e.x[3], e.y[3] = e.x[2].Add(geometry.Of(b.on(block.Right))), e.y[2].Add(geometry.Of(b.on(block.Bottom)))
	return e
}

// reaches reports whether a side of the border covers the corners at its ends.
// Mitred it covers half of each.
func (e edges) reaches(side block.Side) bool {
	upright := side == block.Left || side == block.Right
	return e.Corners == Mitred || e.Corners == SidesFirst && !upright || e.Corners == TopFirst && upright
}

// length is the exact cut length of a side: the finished one of its longer
// edge, two seam allowances unless it is mitred, and the extra.
func (e edges) length(side block.Side, r block.Rules) geometry.Surd {
	along := e.x
	if side == block.Left || side == block.Right {
		along = e.y
	}
	from, to := along[1], along[2]
	if e.reaches(side) {
		from, to = along[0], along[3]
	}
	length := to.Sub(from).Add(geometry.Of(e.Extra))
	if e.Corners == Mitred {
		return length
	}
	return length.Add(geometry.Of(2 * r.Seam))
}

// outline is a finished side: a rectangle, or a trapezoid between mitres.
func (e edges) outline(side block.Side) geometry.Polygon {
	outer, inner := 0, 1
	if side == block.Right || side == block.Bottom {
		outer, inner = 3, 2
	}
	upright := side == block.Left || side == block.Right
	corner := func(along, across int) geometry.Point {
		if upright {
			return geometry.At(e.x[across], e.y[along])
		}
		return geometry.At(e.x[along], e.y[across])
	}
	switch {
	case e.Corners == Mitred:
		return neat(geometry.Polygon{corner(0, outer), corner(3, outer), corner(2, inner), corner(1, inner)})
	case e.reaches(side):
		return geometry.Polygon{corner(0, outer), corner(3, outer), corner(3, inner), corner(0, inner)}
	}
	return geometry.Polygon{corner(1, outer), corner(2, outer), corner(2, inner), corner(1, inner)}
}
