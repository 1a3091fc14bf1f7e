package block

import "crossgrain/model"

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
