package block

import (
	"fmt"
	"slices"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// FlipCorners is a rectangle with pieces flipped over some of its corners: a
// piece is sewn across a corner on a slant, folded open, and what lies below
// it is cut away.
//
// The base is cut w + 2s by h + 2s, the piece of a corner that finishes a wide
// and b high is cut a + 2s by b + 2s where a = b (a square, sewn on its
// diagonal). Where a and b differ it is that of a half-rectangle triangle
// ([HalfRectangle]), cut as a whole rectangle. Cut, if it is given, is the
// published or proven size in place of that.
type FlipCorners struct {
	Width, Height model.Length
	Fabric        string // of the base
	Corners       []FlipCorner
}

// FlipCorner is one corner of a FlipCorners. Two of them must not overlap.
type FlipCorner struct {
	Corner              Corner
	Width, Height       model.Length // finished, along the two sides of the unit
	Fabric              string
	CutWidth, CutHeight model.Length // 0 if worked out
}

// Corner is a corner of a unit.
type Corner uint8

// The corners, clockwise.
const (
	UpperLeft Corner = iota
	UpperRight
	LowerRight
	LowerLeft
)

var cornerWords = []string{"upper left", "upper right", "lower right", "lower left"}

// String is upper left, upper right, lower right or lower left.
func (c Corner) String() string { return cornerWords[c] }

// ParseCorner reads a corner. The error is a *model.ValueError of the kind
// model.ErrNotAChoice.
func ParseCorner(text string) (Corner, error) {
	if i := slices.Index(cornerWords, text); i >= 0 {
		return Corner(i), nil
	}
	return 0, &model.ValueError{Value: text, Err: model.ErrNotAChoice, Hint: "write " + wordList(cornerWords)}
}

// The keys of a unit with flipped corners in a quilt file.
const (
	KeyFlipCorners = "flip_corners"
	KeyCorners     = "corners"
	KeyCorner      = "corner"
	KeyCornerSize  = "size"
	KeyCut         = "cut"
)

const baseUse = "base"

// Size is Width by Height.
func (u FlipCorners) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Width), geometry.Of(u.Height)
}

// Uses are the fabric of the base and those of the corners.
func (u FlipCorners) Uses() []string {
	uses := []string{u.Fabric}
	for _, f := range u.Corners {
		uses = append(uses, f.Fabric)
	}
	return uses
}

// Recolour is the unit with fabrics exchanged.
func (u FlipCorners) Recolour(swap Swap) Unit {
	u.Fabric, u.Corners = swap.one(u.Fabric), slices.Clone(u.Corners)
	for i, f := range u.Corners {
		u.Corners[i].Fabric = swap.one(f.Fabric)
	}
	return u
}

// Check notes a size, a fabric or corners that cannot be.
func (u FlipCorners) Check(c *Checker, at model.Path) {
	before := len(c.Faults)
	c.Finished(at.At(KeyFlipCorners), u.Width)
	if u.Height != u.Width {
		c.Finished(at.At(KeyFlipCorners), u.Height)
	}
	c.Fabric(at.At(KeyFabric), u.Fabric)
	if len(u.Corners) == 0 {
		c.Faults.AddAt(at.At(KeyCorners), &model.ValueError{Err: model.ErrMissing, Hint: "write at least one corner"})
	}
	for i, f := range u.Corners {
		f.check(c, at.At(KeyCorners).Entry(i), u)
	}
	if len(c.Faults) == before {
		u.checkRoom(c, at.At(KeyCorners))
	}
}

// check notes what is wrong with one corner of the unit u.
func (f FlipCorner) check(c *Checker, at model.Path, u FlipCorners) {
	unit, size := c.Rules.Unit, at.At(KeyCornerSize)
	c.Finished(size, f.Width)
	if f.Height != f.Width {
		c.Finished(size, f.Height)
	}
	if f.Width > u.Width || f.Height > u.Height {
		c.Faults.AddAt(size, &model.ValueError{Value: model.FormatSize(f.Width, f.Height, unit), Err: model.ErrTooLarge,
			Hint: "the unit is " + model.FormatSize(u.Width, u.Height, unit)})
	}
	c.Fabric(at.At(KeyFabric), f.Fabric)
	f.checkCut(c, at.At(KeyCut))
}

// checkCut checks the cut size, if one is given.
func (f FlipCorner) checkCut(c *Checker, at model.Path) {
	if f.CutWidth == 0 && f.CutHeight == 0 {
		return
	}
	unit, ruler := c.Rules.Unit, c.Rules.Ruler
	value := model.FormatSize(f.CutWidth, f.CutHeight, unit) + " " + unit.String()
	switch {
	case f.CutWidth <= 0 || f.CutHeight <= 0:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrNotPositive, Hint: "write the size that the blade cuts, or leave it out"})
	case max(f.CutWidth, f.CutHeight) > model.MaxSide:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrOutOfRange, Hint: "no side is longer than " + model.MaxSide.FormatWithUnit(unit)})
	case !f.CutWidth.OnMark(ruler) || !f.CutHeight.OnMark(ruler):
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrOffMark, Hint: fmt.Sprintf(
			"write %s, or a finer ruler", model.WrittenSize(f.CutWidth.CeilTo(ruler), f.CutHeight.CeilTo(ruler), unit))})
	}
}

// checkRoom checks that no two corners overlap, and that some of the base is
// left.
func (u FlipCorners) checkRoom(c *Checker, at model.Path) {
	for i, f := range u.Corners {
		for j, g := range u.Corners[:i] {
			switch {
			case f.Corner == g.Corner:
				c.Faults.AddAt(at.Entry(i).At(KeyCorner), &model.ValueError{Value: f.Corner.String(), Err: model.ErrDuplicate, Hint: "write another corner"})
				return
			case geometry.Overlap(u.flipped(f), u.flipped(g)):
				c.Faults.AddAt(at.Entry(i).At(KeyCornerSize), &model.ValueError{
					Value: model.FormatSize(f.Width, f.Height, c.Rules.Unit), Err: model.ErrTooLarge,
					Hint: fmt.Sprintf("it overlaps corner %d: write smaller ones", j+1)})
				return
			}
		}
	}
	if !u.base().Convex() {
		c.Faults.AddAt(at, &model.ValueError{Err: model.ErrTooLarge, Hint: "they leave nothing of the base: write smaller ones, or a half_rectangle"})
	}
}

// Make is what n units with flipped corners take.
func (u FlipCorners) Make(r Rules, n int) Yield {
	width, height := r.Unfinished(u.Width), r.Unfinished(u.Height)
	y := Yield{
		Cuts:   []model.Cut{{Fabric: u.Fabric, Width: width, Height: height, Count: n, Use: baseUse}},
		Trims:  []Trim{{Step: "flipped corners", Width: width, Height: height}},
		Shapes: []Shape{{Fabric: u.Fabric, Outline: u.base(), Cut: -1}},
		Made:   n,
	}
	for _, f := range u.Corners {
		width, height := f.cut(r)
		y.Cuts = append(y.Cuts, model.Cut{Fabric: f.Fabric, Width: width, Height: height, Count: n, Use: "corners"})
		y.Shapes = append(y.Shapes, Shape{Fabric: f.Fabric, Outline: u.flipped(f), Cut: -1})
		if f.Width != f.Height && f.CutWidth == 0 && y.Notes == nil {
			y.Notes = []string{fmt.Sprintf("Sew corners to flip that are not square %s beside their diagonal, "+
				"within the half that covers the corner once it is folded open. Sew one as a test before you cut them all.",
				r.Seam.FormatWithUnit(r.Unit))}
		}
	}
	return y
}

// cut is the size of the corner's piece.
func (f FlipCorner) cut(r Rules) (width, height model.Length) {
	switch {
	case f.CutWidth > 0:
		return f.CutWidth, f.CutHeight
	case f.Width == f.Height:
		return r.Unfinished(f.Width), r.Unfinished(f.Height)
	}
	return r.halfRectangleCut(f.Width, f.Height)
}

// legs are the corner's ends on the sides of the unit: on the side that comes
// before it clockwise, and on the one after.
func (u FlipCorners) legs(f FlipCorner) (before, after geometry.Point) {
	switch f.Corner {
	case UpperLeft:
		return corner(0, f.Height), corner(f.Width, 0)
	case UpperRight:
		return corner(u.Width-f.Width, 0), corner(u.Width, f.Height)
	case LowerRight:
		return corner(u.Width, u.Height-f.Height), corner(u.Width-f.Width, u.Height)
	}
	return corner(f.Width, u.Height), corner(0, u.Height-f.Height)
}

// flipped is the finished triangle of a corner.
func (u FlipCorners) flipped(f FlipCorner) geometry.Polygon {
	before, after := u.legs(f)
	return geometry.Polygon{before, box(u.Width, u.Height)[f.Corner], after}
}

// base is what shows of the base. It is not convex if nothing is left of it.
func (u FlipCorners) base() geometry.Polygon {
	var outline geometry.Polygon
	add := func(p geometry.Point) {
		if len(outline) == 0 || !p.Equal(outline[len(outline)-1]) && !p.Equal(outline[0]) {
			outline = append(outline, p)
		}
	}
	for i, whole := range box(u.Width, u.Height) {
		at := slices.IndexFunc(u.Corners, func(f FlipCorner) bool { return int(f.Corner) == i })
		if at < 0 {
			add(whole)
			continue
		}
		before, after := u.legs(u.Corners[at])
		add(before)
		add(after)
	}
	return outline
}
