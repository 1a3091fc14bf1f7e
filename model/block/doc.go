// Package block has the units that blocks are pieced of, blocks that grow by
// rounds, and grids of units: from finished sizes it works out what to cut,
// what to trim to, and where each piece ends up.
//
// Each kind of [Unit] stands in a file of its name. A unit says what its
// finished size is and, for a number of units, what they take: its [Yield].
// [Checker] looks for faults first; a unit that has none never fails later.
//
// Sizes follow [Rules]: the seam allowance s, and the ruler's mark, to which
// cut sizes are rounded up. True roots are used, never 1.414, and rounded
// once. Where a unit is trimmed after it is sewn, its pieces may be cut larger
// by an [Ease].
//
// Places are measured from the upper left corner, x to the right, y
// downwards. Everywhere four sides are listed clockwise: top, right, bottom,
// left; four corners too, from the upper left; on point the first side faces
// the upper right.
package block
