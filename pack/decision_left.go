package pack

import (
	"slices"

	"crossgrain/pack/glpk"
)

// anew reports whether a box is decided by a program of its own: few layouts are
// left, or the cuts of this one have not helped for long. The programs of decisions
// that wait for others take memory.
func (d *decision) anew(b box, few []int) bool {
	return !d.priced && (d.halved(few) || d.length > 0 && b.depth >= mostDepth && d.level < mostAnew)
}

// halved reports whether few of the layouts are left.
func (d *decision) halved(few []int) bool {
	return len(few) < len(d.list) && fewParts*len(few) <= len(d.list)
}

// left are the layouts that a box leaves, by index.
func (d *decision) left(b box) []int {
	var list []int
	for j, l := range b.strips {
		if l.hi > 0 {
			list = append(list, j)
		}
	}
	return list
}

// decideLeft decides a box over the few layouts that it leaves: programs of these
// take less, and roundings say more of them.
func (d *decision) decideLeft(b box, few []int) ([]run, verdict, error) {
	rest, whole, err := d.over(b, few)
	if err != nil {
		return nil, unknown, err
	}
	defer rest.lp.Close()
	return rest.decideBox(whole)
}

// over is a decision over the few layouts that a box leaves, which was relaxed last, and the
// box of all that it may choose.
func (d *decision) over(b box, few []int) (rest *decision, whole box, err error) {
	rest = &decision{s: d.s, n: d.n, demand: d.demand, met: d.met, length: d.length, held: d.held, level: d.level + 1, again: d.again, mostLaid: d.mostLaid}
	d.s.m.effort += int64(len(few)) * 100
	for i, j := range few {
		c := d.list[j]
		c.most = b.strips[j].hi
		rest.list, rest.at = append(rest.list, c), append(rest.at, d.at[j])
		whole.strips = append(whole.strips, b.strips[j])
		if d.column[j] != absent {
			rest.begin = append(rest.begin, i)
		}
	}
	if err := rest.open(); err != nil {
		return nil, whole, err
	}
	cuts, rows := d.tightCuts(few)
	err = rest.enterCuts(cuts)
	for i, l := range b.sums {
		if l.lo > 0 || l.hi != noLimit {
			err = orElse(err, func() error { return rest.limit(&whole, d.sums[i], l) })
			rows = append(rows, d.sumRow[i])
		}
	}
	if err = orElse(err, func() error { return rest.goOnFrom(d, few, rows) }); err != nil {
		rest.lp.Close()
	}
	return rest, whole, err
}

// tightCuts are the cuts over few of the layouts, and their rows in the program. Those that
// are loose say nothing there, and take time.
func (d *decision) tightCuts(few []int) (cuts []cut, rows []int) {
	for _, c := range d.cuts {
		if d.isLoose(c) {
			continue
		}
		at := make([]int32, len(few))
		for i, j := range few {
			at[i] = c.at[j]
		}
		rows = append(rows, c.row)
		c.at = at
		cuts = append(cuts, c)
	}
	return cuts, rows
}

// goOnFrom makes the program begin where that of a decision stands which it goes on with
// over few of its layouts: it has the rows of sizes and heights, then some of the others.
// The basis is still one if of the rows only such stay behind as are basic, and of the
// columns only such as are not.
func (d *decision) goOnFrom(before *decision, few, others []int) error {
	from := before.last.Basis
	if len(from.Row) != before.lp.Rows() || len(from.Column) != before.lp.Columns() {
		return nil
	}
	first := len(d.demand) + len(d.rows)
	for row := first; row < len(from.Row); row++ {
		if from.Row[row] != glpk.Basic && !slices.Contains(others, row) {
			return nil
		}
	}
	rowOf := func(row int) int {
		if row < first {
			return row
		}
		return others[row-first]
	}
	b := glpk.Basis{Row: make([]glpk.VariableStatus, d.lp.Rows()), Column: make([]glpk.VariableStatus, d.lp.Columns())}
	for row := range b.Row {
		b.Row[row] = from.Row[rowOf(row)]
	}
	b.Column[0] = from.Column[0]
	missed := map[int]int{} // by row, where it stands before
	for i, row := range before.missedRow {
		missed[row] = before.missed[i]
	}
	for i, row := range d.missedRow {
		b.Column[d.missed[i]] = from.Column[missed[rowOf(row)]]
	}
	for _, i := range d.active {
		if at := before.column[few[i]]; at != absent {
			b.Column[d.column[i]] = from.Column[at]
		}
	}
	basic := 0
	for _, s := range slices.Concat(b.Row, b.Column) {
		basic += b2i(s == glpk.Basic)
	}
	if basic != len(b.Row) {
		return nil
	}
	return d.lp.SetBasis(b)
}

// standing is where the program stands, for boxes that are split from the one solved last.
func (d *decision) standing() *glpk.Basis {
	d.stands = &glpk.Basis{Row: slices.Clone(d.last.Basis.Row), Column: slices.Clone(d.last.Basis.Column)}
	return d.stands
}

// resume makes the program go on from where it stood when a box was split off, unless it
// does so anyhow. Rows that came since are basic, as they are when they are added.
func (d *decision) resume(from *glpk.Basis) error {
	stands := d.stands
	d.stands = nil
	if from == nil || from == stands {
		return nil
	}
	b := glpk.Basis{Row: slices.Clone(from.Row), Column: slices.Clone(from.Column)}
	for len(b.Row) < d.lp.Rows() {
		b.Row = append(b.Row, glpk.Basic)
	}
	for len(b.Column) < d.lp.Columns() {
		b.Column = append(b.Column, glpk.NonBasicLower)
	}
	return d.lp.SetBasis(b)
}
