package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Rectangle is a unit of one piece; a square where its sides are equal. It is
// cut f + 2s each way (Karen Combs, Formulas for Quilters).
type Rectangle struct {
	Width, Height model.Length
	Fabric        string
}

// The keys of a unit of one piece in a quilt file.
const (
	KeySquare    = "square"
	KeyRectangle = "rectangle"
)

// Size is Width by Height.
func (u Rectangle) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Width), geometry.Of(u.Height)
}

// Uses are the one fabric.
func (u Rectangle) Uses() []string { return []string{u.Fabric} }

// Recolour is the unit with fabrics exchanged.
func (u Rectangle) Recolour(swap Swap) Unit {
	u.Fabric = swap.one(u.Fabric)
	return u
}

// Check notes a side or a fabric that cannot be.
func (u Rectangle) Check(c *Checker, at model.Path) {
	if u.Width == u.Height {
		c.Finished(at.At(KeySquare), u.Width)
	} else {
		c.Finished(at.At(KeyRectangle), u.Width)
		c.Finished(at.At(KeyRectangle), u.Height)
	}
	c.Fabric(at.At(KeyFabric), u.Fabric)
}

// Make is what n squares or rectangles take.
func (u Rectangle) Make(r Rules, n int) Yield {
	use := "rectangles"
	if u.Width == u.Height {
		use = "squares"
	}
	return Yield{
		Cuts:   []model.Cut{{Fabric: u.Fabric, Width: r.Unfinished(u.Width), Height: r.Unfinished(u.Height), Count: n, Use: use}},
		Shapes: []Shape{{Fabric: u.Fabric, Outline: box(u.Width, u.Height)}},
		Made:   n,
	}
}

// box is the rectangle of a finished size, from (0, 0).
func box(width, height model.Length) geometry.Polygon {
	return geometry.Box(geometry.Point{}, corner(width, height))
}

// corner is the point (x, y).
func corner(x, y model.Length) geometry.Point { return geometry.At(geometry.Of(x), geometry.Of(y)) }
