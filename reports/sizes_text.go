package reports

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/model"
	"crossgrain/model/design"
)

// WriteSizes writes what to buy for a quilt in several sizes, one beside the
// other. The sizes are worked out of one design.
func WriteSizes(w io.Writer, sizes []Quilt, o TextOptions) error {
	t := newTextWriter(w, o)
	q := newSizeRows(sizes)
	t.heading(heading(q.title))
	t.line("")
	t.sizes(q.names, q.designs)
	t.line("")
	t.heading(fmt.Sprintf("WHAT TO BUY (%v plans)", sizes[0].Style))
	t.line("")
	var lead [][]string
	columns := make([][]string, len(sizes))
	last := ""
	for _, b := range q.buys {
		label := b.fabric.label
		if label == last {
			label = ""
		}
		last = b.fabric.label
		lead = append(lead, []string{label, measure(b.width, q.unit)})
		for i, n := range b.needs {
			columns[i] = append(columns[i], bought(n))
		}
	}
	t.beside([]string{"Fabric", "Usable width"}, lead, q.names, columns)
	if notProven(q) {
		t.hang("* ", sizesNotProven)
	}
	t.line("")
	t.hang("", oneSize(q.names))
	return t.out.Flush()
}

// bought is what to buy, with a mark where it is not proven to be the least.
func bought(w widthRows) string {
	if w.BuyProven {
		return glued(w.Buy.Text)
	}
	return glued(w.Buy.Text) + " *"
}

func notProven(q sizeRows) bool {
	for _, b := range q.buys {
		for _, n := range b.needs {
			if !n.BuyProven {
				return true
			}
		}
	}
	return false
}

// WritePieceSizes writes what is cut for a quilt in several sizes, one beside
// the other. The sizes are worked out of one design. The error is that of
// [model.Quilt.CutList], or of the writer.
func WritePieceSizes(w io.Writer, wholes []design.Whole, o TextOptions) error {
	lists, err := listsOf(wholes)
	if err != nil {
		return err
	}
	t := newTextWriter(w, o)
	var names []string
	var designs []designRows
	for _, whole := range wholes {
		d := newDesignRows(whole)
		names, designs = append(names, d.size), append(designs, d)
	}
	unit := lists[0].Unit
	t.heading(heading(lists[0].Title))
	t.line("")
	t.sizes(names, designs)
	for i, f := range lists[0].Fabrics {
		rows := piecesOfSizes(lists, i)
		if len(rows) == 0 {
			continue
		}
		t.line("")
		t.heading("PIECES: " + fabricLabel(f.Fabric))
		t.line("")
		headings := []string{"Cut size"}
		halved := slices.ContainsFunc(rows, func(r sizePieces) bool { return r.halve != model.NotHalved })
		if halved {
			headings = append(headings, "Halve")
		}
		var lead [][]string
		columns := make([][]string, len(names))
		for _, r := range rows {
			cells := []string{r.cutSize(unit)}
			if halved {
				cells = append(cells, r.halve.String())
			}
			lead = append(lead, append(cells, r.use))
			for size, n := range r.counts {
				columns[size] = append(columns[size], number(n))
			}
		}
		t.beside(append(headings, "Use"), lead, names, columns)
	}
	t.line("")
	t.hang("", oneSize(names))
	return t.out.Flush()
}

// number is a count; none is a dash.
func number(n int) string {
	if n == 0 {
		return "-"
	}
	return fmt.Sprint(n)
}

// sizes prints what the sizes are.
func (t *textWriter) sizes(names []string, designs []designRows) {
	headings := []string{"Size", "Finished"}
	batting := slices.ContainsFunc(designs, func(d designRows) bool { return d.batting != "" })
	if batting {
		headings = append(headings, "Batting")
	}
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	tab.AppendHeader(row(append(headings, "Blocks")))
	fixed := 0
	for i, d := range designs {
		cells := []string{names[i], d.finished}
		if batting {
			cells = append(cells, d.batting)
		}
		fixed = max(fixed, cellsWidth(headings[1:], cells[1:]))
		tab.AppendRow(row(append(cells, strings.Join(d.blocks, ", "))))
	}
	// The name and the blocks share the room that is left, spaces beside each.
	room := t.width - fixed - 4
	name := widest("Size", names, max(room/2, leastColumn/2))
	tab.SetColumnConfigs([]table.ColumnConfig{
		{Number: 1, WidthMax: name, WidthMaxEnforcer: wrapCell},
		{Name: "Blocks", WidthMax: max(room-name, leastColumn/2), WidthMaxEnforcer: wrapCell},
	})
	t.lines(tab.Render())
}

// leastColumn is the least room that a column of words gets.
const leastColumn = 12

// beside prints columns beside the leading ones, in as many tables as it takes
// to keep to the width. The last of the leading columns shares the room that the
// others leave with the first of the rest.
func (t *textWriter) beside(headings []string, lead [][]string, names []string, columns [][]string) {
	last, room := len(headings)-1, t.width
	limits := make([]int, len(headings))
	for i, heading := range headings[:last] {
		limits[i] = widest(heading, cellsOf(lead, i), t.width/3)
		room -= limits[i] + 2
	}
	share := max(room/2-2, leastColumn/2)
	limits[last] = widest(headings[last], cellsOf(lead, last), share)
	room -= limits[last] + 2
	for from := 0; from < len(names); {
		left, to, wide := room, from, []int(nil)
		for ; to < len(names); to++ {
			w := widest(names[to], columns[to], share)
			if w+2 > left && to > from {
				break
			}
			wide = append(wide, w)
			left -= w + 2
		}
		if from > 0 {
			t.line("")
		}
		t.lines(besideTable(headings, lead, names[from:to], columns[from:to], slices.Concat(limits, wide)))
		from = to
	}
}

// cellsOf are the cells of one column.
func cellsOf(rows [][]string, column int) []string {
	var cells []string
	for _, row := range rows {
		cells = append(cells, row[column])
	}
	return cells
}

// widest is the room that a column takes, wrapped at the limit, without the
// spaces on either side.
func widest(heading string, cells []string, limit int) int {
	wide := text.StringWidthWithoutEscSequences(heading)
	for _, cell := range cells {
		wide = max(wide, text.StringWidthWithoutEscSequences(cell))
	}
	return min(wide, limit)
}

// besideTable is one table with its leading columns, each as wide as it may be.
func besideTable(headings []string, lead [][]string, names []string, columns [][]string, limits []int) string {
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	heads := slices.Clone(headings)
	for i, name := range names {
		heads = append(heads, wrapCell(name, limits[len(headings)+i]))
	}
	tab.AppendHeader(row(heads))
	for i, cells := range lead {
		line := slices.Clone(cells)
		for _, column := range columns {
			line = append(line, column[i])
		}
		tab.AppendRow(row(line))
	}
	var configs []table.ColumnConfig
	for i := range heads {
		c := table.ColumnConfig{Number: i + 1, WidthMax: limits[i], WidthMaxEnforcer: wrapCell}
		if i >= len(headings) {
			c.Align, c.AlignHeader = text.AlignRight, text.AlignRight
		}
		configs = append(configs, c)
	}
	tab.SetColumnConfigs(configs)
	return tab.Render()
}
