package block

import "crossgrain/model"

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
