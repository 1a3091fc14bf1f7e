package setting

import (
	"fmt"
	"strconv"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// MaxFloat is the widest float of a setting on point.
const MaxFloat = 36 * model.Inch

// Check notes what is wrong with the setting apart from its blocks. A key of it
// stands at its place in the quilt file, which is in one of the sizes or in the
// setting itself.
func (s Setting) Check(c *block.Checker, at func(key string) model.Path) {
	before := len(c.Faults)
	s.checkGrid(c, at)
	grid := len(c.Faults) == before
	if s.Way == OnPoint {
		s.checkOnPoint(c, at)
	} else {
		s.checkStraight(c, at)
	}
	if s.Sashing != nil {
		s.Sashing.check(c, at(KeySashing))
		if s.Way == OnPoint && !s.Sashing.Around && grid && min(s.Rows, s.Columns) == 1 && max(s.Rows, s.Columns) > 1 {
			c.Faults.AddAt(at(KeySashing).At(KeyAround), &model.ValueError{Err: model.ErrNotTogether,
				Hint: "a single row on point has no sashes between its blocks: write around: yes, or leave the sashing out"})
		}
	}
	if grid {
		s.checkCount(c, at(KeyRows))
	}
}

// CheckBlocks notes what is wrong with the setting for blocks of a finished
// width and height. It is called only if Check noted nothing.
func (s Setting) CheckBlocks(c *block.Checker, at func(key string) model.Path, width, height model.Length) {
	if s.Way != OnPoint {
		return
	}
	u := c.Rules.Unit
	if width != height {
		c.Faults.AddAt(at(KeyWay), &model.ValueError{Value: model.FormatSize(width, height, u), Err: model.ErrNotSquareUnit,
			Hint: "only square blocks are set on point: write way: straight, or make the blocks square"})
		return
	}
	// The seams through the float, which run to the edge at 45° from each
	// block's corner, must not cross before they are there.
	most := geometry.Of(s.grid(width, height).pitch()).OverRoot2()
	if float := geometry.Of(s.Float); most.Less(float) && max(s.Rows, s.Columns) > 1 {
		c.Faults.AddAt(at(KeyFloat), &model.ValueError{Value: s.Float.FormatWithUnit(u), Err: model.ErrTooLarge, Hint: fmt.Sprintf(
			"write at most %s, and a border around it", (most.CeilTo(c.Rules.Ruler) - c.Rules.Ruler).FormatWithUnit(u))})
	}
}

// checkGrid notes what is wrong with the rows, the columns and the layout.
func (s Setting) checkGrid(c *block.Checker, at func(key string) model.Path) {
	for _, count := range []struct {
		key string
		n   int
	}{{KeyRows, s.Rows}, {KeyColumns, s.Columns}} {
		if count.n < 1 || count.n > MaxRows {
			c.Faults.AddAt(at(count.key), &model.ValueError{
				Value: strconv.Itoa(count.n), Err: model.ErrOutOfRange, Hint: "write a whole number from 1 to " + strconv.Itoa(MaxRows)})
		}
	}
	if len(s.Layout) == 0 {
		c.Faults.AddAt(at(KeyLayout), &model.ValueError{Err: model.ErrMissing, Hint: "write the blocks, row by row"})
	}
	checkLines(c, at(KeyLayout), s.Layout)
	checkLines(c, at(KeyBetween), s.Between)
}

func checkLines(c *block.Checker, at model.Path, lines [][]Place) {
	for i, line := range lines {
		if len(line) == 0 {
			c.Faults.AddAt(at.Entry(i), &model.ValueError{Err: model.ErrMissing, Hint: "write at least one block"})
		}
	}
}

// checkStraight notes what only a setting on point can have.
func (s Setting) checkStraight(c *block.Checker, at func(key string) model.Path) {
	for _, given := range []struct {
		key string
		yes bool
	}{
		{KeyBetween, len(s.Between) > 0}, {KeySettingSquare, s.SettingSquare != ""},
		{KeySides, s.Sides != Triangles{}}, {KeyCorners, s.Corners != Triangles{}}, {KeyFloat, s.Float != 0},
	} {
		if given.yes {
			c.Faults.AddAt(at(given.key), &model.ValueError{Err: model.ErrNotTogether, Hint: "leave it out, or write way: on point"})
		}
	}
}

// checkOnPoint notes what is wrong with what only a setting on point has.
func (s Setting) checkOnPoint(c *block.Checker, at func(key string) model.Path) {
	if s.Rows > 1 || s.Columns > 1 || s.Sides != (Triangles{}) {
		s.Sides.check(c, at(KeySides))
	}
	s.Corners.check(c, at(KeyCorners))
	if s.Float < 0 || s.Float > MaxFloat {
		c.Faults.AddAt(at(KeyFloat), &model.ValueError{Value: s.Float.FormatWithUnit(c.Rules.Unit), Err: model.ErrOutOfRange,
			Hint: "write 0 to " + MaxFloat.FormatWithUnit(c.Rules.Unit)})
	}
	switch blocks, squares := len(s.Between) > 0, s.SettingSquare != ""; {
	case blocks && squares:
		c.Faults.AddAt(at(KeySettingSquare), &model.ValueError{Value: s.SettingSquare, Err: model.ErrNotTogether,
			Hint: "write between: or setting_squares:, not both"})
	case squares:
		c.Fabric(at(KeySettingSquare), s.SettingSquare)
	case !blocks && s.Rows > 1 && s.Columns > 1:
		c.Faults.AddAt(at(KeyBetween), &model.ValueError{Err: model.ErrMissing,
			Hint: "write what stands between the rows: between: with blocks, or setting_squares: with a fabric"})
	}
}

func (t Triangles) check(c *block.Checker, at model.Path) {
	c.Fabric(at.At(block.KeyFabric), t.Fabric)
	c.Ease(at, t.Ease)
}

func (s Sashing) check(c *block.Checker, at model.Path) {
	checkWidth(c, at.At(KeySashWidth), s.Width)
	c.Fabric(at.At(KeySashFabric), s.Fabric)
	if s.Cornerstone != "" {
		c.Fabric(at.At(KeyCornerstone), s.Cornerstone)
	}
}

// checkWidth checks the finished width of sashing or a border, under which its
// own seam allowances must find room.
func checkWidth(c *block.Checker, at model.Path, width model.Length) {
	if seam := c.Rules.Seam; width > 0 && width < seam {
		c.Faults.AddAt(at, &model.ValueError{Value: width.FormatWithUnit(c.Rules.Unit), Err: model.ErrTooSmall,
			Hint: "it is narrower than its seam allowances: write at least " + seam.FormatWithUnit(c.Rules.Unit)})
		return
	}
	c.Finished(at, width)
}

// checkCount checks that blocks, sashes and cornerstones are not too many.
func (s Setting) checkCount(c *block.Checker, at model.Path) {
	n := s.Rows * s.Columns
	if s.Way == OnPoint {
		n += (s.Rows - 1) * (s.Columns - 1)
	}
	if s.Sashing != nil {
		n *= 2 // at least: to each block a sash
	}
	if n > model.MaxPieces {
		c.Faults.AddAt(at, &model.ValueError{Value: strconv.Itoa(n), Err: model.ErrTooMany, Hint: "a quilt has at most 100,000 pieces"})
	}
}
