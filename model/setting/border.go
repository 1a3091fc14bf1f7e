package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
)

// Border is one border around a quilt. Borders are sewn in order, each around
// what is there.
//
// Butted sides first: two of the height, then two of the new width (guild class
// oldmvc.villageserver.com/4Bs_Oct.html: 32 1/2 x 44, border cut 1 1/2: two 44,
// two 34 1/2). Mitred: each side + 2w + extra (APQ: 40 + 10 + 6 = 56). With
// corner squares: two of each side, and four squares of w + 2s.
//
// Crosswise, sides that are no longer than the narrowest usable width are cut
// in one piece; longer ones are cut from one run of strips joined end to end,
// of which a straight join loses 2s and a diagonal one the cut width.
// Lengthwise, each is one piece along the selvage.
type Border struct {
	Width   model.Length // finished
	Fabric  string
	Corners Corners
	// CornerFabric is that of corner squares.
	CornerFabric string
	Cut          BorderCut
	// Sides are those that have the border; none named are all four.
	Sides []block.Side
	// Extra is added to the length of each side. Butted borders are cut to
	// measure and have 0; mitred ones mostly 6 in or 15 cm.
	Extra model.Length
}

// Corners say how the sides of a border meet.
type Corners uint8

// The ways that sides meet.
const (
	SidesFirst    Corners = iota // left and right, then top and bottom across them
	TopFirst                     // top and bottom, then left and right
	Mitred                       // on the diagonal
	CornerSquares                // a square of another fabric in each corner
)

// BorderCut says how the sides of a border are cut.
type BorderCut uint8

// The ways to cut.
const (
	CrosswiseStraight BorderCut = iota // across the fabric, straight joins
	CrosswiseDiagonal                  // across the fabric, diagonal joins
	LengthwiseCut                      // along the selvage, in one piece
)

// The keys of a border in a quilt file.
const (
	KeyBorders      = "borders"
	KeyBorderWidth  = "width"
	KeyBorderFabric = "fabric"
	KeyBorderCorner = "corners"
	KeyCornerFabric = "corner_fabric"
	KeyBorderCut    = "cut"
	KeyBorderSides  = "sides"
	KeyExtra        = "extra"
)
