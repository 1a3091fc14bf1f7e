package block

import "crossgrain/model"

// FlipCorners is a rectangle with pieces flipped over some of its corners: a
// piece is sewn across a corner on a slant, folded open, and what lies below
// it is cut away.
//
// The base is cut w + 2s by h + 2s, the piece of a corner that finishes a wide
// and b high is cut a + 2s by b + 2s where a = b (a square, sewn on its
// diagonal). Where a and b differ it is that of a half-rectangle triangle
// ([HalfRectangle]), cut as a whole rectangle. Cut, if it is given, is the
// published or proven size in place of that.
type FlipCorners struct {
	Width, Height model.Length
	Fabric        string // of the base
	Corners       []FlipCorner
}

// FlipCorner is one corner of a FlipCorners. Two of them must not overlap.
type FlipCorner struct {
	Corner              Corner
	Width, Height       model.Length // finished, along the two sides of the unit
	Fabric              string
	CutWidth, CutHeight model.Length // 0 if worked out
}

// Corner is a corner of a unit.
type Corner uint8

// The corners, clockwise.
const (
	UpperLeft Corner = iota
	UpperRight
	LowerRight
	LowerLeft
)

// String is upper left, upper right, lower right or lower left.
func (c Corner) String() string {
	return []string{"upper left", "upper right", "lower right", "lower left"}[c]
}

// The keys of a unit with flipped corners in a quilt file.
const (
	KeyFlipCorners = "flip_corners"
	KeyCorners     = "corners"
)
