package pack

import (
	"cmp"
	"slices"
)

// fillTops is the number of strip heights that fillings tries; found by trial.
const fillTops = 3

// usualStretches is how many stretches a strip has mostly, at most.
const usualStretches = 12

// About the steps that a filling takes besides those of its tables: for itself,
// for each height, and for each time that it fills on.
const (
	stepsToFill   = 4000
	stepsByHeight = 16
	stepsToGoOn   = 2000
)

// fillings fills strips of the heights that promise the most worth for their
// cloth, the one that keeps most of its promise first.
func (p *nestedPricer) fillings(worth []int64, left []int, first int) []column {
	p.steps += stepsToFill + stepsByHeight*int64(len(p.tops))
	p.evaluate(worth)
	p.stacks(left, len(p.table)-1, p.in.width)
	tops := p.promising(p.in.need(first))
	list := make([]column, len(tops))
	lost := false
	for i, top := range tops {
		if lost {
			p.stacks(left, slices.Max(tops), p.in.width)
		}
		list[i], lost = p.fillTop(left, first, top)
	}
	kept := func(c column) float64 {
		sum := int64(0)
		for i, y := range c.yield {
			sum += int64(y) * worth[i]
		}
		return float64(sum) / float64(c.height)
	}
	slices.SortStableFunc(list, func(a, b column) int { return cmp.Compare(kept(b), kept(a)) })
	return list
}

// promising are the heights, from one up, of strips that promise the most worth
// for each unit of their height, the best first.
func (p *nestedPricer) promising(lowest int) []int {
	at, _ := slices.BinarySearch(p.tops, lowest)
	tops := p.tops[at:]
	promise := p.promise[at:]
	clear(promise)
	for l, length := range p.lengths {
		each, most := 1/float64(length), p.most[l]
		for k, top := range tops {
			promise[k] = max(promise[k], float64(most[top])*each)
		}
	}
	var best []int // of tops
	for k, top := range tops {
		promise[k] /= float64(top)
		i := len(best)
		for i > 0 && promise[best[i-1]] < promise[k] {
			i--
		}
		if i < fillTops {
			best = slices.Insert(best, i, k)
			best = best[:min(fillTops, len(best))]
		}
	}
	for i, k := range best {
		best[i] = tops[k]
	}
	return best
}

// fillTop fills a strip of a height, for which there are stacks of all that is
// left to cut: first a stack with a piece of size first, then the best stretches
// for what is left of the width, as long as what is left of the demand allows
// them, then the best for what is left by then; lost says that it made stacks of
// that for it.
func (p *nestedPricer) fillTop(left []int, first, top int) (c column, lost bool) {
	start := p.in.lowest[first]
	o := p.in.options[start]
	at, _ := slices.BinarySearch(p.lengths, o.along)
	rest := slices.Clone(left)
	parts := p.stack(at, top-o.across)
	if !p.allowed(append(parts, part{start, 1}), rest) {
		rest[first]--
		p.stacks(rest, top, p.in.width)
		rest[first]++
		lost = true
		parts = p.stack(at, top-o.across)
	}
	stretches := make([]stretch, 0, usualStretches)
	width := p.in.width
	add := func(parts []part) {
		stretches = append(stretches, stretch{count: 1, parts: parts})
		long := 0
		for _, q := range parts {
			rest[p.in.options[q.option].size] -= q.count
			long = max(long, p.in.options[q.option].along)
		}
		width -= long
	}
	add(mergeParts(append(parts, part{start, 1})))
	for renewed := false; ; renewed = true {
		p.steps += stepsToGoOn
		p.along(width, top, false)
		missing := false
		for i, l := range p.chosen(width, top) {
			parts := p.stack(l, top)
			if missing = (i > 0 || !renewed) && !p.allowed(parts, rest); missing {
				break
			}
			add(parts)
		}
		if !missing {
			return p.in.newColumn(joinStretches(stretches)), lost
		}
		p.stacks(rest, top, width)
		lost = true
	}
}

// allowed reports whether what is left to cut has all of the parts.
func (p *nestedPricer) allowed(parts []part, left []int) bool {
	for i, q := range parts {
		size := p.in.options[q.option].size
		n := q.count
		for _, other := range parts[:i] { // a turnable size may be there twice
			if p.in.options[other.option].size == size {
				n += other.count
			}
		}
		if n > left[size] {
			return false
		}
	}
	return true
}

// mergeParts adds up the parts of one option.
func mergeParts(parts []part) []part {
	var merged []part
	for _, q := range parts {
		if i := slices.IndexFunc(merged, func(m part) bool { return m.option == q.option }); i >= 0 {
			merged[i].count += q.count
		} else {
			merged = append(merged, q)
		}
	}
	return merged
}
