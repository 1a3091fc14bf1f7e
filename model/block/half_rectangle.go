package block

import (
	"fmt"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// HalfRectangle is a rectangle of two triangles. The seam runs from the lower
// left to the upper right corner, or, leaning the other way, from the upper
// left to the lower right. The fabrics are the upper one and the lower one.
//
// For a finished size a x b and c = √(a²+b²), the exact rectangle to cut, one
// of each fabric for 2 units, is a + s(1+(a+c)/b) by b + s(1+(b+c)/a) (our own
// arithmetic: parallels at s from the three sides). No fixed addition holds for
// all ratios (generations-quilt-patterns.com). c is no surd: the root is taken
// in whole numbers and rounded up.
//
// The trade's way ([TradeEase]) is w + 1 by 2w + 2 for a rectangle of w by 2w
// (mmmquilts.com, 2019-12), and no less than the exact size; for other ratios,
// 1/2 in over the exact size, no source.
type HalfRectangle struct {
	Width, Height model.Length
	Fabrics       []string // upper, lower
	OtherWay      bool     // the seam runs from the upper left to the lower right
	Ease          Ease
}

// KeyHalfRectangle is the key of a half-rectangle triangle in a quilt file.
const KeyHalfRectangle = "half_rectangle"

const halfRectangleEase = model.Inch / 2

// Size is Width by Height.
func (u HalfRectangle) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Width), geometry.Of(u.Height)
}

// Uses are the upper and the lower fabric.
func (u HalfRectangle) Uses() []string { return u.Fabrics }

// Recolour is the unit with fabrics exchanged.
func (u HalfRectangle) Recolour(swap Swap) Unit {
	u.Fabrics = swap.of(u.Fabrics)
	return u
}

// Check notes a size, fabrics or an ease that cannot be.
func (u HalfRectangle) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyHalfRectangle), u.Width)
	if u.Height != u.Width {
		c.Finished(at.At(KeyHalfRectangle), u.Height)
	}
	c.FabricList(at, u.Fabrics, "upper", "lower")
	c.Ease(at, u.Ease)
}

// Make is what n half-rectangle triangles take.
func (u HalfRectangle) Make(r Rules, n int) Yield {
	width, height := u.cut(r)
	y := Yield{
		Made:  2 * upTo(n, 2),
		Trims: []Trim{{Step: "half-rectangle triangle", Width: r.Unfinished(u.Width), Height: r.Unfinished(u.Height)}},
		Notes: []string{u.note(r)},
	}
	for i, outline := range u.outlines() {
		y.Shapes = append(y.Shapes, Shape{Fabric: u.Fabrics[i], Outline: outline, Cut: i})
		y.Cuts = append(y.Cuts, model.Cut{Fabric: u.Fabrics[i], Width: width, Height: height, Count: upTo(n, 2),
			Halve: model.HalvedOnce, Diagonal: u.diagonal(), Use: "half-rectangle triangles, " + u.seam()})
	}
	return y
}

// cut is the size of the rectangles, with ease.
func (u HalfRectangle) cut(r Rules) (width, height model.Length) {
	width, height = r.halfRectangleCut(u.Width, u.Height)
	if u.Ease.Kind != TradeEase {
		ease := u.Ease.length(r, 0)
		return width + ease, height + ease
	}
	switch a, b := u.Width, u.Height; {
	case b == 2*a:
		return max(width, (a + model.Inch).CeilTo(r.Ruler)), max(height, (b + 2*model.Inch).CeilTo(r.Ruler))
	case a == 2*b:
		return max(width, (a + 2*model.Inch).CeilTo(r.Ruler)), max(height, (b + model.Inch).CeilTo(r.Ruler))
	}
	ease := u.Ease.length(r, halfRectangleEase)
	return width + ease, height + ease
}

// halfRectangleCut is the rectangle that is halved once into triangles of the
// finished legs a and b: a + s(1+(a+c)/b) by b + s(1+(b+c)/a), c = √(a²+b²),
// rounded up to the ruler's mark.
func (r Rules) halfRectangleCut(a, b model.Length) (width, height model.Length) {
	// Over a common denominator: a + s + (s·a + s·c)/b.
	slant := root(r.Seam, a, b)
	width = a + r.Seam + over(r.Seam, a, slant, b)
	height = b + r.Seam + over(r.Seam, b, slant, a)
	return width.CeilTo(r.Ruler), height.CeilTo(r.Ruler)
}

// diagonal is the one that the seam lies on, as the unit stands.
func (u HalfRectangle) diagonal() model.Diagonal {
	if u.OtherWay {
		return model.Falling
	}
	return model.Rising
}

// seam says where the seam begins. Triangles of the two ways are mirror images,
// so that their rectangles must not be counted together.
func (u HalfRectangle) seam() string {
	if u.OtherWay {
		return "seam from upper left"
	}
	return "seam from lower left"
}

// note says how the rectangles are halved and where the seam must lie.
func (u HalfRectangle) note(r Rules) string {
	slant := "from the lower left to the upper right corner"
	if u.OtherWay {
		slant = "from the upper left to the lower right corner"
	}
	size := model.FormatSize(u.Width, u.Height, r.Unit) + " " + r.Unit.String()
	return fmt.Sprintf("Half-rectangle triangles of %s, %s: halve all their rectangles right side up, upright as the unit stands, %s. "+
		"Trim so that the seam meets the corners of the finished size, %s from the edges, not the corners of what is trimmed.",
		size, u.seam(), slant, r.Seam.FormatWithUnit(r.Unit))
}

// outlines are the triangles, upper and lower.
func (u HalfRectangle) outlines() [2]geometry.Polygon {
	c := box(u.Width, u.Height)
	if u.OtherWay {
		return [2]geometry.Polygon{{c[UpperLeft], c[UpperRight], c[LowerRight]}, {c[UpperLeft], c[LowerRight], c[LowerLeft]}}
	}
	return [2]geometry.Polygon{{c[UpperLeft], c[UpperRight], c[LowerLeft]}, {c[UpperRight], c[LowerRight], c[LowerLeft]}}
}
