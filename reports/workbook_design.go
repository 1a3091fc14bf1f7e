package reports

import (
	"fmt"
	"io"
	"strings"

	"github.com/xuri/excelize/v2"

	"crossgrain/model/block"
)

// The sheets of a design, besides those of every quilt.
const (
	makingSheet = "Making"
	sizesSheet  = "Sizes"
)

// making is the sheet on how units and blocks are made. A cutting list has
// none.
func (b *book) making(q quiltRows) {
	d := q.design
	if len(d.units)+len(d.grown)+len(d.sets)+len(d.notes) == 0 {
		return
	}
	s := b.newSheet(makingSheet, q, strings.TrimSpace("Units step by step, with what to trim to. "+d.about()), []column{
		{"Done", 7, tickLook},
		{"Unit", 16, strongLook},
		{"Number", 9, countLook},
		{fmt.Sprintf("Width (%v)", q.unit), 11, lengthLook},
		{fmt.Sprintf("Height (%v)", q.unit), 11, lengthLook},
		{fmt.Sprintf("Last seam to edge (%v)", q.unit), 12, lengthLook},
		{"How", 56, textLook},
	})
	for _, u := range d.units {
		s.trimRow(u.label, u.count, u.trim, strings.TrimPrefix(u.fabrics+"; "+u.others(), "; "), q)
	}
	for _, g := range d.grown {
		s.spread(fmt.Sprintf("%s, %d of them. %s %s", g.label, g.count, testBlock, g.leftHand()), bandLook)
		for _, step := range g.steps {
			s.trimRow(g.label, g.count, step.trim, step.how(q.unit), q)
		}
	}
	for _, set := range d.sets {
		s.spread(set.sew(q.unit), textLook)
	}
	for _, n := range d.notes {
		s.spread(n, aboutLook)
	}
}

// trimRow puts one step of trimming.
func (s *sheet) trimRow(label string, count int, t block.Trim, how string, q quiltRows) {
	s.put(0, tickBox, tickLook)
	s.put(1, label, strongLook)
	s.put(2, count, countLook)
	s.length(3, t.Width, q.unit)
	s.length(4, t.Height, q.unit)
	if t.SeamToEdge > 0 {
		s.length(5, t.SeamToEdge, q.unit)
	} else {
		s.put(5, nil, lengthLook)
	}
	s.put(6, strings.TrimSuffix(how, "; "), textLook)
	s.next()
}

// WriteSizesWorkbook writes an .xlsx workbook with one table of what to buy for
// a quilt in several sizes, and what was assumed. The same quilt gives the same
// bytes.
func WriteSizesWorkbook(w io.Writer, sizes []Quilt) (err error) {
	b := &book{file: excelize.NewFile(), styles: map[look]int{}}
	defer func() {
		if e := b.file.Close(); err == nil {
			err = e
		}
	}()
	rows := newRows(sizes[0])
	b.properties(rows)
	b.sizes(newSizeRows(sizes), rows)
	b.assumptions(rows)
	return b.finish(w)
}

// sizes is the sheet of what to buy in each size.
func (b *book) sizes(all sizeRows, q quiltRows) {
	columns := []column{{"Fabric", 30, strongLook}, {fmt.Sprintf("Usable width (%v)", q.unit), 13, lengthLook}, {"Unit", 7, middleLook}}
	for _, name := range all.names {
		columns = append(columns, column{name, 12, lengthLook})
	}
	s := b.newSheet(sizesSheet, q, fmt.Sprintf("What to buy in each size, with %v plans", q.style), columns)
	s.sideways()
	for _, row := range all.buys {
		s.put(0, row.fabric.label, strongLook)
		s.length(1, row.width, q.unit)
		s.put(2, row.fabric.fabric.SoldBy.Unit.String(), middleLook)
		for i, n := range row.needs {
			number, format := soldIn(n.Buy.Length, row.fabric.fabric.SoldBy.Unit)
			s.put(3+i, number, lengthLook.formatted(format))
		}
		s.next()
	}
	s.next()
	for i, d := range all.designs {
		s.spread(fmt.Sprintf("%s: finished %s; blocks: %s.", all.names[i], d.finished, strings.Join(d.blocks, ", ")), aboutLook)
	}
	for _, row := range all.buys {
		for i, n := range row.needs {
			if !n.BuyProven {
				s.spread(fmt.Sprintf("%s at %s, %s: %s.", row.fabric.label, measure(row.width, q.unit), all.names[i],
					known(n, row.fabric.fabric)), noteLook)
			}
		}
	}
	s.spread(oneSize(all.names), aboutLook)
}
