package pack

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// The settings of the cuts at the root, found by trial.
const (
	mostBranched  = 50_000 // layouts: with more left it gives up, as boxes take memory and time
	rootRounds    = 15
	rootGain      = 0.9        // of what there is to spare times the layouts, or less, and they go on
	fewParts      = 2          // programs are made anew if one layout in so many is left, or fewer
	mostDepth     = 10         // or if they have not helped for so many splits
	mostAnew      = 30         // one within another, at most, for that
	rootRows      = 20         // fractional strips tried in a round
	rootDivisor   = 27720      // the least common multiple of 1 to 12: most multipliers are such fractions
	mostCutCounts = 20_000_000 // coefficients of all cuts, for these take memory
	mostTimes     = 1000       // a multiplier beyond it is a sign of a poor vertex, and might overflow
)

// cutWhole adds cuts before anything is branched on, as long as they help, and
// narrows the box. Its verdict is no if they close it.
func (d *decision) cutWhole(whole *box) (verdict, error) {
	spare := math.Inf(1)
	for round := 0; ; round++ {
		if _, v, err := d.relax(whole); err != nil || v == no {
			return v, err
		}
		d.tighten(*whole)
		few := d.left(*whole)
		left := (d.worth - 1) * float64(len(few))
		if d.halved(few) || round == rootRounds || round > 1 && left > rootGain*spare || d.s.over() {
			return unknown, nil
		}
		spare = left
		if fresh, err := d.cutRoot(*whole); err != nil || !fresh {
			return unknown, err
		}
	}
}

// cutRoot adds cuts once, and reports whether there are any: at a vertex of the
// relaxation, the rows that are tight there, added up so that all but one of its
// fractional strips cancel, are rounded (Gomory, An algorithm for the mixed
// integer problem, 1960). The multipliers are floating point made whole; the
// rounding holds for any. What is not active has no strips there.
func (d *decision) cutRoot(b box) (bool, error) {
	if len(d.cuts)*len(d.list) > mostCutCounts {
		return false, nil
	}
	lines := d.lines(b)
	rows := d.each(lines)
	v, ok := d.keptVertex(lines, rows)
	if !ok {
		if v, ok = d.solvedVertex(lines, rows); !ok {
			return false, nil // then the decision will find out, exactly
		}
	}
	cuts := d.deepest(append(d.gomory(lines, rows, v), d.bySize(v.x)...), v.x)
	if len(cuts) == 0 {
		return false, nil
	}
	return true, d.enterCuts(cuts)
}

// tighten takes note that the whole box leaves no more strips of some layouts.
func (d *decision) tighten(whole box) {
	if d.length == 0 {
		return // the list is used for other numbers, too
	}
	for j, l := range whole.strips {
		d.list[j].most = min(d.list[j].most, l.hi)
	}
}

// vertex is a corner of what keeps the lines: the strips, which layouts are basic and
// which have all the strips that they may, and which lines are tight.
type vertex struct {
	x                  []float64 // of each layout
	basic, full, tight []int
}

// sort takes up what the basis of a program says of a layout.
func (v *vertex) sort(d *decision, j int, s glpk.VariableStatus) {
	switch {
	case s == glpk.Basic:
		v.basic = append(v.basic, j)
	case (s == glpk.NonBasicUpper || s == glpk.NonBasicFixed) && d.most(j) > 0 && v.x[j] > float64(d.most(j))-wholeEnough:
		v.full = append(v.full, j)
	}
}

// square reports whether the basic layouts are as many as the tight lines.
func (v *vertex) square() bool { return len(v.basic) == len(v.tight) && len(v.basic) > 0 }

// keptVertex is the vertex that the kept program has come to. It is one of the lines if
// the length is what it looked for and it misses nothing.
func (d *decision) keptVertex(lines []line, rows []weights[int64]) (v vertex, ok bool) {
	status := d.last.Basis
	fresh := len(status.Row) == d.lp.Rows() && len(status.Column) == d.lp.Columns()
	if d.length == 0 || !fresh {
		return v, false
	}
	status.Row = slices.Clone(status.Row)
	for i, c := range d.missed {
		if status.Column[c] == glpk.Basic { // then its row may be, instead, as it misses nothing
			status.Row[d.missedRow[i]] = glpk.Basic
		}
	}
	v.x = make([]float64, len(d.list))
	for _, j := range d.active {
		v.x[j] = d.last.X[d.column[j]]
		v.sort(d, j, status.Column[d.column[j]])
	}
	before := absent // the row of the line before: a sum may have two
	for i, l := range lines {
		row := d.rowOf(l)
		if row == absent || row == before {
			continue
		}
		switch s := status.Row[row]; {
		case s == glpk.NonBasicFixed, s == glpk.NonBasicUpper && l.most, s == glpk.NonBasicLower && !l.most:
			v.tight = append(v.tight, i)
			before = row
		}
	}
	if status.Column[0] == glpk.Basic {
		d.loosen(&v, lines, rows)
	}
	return v, v.square()
}

// loosen takes a line out of the tight ones so that theta, which is 1, need not be basic.
func (d *decision) loosen(v *vertex, lines []line, rows []weights[int64]) {
	if len(v.tight) != len(v.basic)+1 {
		return
	}
	m := d.matrix(*v, rows)
	theta := make([]float64, len(v.tight))
	for t, i := range v.tight {
		if lines[i].kind == ofSize {
			theta[t] = -float64(lines[i].side)
		}
	}
	inverse := invert(append(m, theta))
	if inverse == nil {
		return
	}
	out := 0
	for t := range v.tight {
		if math.Abs(inverse[t][len(v.basic)]) > math.Abs(inverse[out][len(v.basic)]) {
			out = t
		}
	}
	v.tight = slices.Delete(v.tight, out, out+1)
}

// matrix is what basic layouts have in tight lines, by layout.
func (d *decision) matrix(v vertex, rows []weights[int64]) [][]float64 {
	m := make([][]float64, len(v.basic))
	for s, j := range v.basic {
		m[s] = make([]float64, len(v.tight))
		for t, i := range v.tight {
			m[s][t] = float64(rows[i].of(d, j))
		}
	}
	size := int64(len(v.tight))
	d.s.m.effort += size * size * (size + d.weighing())
	return m
}

// rowOf is the row of the program that a line is, or absent: the length has none.
func (d *decision) rowOf(l line) int {
	switch l.kind {
	case ofSize:
		return l.at
	case ofHeight:
		return len(d.demand) + slices.Index(d.rows, l.at)
	case ofCut:
		return d.cuts[l.at].row
	case ofSum:
		return d.sumRow[l.at]
	}
	return absent
}

// solvedVertex is a vertex that a program of just the lines comes to.
func (d *decision) solvedVertex(lines []line, rows []weights[int64]) (v vertex, ok bool) {
	sol, err := d.relaxRoot(lines, rows)
	if err != nil || sol.Status != glpk.Optimal {
		return v, false
	}
	v.x = make([]float64, len(d.list))
	for i, j := range d.active {
		v.x[j] = sol.X[i]
		v.sort(d, j, sol.Basis.Column[i])
	}
	for i, s := range sol.Basis.Row {
		if s != glpk.Basic {
			v.tight = append(v.tight, i)
		}
	}
	return v, v.square()
}

// relaxRoot looks for strips of the active layouts that keep the lines, the least
// length of them if there is a length.
func (d *decision) relaxRoot(lines []line, rows []weights[int64]) (glpk.Solution, error) {
	lp, err := glpk.Open()
	if err != nil {
		return glpk.Solution{}, err
	}
	defer lp.Close()
	for _, l := range lines {
		least, most := float64(l.side), math.Inf(1)
		if l.most {
			least, most = math.Inf(-1), float64(l.side)
		}
		err = orElse(err, func() error { return lp.AddRow(least, most, nil, nil) })
	}
	entries := int64(0)
	for _, j := range d.active {
		var at []int32
		var values []float64
		for i := range rows {
			if a := rows[i].of(d, j); a != 0 {
				at, values = append(at, int32(i)), append(values, float64(a))
			}
		}
		entries += int64(len(at))
		err = orElse(err, func() error { return lp.AddColumn(d.cost(&d.list[j]), 0, float64(d.most(j)), at, values) })
	}
	if err != nil {
		return glpk.Solution{}, err
	}
	sol, err := lp.Solve(true)
	d.s.m.effort += 60_000 + 40*entries + int64(sol.Iterations)*(2000+3*entries)
	return sol, err
}

// each are the weights of the lines, one by one.
func (d *decision) each(lines []line) []weights[int64] {
	rows := make([]weights[int64], len(lines))
	for i, l := range lines {
		rows[i] = newWeights[int64](d)
		rows[i].add(d, l, 1)
	}
	return rows
}

// gomory are the roundings at a vertex.
func (d *decision) gomory(lines []line, rows []weights[int64], v vertex) []rounding {
	inverse := invert(d.matrix(v, rows))
	if inverse == nil {
		return nil
	}
	slices.Sort(v.full)
	var list []rounding
	for _, s := range mostFractionals(v.basic, v.x) {
		times := make([]int64, len(lines))
		large := 0.0
		for t, i := range v.tight {
			large = max(large, math.Abs(inverse[t][s]))
			times[i] = int64(math.Round(inverse[t][s] * rootDivisor))
		}
		if large > mostTimes {
			continue
		}
		if r, ok := d.rounding(lines, times, rootDivisor, v.full); ok {
			list = append(list, r)
		}
	}
	return list
}

// mostFractionals are the places of the basic strips that are nearest to a half.
func mostFractionals(basic []int, x []float64) []int {
	var list []int
	for s, j := range basic {
		if fraction(x[j]) > wholeEnough {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Compare(fraction(x[basic[b]]), fraction(x[basic[a]]))
	})
	return list[:min(len(list), rootRows)]
}

// invert inverts a square matrix, which it destroys, or returns nil.
func invert(m [][]float64) [][]float64 {
	n := len(m)
	inverse := make([][]float64, n)
	for i := range inverse {
		inverse[i] = make([]float64, n)
		inverse[i][i] = 1
	}
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(m[r][c]) > math.Abs(m[p][c]) {
				p = r
			}
		}
		if math.Abs(m[p][c]) < 1e-9 {
			return nil
		}
		m[c], m[p], inverse[c], inverse[p] = m[p], m[c], inverse[p], inverse[c]
		for k, f := 0, 1/m[c][c]; k < n; k++ {
			m[c][k] *= f
			inverse[c][k] *= f
		}
		for r := range n {
			if f := m[r][c]; r != c && f != 0 {
				for k := range n {
					m[r][k] -= f * m[c][k]
					inverse[r][k] -= f * inverse[c][k]
				}
			}
		}
	}
	return inverse
}
