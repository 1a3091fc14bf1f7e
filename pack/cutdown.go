package pack

import "slices"

// cutDown is two sizes of which any piece of the larger, however it lies, has room for one
// of the smaller: it may be cut down to that. A list need not have a layout in which a
// larger piece has room in the place of one of its own, if a decision over it may cut
// pieces down; most layouts with something to spare are such. (At the prices of a
// relaxation a larger piece is worth no less, so that cutting down changes no bound;
// Valério de Carvalho, Using extra dual cuts to accelerate column generation, INFORMS
// Journal on Computing 17, 2005.)
type cutDown struct{ large, small int }

// hasRoom reports whether every piece of a large size has room for a small one.
func (in *instance) hasRoom(large, small int) bool {
	if in.area(large) <= in.area(small) {
		return false // so that none is cut down to itself in the end
	}
	for _, o := range in.options {
		if o.size == large && !slices.ContainsFunc(in.options, func(p option) bool {
			return p.size == small && p.along <= o.along && p.across <= o.across
		}) {
			return false
		}
	}
	return true
}

// cutDowns are those with no size between: others are several in a row.
func (in *instance) cutDowns() []cutDown {
	n := len(in.sizes)
	room := make([][]bool, n)
	for large := range n {
		room[large] = make([]bool, n)
		for small := range n {
			room[large][small] = in.hasRoom(large, small)
		}
	}
	var list []cutDown
	for large := range n {
		for small := range n {
			between := func(row []bool) bool { return row[small] }
			if room[large][small] && !slices.ContainsFunc(selected(room, room[large]), between) {
				list = append(list, cutDown{large, small})
			}
		}
	}
	return list
}

// selected are the rows that are marked.
func selected(rows [][]bool, marked []bool) [][]bool {
	var list [][]bool
	for i, row := range rows {
		if marked[i] {
			list = append(list, row)
		}
	}
	return list
}

// withCutDowns adds to a list the choices of pieces that are cut down, which take no
// strip. None is of use oftener than there are pieces that it can end as.
func (in *instance) withCutDowns(list []choice) []choice {
	for _, u := range in.cutDowns() {
		most := 0
		for i, z := range in.sizes {
			if i == u.small || in.hasRoom(u.small, i) {
				most += z.count
			}
		}
		laid := []laying{{int32(in.lowest[u.small]), 1}, {int32(in.lowest[u.large]), -1}}
		list = append(list, choice{most: most, laid: laid, cut: &u})
	}
	return list
}

// cutDownIn cuts so many large pieces down in the strips.
func (in *instance) cutDownIn(runs []run, u cutDown, pieces int) []run {
	var done []run
	for _, r := range runs {
		for pieces > 0 && r.count > 0 && r.col.yield[u.large] > 0 {
			one := run{r.col, 1}
			pieces -= in.cutDownOne(&one, u, pieces)
			done = append(done, one)
			r.count--
		}
		done = append(done, r)
	}
	return joinRuns(done)
}

// cutDownOne does so in one strip, up to most pieces, and returns how many.
func (in *instance) cutDownOne(r *run, u cutDown, most int) int {
	cut := 0
	var stretches []stretch
	for _, s := range r.col.stretches {
		for ; s.count > 0; s.count-- {
			var parts []part
			for _, p := range s.parts {
				n := 0
				if in.options[p.option].size == u.large {
					n = min(p.count, most-cut)
				}
				if cut += n; n > 0 {
					parts = append(parts, part{in.smallerOption(p.option, u.small), n})
				}
				if p.count > n {
					parts = append(parts, part{p.option, p.count - n})
				}
			}
			stretches = append(stretches, stretch{count: 1, parts: joinParts(parts)})
		}
	}
	r.col = in.newColumn(joinStretches(stretches))
	return cut
}

// smallerOption is the lowest way that a size lies in the place of an option.
func (in *instance) smallerOption(at, size int) int {
	o := in.options[at]
	return slices.IndexFunc(in.options, func(p option) bool {
		return p.size == size && p.along <= o.along && p.across <= o.across
	})
}

// joinParts adds up parts of the same option.
func joinParts(parts []part) []part {
	var list []part
	for _, p := range parts {
		if i := slices.IndexFunc(list, func(q part) bool { return q.option == p.option }); i >= 0 {
			list[i].count += p.count
		} else {
			list = append(list, p)
		}
	}
	return list
}
