package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// QuarterSquare is a square of four triangles that meet in its middle. The
// fabrics are the top, right, bottom and left one.
//
// For a finished side f:
//
//   - [FromTriangles], the default: squares of f + s(2+2√2), halved twice,
//     each for 4 triangles. At s = 1/4 in, f + 1 1/4 (APQ how-to,
//     allpeoplequilt.com/print/325998).
//   - [TwoAtATime]: the same squares, two of them sewn into half-square
//     triangles, those sewn and cut again, for 2 units. Top and bottom must be
//     of one fabric, left and right of one other.
//
// The trade's ease is 1/4 in: f + 1 1/2 (North Hampshire Quilters).
type QuarterSquare struct {
	Side    model.Length
	Fabrics []string // top, right, bottom, left
	Method  Method
	Ease    Ease
}

// KeyQuarterSquare is the key of a quarter-square triangle in a quilt file.
const KeyQuarterSquare = "quarter_square"

const quarterSquareEase = model.Inch / 4

// Size is Side by Side.
func (u QuarterSquare) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Side), geometry.Of(u.Side)
}

// Uses are the top, right, bottom and left fabric.
func (u QuarterSquare) Uses() []string { return u.Fabrics }

// Recolour is the unit with fabrics exchanged.
func (u QuarterSquare) Recolour(swap Swap) Unit {
	u.Fabrics = swap.of(u.Fabrics)
	return u
}

// Check notes a side, fabrics, a method or an ease that cannot be.
func (u QuarterSquare) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyQuarterSquare), u.Side)
	c.FabricList(at, u.Fabrics, "top", "right", "bottom", "left")
	c.Method(at, u.Method, QuarterSquareMethods)
	c.Ease(at, u.Ease)
	if f := u.Fabrics; u.Method == TwoAtATime && len(f) == 4 && (f[Top] != f[Bottom] || f[Left] != f[Right]) {
		c.Faults.AddAt(at.At(KeyFabrics), &model.ValueError{Err: model.ErrNotTogether, Hint: "2 at a time gives top and bottom " +
			"of one fabric, left and right of one other: write them so, or method: " + FromTriangles.String()})
	}
}

// Make is what n quarter-square triangles take.
func (u QuarterSquare) Make(r Rules, n int) Yield {
	square := r.Ceil(r.QuarterSquareCut(geometry.Of(u.Side))) + u.Ease.length(r, quarterSquareEase)
	cut := model.Cut{Width: square, Height: square, Halve: model.HalvedTwice, Use: u.Method.use("quarter-square triangles")}
	side := r.Unfinished(u.Side)
	y := Yield{Trims: []Trim{{Step: "quarter-square triangle", Width: side, Height: side}}}
	triangles := u.triangles()
	if u.Method != TwoAtATime {
		y.Made = y.halved(cut, n, triangles...)
		return y
	}
	times := upTo(n, 2)
	y.Made = 2 * times
	cut.Halve, cut.Count = model.NotHalved, times
	for _, fabric := range u.Fabrics[:2] {
		cut.Fabric = fabric
		y.Cuts = append(y.Cuts, cut)
	}
	for _, t := range triangles {
		y.Shapes = append(y.Shapes, Shape{Fabric: t.fabric, Outline: t.outline, Cut: -1})
	}
	return y
}

// triangles are those of one unit, clockwise from the top.
func (u QuarterSquare) triangles() []triangle {
	corners := box(u.Side, u.Side)
	half := geometry.Of(u.Side).Half()
	triangles := make([]triangle, 4)
	for i, fabric := range u.Fabrics {
		triangles[i] = triangle{fabric, geometry.Polygon{corners[i], corners[(i+1)%4], geometry.At(half, half)}}
	}
	return triangles
}
