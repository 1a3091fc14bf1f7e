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
	top := Top{grid: g}
	top.Width, top.Height = g.size()
	squares := Part{Key: KeySettingSquare}
	for v := g.from.v; v <= g.to.v; v++ {
		for u := g.from.u; u <= g.to.u; u++ {
			switch place, what := g.standing(u, v); what {
			case aBlock:
				top.Places = append(top.Places, Set{place, u, v})
			case aSquare:
				squares.add(r, g.cell(u, v), model.Cut{Fabric: s.SettingSquare, Use: "setting squares"})
			}
		}
	}
	parts := []Part{squares}
	if s.Sashing != nil {
		parts = append(parts, g.sashes(r, fabrics))
	}
	if s.Way == OnPoint {
		parts = append(parts, Part{Key: KeySides, Yield: g.sideTriangles(r)}, Part{Key: KeyCorners, Yield: g.cornerTriangles(r)})
	}
	for _, p := range parts {
		if len(p.Yield.Cuts)+len(p.Yield.Strips) > 0 {
			top.Parts = append(top.Parts, p)
		}
	}
	return top
}

// Size is the finished size of the top, without borders, if its blocks are of
// a finished width and height.
func (s Setting) Size(width, height model.Length) (topWidth, topHeight geometry.Surd) {
	return s.grid(width, height).size()
}

// Block is an outline of the block that stands in a place, turned as it stands
// there but still at (0, 0), where it is on the top: on point, turned clockwise
// by an eighth from there.
func (t Top) Block(s Set, outline geometry.Polygon) geometry.Polygon {
	if t.grid.Way == OnPoint {
		outline = outline.OnPoint()
	}
	return outline.Moved(t.grid.point(t.grid.across(s.u), t.grid.down(s.v)))
}

// Shapes are the finished pieces of a part of the top, where they are on it.
func (t Top) Shapes(p Part) []block.Shape {
	shapes := slices.Clone(p.Yield.Shapes)
	for _, b := range p.boxes {
		outline := geometry.Polygon{
			t.grid.point(b.u0, b.v0), t.grid.point(b.u1, b.v0), t.grid.point(b.u1, b.v1), t.grid.point(b.u0, b.v1)}
		shapes = append(shapes, block.Shape{Fabric: b.fabric, Outline: outline, Cut: b.cut})
	}
	return shapes
}

// box is a rectangle along the directions of a grid.
type box struct{ u0, v0, u1, v1 model.Length }

// piece is a rectangle of a fabric; cut is the place of its cut, or -1.
type piece struct {
	box
	fabric string
	cut    int
}

// add adds a rectangle of the grid: to the cut of its size if there is one, else
// as a new cut, of which the fabric and the use are given.
func (p *Part) add(r block.Rules, b box, cut model.Cut) {
	cut.Width, cut.Height = r.Unfinished(b.u1-b.u0).CeilTo(r.Ruler), r.Unfinished(b.v1-b.v0).CeilTo(r.Ruler)
	if cut.Width < cut.Height && !cut.NoTurn {
		cut.Width, cut.Height = cut.Height, cut.Width
	}
	p.boxes = append(p.boxes, piece{b, cut.Fabric, addCut(&p.Yield, cut)})
}
