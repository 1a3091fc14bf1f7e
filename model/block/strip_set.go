package block

import (
	"fmt"
	"slices"
	"strconv"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Patches is a grid of squares and rectangles: four-patch, nine-patch,
// checkerboard, rails (one row).
//
// For finished patches p by q:
//
//   - [PieceByPiece], the default: each patch is cut p + 2s by q + 2s.
//   - [StripSets]: each different row is a set of strips sewn side by side,
//     cut p + 2s high, from which sections of q + 2s are cut; a row and the
//     same row backwards share a set. One set gives floor(W/section) sections
//     (16 of 2 1/2 at 40 in, warpedspinster.blogspot.com, 2016-10).
//
// Ease widens every strip and section (or, piece by piece, every patch) and
// the unit is trimmed to size. Only an even grid of 2 by 2 may have it: the
// seams of others would not stay in place. The trade's is 1/4 in: strips of
// 1 3/4, sewn to 3, trimmed to 2 1/2 for a four-patch of 2 in (common
// practice, no source).
type Patches struct {
	// Columns and Rows are the finished widths and heights of the patches.
	Columns, Rows []model.Length
	// Fabrics are those of the patches, row by row.
	Fabrics [][]string
	Method  Method
	// SetLength is the length of the strips that sets are sewn of, for sets
	// of half-width strips or fat quarters; 0 is the whole usable width. Its
	// strips are pieces like any other.
	SetLength model.Length
	Ease      Ease
}

// The keys of a grid of patches in a quilt file.
const (
	KeyPatches   = "patches"
	KeyColumns   = "columns"
	KeyHeights   = "heights"
	KeySetLength = "set_length"
)

const (
	patchesEase  = model.Inch / 4
	stripSetsUse = "strip sets"
)

// Size is the sum of the columns by the sum of the rows.
func (u Patches) Size() (width, height geometry.Surd) {
	return geometry.Of(total(u.Columns)), geometry.Of(total(u.Rows))
}

func total(lengths []model.Length) (sum model.Length) {
	for _, l := range lengths {
		sum += l
	}
	return sum
}

// Uses are the fabrics of the patches, row by row.
func (u Patches) Uses() []string { return slices.Concat(u.Fabrics...) }

// Recolour is the unit with fabrics exchanged.
func (u Patches) Recolour(swap Swap) Unit {
	rows := make([][]string, len(u.Fabrics))
	for i, row := range u.Fabrics {
		rows[i] = swap.of(row)
	}
	u.Fabrics = rows
	return u
}

// Check notes sizes, fabrics, a method, an ease or strips that cannot be.
func (u Patches) Check(c *Checker, at model.Path) {
	if len(u.Columns) == 0 || len(u.Rows) == 0 {
		c.Faults.AddAt(at.At(KeyPatches), &model.ValueError{Err: model.ErrMissing, Hint: "write the finished size of a patch"})
	} else {
		u.checkSizes(c, at)
		u.checkFabrics(c, at.At(KeyFabrics))
	}
	c.Method(at, u.Method, PatchesMethods)
	c.Ease(at, u.Ease)
	if u.Ease.length(c.Rules, patchesEase) > 0 && !u.even() {
		c.Faults.AddAt(at.At(KeyEase), &model.ValueError{Value: u.Ease.Written(c.Rules.Unit), Err: model.ErrNotTogether,
			Hint: "only 2 by 2 patches of one size can be trimmed without moving a seam: leave ease out"})
	}
	u.checkSetLength(c, at.At(KeySetLength))
}

// checkSizes checks the sizes of the patches: where all are alike the file has
// one size, else two lists.
func (u Patches) checkSizes(c *Checker, at model.Path) {
	before := len(c.Faults)
	width, height := u.Columns[0], u.Rows[0]
	if slices.Max(u.Columns) == slices.Min(u.Columns) && slices.Max(u.Rows) == slices.Min(u.Rows) {
		c.Finished(at.At(KeyPatches), width)
		if height != width {
			c.Finished(at.At(KeyPatches), height)
		}
	} else {
		for i, l := range u.Columns {
			c.Finished(at.At(KeyColumns).Entry(i), l)
		}
		for i, l := range u.Rows {
			c.Finished(at.At(KeyHeights).Entry(i), l)
		}
	}
	if len(c.Faults) > before {
		return
	}
	// None is larger than MaxFinished, and a file has no list so long that
	// their sum would not be a length.
	if w, h := total(u.Columns), total(u.Rows); max(w, h) > MaxFinished {
		unit := c.Rules.Unit
		c.Faults.AddAt(at.At(KeyPatches), &model.ValueError{Value: model.FormatSize(w, h, unit) + " " + unit.String(), Err: model.ErrTooLarge,
			Hint: "all patches together are at most " + MaxFinished.FormatWithUnit(unit) + " wide and high"})
	}
}

// checkFabrics checks that each patch has its fabric.
func (u Patches) checkFabrics(c *Checker, at model.Path) {
	if len(u.Fabrics) != len(u.Rows) {
		c.Faults.AddAt(at, &model.ValueError{Value: strconv.Itoa(len(u.Fabrics)), Err: model.ErrFabricCount,
			Hint: fmt.Sprintf("write the fabrics of %d rows", len(u.Rows))})
		return
	}
	for i, row := range u.Fabrics {
		if len(row) != len(u.Columns) {
			c.Faults.AddAt(at.Entry(i), &model.ValueError{Value: strconv.Itoa(len(row)), Err: model.ErrFabricCount,
				Hint: fmt.Sprintf("write %d in each row, one for each patch", len(u.Columns))})
			continue
		}
		for j, fabric := range row {
			c.Fabric(at.Entry(i).Entry(j), fabric)
		}
	}
}

// checkSetLength checks the length of the strips that sets are sewn of.
func (u Patches) checkSetLength(c *Checker, at model.Path) {
	if u.SetLength == 0 {
		return
	}
	unit := c.Rules.Unit
	fault := func(kind error, hint string) {
		c.Faults.AddAt(at, &model.ValueError{Value: u.SetLength.FormatWithUnit(unit), Err: kind, Hint: hint})
	}
	section := model.Length(0)
	for _, l := range u.Rows {
		section = max(section, u.patchCut(c.Rules, l))
	}
	switch {
	case u.Method != StripSets:
		fault(model.ErrNotTogether, "write method: "+StripSets.String()+", or leave it out")
	case u.SetLength < 0:
		fault(model.ErrNotPositive, "write the length of the strips, or leave it out for the whole width")
	case u.SetLength > model.MaxUsableWidth:
		fault(model.ErrOutOfRange, "write at most "+model.MaxUsableWidth.FormatWithUnit(unit))
	case !u.SetLength.OnMark(c.Rules.Ruler):
		fault(model.ErrOffMark, "write "+u.SetLength.CeilTo(c.Rules.Ruler).Written(unit)+", or a finer ruler")
	case u.SetLength < section:
		fault(model.ErrTooSmall, "a section is "+section.FormatWithUnit(unit)+" wide: write at least that")
	}
}

// even reports whether the unit may be trimmed: 2 by 2 patches of one size.
func (u Patches) even() bool {
	return len(u.Columns) == 2 && len(u.Rows) == 2 && u.Columns[0] == u.Columns[1] && u.Rows[0] == u.Rows[1]
}

// patchCut is the cut size of a finished one.
func (u Patches) patchCut(r Rules, finished model.Length) model.Length {
	return r.Unfinished(finished) + u.Ease.length(r, patchesEase)
}

// Make is what n units of patches take.
func (u Patches) Make(r Rules, n int) Yield {
	y := Yield{Made: n, Trims: []Trim{{Step: u.step(), Width: r.Unfinished(total(u.Columns)), Height: r.Unfinished(total(u.Rows))}}}
	if u.Method == StripSets {
		for _, set := range u.sets(r, n) {
			y.addSet(set)
		}
	}
	var top model.Length
	for i, height := range u.Rows {
		var left model.Length
		for j, width := range u.Columns {
			shape := Shape{Fabric: u.Fabrics[i][j], Cut: -1,
				Outline: geometry.Box(corner(left, top), corner(left+width, top+height))}
			if u.Method != StripSets {
				shape.Cut = y.addPatch(model.Cut{Fabric: shape.Fabric, Width: u.patchCut(r, width), Height: u.patchCut(r, height),
					Count: n, Use: "patches"})
			}
			y.Shapes = append(y.Shapes, shape)
			left += width
		}
		top += height
	}
	return y
}

// step is what the unit is called.
func (u Patches) step() string {
	columns, rows := len(u.Columns), len(u.Rows)
	switch {
	case columns == 2 && rows == 2:
		return "four-patch"
	case columns == 3 && rows == 3:
		return "nine-patch"
	case columns == 1 || rows == 1:
		return "rail"
	}
	return "patches"
}

// addPatch adds a cut, together with others of its fabric and size, and returns
// its place.
func (y *Yield) addPatch(cut model.Cut) int {
	for i, have := range y.Cuts {
		if have.Fabric == cut.Fabric && have.Width == cut.Width && have.Height == cut.Height {
			y.Cuts[i].Count += cut.Count
			return i
		}
	}
	y.Cuts = append(y.Cuts, cut)
	return len(y.Cuts) - 1
}

// sets are the strip sets for n units: one for all rows that are alike, as they
// stand or backwards.
func (u Patches) sets(r Rules, n int) []StripSet {
	heights := make([]model.Length, len(u.Columns))
	for i, l := range u.Columns {
		heights[i] = u.patchCut(r, l)
	}
	var sets []StripSet
	for i, fabrics := range u.Fabrics {
		set := StripSet{Fabrics: fabrics, Heights: heights, Section: u.patchCut(r, u.Rows[i]), Count: n, Length: u.SetLength}
		if have := slices.IndexFunc(sets, set.same); have >= 0 {
			sets[have].Count += n
		} else {
			sets = append(sets, set)
		}
	}
	return sets
}

// same reports whether the sections of two sets are alike once they are turned
// round as need be.
func (s StripSet) same(other StripSet) bool {
	if s.Section != other.Section {
		return false
	}
	if slices.Equal(s.Fabrics, other.Fabrics) && slices.Equal(s.Heights, other.Heights) {
		return true
	}
	fabrics, heights := slices.Clone(s.Fabrics), slices.Clone(s.Heights)
	slices.Reverse(fabrics)
	slices.Reverse(heights)
	return slices.Equal(fabrics, other.Fabrics) && slices.Equal(heights, other.Heights)
}

// addSet adds a strip set and the strips that it takes: full-width strips, or
// where the set has a length, pieces of that length for whole sets and of what
// is left for a part set.
func (y *Yield) addSet(set StripSet) {
	y.Sets = append(y.Sets, set)
	for _, strip := range set.strips() {
		if set.Length == 0 {
			y.Strips = append(y.Strips, strip)
			continue
		}
		whole, part, _ := strip.At(set.Length)
		cut := model.Cut{Fabric: strip.Fabric, Width: set.Length, Height: strip.Height, Count: whole * strip.Beside, Use: stripSetsUse}
		if whole > 0 {
			y.Cuts = append(y.Cuts, cut)
		}
		if part > 0 {
			cut.Width, cut.Count = part, strip.Beside
			y.Cuts = append(y.Cuts, cut)
		}
	}
}

// strips are those of the set, each fabric and height once.
func (s StripSet) strips() []model.Strip {
	var strips []model.Strip
	for i, fabric := range s.Fabrics {
		have := slices.IndexFunc(strips, func(m model.Strip) bool { return m.Fabric == fabric && m.Height == s.Heights[i] })
		if have >= 0 {
			strips[have].Beside++
			continue
		}
		strips = append(strips, model.Strip{Fabric: fabric, Use: stripSetsUse, Height: s.Heights[i],
			Count: s.Count, First: s.Section, Each: s.Section, Beside: 1})
	}
	return strips
}
