package reports

import (
	"fmt"
	"slices"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/model"
)

// making prints how the units and blocks are made; nothing of a cutting list.
func (t *textWriter) making(d designRows, u model.Unit) {
	if len(d.units) > 0 {
		t.line("")
		t.heading("UNITS")
		t.line("")
		t.lines(t.unitTable(d.units, u))
	}
	for _, g := range d.grown {
		t.grown(g, u)
	}
	if len(d.sets) > 0 {
		t.line("")
		t.heading("STRIP SETS")
		for _, s := range d.sets {
			t.hang("- ", s.sew(u))
		}
	}
	if len(d.notes) > 0 {
		t.line("")
		t.heading("NOTES")
		for _, n := range d.notes {
			t.hang("- ", n)
		}
	}
}

// unitTable lists what units are trimmed to.
func (t *textWriter) unitTable(units []unitRow, u model.Unit) string {
	headings := []string{"Unit", "Number", "Trim to"}
	over := slices.ContainsFunc(units, func(r unitRow) bool { return r.made > r.count })
	if over {
		headings = append(headings, "Cut makes")
	}
	headings = append(headings, "Fabrics")
	tab := table.NewWriter()
	tab.SetStyle(buyStyle())
	tab.AppendHeader(row(headings))
	fixed := 0
	for _, r := range units {
		cells := []string{r.label, fmt.Sprint(r.count), trimTo(r.trim, u)}
		if over {
			cells = append(cells, r.others())
		}
		fixed = max(fixed, cellsWidth(headings[1:], cells[1:]))
		tab.AppendRow(row(append(cells, r.fabrics)))
	}
	room := t.width - fixed - 2
	name := (room - 2) / 2
	tab.SetColumnConfigs([]table.ColumnConfig{
		{Name: "Unit", WidthMax: name, WidthMaxEnforcer: wrapCell},
		{Name: "Number", Align: text.AlignRight, AlignHeader: text.AlignRight},
		{Name: "Fabrics", WidthMax: room - 2 - name, WidthMaxEnforcer: wrapCell},
	})
	return tab.Render()
}

// grown prints how a unit is made step by step.
func (t *textWriter) grown(g grownRow, u model.Unit) {
	t.line("")
	t.heading(fmt.Sprintf("STEP BY STEP: %s, %d of them", g.label, g.count))
	t.hang("", testBlock)
	if left := g.leftHand(); left != "" {
		t.hang("", left)
	}
	t.line("")
	for _, s := range g.steps {
		t.hang(fmt.Sprintf("[ ] %3d ", s.number), s.how(u))
	}
}
