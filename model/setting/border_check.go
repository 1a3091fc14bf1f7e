package setting

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// The limits of borders.
const (
	MaxExtra   = 36 * model.Inch
	MaxBorders = 50
)

// DefaultExtra is what is added to the sides of a border that says nothing
// about it: nothing, or mitred 6 in (APQ, allpeoplequilt.com, mitering borders)
// or 15 cm.
func DefaultExtra(corners Corners, u model.Unit) model.Length {
	switch {
	case corners != Mitred:
		return 0
	case u == model.Centimetres:
		return 15 * model.Centimetre
	}
	return 6 * model.Inch
}

// Check notes what is wrong with a border, at its place in the quilt file.
func (b Border) Check(c *block.Checker, at model.Path) {
	checkWidth(c, at.At(KeyBorderWidth), b.Width)
	c.Fabric(at.At(KeyBorderFabric), b.Fabric)
	corners := 0
	for corner := range 4 {
		if b.meet(corner) {
			corners++
		}
	}
	switch meets := b.Corners == Mitred || b.Corners == CornerSquares; {
	case meets && corners == 0 && b.Width > 0:
		c.Faults.AddAt(at.At(KeyBorderCorner), &model.ValueError{Value: b.Corners.String(), Err: model.ErrNotTogether,
			Hint: "none of its sides meet: leave it out, or name more sides"})
	case b.Corners == CornerSquares:
		c.Fabric(at.At(KeyCornerFabric), b.CornerFabric)
	case b.CornerFabric != "":
		c.Faults.AddAt(at.At(KeyCornerFabric), &model.ValueError{Value: b.CornerFabric, Err: model.ErrNotTogether,
			Hint: "leave it out, or write corners: squares"})
	}
	for i, side := range b.Sides {
		if slices.Contains(b.Sides[:i], side) {
			c.Faults.AddAt(at.At(KeyBorderSides).Entry(i), &model.ValueError{Value: side.String(), Err: model.ErrDuplicate, Hint: "write each side once"})
		}
	}
	b.checkExtra(c, at.At(KeyExtra))
}

// checkExtra checks the extra length. A mitred side needs its seams in it: its
// raw outer edge is s(1+√2) longer at each end than the finished one.
func (b Border) checkExtra(c *block.Checker, at model.Path) {
	u, least := c.Rules.Unit, model.Length(0)
	if b.Corners == Mitred {
		least = c.Rules.Ceil(geometry.Of(2 * c.Rules.Seam).Add(geometry.Root2(2 * c.Rules.Seam)))
	}
	if b.Extra < least || b.Extra > MaxExtra {
		c.Faults.AddAt(at, &model.ValueError{Value: b.Extra.FormatWithUnit(u), Err: model.ErrOutOfRange,
			Hint: "write " + least.Format(u) + " to " + MaxExtra.FormatWithUnit(u)})
	}
}
