package block

import (
	"math"
	"slices"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// triangle is a finished triangle of one fabric.
type triangle struct {
	fabric  string
	outline geometry.Polygon
}

// halved adds the squares that are halved into the triangles of n units, those
// of each fabric together, and the triangles of one unit. The cut is one square,
// without its fabric and count. It returns how many units there are triangles
// for.
func (y *Yield) halved(square model.Cut, n int, triangles ...triangle) (made int) {
	first := len(y.Cuts)
	var each []int // triangles of each fabric in one unit
	for _, t := range triangles {
		i := slices.IndexFunc(y.Cuts[first:], func(c model.Cut) bool { return c.Fabric == t.fabric })
		if i < 0 {
			i, square.Fabric = len(each), t.fabric
			y.Cuts, each = append(y.Cuts, square), append(each, 0)
		}
		each[i]++
		y.Shapes = append(y.Shapes, Shape{Fabric: t.fabric, Outline: t.outline, Cut: first + i})
	}
	made = math.MaxInt
	shapes := square.Halve.Shapes()
	for i, of := range each {
		squares := upTo(of*n, shapes)
		y.Cuts[first+i].Count = squares
		made = min(made, squares*shapes/of)
	}
	return made
}
