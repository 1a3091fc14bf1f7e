package pack

import (
	"cmp"
	"slices"

	"crossgrain/model"
)

// plan turns layouts that cover the demand into a plan of exactly the pieces
// asked for: pieces too many are left uncut, strips are lowered to what is
// left in them, and pieces of one size are handed to its items in order.
func (in *instance) plan(style Style, runs []run) Plan {
	p := Plan{Style: style, Width: in.problem.width}
	runs = in.dropSurplus(runs)
	if style != Plain {
		runs = in.tidy(runs)
	}
	slices.SortStableFunc(runs, func(a, b run) int {
		return cmp.Or(
			cmp.Compare(b.col.height, a.col.height),
			cmp.Compare(b.count, a.count),
			slices.CompareFunc(a.col.stretches, b.col.stretches, compareStretches),
		)
	})
	items := in.newDealer()
	for _, r := range runs {
		p.Strips = in.appendStrips(p.Strips, r, items)
	}
	return p
}

// dropSurplus removes the pieces made beyond the demand, from as few layouts
// as it can: copies that are already split off lose pieces first.
func (in *instance) dropSurplus(runs []run) []run {
	made := make([]int, len(in.sizes))
	for _, r := range runs {
		for i, y := range r.col.yield {
			made[i] += y * r.count
		}
	}
	var whole, split []run
	whole = append(whole, runs...)
	for i, s := range in.sizes {
		surplus := made[i] - s.count
		for j := 0; surplus > 0 && j < len(split); j++ {
			surplus -= in.strike(&split[j], i, surplus)
		}
		for j := len(whole) - 1; surplus > 0 && j >= 0; j-- {
			for whole[j].count > 0 && whole[j].col.yield[i] > 0 && surplus > 0 {
				whole[j].count--
				one := run{whole[j].col, 1}
				surplus -= in.strike(&one, i, surplus)
				split = append(split, one)
			}
		}
	}
	return joinRuns(append(whole, split...))
}

// strike removes up to most pieces of a size from one strip, the last of the
// narrowest stretches first, and returns how many.
func (in *instance) strike(r *run, size, most int) int {
	struck := 0
	var kept []stretch
	for i := len(r.col.stretches) - 1; i >= 0; i-- {
		s := r.col.stretches[i]
		per := 0
		for _, p := range s.parts {
			if in.options[p.option].size == size {
				per += p.count
			}
		}
		for ; per > 0 && s.count > 0 && struck < most; s.count-- {
			n := min(per, most-struck)
			struck += n
			if parts := in.without(s.parts, size, n); len(parts) > 0 {
				kept = append(kept, stretch{count: 1, parts: parts})
			}
		}
		if s.count > 0 {
			kept = append(kept, s)
		}
	}
	r.col = in.newColumn(joinStretches(kept))
	return struck
}

// without is a stack less n pieces of a size.
func (in *instance) without(parts []part, size, n int) []part {
	var left []part
	for _, p := range parts {
		if in.options[p.option].size == size {
			k := min(n, p.count)
			n -= k
			p.count -= k
		}
		if p.count > 0 {
			left = append(left, p)
		}
	}
	return left
}

// joinStretches adds up equal stacks.
func joinStretches(list []stretch) []stretch {
	out := make([]stretch, 0, len(list))
	for _, s := range list {
		i := slices.IndexFunc(out, func(t stretch) bool { return slices.Equal(t.parts, s.parts) })
		if i < 0 {
			out = append(out, stretch{count: s.count, parts: slices.Clone(s.parts)})
		} else {
			out[i].count += s.count
		}
	}
	return out
}

// joinRuns adds up equal layouts and leaves out empty ones.
func joinRuns(list []run) []run {
	var out []run
	for _, r := range list {
		if r.count == 0 || len(r.col.stretches) == 0 {
			continue
		}
		i := slices.IndexFunc(out, func(t run) bool {
			return t.col.height == r.col.height && equalStretches(t.col.stretches, r.col.stretches)
		})
		if i < 0 {
			out = append(out, r)
		} else {
			out[i].count += r.count
		}
	}
	return out
}

func equalStretches(a, b []stretch) bool {
	return slices.EqualFunc(a, b, func(s, t stretch) bool {
		return s.count == t.count && slices.Equal(s.parts, t.parts)
	})
}

// dealer hands the pieces of a size to the items that asked for it, in order.
type dealer struct {
	in   *instance
	next []int // by size: index into its items
	left []int // by size: pieces that the item at next still wants
}

func (in *instance) newDealer() *dealer {
	d := &dealer{in: in, next: make([]int, len(in.sizes)), left: make([]int, len(in.sizes))}
	for i, s := range in.sizes {
		d.left[i] = in.problem.items[s.items[0]].Count
	}
	return d
}

func (d *dealer) deal(size int) int {
	s := d.in.sizes[size]
	if d.left[size] == 0 {
		d.next[size]++
		d.left[size] = d.in.problem.items[s.items[d.next[size]]].Count
	}
	d.left[size]--
	return s.items[d.next[size]]
}

// appendStrips adds the strips of one run. Where one size is several items,
// strips of one layout can differ in the names on their pieces.
func (in *instance) appendStrips(strips []Strip, r run, d *dealer) []Strip {
	first := len(strips)
	for range r.count {
		s := in.strip(r.col, d)
		if n := len(strips); n > first && sameSegments(strips[n-1].Segments, s.Segments) {
			strips[n-1].Repeat++
		} else {
			strips = append(strips, s)
		}
	}
	return strips
}

func (in *instance) strip(c column, d *dealer) Strip {
	s := Strip{Height: model.Length(c.height) * in.acrossUnit, Repeat: 1, Offcut: in.problem.width}
	for _, t := range c.stretches {
		along := model.Length(t.along) * in.alongUnit
		s.Offcut -= along * model.Length(t.count)
		for range t.count {
			g := Segment{Along: along, Repeat: 1, Stack: in.stack(t.parts, d)}
			if n := len(s.Segments); n > 0 && s.Segments[n-1].Along == along && slices.Equal(s.Segments[n-1].Stack, g.Stack) {
				s.Segments[n-1].Repeat++
			} else {
				s.Segments = append(s.Segments, g)
			}
		}
	}
	return s
}

func (in *instance) stack(parts []part, d *dealer) []Placement {
	var stack []Placement
	for _, p := range parts {
		o := in.options[p.option]
		for range p.count {
			item := d.deal(o.size)
			pl := Placement{
				Item:   item,
				Along:  model.Length(o.along) * in.alongUnit,
				Across: model.Length(o.across) * in.acrossUnit,
			}
			pl.Turned = pl.Along != in.problem.items[item].Along || pl.Across != in.problem.items[item].Across
			stack = append(stack, pl)
		}
	}
	return stack
}

func sameSegments(a, b []Segment) bool {
	return slices.EqualFunc(a, b, func(s, t Segment) bool {
		return s.Along == t.Along && s.Repeat == t.Repeat && slices.Equal(s.Stack, t.Stack)
	})
}
