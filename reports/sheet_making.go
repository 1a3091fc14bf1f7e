package reports

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
)

// making is how units and blocks are made and trimmed.
func (d *document) making(q quiltRows) {
	r := q.design
	figures := newDesignFigures(r, room{int(d.inner()), 300}, allFigures)
	if len(figures.blocks) > 0 {
		d.heading("Blocks", 1, tallest(figures.blocks)+30)
		d.figures(figures.blocks)
	}
	if len(r.units) > 0 || len(figures.units) > 0 {
		d.heading("Trim chart", 1, 80)
		d.trimChart(r.units, q.unit)
		d.figures(figures.units)
	}
	for i, g := range r.grown {
		d.heading(fmt.Sprintf("Step by step: %s, %d of them", g.label, g.count), 1, 80)
		d.paragraph(sheetSide, strings.TrimSpace(testBlock+" "+g.leftHand()), bodyInk)
		d.space(4)
		for _, s := range g.steps {
			d.ticked(fmt.Sprint(s.number), s.how(q.unit))
		}
		if i < len(figures.rounds) {
			d.space(4)
			d.figures(figures.rounds[i].steps)
		}
	}
	if len(r.sets) > 0 {
		d.heading("Strip sets", 1, 40)
		for _, s := range r.sets {
			d.hang("•", 10, s.sew(q.unit), bodyInk)
		}
	}
	if len(r.notes) > 0 {
		d.heading("Notes", 1, 40)
		for _, n := range r.notes {
			d.hang("•", 10, n, bodyInk)
		}
	}
}

// trimChart is what units are trimmed to.
func (d *document) trimChart(units []unitRow, u model.Unit) {
	if len(units) == 0 {
		return
	}
	columns := []sheetColumn{{heading: "Unit", width: 130, bold: true}, {heading: "Number", width: 60, right: true}, {heading: "Trim to", width: 150}}
	over := slices.ContainsFunc(units, func(r unitRow) bool { return r.made > r.count })
	if over {
		columns = append(columns, sheetColumn{heading: "Cut makes", width: 80})
	}
	var rows [][]string
	for _, r := range units {
		row := []string{r.label, fmt.Sprint(r.count), trimTo(r.trim, u)}
		if over {
			row = append(row, r.others())
		}
		rows = append(rows, append(row, r.fabrics))
	}
	d.table(append(columns, sheetColumn{heading: "Fabrics"}), rows)
	d.space(4)
}

// wordList explains the words of all sizes, each once.
func (d *document) wordList(all []quiltRows) {
	d.heading("Words", 1, 40)
	var said []string
	for _, q := range all {
		for _, t := range terms(q) {
			if !slices.Contains(said, t.word) {
				said = append(said, t.word)
				d.hang(t.word, 74, t.meaning, bodyInk)
			}
		}
	}
}
