package pack

// choice is a layout that a decision may choose, and the most strips of it that a
// plan can have. There may be very many, so it holds no more than it must. It may also
// be that pieces are cut down, which takes no strip: it makes small ones for large ones.
type choice struct {
	height int
	most   int
	lacks  int64 // of what its strip could be worth, in a view
	laid   []laying
	stacks []*offering // that a listed layout is made of, if it is nested
	known  *column     // of a layout that was not listed
	cut    *cutDown    // or of none, if pieces are cut down
}

// laying is so many pieces laid by an option.
type laying struct{ option, count int32 }

// lay adds pieces.
func (c *choice) lay(p part) {
	for i := range c.laid {
		if l := &c.laid[i]; int(l.option) == p.option {
			l.count += int32(p.count)
			return
		}
	}
	c.laid = append(c.laid, laying{int32(p.option), int32(p.count)})
}

// choiceOf is a choice of a layout that is known.
func choiceOf(c column, most int) choice {
	var laid []laying
	for o, n := range c.laid {
		if n > 0 {
			laid = append(laid, laying{int32(o), int32(n)})
		}
	}
	return choice{height: c.height, most: most, laid: laid, known: &c}
}

// column is the layout of a choice.
func (in *instance) column(c *choice) column {
	if c.known != nil {
		return *c.known
	}
	var stretches []stretch
	if c.stacks == nil {
		for _, l := range c.laid {
			stretches = append(stretches, stretch{count: int(l.count), parts: []part{{int(l.option), 1}}})
		}
		return in.newColumn(stretches)
	}
	for _, o := range c.stacks {
		stretches = append(stretches, stretch{count: 1, parts: o.parts})
	}
	return in.newColumn(joinStretches(stretches))
}

// sum counts the pieces laid by one option in strips from a height up, or, if
// there is no option, these strips.
type sum struct{ height, option int }

func (u sum) of(c *choice) int {
	if c.height < u.height {
		return 0
	}
	if u.option == absent {
		return 1
	}
	for _, l := range c.laid {
		if int(l.option) == u.option {
			return int(l.count)
		}
	}
	return 0
}
