package block

import (
	"fmt"
	"strings"

	"crossgrain/model"
)

// Hand is the hand that holds the rotary cutter.
type Hand uint8

// The hands.
const (
	RightHand Hand = iota
	LeftHand
)

// String is right or left.
func (h Hand) String() string { return []string{"right", "left"}[h] }

// Side is a side of a block or a quilt.
type Side uint8

// The sides, clockwise.
const (
	Top Side = iota
	Right
	Bottom
	Left
)

// String is top, right, bottom or left.
func (s Side) String() string { return []string{"top", "right", "bottom", "left"}[s] }

// FirstSides are the two sides that are trimmed first: the one at the cutting
// hand and the far one, which a ruler held by the other hand leaves free.
// (Common practice, no source.)
func FirstSides(h Hand) [2]Side {
	if h == LeftHand {
		return [2]Side{Left, Top}
	}
	return [2]Side{Right, Top}
}

// Words says in sentences how a unit is trimmed by a hand, sizes in the unit
// u: which two sides come first and where the ruler lies, then the other two,
// once the block is turned half round. In the end it stands as before, for the
// next step names the sides of a block that stands upright. (Common practice, no
// source.)
func (t Trim) Words(h Hand, u model.Unit) string {
	size := model.FormatSize(t.Width, t.Height, u) + " " + u.String()
	if !t.AllRound {
		return fmt.Sprintf("Trim to %s.", size)
	}
	var words strings.Builder
	if t.OnPoint {
		words.WriteString("Turn the block by an eighth, so that the slanted edges are upright. ")
	}
	first := FirstSides(h)
	fmt.Fprintf(&words, "Trim the %s and the %s side%s. ", first[0], first[1], t.beyond(u))
	fmt.Fprintf(&words, "Turn the block half round and trim the other two sides: %s from edge to edge. ", size)
	words.WriteString("Then turn the block back, to stand as it stood before this step.")
	return words.String()
}

// beyond is how far beyond seams or points the ruler's edge lies, if either is
// known.
func (t Trim) beyond(u model.Unit) string {
	points := t.PastPoints.FormatWithUnit(u) + " beyond the points where the seams meet"
	seam := t.SeamToEdge.FormatWithUnit(u) + " beyond the last seam along it"
	switch {
	case t.PastPoints > 0 && t.SeamToEdge > 0:
		return ", " + points + ", which is " + seam
	case t.PastPoints > 0:
		return ", " + points
	case t.SeamToEdge > 0:
		return ", " + seam
	}
	return ""
}
