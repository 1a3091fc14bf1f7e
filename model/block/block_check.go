package block

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Check notes what is wrong with the block, at its place in the quilt file. Its
// units are checked on their own; blocks inside it are among the checker's units
// only if they stand before it.
func (b Block) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyFinished), b.Width)
	if b.Height != b.Width {
		c.Finished(at.At(KeyFinished), b.Height)
	}
	if n := b.count(c.Units); n > MaxUnits {
		c.Faults.AddAt(at.At(KeyRows), &model.ValueError{Value: strconv.Itoa(n), Err: model.ErrTooMany,
			Hint: fmt.Sprintf("a block has at most %d units, those of blocks inside it counted too", MaxUnits)})
		return
	}
	b.checkColourways(c, at.At(KeyColourways))
	switch rows, rounds := len(b.Rows) > 0, b.Rounds != nil; {
	case rows && rounds:
		c.Faults.AddAt(at.At(KeyRounds), &model.ValueError{Err: model.ErrNotTogether, Hint: "write rows or rounds, not both"})
	case rounds && (b.Height != b.Width || b.Rounds.Side != b.Width):
		c.Faults.AddAt(at.At(KeyFinished), &model.ValueError{Value: model.FormatSize(b.Width, b.Height, c.Rules.Unit), Err: model.ErrNotSquareUnit,
			Hint: "a block of rounds is square: write one size"})
	case rounds:
		b.Rounds.Check(c, at)
	case !rows:
		c.Faults.AddAt(at.At(KeyRows), &model.ValueError{Err: model.ErrMissing, Hint: "write the units, row by row, or a centre and rounds"})
	default:
		b.checkRows(c, at.At(KeyRows))
	}
}

// checkColourways checks that colourways have labels of their own, and
// exchange fabrics that the block has for others of the quilt.
func (b Block) checkColourways(c *Checker, at model.Path) {
	uses := b.uses(c.Units)
	seen := make(map[string]bool)
	for _, way := range b.Colourways {
		at := at.At(way.Name)
		switch {
		case way.Name == "":
			c.Faults.AddAt(at, &model.ValueError{Err: model.ErrMissing, Hint: "write a label"})
		case seen[way.Name]:
			c.Faults.AddAt(at, &model.ValueError{Value: way.Name, Err: model.ErrDuplicate, Hint: "write another label"})
		}
		seen[way.Name] = true
		for _, from := range slices.Sorted(maps.Keys(way.Swap)) {
			if len(uses) > 0 && !slices.Contains(uses, from) {
				c.Faults.AddAt(at.At(from), &model.ValueError{Value: from, Err: model.ErrNotInBlock,
					Hint: "the block has no such fabric: write " + wordList(uses)})
			}
			c.Fabric(at.At(from), way.Swap[from])
		}
	}
}

// uses are the labels of the block's fabrics, sorted; none if a unit of it is
// not there, or they cannot be told.
func (b Block) uses(units Units) []string {
	var labels []string
	if b.Rounds != nil && b.Rounds.Centre.Unit != "" {
		labels = append(labels, b.Rounds.Centre.Unit)
	}
	for _, row := range b.Rows {
		for _, cell := range row {
			labels = append(labels, cell.Unit)
		}
	}
	for _, label := range labels {
		if _, known := units[label]; !known {
			return nil
		}
	}
	var uses []string
	if b.Rounds != nil {
		uses = slices.Clone(b.Rounds.Uses())
	}
	for _, label := range labels {
		uses = append(uses, units[label].Uses()...)
	}
	slices.Sort(uses)
	return slices.Compact(uses)
}

// checkRows checks that the rows fill the block. Faults that only follow from
// a unit that there is not are left out.
func (b Block) checkRows(c *Checker, at model.Path) {
	var height geometry.Surd
	known := true
	for i, row := range b.Rows {
		h, ok := b.checkRow(c, at.Entry(i), row)
		height, known = height.Add(h), known && ok
	}
	if known {
		c.sum(at, height, b.Height, "high")
	}
}

// checkRow checks that the units of a row are there, equally high, and as wide
// as the block. It returns the row's height, and whether it could be told.
func (b Block) checkRow(c *Checker, at model.Path, row []Cell) (height geometry.Surd, known bool) {
	var width geometry.Surd
	known = true
	for i, cell := range row {
		u, ok := c.Units[cell.Unit]
		if !ok {
			c.Faults.AddAt(at.Entry(i), &model.ValueError{Value: cell.Unit, Err: model.ErrUnknownName, Hint: "write the label of a unit, or add it to the units"})
			known = false
			continue
		}
		w, h := Placed{Unit: u, Turn: cell.Turn}.Size()
		width = width.Add(w)
		if known && i > 0 && !h.Equal(height) {
			c.Faults.AddAt(at.Entry(i), &model.ValueError{Value: cell.Unit, Err: model.ErrOffSum, Hint: fmt.Sprintf(
				"it is %s high, those before it in the row %s", c.about(h), c.about(height))})
			known = false
		}
		height = h
	}
	switch {
	case len(row) == 0:
		c.Faults.AddAt(at, &model.ValueError{Err: model.ErrMissing, Hint: "write at least one unit"})
		return height, false
	case known:
		c.sum(at, width, b.Width, "wide")
	}
	return height, known
}

// sum checks that sizes add up to that of the block.
func (c *Checker) sum(at model.Path, sum geometry.Surd, want model.Length, way string) {
	off, word := sum.Sub(geometry.Of(want)), "too much"
	switch off.Sign() {
	case 0:
		return
	case -1:
		off, word = off.Neg(), "too little"
	}
	c.Faults.AddAt(at, &model.ValueError{Value: c.about(sum), Err: model.ErrOffSum, Hint: fmt.Sprintf(
		"that is %s %s: the block is %s %s", c.about(off), word, want.FormatWithUnit(c.Rules.Unit), way)})
}

// about is a length for a message; one with roots in it is rounded up.
func (c *Checker) about(s geometry.Surd) string { return s.CeilTo(1).FormatWithUnit(c.Rules.Unit) }
