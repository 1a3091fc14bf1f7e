package setting

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Set puts blocks of a finished width and height together; on point they are
// square. The fabrics are those of the quilt. It is called only if Check noted
// nothing.
func (s Setting) Set(r block.Rules, width, height model.Length, fabrics []model.Fabric) Top {
	g := s.grid(width, height)
	var top Top
	top.Width, top.Height = g.size()
	var squares block.Yield
	for v := g.from.v; v <= g.to.v; v++ {
		for u := g.from.u; u <= g.to.u; u++ {
			place, what := g.standing(u, v)
			corner := g.point(g.across(u), g.down(v))
			switch what {
			case aBlock:
				top.Places = append(top.Places, Set{Place: place, X: corner.X, Y: corner.Y, OnPoint: s.Way == OnPoint})
			case aSquare:
				g.add(&squares, r, g.cell(u, v), model.Cut{Fabric: s.SettingSquare, Use: "setting squares"})
			}
		}
	}
	top.part(KeySettingSquare, squares)
	if s.Sashing != nil {
		top.part(KeySashing, g.sashes(r, fabrics))
	}
	if s.Way == OnPoint {
		top.part(KeySides, g.sideTriangles(r))
		top.part(KeyCorners, g.cornerTriangles(r))
	}
	return top
}

// part adds a part unless it is empty.
func (t *Top) part(key string, y block.Yield) {
	if len(y.Cuts)+len(y.Strips) > 0 {
		t.Parts = append(t.Parts, Part{key, y})
	}
}

// Size is the finished size of the top, without borders, if its blocks are of
// a finished width and height.
func (s Setting) Size(width, height model.Length) (topWidth, topHeight geometry.Surd) {
	return s.grid(width, height).size()
}

// box is a rectangle along the directions of a grid.
type box struct{ u0, v0, u1, v1 model.Length }

// add adds a rectangle of the grid to a yield: to the cut of its size if there
// is one, else as a new cut, of which the fabric and the use are given.
func (g grid) add(y *block.Yield, r block.Rules, b box, cut model.Cut) {
	cut.Width, cut.Height = r.Ceil(geometry.Of(b.u1-b.u0+2*r.Seam)), r.Ceil(geometry.Of(b.v1-b.v0+2*r.Seam))
	if cut.Width < cut.Height && !cut.NoTurn {
		cut.Width, cut.Height = cut.Height, cut.Width
	}
	i := slices.IndexFunc(y.Cuts, func(have model.Cut) bool {
		have.Count = cut.Count
		return have == cut
	})
	if i < 0 {
		i, y.Cuts = len(y.Cuts), append(y.Cuts, cut)
	}
	y.Cuts[i].Count++
	y.Shapes = append(y.Shapes, block.Shape{Fabric: cut.Fabric, Outline: g.outline(b), Cut: i})
}

// outline is a rectangle of the grid where it is on the top.
func (g grid) outline(b box) geometry.Polygon {
	return geometry.Polygon{g.point(b.u0, b.v0), g.point(b.u1, b.v0), g.point(b.u1, b.v1), g.point(b.u0, b.v1)}
}
