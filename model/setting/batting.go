package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Batting is the layer between. Its size is that of the backing if nothing is
// given, else the quilt and an overage on each side, or Width by Height. It is
// no fabric of the plan: its size is told.
type Batting struct {
	Overage       model.Length
	Width, Height model.Length
}

// KeyBatting is the key of the batting in a quilt file. Its keys are those of
// a backing.
const KeyBatting = "batting"

// Check notes what is wrong with a batting, at its place in the quilt file.
func (b Batting) Check(c *block.Checker, at model.Path) {
	checkSheet(c, at, b.Overage, b.Width, b.Height)
}

// Size is the size of the batting of a quilt of a finished width and height.
// Of a quilt without a backing, which is then nil, it is that of
// [DefaultBacking].
func (b Batting) Size(r block.Rules, width, height geometry.Surd, back *Backing) (w, h model.Length) {
	if b != (Batting{}) {
		return sheet(r, [2]geometry.Surd{width, height}, b.Overage, b.Width, b.Height)
	}
	if back == nil {
		usual := DefaultBacking(r.Unit)
		back = &usual
	}
	return back.Size(r, width, height)
}
