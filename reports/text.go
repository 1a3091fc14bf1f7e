package reports

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"sync"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/yardage"
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
//	CUTTING: Ink solid, usable width 40 in, buy 1 3/4 yd
//	16 strips in 7 layouts take 61 1/8 in, and no nested plan takes less.
//
//	[ ]   1 Cut 3 strips 4 1/2 in high. From each subcut 9 A, 2 1/2 x 4 1/2 in.
func WriteText(w io.Writer, q yardage.Quilt, o TextOptions) error {
	// Line lengths must not depend on the reader's locale.
	sameWidths()
	if o.Width == 0 {
		o.Width = defaultWidth
	}
	t := &textWriter{out: bufio.NewWriter(w), width: max(o.Width, leastWidth), colour: o.Colour}
	rows := newRows(q)
	t.heading(rows.heading())
	t.line("")
	t.buy(rows)
	for _, f := range rows.fabrics {
		t.cutting(f, rows)
	}
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
	for _, l := range strings.Split(t.buyTable(q), "\n") {
		t.line(l)
	}
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			if !w.BuyProven {
				t.hang("* ", fmt.Sprintf("%s at %s: %s.", f.label, measure(w.Width, q.unit), known(w)))
			}
		}
	}
}

func (t *textWriter) buyTable(q quiltRows) string {
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	tab.AppendHeader(table.Row{"Fabric", "Usable width", "Buy", "By hand", "Saved", "Proven"})
	widest := 0
	for i, f := range q.fabrics {
		if i > 0 {
			tab.AppendSeparator()
		}
		label := f.label
		for _, w := range f.widths {
			cells := []string{measure(w.Width, q.unit), glued(w.Buy.Text), glued(w.PlainBuy.Text), glued(w.Saved.Text)}
			widest = max(widest, cellsWidth(cells))
			proven := "yes"
			if !w.BuyProven {
				proven = t.paint("no *", text.FgYellow)
			}
			tab.AppendRow(table.Row{label, cells[0], t.paint(cells[1], text.Bold), cells[2], cells[3], proven})
			label = ""
		}
	}
	tab.SetColumnConfigs([]table.ColumnConfig{
		{Number: 1, WidthMax: t.width - widest, WidthMaxEnforcer: wrapCell},
		{Number: 2, Align: text.AlignRight, AlignHeader: text.AlignRight},
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

// cellsWidth is the room that a row's cells take beside the fabric's name:
// each no narrower than its heading, with a space on either side.
func cellsWidth(cells []string) int {
	headings := []string{"Usable width", "Buy", "By hand", "Saved"}
	sum := len("Proven") + 2 + 2
	for i, c := range cells {
		sum += max(text.StringWidthWithoutEscSequences(c), len(headings[i])) + 2
	}
	return sum
}

// cutting prints one fabric's cutting list at each of its widths.
func (t *textWriter) cutting(f fabricRows, q quiltRows) {
	if len(f.pieces) == 0 {
		t.line("")
		t.heading("CUTTING: " + f.label + ": nothing is cut from it")
		return
	}
	for _, w := range f.widths {
		t.line("")
		t.heading(fmt.Sprintf("CUTTING: %s, usable width %s, buy %s", f.label, measure(w.Width, q.unit), glued(w.Buy.Text)))
		t.hang("", strings.TrimSpace(taken(w, q.unit)+" "+grown(w, f.fabric, q)))
		t.line("")
		for _, s := range w.strips {
			t.strip(s, q)
		}
		for _, p := range f.pieces {
			if p.triangles > 0 {
				t.hang("[ ]     ", halve(p))
			}
		}
		t.hang("        ", together(f))
	}
}

// strip prints one layout behind a box to tick.
func (t *textWriter) strip(s stripRow, q quiltRows) {
	lead := fmt.Sprintf("[ ] %3d ", s.number)
	first := cutStrips(s, q.unit) + " " + fromEach(s.Repeat)
	if len(s.cuts) == 1 {
		t.hang(lead, strings.TrimSpace(first+" "+subcut(s.cuts[0], q.unit)+". "+offcut(s, q.unit)))
		return
	}
	t.hang(lead, first+":")
	indent := strings.Repeat(" ", len(lead))
	for _, c := range s.cuts {
		t.hang(indent+"- ", subcut(c, q.unit))
	}
	if left := offcut(s, q.unit); left != "" {
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
	t.line("")
	t.heading("BEFORE YOU CUT")
	for _, c := range cautions {
		t.hang("- ", c)
	}
}

// wrap breaks a text at its spaces into lines no wider than width; a longer
// word is broken where the line ends.
func wrap(s string, width int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Split(s, " ") {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if text.StringWidthWithoutEscSequences(longer) <= width {
			line = longer
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		line = ""
		for _, r := range word {
			if text.StringWidthWithoutEscSequences(line+string(r)) > width {
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
