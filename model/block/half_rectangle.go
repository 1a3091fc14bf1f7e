package block

import "crossgrain/model"

// HalfRectangle is a rectangle of two triangles. The seam runs from the lower
// left to the upper right corner, or, leaning the other way, from the upper
// left to the lower right. The fabrics are the upper one and the lower one.
//
// For a finished size a x b and c = √(a²+b²), the exact rectangle to cut, one
// of each fabric for 2 units, is a + s(1+(a+c)/b) by b + s(1+(b+c)/a) (our own
// arithmetic: parallels at s from the three sides). No fixed addition holds for
// all ratios (generations-quilt-patterns.com). c is no surd: the root is taken
// in whole numbers and rounded up.
//
// The trade's way ([TradeEase]) is w + 1 by 2w + 2 for a rectangle of w by 2w
// (mmmquilts.com, 2019-12); for other ratios, 1/2 in over the exact size, no
// source.
type HalfRectangle struct {
	Width, Height model.Length
	Fabrics       []string // upper, lower
	OtherWay      bool     // the seam runs from the upper left to the lower right
	Ease          Ease
}

// KeyHalfRectangle is the key of a half-rectangle triangle in a quilt file.
const KeyHalfRectangle = "half_rectangle"
