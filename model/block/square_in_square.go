package block

import (
	"fmt"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// SquareInSquare is a square on point, and four triangles that make it a
// square twice as large in area. Its corners touch the middles of the sides.
// For more depth see [Rounds].
//
// For a finished side f:
//
//   - [FromTriangles], the default: a centre of f/√2 + 2s and squares of
//     f/2 + s(2+√2), halved once. Block 12: 9 and 6 7/8 (slideblast.com, Lesson
//     5, square in a square). The trade's ease is 1/4 in, for the triangles.
//   - [FlipAndTrim]: a square of f + 2s and four of f/2 + 2s
//     (scissortailquilting.com, square in a square). Ease enlarges all five.
//     The trade's is 1/4 in (common practice, no source).
type SquareInSquare struct {
	Side    model.Length
	Fabrics []string // centre, corners; or centre and the four corners from the upper left
	Method  Method
	Ease    Ease
}

// KeySquareInSquare is the key of a square in a square in a quilt file.
const KeySquareInSquare = "square_in_square"

const squareInSquareEase = model.Inch / 4

// Size is Side by Side.
func (u SquareInSquare) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Side), geometry.Of(u.Side)
}

// Uses are the centre's fabric and that of the corners, or those of all four.
func (u SquareInSquare) Uses() []string { return u.Fabrics }

// Recolour is the unit with fabrics exchanged.
func (u SquareInSquare) Recolour(swap Swap) Unit {
	u.Fabrics = swap.of(u.Fabrics)
	return u
}

// Check notes a side, fabrics, a method or an ease that cannot be.
func (u SquareInSquare) Check(c *Checker, at model.Path) {
	before := len(c.Faults)
	c.Finished(at.At(KeySquareInSquare), u.Side)
	if u.Method == FlipAndTrim && len(c.Faults) == before {
		u.checkHalf(c, at.At(KeySquareInSquare))
	}
	parts := []string{"centre", "corners"}
	if len(u.Fabrics) > len(parts) {
		parts = []string{"centre", "upper left", "upper right", "lower right", "lower left"}
	}
	c.FabricList(at, u.Fabrics, parts...)
	c.Method(at, u.Method, SquareInSquareMethods)
	c.Ease(at, u.Ease)
}

// checkHalf checks that half the side is on the ruler's mark with its seams:
// flipped squares that are rounded up would not meet at the seam.
func (u SquareInSquare) checkHalf(c *Checker, at model.Path) {
	half := geometry.Of(u.Side).Half().Add(geometry.Of(2 * c.Rules.Seam))
	next := c.Rules.Ceil(half)
	if half.Equal(geometry.Of(next)) {
		return
	}
	c.Faults.AddAt(at, &model.ValueError{Value: u.Side.FormatWithUnit(c.Rules.Unit), Err: model.ErrOffMark, Hint: fmt.Sprintf(
		"the squares to flip are half as large: write %s, method: %s, or a finer ruler",
		(2 * (next - 2*c.Rules.Seam)).Written(c.Rules.Unit), FromTriangles)})
}

// Make is what n squares in squares take.
func (u SquareInSquare) Make(r Rules, n int) Yield {
	side := r.Unfinished(u.Side)
	ease := u.Ease.length(r, squareInSquareEase)
	y := Yield{Made: n, Trims: []Trim{{Step: "square in a square", Width: side, Height: side, AllRound: true}}}
	half := geometry.Of(u.Side).Half()
	corners := u.corners()
	centre := model.Cut{Fabric: u.Fabrics[0], Count: n, Use: "centre"}
	square := model.Cut{Use: "corners"}
	if u.Method == FlipAndTrim {
		centre.Width, square.Width = side+ease, r.Ceil(half.Add(geometry.Of(2*r.Seam)))+ease
	} else {
		exact := geometry.Of(u.Side).OverRoot2().Add(geometry.Of(2 * r.Seam))
		centre.Width, square.Width = r.Ceil(exact), r.Ceil(r.HalfSquareCut(half))+ease
		y.Notes = u.roundedNote(r, exact, centre.Width)
	}
	centre.Height, square.Height = centre.Width, square.Width
	y.Cuts = []model.Cut{centre}
	y.Shapes = []Shape{{Fabric: u.Fabrics[0], Outline: u.centre()}}
	if u.Method != FlipAndTrim {
		square.Halve = model.HalvedOnce
		y.Made = min(n, y.halved(square, n, corners...))
		return y
	}
	y.halved(square, n, corners...)
	for i := range y.Shapes {
		y.Shapes[i].Cut = -1 // the seams are sewn across whole squares
	}
	return y
}

// roundedNote says what to do about a centre that is larger than exact.
func (u SquareInSquare) roundedNote(r Rules, exact geometry.Surd, cut model.Length) []string {
	if exact.Equal(geometry.Of(cut)) {
		return nil
	}
	return []string{fmt.Sprintf("The centre of a square in a square of %s is cut %s, up to the next mark of the ruler: "+
		"trim what is sewn evenly on all four sides, to %s.", u.Side.FormatWithUnit(r.Unit), cut.FormatWithUnit(r.Unit),
		r.Unfinished(u.Side).FormatWithUnit(r.Unit))}
}

// centre is the square on point.
func (u SquareInSquare) centre() geometry.Polygon {
	f, half := geometry.Of(u.Side), geometry.Of(u.Side).Half()
	none := geometry.Surd{}
	return geometry.Polygon{geometry.At(half, none), geometry.At(f, half), geometry.At(half, f), geometry.At(none, half)}
}

// corners are the triangles, clockwise from the upper left.
func (u SquareInSquare) corners() []triangle {
	outer, middles := box(u.Side, u.Side), u.centre()
	corners := make([]triangle, 4)
	for i := range corners {
		fabric := u.Fabrics[1]
		if len(u.Fabrics) > 2 {
			fabric = u.Fabrics[1+i]
		}
		corners[i] = triangle{fabric, geometry.Polygon{outer[i], middles[i], middles[(i+3)%4]}}
	}
	return corners
}
