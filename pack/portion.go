package pack

// portion is an instance of some of the pieces of another, on the same fabric:
// sizes of which there are none are left out, so that pricing takes less.
type portion struct {
	in      *instance
	whole   *instance
	options []int // of the whole, by the portion's
	own     []int // of the portion, by the whole's; -1 where there are no pieces
}

// portion is the instance of a demand.
func (in *instance) portion(demand []int) portion {
	p := portion{
		in:    &instance{problem: in.problem, width: in.width, alongUnit: in.alongUnit, acrossUnit: in.acrossUnit},
		whole: in,
		own:   make([]int, len(in.options)),
	}
	at := make([]int, len(demand))
	for i, d := range demand {
		if d > 0 {
			at[i] = len(p.in.sizes)
			z := in.sizes[i]
			z.count = d
			p.in.sizes = append(p.in.sizes, z)
		}
	}
	for k, o := range in.options {
		p.own[k] = -1
		if demand[o.size] > 0 {
			p.own[k] = len(p.options)
			o.size = at[o.size]
			p.in.options = append(p.in.options, o)
			p.options = append(p.options, k)
		}
	}
	p.in.findLowest()
	return p
}

// enter is a layout of the whole as one of the portion, without the pieces that
// are not in it, or false if none is.
func (p portion) enter(c *column) (column, bool) {
	list := c.mapped(p.own)
	if len(list) == 0 {
		return column{}, false
	}
	return p.in.newColumn(list), true
}

// leave are runs of the portion as ones of the whole.
func (p portion) leave(runs []run) []run {
	list := make([]run, len(runs))
	for i, r := range runs {
		list[i] = run{p.whole.newColumn(r.col.mapped(p.options)), r.count}
	}
	return list
}

// mapped are the stretches of a layout with other options; pieces of those that
// are negative are left out.
func (c *column) mapped(to []int) []stretch {
	var list []stretch
	for _, s := range c.stretches {
		var parts []part
		for _, p := range s.parts {
			if k := to[p.option]; k >= 0 {
				parts = append(parts, part{k, p.count})
			}
		}
		if len(parts) > 0 {
			list = append(list, stretch{count: s.count, parts: parts})
		}
	}
	return list
}
