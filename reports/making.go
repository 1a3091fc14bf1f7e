package reports

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/geometry"
)

// designRows is what a design says besides its pieces. Of a cutting list it is
// empty.
type designRows struct {
	whole    design.Whole
	size     string // its name; empty if the quilt has one size
	finished string // "62 x 62 in"; empty if nothing is set together
	batting  string // its size; empty if there is none
	blocks   []string
	units    []unitRow  // that are made in one step
	grown    []grownRow // that are made in steps
	sets     []setRow
	notes    []string
}

// unitRow is a kind of unit and what it is trimmed to.
type unitRow struct {
	label   string
	fabrics string
	count   int // that are wanted
	made    int // that the cuts make
	trim    block.Trim
}

// grownRow is a unit that is sewn and trimmed step by step.
type grownRow struct {
	unitRow
	steps []stepRow
}

// stepRow is one step: what is sewn on, and how it is trimmed.
type stepRow struct {
	number int
	step   string
	sewn   string // "Sew on 2 B, 3 in square, halved once."
	trim   block.Trim
}

// setRow is a strip set and how often it is sewn.
type setRow struct {
	label  string // of its unit
	strips string
	block.StripSet
	seam  model.Length
	times []setTimes
}

// setTimes is how many sets are sewn at a usable width.
type setTimes struct {
	width model.Length
	count int
}

func newDesignRows(w design.Whole) designRows {
	u := w.Quilt.Unit
	rows := designRows{whole: w, size: clean(w.Size), finished: finished(w)}
	if w.BattingWidth > 0 {
		rows.batting = size(w.BattingWidth, w.BattingHeight, u)
	}
	for _, b := range w.Blocks {
		rows.blocks = append(rows.blocks, fmt.Sprintf("%d%s%s", b.Count, glue, blockLabel(b.Block, b.Colourway)))
	}
	for _, c := range w.Charts {
		unit := unitRow{label: clean(c.Name), fabrics: fabricNames(c.Fabrics, w.Quilt.Fabrics), count: c.Count, made: c.Made}
		switch {
		case len(c.Trims) == 1 && c.Trims[0].Pieces == nil:
			unit.trim = c.Trims[0]
			rows.units = append(rows.units, unit)
		case len(c.Trims) > 0:
			rows.grown = append(rows.grown, newGrownRow(unit, c.Trims, w.Quilt.Cuts, u))
		}
		for _, s := range c.Sets {
			set := newSetRow(unit.label, s, w.Quilt)
			set.seam = w.Rules().Seam
			rows.sets = append(rows.sets, set)
		}
	}
	for _, n := range w.Notes {
		rows.notes = append(rows.notes, glueMeasures(clean(n), u))
	}
	return rows
}

// finished is the size of the quilt, rounded up to the ruler's mark where it
// comes from a root.
func finished(w design.Whole) string {
	if w.Width.Sign() <= 0 {
		return ""
	}
	width, height := onMark(w.Width, w.Quilt.Ruler), onMark(w.Height, w.Quilt.Ruler)
	text := size(width, height, w.Quilt.Unit)
	if _, whole := w.Width.Length(); !whole {
		return "about" + glue + text
	}
	return text
}

// onMark is a length that is whole, or rounded up to the ruler's mark.
func onMark(s geometry.Surd, ruler model.Length) model.Length {
	if l, whole := s.Length(); whole {
		return l
	}
	return s.CeilTo(ruler)
}

func blockLabel(name, colourway string) string {
	if colourway == "" {
		return clean(name)
	}
	return clean(name) + "/" + clean(colourway)
}

// fabricNames lists the fabrics of labels, each once.
func fabricNames(labels []string, fabrics []model.Fabric) string {
	var names []string
	for _, label := range labels {
		name := fabricName(label, fabrics)
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

func fabricName(label string, fabrics []model.Fabric) string {
	for _, f := range fabrics {
		if f.ID == label {
			return fabricLabel(f)
		}
	}
	return clean(label)
}

func newGrownRow(unit unitRow, trims []block.Trim, cuts []model.Cut, u model.Unit) grownRow {
	row := grownRow{unitRow: unit}
	for i, t := range trims {
		row.steps = append(row.steps, stepRow{number: i + 1, step: clean(t.Step), sewn: sewn(t.Pieces, cuts, u), trim: t})
	}
	return row
}

// sewn says which pieces of a quilt are sewn on in a step.
func sewn(pieces, cuts []model.Cut, u model.Unit) string {
	var runs []string
	for _, p := range pieces {
		label := clean(p.Fabric)
		for _, c := range cuts {
			if c.Fabric == p.Fabric && c.Width == p.Width && c.Height == p.Height && c.Halve == p.Halve {
				label = clean(c.Name)
				break
			}
		}
		text := fmt.Sprintf("%d%s%s, %s", p.Count, glue, label, size(p.Width, p.Height, u))
		if p.Halve != model.NotHalved {
			text += ", halved" + glue + p.Halve.String()
		}
		if !slices.Contains(runs, text) {
			runs = append(runs, text)
		}
	}
	return strings.Join(runs, "; ")
}

func newSetRow(label string, s block.StripSet, q model.Quilt) setRow {
	row := setRow{label: label, StripSet: s}
	var strips []string
	for i, fabric := range s.Fabrics {
		strips = append(strips, measure(s.Heights[i], q.Unit)+" "+fabricName(fabric, q.Fabrics))
	}
	row.strips = strings.Join(strips, ", ")
	widths := []model.Length{s.Length}
	if s.Length == 0 {
		widths = commonWidths(s.Fabrics, q.Fabrics)
	}
	for _, w := range widths {
		n := model.Strip{Count: s.Count, First: s.Section, Each: s.Section}.Strips(w)
		row.times = append(row.times, setTimes{w, n})
	}
	return row
}

// commonWidths are the usable widths that all of the fabrics have, narrowest
// first; if there are none, the narrowest of all.
func commonWidths(labels []string, fabrics []model.Fabric) []model.Length {
	var all, common []model.Length
	first := true
	for _, f := range fabrics {
		if !slices.Contains(labels, f.ID) {
			continue
		}
		all = append(all, f.UsableWidths...)
		if first {
			common, first = slices.Clone(f.UsableWidths), false
		}
		common = slices.DeleteFunc(common, func(w model.Length) bool { return !slices.Contains(f.UsableWidths, w) })
	}
	slices.Sort(common)
	if len(common) == 0 && len(all) > 0 {
		return []model.Length{slices.Min(all)}
	}
	return common
}
