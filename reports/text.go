package reports

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/model"
)

// TextOptions say how a text is laid out.
type TextOptions struct {
	// Width is the number of columns that no line goes beyond, at least 60;
	// zero is 80.
	Width  int
	Colour bool
}

const (
	defaultWidth = 80
	leastWidth   = 60
)

// WriteText writes what to buy, then the cutting list, fabric by fabric and
// width by width, then the words and the cautions:
//
//	Harbour steps
//
//	WHAT TO BUY (nested plan)
//
//	 Fabric      Usable width  Buy       By hand   Saved   Proven
//	──────────────────────────────────────────────────────────────
//	 Ink solid          40 in  1 3/4 yd  1 7/8 yd  1/8 yd  yes
//
//	PIECES: Ink solid
//
//	 Piece  Count  Cut size          Use
//	─────────────────────────────────────────────
//	 A         27  2 1/2 x 4 1/2 in  star points
//
//	CUTTING: Ink solid, usable width 40 in, buy 1 3/4 yd
//	16 strips in 7 layouts take 61 1/8 in, and no nested plan takes less.
//
//	[ ]   1 Cut 3 strips 4 1/2 in high. From each subcut 9 A, 2 1/2 x 4 1/2 in.
func WriteText(w io.Writer, q Quilt, o TextOptions) error {
	t := newTextWriter(w, o)
	rows := newRows(q)
	t.heading(rows.heading())
	t.aboutQuilt(rows.design)
	t.line("")
	t.buy(rows)
	for _, f := range rows.fabrics {
		t.cutting(f, rows)
	}
	t.making(rows.design, rows.unit)
	t.legend(rows)
	return t.out.Flush()
}

var sameWidths = sync.OnceFunc(func() { text.OverrideRuneWidthEastAsianWidth(false) })

// textWriter prints lines; bufio keeps the first error for Flush.
type textWriter struct {
	out    *bufio.Writer
	width  int
	colour bool
}

func newTextWriter(w io.Writer, o TextOptions) *textWriter {
	// Line lengths must not depend on the reader's locale.
	sameWidths()
	if o.Width == 0 {
		o.Width = defaultWidth
	}
	return &textWriter{out: bufio.NewWriter(w), width: max(o.Width, leastWidth), colour: o.Colour}
}

func (t *textWriter) line(s string) {
	_, _ = t.out.WriteString(strings.TrimRight(unglued(s), " "))
	_ = t.out.WriteByte('\n')
}

func (t *textWriter) heading(s string) {
	for _, l := range wrap(s, t.width) {
		t.line(t.paint(l, text.Bold))
	}
}

// hang prints a paragraph behind a lead, its further lines indented as far.
func (t *textWriter) hang(lead, s string) {
	indent := text.StringWidthWithoutEscSequences(lead)
	for _, l := range wrap(s, t.width-indent) {
		t.line(lead + l)
		lead = strings.Repeat(" ", indent)
	}
}

func (t *textWriter) paint(s string, c text.Color) string {
	if !t.colour {
		return s
	}
	return c.EscapeSeq() + s + text.Reset.EscapeSeq()
}

// buy prints the table of purchases and what is known of those not proven.
func (t *textWriter) buy(q quiltRows) {
	t.heading(fmt.Sprintf("WHAT TO BUY (%v plan)", q.style))
	t.line("")
	t.lines(t.buyTable(q))
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			if !w.BuyProven {
				t.hang("* ", fmt.Sprintf("%s at %s: %s.", f.label, measure(w.Width, q.unit), known(w, f.fabric)))
			}
		}
	}
}

func (t *textWriter) buyTable(q quiltRows) string {
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	headings := []string{"Fabric", "Usable width", "Buy"}
	if q.compares() {
		headings = append(headings, "By hand", "Saved")
	}
	if q.priced() {
		headings = append(headings, "Cost")
	}
	headings = append(headings, "Proven")
	tab.AppendHeader(row(headings))
	widest := 0
	for i, f := range q.fabrics {
		if i > 0 {
			tab.AppendSeparator()
		}
		label := f.label
		for _, w := range f.widths {
			cells := []string{label, measure(w.Width, q.unit), glued(w.Buy.Text)}
			if q.compares() {
				cells = append(cells, glued(w.PlainBuy.Text), glued(w.Saved.Text))
			}
			if q.priced() {
				cells = append(cells, cost(w, f.fabric))
			}
			widest = max(widest, cellsWidth(headings[1:], append(cells[1:], "no *")))
			cells[2] = t.paint(cells[2], text.Bold)
			proven := "yes"
			if !w.BuyProven {
				proven = t.paint("no *", text.FgYellow)
			}
			tab.AppendRow(row(append(cells, proven)))
			label = ""
		}
	}
	tab.SetColumnConfigs([]table.ColumnConfig{
		{Number: 1, WidthMax: t.width - widest - 2, WidthMaxEnforcer: wrapCell},
		{Number: 2, Align: text.AlignRight, AlignHeader: text.AlignRight},
		{Name: "Cost", Align: text.AlignRight, AlignHeader: text.AlignRight},
	})
	return tab.Render()
}

// cost is what a purchase costs; nothing where the price is not known.
func cost(w widthRows, f model.Fabric) string {
	if f.Price == 0 {
		return ""
	}
	return w.Cost.String()
}

// pieceTable lists a fabric's cut sizes. Columns that say nothing of any of
// them are left out.
func (t *textWriter) pieceTable(f fabricRows, u model.Unit) string {
	headings := []string{"Piece", "Count", "Cut size"}
	halved := slices.ContainsFunc(f.pieces, func(p pieceRow) bool { return p.Halve != model.NotHalved })
	if halved {
		headings = append(headings, "Halve")
	}
	used := slices.ContainsFunc(f.pieces, func(p pieceRow) bool { return clean(p.Use) != "" }) ||
		slices.ContainsFunc(f.strips, func(s needRow) bool { return clean(s.Use) != "" })
	if used {
		headings = append(headings, "Use")
	}
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	tab.AppendHeader(row(headings))
	fixed := 0
	add := func(label string, count int, size, halve, use string) {
		cells := []string{label, fmt.Sprint(count), size}
		if halved {
			cells = append(cells, halve)
		}
		fixed = max(fixed, cellsWidth(headings[1:], cells[1:]))
		if used {
			cells = append(cells, clean(use))
		}
		tab.AppendRow(row(cells))
	}
	for _, p := range f.pieces {
		add(p.label, p.Count, size(p.Along, p.Across, u), p.Halve.String(), p.Use)
	}
	for _, s := range f.strips {
		add(s.label, s.count, stripSize(s, u), "", s.Use)
	}
	// The piece and its use share the room that is left, spaces beside each.
	room := t.width - fixed - 2
	name := room
	if used {
		name = (room - 2) / 2
	}
	tab.SetColumnConfigs([]table.ColumnConfig{
		{Name: "Piece", WidthMax: name, WidthMaxEnforcer: wrapCell},
		{Name: "Count", Align: text.AlignRight, AlignHeader: text.AlignRight},
		{Name: "Use", WidthMax: room - 2 - name, WidthMaxEnforcer: wrapCell},
	})
	return tab.Render()
}

// buyStyle is a table without a frame, its header ruled off.
func buyStyle() table.Style {
	s := table.StyleLight
	s.Options = table.Options{SeparateHeader: true}
	s.Format.Header = text.FormatDefault
	return s
}

// row is a row of a table.
func row(cells []string) table.Row {
	r := make(table.Row, len(cells))
	for i, c := range cells {
		r[i] = c
	}
	return r
}

// cellsWidth is the room that cells take under their headings: each no
// narrower than its heading, with a space on either side.
func cellsWidth(headings, cells []string) int {
	sum := 0
	for i, c := range cells {
		sum += max(text.StringWidthWithoutEscSequences(c), len(headings[i])) + 2
	}
	return sum
}

// cutting prints one fabric's cutting list at each of its widths.
func (t *textWriter) cutting(f fabricRows, q quiltRows) {
	if f.nothing() {
		t.line("")
		t.heading("CUTTING: " + f.label + ": nothing is cut from it")
		return
	}
	t.pieces(f, q.unit)
	for _, w := range f.widths {
		t.line("")
		t.heading(fmt.Sprintf("CUTTING: %s, usable width %s, buy %s", f.label, measure(w.Width, q.unit), glued(w.Buy.Text)))
		t.hang("", about(w, f.fabric, q))
		t.line("")
		for _, s := range w.strips {
			t.strip(s, q)
		}
		for _, p := range f.pieces {
			if p.triangles > 0 {
				t.hang("[ ]     ", halve(p))
			}
		}
		t.hang("        ", together(w))
	}
}

// pieces prints what is cut of a fabric.
func (t *textWriter) pieces(f fabricRows, u model.Unit) {
	t.line("")
	t.heading("PIECES: " + f.label)
	t.line("")
	t.lines(t.pieceTable(f, u))
}

// lines prints a table.
func (t *textWriter) lines(table string) {
	for _, l := range strings.Split(table, "\n") {
		t.line(l)
	}
}

// strip prints one layout behind a box to tick.
func (t *textWriter) strip(s stripRow, q quiltRows) {
	lead := fmt.Sprintf("[ ] %3d ", s.number)
	first, cuts, left := stepWords(s, q.unit)
	t.hang(lead, first)
	indent := strings.Repeat(" ", len(lead))
	for _, c := range cuts {
		t.hang(indent+"- ", c)
	}
	if left != "" {
		t.hang(indent, left)
	}
}

// legend explains the words used, then gives the cautions.
func (t *textWriter) legend(q quiltRows) {
	t.line("")
	t.heading("WORDS")
	for _, m := range terms(q) {
		t.hang(fmt.Sprintf("%-13s ", m.word), m.meaning)
	}
	t.cautions()
}

// cautions prints what goes with every cutting list.
func (t *textWriter) cautions() {
	t.line("")
	t.heading("BEFORE YOU CUT")
	for _, c := range cautions {
		t.hang("- ", c)
	}
}

// wrap breaks a text at its spaces into lines no wider than width; a longer
// word is broken where the line ends.
func wrap(s string, width int) []string {
	return wrapBy(s, width, text.StringWidthWithoutEscSequences)
}

// wrapBy is wrap with another measure of a text's width.
func wrapBy(s string, width int, measured func(string) int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if measured(longer) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if measured(line+string(r)) > width {
				lines = append(lines, line)
				line = ""
			}
			line += string(r)
		}
	}
	return append(lines, line)
}

// wrapCell is wrap in the form that the table asks for.
func wrapCell(s string, width int) string { return strings.Join(wrap(s, width), "\n") }
