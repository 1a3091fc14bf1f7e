package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// SixtyTriangle is a triangle of three equal sides, given by its finished
// height h. The strip is cut h + 3s high (blotchandthrum.com, 2013-08: row of 6,
// strip of 6 3/4); the cut side is 2(h+3s)/√3, and each further triangle,
// turned head to foot, takes half of it: n = floor(2W/side) - 1 (our own
// arithmetic; 7 of an 8 in strip, folded, is published at
// quilt-it.blogspot.com, 2012-06).
type SixtyTriangle struct{ Height model.Length }

// Hexagon is one of six equal sides, given by its finished height from flat
// side to flat side. The strip is cut f + 2s high (slaneyquiltingstudio.com:
// 2 3/4 in, strip 3 1/4); each takes the strip from point to point, 2/√3 of
// the height (oocities.com, quick cut hexagons: floor(W / widest dimension)).
type Hexagon struct{ Height model.Length }

// The keys of 60° shapes in a quilt file.
const (
	KeySixtyTriangle = "sixty_triangle"
	KeyHexagon       = "hexagon"
)

// Outline is the finished triangle, its point at the top.
func (u SixtyTriangle) Outline() geometry.Polygon {
	half, h := geometry.Of(u.Height).OverRoot3(), geometry.Of(u.Height)
	return geometry.Polygon{{X: half}, geometry.At(half.Times(2), h), {Y: h}}
}

// Lie is how the triangles lie in a strip, head to foot.
func (u SixtyTriangle) Lie(r Rules) Lie {
	height := u.Height + 3*r.Seam
	half := geometry.Of(height).OverRoot3()
	return Lie{Height: height, First: ticks(half.Times(2)), Each: ticks(half), Halve: true}
}

// Check notes a height that cannot be.
func (u SixtyTriangle) Check(c *Checker, at model.Path) {
	c.finished(at.At(KeySixtyTriangle), u.Height, 3)
}

// Outline is the finished hexagon, flat sides at top and bottom.
func (u Hexagon) Outline() geometry.Polygon {
	h := geometry.Of(u.Height)
	side := h.OverRoot3()
	left, right, wide := side.Half(), side.Half().Times(3), side.Times(2)
	return geometry.Polygon{{X: left}, {X: right}, geometry.At(wide, h.Half()), geometry.At(right, h), geometry.At(left, h), {Y: h.Half()}}
}

// Lie is how the hexagons lie in a strip, point to point.
func (u Hexagon) Lie(r Rules) Lie {
	height := r.Unfinished(u.Height)
	wide := ticks(geometry.Of(height).OverRoot3().Times(2))
	return Lie{Height: height, First: wide, Each: wide}
}

// Check notes a height that cannot be.
func (u Hexagon) Check(c *Checker, at model.Path) { c.Finished(at.At(KeyHexagon), u.Height) }
