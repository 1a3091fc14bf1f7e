package setting

import (
	"fmt"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Backing is the quilt's back: the quilt and an overage on each side, in panels
// sewn side by side, of which each seam loses twice its allowance. The panels
// run along the quilt or across it, whichever takes less fabric at the
// narrowest usable width; both are told. A fabric as wide as the back needs one
// panel.
type Backing struct {
	Fabric  string
	Overage model.Length // on each side; not counted if Width and Height are given
	Seam    model.Length // the allowance of the panels' seams
	// Width and Height are those of the back if they are given, not 0.
	Width, Height model.Length
}

// DefaultBacking is a backing that says nothing more than its fabric: 4 in or
// 10 cm over on each side (common practice; 2 to 6 in on the pages of guilds
// and long-arm quilters), and seams of 1/4 in or 0.75 cm.
func DefaultBacking(u model.Unit) Backing {
	if u == model.Centimetres {
		return Backing{Overage: 10 * model.Centimetre, Seam: 3 * model.Centimetre / 4}
	}
	return Backing{Overage: 4 * model.Inch, Seam: model.Inch / 4}
}

// The limits of backings.
const (
	MaxOverage     = 36 * model.Inch
	MaxBackingSeam = 2 * model.Inch
)

// The keys of a backing in a quilt file.
const (
	KeyBacking       = "backing"
	KeyBackingFabric = "fabric"
	KeyOverage       = "overage"
	KeyBackingSeam   = "seam"
	KeyBackingSize   = "size"
)

// Check notes what is wrong with a backing, at its place in the quilt file.
func (b Backing) Check(c *block.Checker, at model.Path) {
	c.Fabric(at.At(KeyBackingFabric), b.Fabric)
	if b.Seam <= 0 || b.Seam > MaxBackingSeam {
		c.Faults.AddAt(at.At(KeyBackingSeam), &model.ValueError{Value: b.Seam.FormatWithUnit(c.Rules.Unit), Err: model.ErrOutOfRange,
			Hint: "write a seam allowance up to " + MaxBackingSeam.FormatWithUnit(c.Rules.Unit)})
	}
	checkSheet(c, at, b.Overage, b.Width, b.Height)
}

// checkSheet checks what backing and batting have in common.
func checkSheet(c *block.Checker, at model.Path, overage, width, height model.Length) {
	u := c.Rules.Unit
	if overage < 0 || overage > MaxOverage {
		c.Faults.AddAt(at.At(KeyOverage), &model.ValueError{Value: overage.FormatWithUnit(u), Err: model.ErrOutOfRange,
			Hint: "write 0 to " + MaxOverage.FormatWithUnit(u)})
	}
	if given := width != 0 || height != 0; given && (min(width, height) <= 0 || max(width, height) > model.MaxSide) {
		c.Faults.AddAt(at.At(KeyBackingSize), &model.ValueError{Value: model.FormatSize(width, height, u), Err: model.ErrOutOfRange,
			Hint: "write width x height, each up to " + model.MaxSide.FormatWithUnit(u)})
	}
}

// Size is the size of the back of a quilt of a finished width and height.
func (b Backing) Size(r block.Rules, width, height geometry.Surd) (backWidth, backHeight model.Length) {
	return sheet(r, [2]geometry.Surd{width, height}, b.Overage, b.Width, b.Height)
}

// sheet is a size that is given, or else a quilt and an overage on each side,
// on the ruler's mark.
func sheet(r block.Rules, quilt [2]geometry.Surd, overage, width, height model.Length) (w, h model.Length) {
	if width != 0 {
		return width.CeilTo(r.Ruler), height.CeilTo(r.Ruler)
	}
	over := geometry.Of(2 * overage)
	return r.Ceil(quilt[0].Add(over)), r.Ceil(quilt[1].Add(over))
}

// Panels are a back of fabric of one usable width, its panels laid one way.
type Panels struct {
	Usable model.Length
	// Across is for panels that run across the quilt, with level seams; else
	// they run from its top to its bottom.
	Across bool
	Count  int
	Length model.Length // of each
}

// Total is the length of all panels.
func (p Panels) Total() model.Length { return model.Length(p.Count) * p.Length }

// Ways are both ways to lay the panels at each of the usable widths: along the
// quilt, then across it.
func (b Backing) Ways(r block.Rules, width, height geometry.Surd, widths []model.Length) []Panels {
	w, h := b.Size(r, width, height)
	var ways []Panels
	for _, usable := range widths {
		for _, across := range []bool{false, true} {
			strip := b.strip(w, h, across)
			ways = append(ways, Panels{usable, across, strip.Strips(usable), strip.Height})
		}
	}
	return ways
}

// strip is a back of a width and a height as strips beside each other.
func (b Backing) strip(width, height model.Length, across bool) model.Strip {
	if across {
		width, height = height, width
	}
	return model.Strip{Fabric: b.Fabric, Use: "backing", Height: height, Run: width, Join: 2 * b.Seam}
}

// Make is what the back of a quilt of a finished width and height takes, of a
// fabric with these usable widths, of which there is at least one.
//
// The panels lie the way that takes the least length at the narrowest width,
// or else the fewest panels, or else along the quilt (the sums of APQ's
// patterns, at 42 in: a back of 60 x 82 in two panels of 60 across the quilt,
// 120 in, 3 1/3 yd; one of 77 x 99 in two of 99 along it, 5 1/2 yd).
func (b Backing) Make(r block.Rules, width, height geometry.Surd, widths []model.Length) block.Yield {
	narrowest := widths[0]
	for _, w := range widths {
		narrowest = min(narrowest, w)
	}
	ways := b.Ways(r, width, height, []model.Length{narrowest})
	along, across := ways[0], ways[1]
	turn := across.Total() < along.Total() || across.Total() == along.Total() && across.Count < along.Count
	if across.Count == 0 || along.Count == 0 {
		turn = along.Count == 0 // no panel is wider than its seam: told as a fault of the strip
	}
	w, h := b.Size(r, width, height)
	y := block.Yield{Strips: []model.Strip{b.strip(w, h, turn)}}
	taken, other := along, across
	if turn {
		taken, other = across, along
	}
	y.Notes = []string{fmt.Sprintf("Backing of %s: %s; %s.",
		model.FormatSize(w, h, r.Unit)+" "+r.Unit.String(), taken.words(r.Unit), other.words(r.Unit))}
	return y
}

// words are as in: across the quilt 2 panels of 60 in, 120 in at 40 in of
// usable width.
func (p Panels) words(u model.Unit) string {
	way, panels := "along", "panels"
	if p.Across {
		way = "across"
	}
	if p.Count == 1 {
		panels = "panel"
	}
	return fmt.Sprintf("%s the quilt %d %s of %s, %s at %s of usable width",
		way, p.Count, panels, p.Length.FormatWithUnit(u), p.Total().FormatWithUnit(u), p.Usable.FormatWithUnit(u))
}
