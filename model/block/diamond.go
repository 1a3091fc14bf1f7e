package block

import "crossgrain/model"

// Diamond is a shape of four equal sides, given by its finished height: the
// distance between two of its sides. The strip is cut h + 2s high, and cuts
// across it, at the diamond's angle, are h + 2s apart
// (quiltinjeanie.blogspot.com, 2011-06: both 3 3/8). Along the strip each takes
// (h+2s)/sin of the angle: 2/√3 or √2 of it (our own arithmetic), the first
// one that and the slant of its end.
type Diamond struct {
	Height model.Length
	Angle  Angle
}

// Angle is the sharp angle of a diamond or of a slanted end.
type Angle uint8

// The angles that rulers have lines for.
const (
	Degrees45 Angle = iota
	Degrees60
)

// The keys of diamonds in a quilt file.
const (
	KeyDiamond45 = "diamond_45"
	KeyDiamond60 = "diamond_60"
)
