package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Trapezoid is a shape with two parallel sides and two slants that mirror each
// other, given by its finished height h and the finished lengths of its
// parallel sides. It is cut head to foot from a strip of h + 2s. With d = long -
// short and c = √(d²+4h²), twice a slant, the cut sides are long + s(c+d)/h and
// short + s(c-d)/h; the first shape takes its long side of a strip, each
// further one half the sum of both (our own arithmetic: parallels at s from the
// four sides). The root is taken in whole numbers and rounded up.
type Trapezoid struct{ Height, Long, Short model.Length }

// Wedge is a trapezoid for rings and fans: high, with little slant. A triangle
// has a Short of 0; it is cut with a blunt point, at s outside the finished one.
type Wedge struct{ Height, Long, Short model.Length }

// The keys of slanted shapes in a quilt file.
const (
	KeyTrapezoid = "trapezoid"
	KeyWedge     = "wedge"
	KeyLong      = "long"
	KeyShort     = "short"
)

// Outline is the finished trapezoid, standing on its long side.
func (u Trapezoid) Outline() geometry.Polygon {
	h, long := geometry.Of(u.Height), geometry.Of(u.Long)
	lean := geometry.Of(u.Long - u.Short).Half()
	top := geometry.Polygon{{X: lean}, {X: long.Sub(lean)}}
	if u.Short == 0 {
		top = top[:1]
	}
	return append(top, geometry.At(long, h), geometry.Point{Y: h})
}

// Lie is how the trapezoids lie in a strip, head to foot.
func (u Trapezoid) Lie(r Rules) Lie {
	h, d := u.Height, u.Long-u.Short
	slants := root(r.Seam, d, 2*h)
	return Lie{
		Height: r.Unfinished(h),
		First:  u.Long + over(r.Seam, d, slants, h),
		Each:   over(u.Long+u.Short, h, root(2*r.Seam, d, 2*h), 2*h),
	}
}

// Check notes a height or sides that cannot be.
func (u Trapezoid) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyTrapezoid), u.Height)
	if u.Short <= 0 {
		c.Faults.AddAt(at.At(KeyShort), &model.ValueError{Value: u.Short.FormatWithUnit(c.Rules.Unit), Err: model.ErrNotPositive,
			Hint: "write the finished length of the short side"})
	}
	u.checkLong(c, at.At(KeyLong))
}

// checkLong checks that the long side is longer than the short one. Its ends
// are on no mark, as the slants are.
func (u Trapezoid) checkLong(c *Checker, at model.Path) {
	unit := c.Rules.Unit
	switch value := u.Long.FormatWithUnit(unit); {
	case u.Long <= 0:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrNotPositive, Hint: "write the finished length of the long side"})
	case u.Long > MaxFinished:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrOutOfRange, Hint: "write at most " + MaxFinished.FormatWithUnit(unit)})
	case u.Long <= u.Short:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrTooSmall, Hint: "write more than the short side, " + u.Short.FormatWithUnit(unit)})
	}
}

// Outline is the finished wedge, standing on its long side.
func (u Wedge) Outline() geometry.Polygon { return Trapezoid(u).Outline() }

// Lie is how the wedges lie in a strip, head to foot.
func (u Wedge) Lie(r Rules) Lie { return Trapezoid(u).Lie(r) }

// Check notes a height or sides that cannot be.
func (u Wedge) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyWedge), u.Height)
	if u.Short < 0 {
		c.Faults.AddAt(at.At(KeyShort), &model.ValueError{Value: u.Short.FormatWithUnit(c.Rules.Unit), Err: model.ErrNotPositive,
			Hint: "write the finished length of the short side, 0 for a triangle"})
	}
	Trapezoid(u).checkLong(c, at.At(KeyLong))
}
