package reports

import (
	"math/big"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// quiltRows is a quilt as every writer prints it. Titles and names are kept as
// they are for programs; labels are what is printed for people.
type quiltRows struct {
	title   string
	unit    model.Unit
	ruler   model.Length
	style   pack.Style
	fabrics []fabricRows
	design  designRows
}

// fabricRows is one fabric: its pieces and strips, and what it needs at each
// width.
type fabricRows struct {
	fabric model.Fabric
	label  string // its name, or its key where it has none
	pieces []pieceRow
	strips []needRow
	widths []widthRows
}

// needRow is a need of full-width strips: how many they are at some of the
// usable widths.
type needRow struct {
	model.Strip
	label string
	count int
	// at are the usable widths that it is said of; nil where it is the same at
	// all of them.
	at []model.Length
}

// widths are the usable widths that a need of strips is said of.
func (n needRow) widths(f fabricRows) []model.Length {
	if n.at != nil {
		return n.at
	}
	return f.fabric.UsableWidths
}

// wholeStrip is what full-width strips have in place of a grain.
const wholeStrip = "whole strip"

// pieceRow is one cut size, as the quilt file lists it.
type pieceRow struct {
	model.Piece
	label     string
	triangles int // what halving makes of all of them; 0 where it is not halved
}

// widthRows is one fabric at one usable width.
type widthRows struct {
	yardage.Requirement
	stripCount, layoutCount int
	length                  model.Length
	pieces                  []pieceRow // that are cut at this width
	strips                  []stripRow
	usedShare               string // four places at most: "0.9312"
	// simpler says that the plain plan buys as little, and that it is not the
	// plan itself.
	simpler bool
}

// stripRow is one step of cutting: a layout, in the order of cutting.
type stripRow struct {
	number int // counted from 1 within its fabric and width
	pack.Strip
	cuts []cutRow
	// part is a strip besides, which holds fewer of the one piece that the
	// strip holds; nil where there is none.
	part *pack.Strip
}

// count is how many strips the step cuts.
func (s stripRow) count() int {
	if s.part != nil {
		return s.Repeat + 1
	}
	return s.Repeat
}

// cutRow is what is cut from a strip in one go: one piece and others like it,
// or a stretch that is cut on into a stack.
type cutRow struct {
	along  model.Length
	repeat int
	stack  []stackRow
}

// stackRow is a run of like pieces in a stretch, one below the other.
type stackRow struct {
	count         int
	label         string
	along, across model.Length // as it lies
	turned        bool
	// trimAlong and trimAcross say that the cut leaves the piece too long
	// along the strip, or too high, and that it is trimmed to its size.
	trimAlong, trimAcross bool
}

func newRows(q Quilt) quiltRows {
	rows := quiltRows{title: q.Title, unit: q.Unit, ruler: q.Ruler, style: q.Style, design: newDesignRows(q.Whole)}
	for _, f := range q.Fabrics {
		rows.fabrics = append(rows.fabrics, newFabricRows(f))
	}
	return rows
}

// compares reports whether what to buy is compared with the plain plan; a plain
// plan is not compared with itself.
func (q quiltRows) compares() bool { return q.style != pack.Plain }

// priced reports whether the price of a fabric is known.
func (q quiltRows) priced() bool {
	return slices.ContainsFunc(q.fabrics, func(f fabricRows) bool { return f.fabric.Price > 0 })
}

// heading is the title as it is printed.
func (q quiltRows) heading() string { return heading(q.title) }

// heading is a title as it is printed.
func heading(title string) string {
	if title = clean(title); title != "" {
		return title
	}
	return "Quilt"
}

func newFabricRows(f yardage.FabricRequirement) fabricRows {
	rows := newCutRows(f.FabricCuts)
	for _, r := range f.Widths {
		rows.widths = append(rows.widths, newWidthRows(r, newPieceRows(f.PiecesAt(r.Width))))
	}
	return rows
}

// newCutRows is what is cut of a fabric, without plans.
func newCutRows(f model.FabricCuts) fabricRows {
	rows := fabricRows{fabric: f.Fabric, label: fabricLabel(f.Fabric), pieces: newPieceRows(f.Pieces)}
	for _, s := range f.Strips {
		rows.strips = append(rows.strips, newNeedRows(s, f.Fabric.UsableWidths)...)
	}
	return rows
}

func fabricLabel(f model.Fabric) string {
	if name := clean(f.Name); name != "" {
		return name
	}
	return clean(f.ID)
}

func newPieceRows(pieces []model.Piece) []pieceRow {
	var rows []pieceRow
	for _, p := range pieces {
		row := pieceRow{Piece: p, label: clean(p.Name)}
		if p.Halve != model.NotHalved {
			row.triangles = p.Count * p.Halve.Shapes()
		}
		rows = append(rows, row)
	}
	return rows
}

// newNeedRows is a row for each number of strips that a need comes to.
func newNeedRows(s model.Strip, widths []model.Length) []needRow {
	var rows []needRow
	for _, w := range widths {
		n := s.Strips(w)
		i := slices.IndexFunc(rows, func(row needRow) bool { return row.count == n })
		if i < 0 {
			i = len(rows)
			rows = append(rows, needRow{Strip: s, label: clean(s.Name), count: n})
		}
		rows[i].at = append(rows[i].at, w)
	}
	if len(rows) == 1 {
		rows[0].at = nil
	}
	return rows
}

// nothing reports whether nothing is cut of the fabric.
func (f fabricRows) nothing() bool { return len(f.pieces)+len(f.strips) == 0 }

// hasPart reports whether a strip is used in part at a width.
func (f fabricRows) hasPart(w widthRows) bool {
	return slices.ContainsFunc(f.strips, func(n needRow) bool {
		return slices.ContainsFunc(w.pieces, func(p pieceRow) bool { return p.label == n.label+" part" })
	})
}

func newWidthRows(r yardage.Requirement, pieces []pieceRow) widthRows {
	plan := r.Result.Plan
	rows := widthRows{
		Requirement: r,
		stripCount:  plan.StripCount(),
		layoutCount: plan.LayoutCount(),
		length:      plan.Length(),
		pieces:      pieces,
		usedShare:   share(r.UsedArea, r.CutArea),
	}
	for _, row := range stepsOf(plan.Strips) {
		row.number = len(rows.strips) + 1
		for _, g := range row.Segments {
			row.cuts = append(row.cuts, newCutRow(g, row.Height, pieces))
		}
		rows.strips = append(rows.strips, row)
	}
	rows.simpler = r.Buy == r.PlainBuy && slices.ContainsFunc(plan.Strips, func(s pack.Strip) bool { return !lone(s) })
	return rows
}

// stepsOf puts a strip that holds fewer of one piece to the strips of its
// height that hold more of it.
func stepsOf(strips []pack.Strip) []stripRow {
	var steps []stripRow
	for i, s := range strips {
		if host := slices.IndexFunc(steps, func(step stripRow) bool {
			return step.part == nil && partOf(s, step.Strip)
		}); host >= 0 {
			steps[host].part = &strips[i]
			continue
		}
		steps = append(steps, stripRow{Strip: s})
	}
	return steps
}

// partOf reports whether a strip, cut once, holds fewer of the one piece that
// another holds, lying alike.
func partOf(s, whole pack.Strip) bool {
	return s.Repeat == 1 && s.Height == whole.Height && lone(s) && lone(whole) &&
		s.Segments[0].Stack[0] == whole.Segments[0].Stack[0] &&
		s.Segments[0].Repeat < whole.Segments[0].Repeat
}

// lone reports whether a strip holds one piece only, and no stacks of it.
func lone(s pack.Strip) bool { return len(s.Segments) == 1 && len(s.Segments[0].Stack) == 1 }

func newCutRow(g pack.Segment, height model.Length, pieces []pieceRow) cutRow {
	row := cutRow{along: g.Along, repeat: g.Repeat}
	var last pack.Placement
	for i, p := range g.Stack {
		if i > 0 && p == last {
			row.stack[len(row.stack)-1].count++
			continue
		}
		last = p
		row.stack = append(row.stack, stackRow{
			count:      1,
			label:      pieces[p.Item].label,
			along:      p.Along,
			across:     p.Across,
			turned:     p.Turned,
			trimAlong:  p.Along < g.Along,
			trimAcross: len(g.Stack) == 1 && p.Across < height,
		})
	}
	return row
}

// single reports whether the cut gives one piece, with no stack to cut on.
func (c cutRow) single() bool { return len(c.stack) == 1 && c.stack[0].count == 1 }

// share is used/cut rounded to four places, halves up, without zeros at the
// end. Of no cloth the share is 0.
func share(used, cut model.Area) string {
	if cut <= 0 {
		return "0"
	}
	places := big.NewRat(int64(used), int64(cut)).FloatString(4)
	return strings.TrimSuffix(strings.TrimRight(places, "0"), ".")
}
