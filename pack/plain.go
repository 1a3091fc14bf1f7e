package pack

// plain is the handbook's way by hand: each size on strips of its own, as
// many of it on each as fit, all of them turned where that takes less cloth.
// No plan in which the pieces of each size lie one way is shorter.
func (in *instance) plain() []run {
	var runs []run
	for i, s := range in.sizes {
		best, bestOption := 0, -1
		for o, opt := range in.options {
			if opt.size != i {
				continue
			}
			per := in.width / opt.along
			length := (s.count + per - 1) / per * opt.across
			if bestOption < 0 || length < best || length == best && opt.across < in.options[bestOption].across {
				best, bestOption = length, o
			}
		}
		per := in.width / in.options[bestOption].along
		if whole := s.count / per; whole > 0 {
			runs = append(runs, run{in.row(bestOption, per), whole})
		}
		if rest := s.count % per; rest > 0 {
			runs = append(runs, run{in.row(bestOption, rest), 1})
		}
	}
	return runs
}

// row is a layout of n pieces of one option side by side.
func (in *instance) row(option, n int) column {
	return in.newColumn([]stretch{{count: n, parts: []part{{option, 1}}}})
}
