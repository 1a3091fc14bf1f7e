package pack

// bar finds which options have room on the offers, and the pairs of offers that no
// layout needs: another pair makes the same in less width or, in the same width,
// is tried before them. For if a layout has such a pair, then one with the other
// pair is as good, and so on until there is none left.
func (e *listing) bar() {
	e.above, e.barred = e.above[:0], nil
	for _, o := range e.list {
		room := uint64(0)
		for i, p := range e.s.in.options[:min(64, len(e.s.in.options))] {
			if e.standsOn(p, o) {
				room |= 1 << i
			}
		}
		e.above = append(e.above, room)
	}
	n := len(e.list)
	e.steps += int64(n * len(e.s.in.options))
	if e.s.h.style != Nested || n > mostBarred {
		return
	}
	e.barred = make([]bool, n*n)
	first := tallies{words: e.tally.words + 1}
	e.steps += int64(n*n) * knownSteps / 2
	type pair struct{ i, j int }
	var pairs []pair // by place in first
	var key tally    // one for all pairs, as there are very many
	for i := range n {
		for j := range i + 1 {
			if !e.canPair(i, j) {
				continue
			}
			closes := e.list[i].tall == e.top || e.list[j].tall == e.top
			key = append(append(key[:0], e.tallies[i]...), uint64(b2i(closes)))
			key.add(e.tallies[j], 1)
			at, known := first.find(key)
			if !known {
				pairs = append(pairs, pair{i, j})
				continue
			}
			drop := pair{i, j}
			if p := pairs[at]; e.list[i].along+e.list[j].along <= e.list[p.i].along+e.list[p.j].along {
				drop, pairs[at] = p, drop
			}
			e.barred[drop.i*n+drop.j], e.barred[drop.j*n+drop.i] = true, true
		}
	}
}

// standsOn reports whether a piece laid so has room on a stack of an offer.
func (e *listing) standsOn(p option, o offering) bool {
	return e.s.h.style == Nested && p.along <= o.along && p.across <= e.top-o.tall
}

// canPair reports whether two offers may be in one layout.
func (e *listing) canPair(i, j int) bool {
	for _, p := range e.makes[i] {
		n := p.count
		for _, q := range e.makes[j] {
			if q.size == p.size {
				n += q.count
			}
		}
		if n > e.demand[p.size] {
			return false
		}
	}
	return e.list[i].along+e.list[j].along <= e.s.in.width
}

// isBarred reports whether an offer is barred by one in the layout.
func (e *listing) isBarred(j int) bool {
	if e.barred == nil {
		return false
	}
	for _, i := range e.chosen {
		if e.barred[i*len(e.list)+j] {
			return true
		}
	}
	return false
}
