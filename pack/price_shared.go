package pack

import "slices"

// sharedPricer prices shared strips: for each height a bounded knapsack along
// the width over the pieces that are no higher, at least one of which has
// just that height (Gilmore and Gomory, A linear programming approach to the
// cutting stock problem, part II, Operations Research 11, 1963, and their
// two-stage patterns of 1965). Heights are taken in ascending order, so that
// one table serves them all: each height only adds pieces. Cost: lots × width
// steps for one pricing, and as much again for every height at which a bonus
// begins.
//
// A turnable size may enter a table both ways, each up to its limit. That can
// make too much of it in one layout, never too little, so the bound holds.
type sharedPricer struct {
	in    *instance
	tops  []int // distinct heights, ascending
	steps int64

	best  []int64 // best[w]: the most that pieces in a width w are worth
	full  []int64 // the same with a piece as high as the strip among them
	lots  []lot
	took  [][]uint8 // took[l][w]: which tables lot l improved at w
	worth []int64   // of each height, by the last pricing

	single knapsack // for fill
}

const (
	inBest     = 1 << iota // best[w] takes the lot
	inFull                 // full[w] takes the lot
	fullOnBest             // … and the rest of it is from best, not full
)

func newSharedPricer(in *instance) *sharedPricer {
	p := &sharedPricer{
		in:   in,
		best: make([]int64, in.width+1),
		full: make([]int64, in.width+1),
	}
	for _, o := range in.options {
		if n := len(p.tops); n == 0 || p.tops[n-1] != o.across {
			p.tops = append(p.tops, o.across)
		}
	}
	p.worth = make([]int64, len(p.tops))
	return p
}

func (p *sharedPricer) heights() []int { return p.tops }
func (p *sharedPricer) work() int64    { return p.steps }

func (p *sharedPricer) price(v prices, limit []int) ([]column, []int64) {
	p.restart()
	var found []column
	next, below := 0, 0
	for k, top := range p.tops {
		if v.begin(below, top) {
			next = 0
			p.restart()
		}
		below = top
		for w := range p.full {
			p.full[w] = worthless
		}
		for ; next < len(p.in.options) && p.in.options[next].across <= top; next++ {
			p.add(next, v.at(p.in, next, top), limit, top)
		}
		p.worth[k] = p.full[p.in.width]
		if p.worth[k] <= worthless/2 {
			p.worth[k] = worthless // no piece of this height is left to cut
		} else if p.worth[k] > v.cost[k] {
			stuffed := top
			if len(v.extra) > 0 {
				stuffed = noStrip // bonuses might forbid it
			}
			found = append(found, p.read(inFull, stuffed, limit))
		}
	}
	return found, p.worth
}

func (p *sharedPricer) upTo(v prices, limit, at []int) (layouts []column, worth []int64) {
	p.restart()
	next := 0
	for _, k := range at {
		top := p.tops[k]
		for ; next < len(p.in.options) && p.in.options[next].across <= top; next++ {
			p.add(next, v.worth[p.in.options[next].size], limit, noStrip)
		}
		most := p.best[p.in.width]
		var layout column
		if most > v.cost[k] {
			layout = p.read(inBest, top, limit)
		}
		layouts, worth = append(layouts, layout), append(worth, most)
	}
	return layouts, worth
}

// noStrip is no height of a strip: no piece closes at it.
const noStrip = -1

func (p *sharedPricer) restart() {
	clear(p.best)
	p.lots = p.lots[:0]
}

// add enters the pieces of an option into the tables. Pieces that are worth
// nothing must enter too: one of them may be what a strip needs to count as
// one of its height.
func (p *sharedPricer) add(option int, worth int64, limit []int, top int) {
	o := p.in.options[option]
	n := min(limit[o.size], p.in.width/o.along)
	closes := o.across == top
	if n == 0 || !closes && worth <= 0 {
		return
	}
	from := len(p.lots)
	p.lots = appendLotsWithin(p.in.width, p.lots, option, n, o.along, worth)
	for i := from; i < len(p.lots); i++ {
		if i == len(p.took) {
			p.took = append(p.took, make([]uint8, p.in.width+1))
		}
		if closes {
			p.enterClosing(p.lots[i], p.took[i])
		} else {
			enter(p.lots[i], p.best, p.took[i], inBest)
		}
		p.steps += int64(p.in.width)
	}
}

func (p *sharedPricer) enterClosing(l lot, took []uint8) {
	clear(took)
	if l.again {
		for w := l.length; w < len(p.best); w++ {
			p.enterClosingAt(w, l, took)
		}
		return
	}
	for w := len(p.best) - 1; w >= l.length; w-- {
		p.enterClosingAt(w, l, took)
	}
}

func (p *sharedPricer) enterClosingAt(w int, l lot, took []uint8) {
	rest := w - l.length
	if v := p.full[rest] + l.value; v > p.full[w] {
		p.full[w] = v
		took[w] = inFull
	}
	v := p.best[rest] + l.value
	if v > p.full[w] {
		p.full[w] = v
		took[w] = inFull | fullOnBest
	}
	if v > p.best[w] {
		p.best[w] = v
		took[w] |= inBest
	}
}

// read takes the best layout of the whole width out of a table, and puts pieces
// no higher than top into what it leaves of the width.
func (p *sharedPricer) read(table uint8, top int, limit []int) column {
	counts := map[int]int{}
	left := p.in.width
	for i := len(p.lots) - 1; i >= 0; i-- {
		l := p.lots[i]
		for t := p.took[i][left]; t&table != 0; t = p.took[i][left] {
			counts[l.option] += l.count
			left -= l.length
			if table == inFull && t&fullOnBest != 0 {
				table = inBest
			}
			if !l.again {
				break
			}
		}
	}
	return p.in.flatColumn(counts, left, top, limit)
}

// stepsToFillFlat is about the steps that a filling takes besides those of its
// table.
const stepsToFillFlat = 500

// fillings is the best layout of what is left around one piece of size first.
func (p *sharedPricer) fillings(worth []int64, left []int, first int) []column {
	p.steps += stepsToFillFlat
	start := p.in.lowest[first]
	top := p.in.options[start].across
	width := p.in.width - p.in.options[start].along
	p.single.reset(width)
	for i, o := range p.in.options {
		if o.across > top {
			break
		}
		n := left[o.size]
		if o.size == first {
			n--
		}
		if n = min(n, width/o.along); n > 0 {
			p.steps += p.single.add(i, n, o.along, worth[o.size])
		}
	}
	counts := map[int]int{start: 1}
	rest := p.single.taken(width, counts)
	return []column{p.in.flatColumn(counts, rest, top, left)}
}

// sharedLister offers stacks of one.
type sharedLister struct {
	in    *instance
	limit []int
}

func (p *sharedPricer) lister(limit []int, _ [][]int64, _ int) lister {
	return sharedLister{p.in, limit}
}

// offers are the options no higher than top, of each size the shortest: the list itself
// prices them.
func (g sharedLister) offers(top int, _ []int64, most int) ([]offering, bool) {
	shortest := map[int]int{} // the place of a size in the list
	var list []offering
	for i, o := range g.in.options {
		if o.across > top || g.limit[o.size] == 0 {
			continue
		}
		own := offering{o.along, o.across, []part{{i, 1}}}
		if at, known := shortest[o.size]; !known {
			shortest[o.size] = len(list)
			list = append(list, own)
		} else if o.along < list[at].along {
			list[at] = own
		}
	}
	return list, len(list) <= most
}

// flatColumn makes a layout of single pieces from counts by option, and fills
// the width left over with pieces no higher than top, the highest first.
func (in *instance) flatColumn(counts map[int]int, left, top int, limit []int) column {
	made := make([]int, len(in.sizes))
	for o, n := range counts {
		made[in.options[o].size] += n
	}
	for i := len(in.options) - 1; i >= 0; i-- {
		o := in.options[i]
		if o.across > top || o.along > left {
			continue
		}
		if n := min(limit[o.size]-made[o.size], left/o.along); n > 0 {
			counts[i] += n
			made[o.size] += n
			left -= n * o.along
		}
	}
	used := make([]int, 0, len(counts))
	for o := range counts {
		used = append(used, o)
	}
	slices.Sort(used)
	stretches := make([]stretch, 0, len(used))
	for _, o := range used {
		stretches = append(stretches, stretch{count: counts[o], parts: []part{{o, 1}}})
	}
	return in.newColumn(stretches)
}
