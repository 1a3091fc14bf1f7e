package pack

// cutDown is a size of which any piece, however it lies, has room for one of a smaller
// size, or for two side by side, or one above the other if plans are nested: it may be cut
// down to these. A list need not have a layout in which the larger piece has room in the
// place of theirs, if a decision over it may cut pieces down; most layouts are such. (At
// the prices of a relaxation the larger piece is worth no less, so that cutting down
// changes no bound; Valério de Carvalho, Using extra dual cuts to accelerate column
// generation, INFORMS Journal on Computing 17, 2005.)
type cutDown struct {
	large int
	small []int
}

// mostPaired is the most sizes of which two are made of one: there are very many ways.
const mostPaired = 60

// findCutDowns finds the ways to cut pieces down that are not several others in a row, when
// they are first asked for: of many sizes it takes long, and most searches make no list.
func (s *search) findCutDowns() {
	if s.smaller != nil {
		return
	}
	in, style, n := s.in, s.h.style, len(s.in.sizes)
	s.smaller = make([][]bool, n)
	add := func(u cutDown) { s.cutChoices = append(s.cutChoices, in.cutChoice(u)) }
	for large := range n {
		s.smaller[large] = make([]bool, n)
		for small := range n {
			s.smaller[large][small] = in.hasRoom(large, style, small)
		}
	}
	for large := range n {
		for small := range n {
			if s.smaller[large][small] && !s.between(large, small) {
				add(cutDown{large, []int{small}})
			}
		}
	}
	if n > mostPaired {
		return
	}
	for large := range n {
		for a := range n {
			for b := a; b < n; b++ {
				if in.hasRoom(large, style, a, b) && !s.inARow(large, a, b) {
					add(cutDown{large, []int{a, b}})
				}
			}
		}
	}
}

// between reports whether there is a size between two.
func (s *search) between(large, small int) bool {
	for m := range s.smaller {
		if s.smaller[large][m] && s.smaller[m][small] {
			return true
		}
	}
	return false
}

// inARow reports whether a pair can be had by way of another size.
func (s *search) inARow(large, a, b int) bool {
	in, style := s.in, s.h.style
	for m := range s.smaller {
		switch {
		case s.smaller[large][m] && in.hasRoom(m, style, a, b),
			s.smaller[m][a] && in.hasRoom(large, style, m, b),
			s.smaller[m][b] && in.hasRoom(large, style, a, m):
			return true
		}
	}
	return false
}

// hasRoom reports whether a piece of a size may be cut down to one or two others. They
// have less area or are more, so that none comes to itself in the end.
func (in *instance) hasRoom(large int, style Style, small ...int) bool {
	area := 0.0
	for _, i := range small {
		if i == large {
			return false
		}
		area += in.area(i)
	}
	if area > in.area(large) || len(small) == 1 && area == in.area(large) {
		return false
	}
	for _, o := range in.options {
		if o.size == large && in.roomIn(o, style, small...) == nil {
			return false
		}
	}
	return true
}

// roomIn are options of one or two sizes that have room in the place of another, or nil.
func (in *instance) roomIn(o option, style Style, small ...int) []int {
	for i, p := range in.options {
		if p.size != small[0] || p.along > o.along || p.across > o.across {
			continue
		}
		if len(small) == 1 {
			return []int{i}
		}
		rest := o
		if style == Nested {
			rest.across -= p.across
		} else {
			rest.along -= p.along
		}
		if second := in.roomIn(rest, style, small[1]); second != nil {
			return []int{i, second[0]}
		}
	}
	return nil
}

// withCutDowns adds to a list the choices of pieces that are cut down, which take no
// strip.
func (s *search) withCutDowns(list []choice) []choice {
	s.findCutDowns()
	return append(list, s.cutChoices...)
}

// cutChoice is the choice of a way to cut pieces down. It is of no use oftener than there
// are pieces that the large ones can end as.
func (in *instance) cutChoice(u cutDown) choice {
	c := choice{laid: []laying{{int32(in.lowest[u.large]), -1}}, cut: &u}
	for _, small := range u.small {
		c.laid = append(c.laid, laying{int32(in.lowest[small]), 1})
	}
	for i, z := range in.sizes {
		if in.area(i) < in.area(u.large) {
			c.most += z.count
		}
	}
	return c
}

// cutDownIn cuts so many large pieces down in the strips.
func (in *instance) cutDownIn(runs []run, u cutDown, style Style, pieces int) []run {
	var done []run
	for _, r := range runs {
		for pieces > 0 && r.count > 0 && r.col.yield[u.large] > 0 {
			one := run{r.col, 1}
			pieces -= in.cutDownOne(&one, u, style, pieces)
			done = append(done, one)
			r.count--
		}
		done = append(done, r)
	}
	return joinRuns(done)
}

// cutDownOne does so in one strip, up to most pieces, and returns how many.
func (in *instance) cutDownOne(r *run, u cutDown, style Style, most int) int {
	cut := 0
	var stretches []stretch
	for _, s := range r.col.stretches {
		for range s.count {
			var parts []part
			for _, p := range s.parts {
				n := 0
				if in.options[p.option].size == u.large {
					n = min(p.count, most-cut)
				}
				cut += n
				if p.count > n {
					parts = append(parts, part{p.option, p.count - n})
				}
				if n == 0 {
					continue
				}
				for i, o := range in.roomIn(in.options[p.option], style, u.small...) {
					if i == 0 || style == Nested {
						parts = append(parts, part{o, n})
					} else { // a stretch of its own
						stretches = append(stretches, stretch{count: 1, parts: []part{{o, n}}})
					}
				}
			}
			stretches = append(stretches, stretch{count: 1, parts: mergeParts(parts)})
		}
	}
	r.col = in.newColumn(joinStretches(stretches))
	return cut
}
