package block

import "crossgrain/model"

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
//     (scissortailquilting.com, square in a square).
type SquareInSquare struct {
	Side    model.Length
	Fabrics []string // centre, corners; or centre and the four corners from the upper left
	Method  Method
	Ease    Ease
}

// KeySquareInSquare is the key of a square in a square in a quilt file.
const KeySquareInSquare = "square_in_square"
