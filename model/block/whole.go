package block

import "crossgrain/model"

// Whole is a unit with pieces that are sewn in as they are cut: squares and
// rectangles, not what is cut again once it is cut or sewn. Where the unit
// stands turned, such a piece can be cut a quarter turned, so that a print with
// an up stands upright in the quilt.
type Whole interface {
	Unit
	// IsWhole reports whether the pieces of one of the cuts of Make are sewn in
	// as they are cut. A unit has them one for one, or a whole number of each.
	IsWhole(c model.Cut) bool
}

// IsWhole is true.
func (u Rectangle) IsWhole(model.Cut) bool { return true }

// IsWhole is true of patches that are cut piece by piece.
func (u Patches) IsWhole(model.Cut) bool { return u.Method != StripSets }

// IsWhole is true of the base, and of corners that are square.
func (u FlipCorners) IsWhole(c model.Cut) bool { return c.Use == baseUse || c.Width == c.Height }

// IsWhole is true of geese that are flipped.
func (u Geese) IsWhole(model.Cut) bool { return u.Method == FlipAndTrim }

// IsWhole is true of the centre, and of corners that are flipped.
func (u SquareInSquare) IsWhole(c model.Cut) bool { return c.Halve == model.NotHalved }

// IsWhole is true of a centre of one piece.
func (r Rounds) IsWhole(c model.Cut) bool { return c.Use == centreUse }
