package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// HalfSquare is a square of two triangles, with the seam from the lower left
// to the upper right corner. The fabrics are the upper left one and the lower
// right one.
//
// For a finished side f, each fabric is cut (s is the seam allowance):
//
//   - [FromTriangles], the default: squares of f + s(2+√2), halved once, each
//     for the triangles of 2 units. At s = 1/4 in, f + 7/8 (APQ how-to,
//     allpeoplequilt.com/print/325998).
//   - [TwoAtATime]: the same squares, sewn on both sides of a diagonal and cut
//     on it.
//   - [FourAtATime]: squares of f√2 + s(2+2√2), sewn all round and cut on both
//     diagonals; the edges are then on the bias. (Our own arithmetic: the raw
//     triangles have the square's sides as their long sides.)
//   - [EightAtATime]: squares twice as large as for two (APQ, August 2019).
//
// The trade's ease is 1/8 in: f + 1 in place of f + 7/8
// (quiltingboard.com, t28839).
type HalfSquare struct {
	Side    model.Length
	Fabrics []string // upper left, lower right
	Method  Method
	Ease    Ease
}

const halfSquareEase = model.Inch / 8

// KeyHalfSquare is the key of a half-square triangle in a quilt file.
const KeyHalfSquare = "half_square"

// Size is Side by Side.
func (u HalfSquare) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Side), geometry.Of(u.Side)
}

// Uses are the upper left and the lower right fabric.
func (u HalfSquare) Uses() []string { return u.Fabrics }

// Recolour is the unit with fabrics exchanged.
func (u HalfSquare) Recolour(swap Swap) Unit {
	u.Fabrics = swap.of(u.Fabrics)
	return u
}

// Check notes a side, fabrics, a method or an ease that cannot be.
func (u HalfSquare) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyHalfSquare), u.Side)
	c.FabricList(at, u.Fabrics, "upper left", "lower right")
	c.Method(at, u.Method, HalfSquareMethods)
	c.Ease(at, u.Ease)
}

// Make is what n half-square triangles take.
func (u HalfSquare) Make(r Rules, n int) Yield {
	at, halve := 2, model.NotHalved // how many at a time
	ease := u.Ease.length(r, halfSquareEase)
	square := r.Ceil(r.HalfSquareCut(geometry.Of(u.Side))) + ease
	switch u.Method {
	case FourAtATime:
		at, square = 4, r.Ceil(r.QuarterSquareCut(geometry.Root2(u.Side)))+ease
	case EightAtATime:
		at, square = 8, 2*square
	case DefaultMethod, FromTriangles:
		halve = model.HalvedOnce
	}
	times := upTo(n, at)
	y := Yield{Made: times * at}
	for i, outline := range u.outlines() {
		cut := -1
		if halve == model.HalvedOnce {
			cut = i
		}
		y.Shapes = append(y.Shapes, Shape{Fabric: u.Fabrics[i], Outline: outline, Cut: cut})
		y.Cuts = append(y.Cuts, model.Cut{Fabric: u.Fabrics[i], Width: square, Height: square, Count: times, Halve: halve,
			Use: u.Method.use("half-square triangles")})
	}
	side := r.Unfinished(u.Side)
	y.Trims = []Trim{{Step: "half-square triangle", Width: side, Height: side}}
	return y
}

// outlines are the triangles, upper left and lower right.
func (u HalfSquare) outlines() [2]geometry.Polygon {
	f, none := geometry.Of(u.Side), geometry.Surd{}
	right, low := geometry.At(f, none), geometry.At(none, f)
	return [2]geometry.Polygon{{{}, right, low}, {right, geometry.At(f, f), low}}
}
