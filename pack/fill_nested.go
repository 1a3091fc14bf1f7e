package pack

import (
	"cmp"
	"slices"
)

// fillTops is the number of strip heights that fillings tries; found by trial.
const fillTops = 3

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
	at, _ := slices.BinarySearch(p.tops, p.in.need(first))
	p.stacks(left, len(p.table)-1)
	type promise struct {
		top   int
		worth float64 // for each unit of height
	}
	var tops []promise
	for _, top := range p.tops[at:] {
		tops = append(tops, promise{top, float64(p.atMost(top)) / float64(top)})
	}
	slices.SortStableFunc(tops, func(a, b promise) int { return cmp.Compare(b.worth, a.worth) })
	var list []column
	for _, t := range tops[:min(fillTops, len(tops))] {
		list = append(list, p.fillTop(left, first, t.top))
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

// fillTop fills a strip of a height: first a stack with a piece of size first,
// then the best stretches for what is left of the width, as long as what is
// left of the demand allows them, then the best for what is left by then.
func (p *nestedPricer) fillTop(left []int, first, top int) column {
	start := p.in.lowest[first]
	o := p.in.options[start]
	rest := slices.Clone(left)
	rest[first]--
	at, _ := slices.BinarySearch(p.lengths, o.along)
	p.stacks(rest, top)
	rest[first]++
	var stretches []stretch
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
	add(mergeParts(append(p.stack(at, top-o.across), part{start, 1})))
	for {
		p.steps += stepsToGoOn
		p.stacks(rest, top)
		p.along(top, false)
		list := p.chosen(width, top)
		if len(list) == 0 {
			return p.in.newColumn(joinStretches(stretches))
		}
		for i, l := range list {
			parts := p.stack(l, top)
			if i > 0 && !p.allowed(parts, rest) {
				break
			}
			add(parts)
		}
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
