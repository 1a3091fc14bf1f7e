package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

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

// Outline is the finished diamond, leaning to the right.
func (u Diamond) Outline() geometry.Polygon {
	lean, side := u.Angle.lean(geometry.Of(u.Height)), u.Angle.slant(geometry.Of(u.Height))
	h := geometry.Of(u.Height)
	return geometry.Polygon{{X: lean}, {X: lean.Add(side)}, geometry.At(side, h), {Y: h}}
}

// Lie is how the diamonds lie in a strip, all the same way up.
func (u Diamond) Lie(r Rules) Lie {
	height := r.Unfinished(u.Height)
	side := u.Angle.slant(geometry.Of(height))
	return Lie{Height: height, First: ticks(side.Add(u.Angle.lean(geometry.Of(height)))), Each: ticks(side)}
}

// Check notes a height that cannot be.
func (u Diamond) Check(c *Checker, at model.Path) {
	key := KeyDiamond45
	if u.Angle == Degrees60 {
		key = KeyDiamond60
	}
	c.Finished(at.At(key), u.Height)
}

// slant is how long a line at the angle is from one edge of a strip of the
// height h to the other: h over the angle's sine.
func (a Angle) slant(h geometry.Surd) geometry.Surd {
	if a == Degrees60 {
		return h.OverRoot3().Times(2)
	}
	return h.TimesRoot2()
}

// lean is how far such a line goes along the strip: h over the angle's tangent.
func (a Angle) lean(h geometry.Surd) geometry.Surd {
	if a == Degrees60 {
		return h.OverRoot3()
	}
	return h
}
