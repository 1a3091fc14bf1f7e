package geometry

import "slices"

// Point is a place on a quilt: X to the right, Y downwards, as one reads.
type Point struct{ X, Y Surd }

// At is the point (x, y).
func At(x, y Surd) Point { return Point{x, y} }

// Plus is p moved by the vector v.
func (p Point) Plus(v Point) Point { return Point{p.X.Add(v.X), p.Y.Add(v.Y)} }

// Minus is the vector from q to p.
func (p Point) Minus(q Point) Point { return Point{p.X.Sub(q.X), p.Y.Sub(q.Y)} }

// Equal reports whether p is q.
func (p Point) Equal(q Point) bool { return p.X.Equal(q.X) && p.Y.Equal(q.Y) }

// Polygon is a shape with straight edges: its corners in order, either way
// round, without the first one at the end again. Shapes of patchwork are
// convex, save few; where a function needs that it says so.
type Polygon []Point

// Box is the rectangle with the corners p and q.
func Box(p, q Point) Polygon { return Polygon{p, {q.X, p.Y}, q, {p.X, q.Y}} }

// Area is the area of the polygon, in square ticks.
func (g Polygon) Area() Surd {
	// The shoelace formula.
	var twice Surd
	for i, p := range g {
		twice = twice.Add(cross(p, g[(i+1)%len(g)]))
	}
	if twice.Sign() < 0 {
		twice = twice.Neg()
	}
	return twice.Half()
}

// cross is the cross product of two vectors: the area between them, with a
// sign for the side.
func cross(v, w Point) Surd { return v.X.Mul(w.Y).Sub(v.Y.Mul(w.X)) }

// Moved is the polygon moved by the vector v.
func (g Polygon) Moved(v Point) Polygon {
	moved := make(Polygon, len(g))
	for i, p := range g {
		moved[i] = p.Plus(v)
	}
	return moved
}

// Turned is the polygon turned clockwise about (0, 0) by quarters of a turn.
func (g Polygon) Turned(quarters int) Polygon {
	turned := slices.Clone(g)
	for range (quarters%4 + 4) % 4 {
		for i, p := range turned {
			turned[i] = Point{p.Y.Neg(), p.X}
		}
	}
	return turned
}

// OnPoint is the polygon turned clockwise about (0, 0) by an eighth of a turn.
func (g Polygon) OnPoint() Polygon {
	turned := make(Polygon, len(g))
	for i, p := range g {
		turned[i] = Point{p.X.Sub(p.Y).OverRoot2(), p.X.Add(p.Y).OverRoot2()}
	}
	return turned
}

// Bounds are the corners of the smallest upright rectangle around the polygon:
// the upper left and the lower right.
func (g Polygon) Bounds() (from, to Point) {
	from, to = g[0], g[0]
	for _, p := range g[1:] {
		from = Point{Min(from.X, p.X), Min(from.Y, p.Y)}
		to = Point{Max(to.X, p.X), Max(to.Y, p.Y)}
	}
	return from, to
}

// Overlap reports whether the insides of two convex polygons meet. They do not
// if they only share an edge or a corner.
func Overlap(g, h Polygon) bool { return !g.parted(h) && !h.parted(g) }

// parted reports whether the line of an edge of g has all of h on its outer
// side: convex shapes that do not overlap have such an edge, in one of them.
func (g Polygon) parted(h Polygon) bool {
	inside := g.turning()
	for i, p := range g {
		along := g[(i+1)%len(g)].Minus(p)
		if !slices.ContainsFunc(h, func(q Point) bool {
			return cross(along, q.Minus(p)).Sign() == inside
		}) {
			return true
		}
	}
	return false
}

// Within reports whether the whole of g lies in the convex polygon h; their
// edges may touch.
func (g Polygon) Within(h Polygon) bool {
	inside := h.turning()
	for i, p := range h {
		along := h[(i+1)%len(h)].Minus(p)
		for _, q := range g {
			if cross(along, q.Minus(p)).Sign() == -inside {
				return false
			}
		}
	}
	return true
}

// turning is the sign of the way round that the corners are given in.
func (g Polygon) turning() int {
	var twice Surd
	for i, p := range g {
		twice = twice.Add(cross(p, g[(i+1)%len(g)]))
	}
	return twice.Sign()
}

// Convex reports whether the polygon has at least three corners, an inside,
// and no corner that is turned in or flat.
func (g Polygon) Convex() bool {
	inside := g.turning()
	if len(g) < 3 || inside == 0 {
		return false
	}
	for i, p := range g {
		q, r := g[(i+1)%len(g)], g[(i+2)%len(g)]
		if cross(q.Minus(p), r.Minus(q)).Sign() != inside {
			return false
		}
	}
	return true
}
