package pack

import (
	"math"
	"math/bits"
	"slices"
)

// nestedPricer prices nested strips. For every stretch length a knapsack of
// stacks gives the most that a stack of each height is worth; for every strip
// height a knapsack along the width then chooses the stretches, one of which
// closes at just that height. These are the three-stage patterns of Gilmore
// and Gomory (Multistage cutting stock problems of two and more dimensions,
// Operations Research 13, 1965). Cost: lots × tallest for the stacks, and for
// every height that is not ruled out at once, lengths × width.
//
// Pieces are limited within a stack, not over a whole layout: a layout may
// make more of a size than is asked for. The bound holds all the same.
type nestedPricer struct {
	in    *instance
	tops  []int // heights at which a stack can close, ascending
	steps int64 // one for two entries of a table

	byAlong []int // options in ascending order of along
	lengths []int // distinct stretch lengths, ascending
	value   []int64
	worth   []int64 // of each height, by the last pricing

	// The stacks of a pricing, by stretch length.
	table  []int64 // table[h]: worth of the best stack of height h
	lots   []lot
	took   [][]bool
	lotsAt []int     // number of lots that fit the stretch
	closed [][]int64 // of the best stack that closes at h, if that is asked for
	most   [][]int64 // most[l][h]: worth of the best stack no higher than h
	mostAt [][]int   // and the height at which it closes, if that is asked for
	closes bool      // it is

	promise []float64 // of each height, for fillings

	strip stretchTable
	picks []int // room for what is chosen of it
}

func newNestedPricer(in *instance, tallest int) *nestedPricer {
	p := &nestedPricer{
		in:    in,
		tops:  stackHeights(in.options, min(tallest, int(TallestStrip/in.acrossUnit)), tallest),
		value: make([]int64, len(in.options)),
		table: make([]int64, tallest+1),
	}
	for i, o := range in.options {
		if o.across <= tallest {
			p.byAlong = append(p.byAlong, i)
		}
	}
	slices.SortStableFunc(p.byAlong, func(a, b int) int { return in.options[a].along - in.options[b].along })
	for _, i := range p.byAlong {
		if n := len(p.lengths); n == 0 || p.lengths[n-1] != in.options[i].along {
			p.lengths = append(p.lengths, in.options[i].along)
		}
	}
	p.worth = make([]int64, len(p.tops))
	p.promise = make([]float64, len(p.tops))
	p.lotsAt = make([]int, len(p.lengths))
	for range p.lengths {
		p.closed = append(p.closed, make([]int64, tallest+1))
		p.most = append(p.most, make([]int64, tallest+1))
		p.mostAt = append(p.mostAt, make([]int, tallest+1))
	}
	p.strip = newStretchTable(in.width, len(p.lengths))
	return p
}

// stackHeights lists the heights at which a stack can close, up to the ruler's,
// and those of single pieces above it, up to the tallest.
func stackHeights(options []option, ruler, tallest int) []int {
	can := make([]bool, ruler+1)
	can[0] = true
	var tops []int
	last := 0
	for h := 1; h <= ruler; h++ {
		for _, o := range options {
			if o.across <= h && can[h-o.across] {
				can[h] = true
				tops, last = append(tops, h), h
				break
			}
		}
	}
	for _, o := range options {
		if o.across > max(ruler, last) && o.across <= tallest {
			tops, last = append(tops, o.across), o.across
		}
	}
	return tops
}

func (p *nestedPricer) heights() []int { return p.tops }
func (p *nestedPricer) work() int64    { return p.steps }

func (p *nestedPricer) price(v prices, limit []int) ([]column, []int64) {
	var found []column
	below := -1
	for k, top := range p.tops {
		if below < 0 || v.begin(below, top) {
			for i := range p.in.options {
				p.value[i] = v.at(p.in, i, top)
			}
			p.closingStacks(limit)
		}
		below = top
		if p.worth[k] = p.atMost(top); p.worth[k] <= v.cost[k] {
			continue
		}
		p.along(p.in.width, top, false)
		var closing int
		if closing, p.worth[k] = p.close(top); p.worth[k] > v.cost[k] {
			found = append(found, p.read(top, closing))
		}
	}
	return found, p.worth
}

func (p *nestedPricer) upTo(v prices, limit, at []int) (layouts []column, worth []int64) {
	if len(at) == 0 {
		return nil, nil
	}
	p.evaluate(v.worth)
	p.stacks(limit, p.tops[at[len(at)-1]], p.in.width)
	for i, k := range at {
		top := p.tops[k]
		p.along(p.in.width, top, i > 0)
		most := p.strip.best[p.in.width]
		var layout column
		if most > v.cost[k] {
			layout = p.in.newColumn(joinStretches(p.stretches(p.in.width, top)))
		}
		layouts, worth = append(layouts, layout), append(worth, most)
	}
	return layouts, worth
}

// evaluate sets what a piece laid by each option is worth.
func (p *nestedPricer) evaluate(worth []int64) {
	for i, o := range p.in.options {
		p.value[i] = worth[o.size]
	}
}

// stacks fills the stacks of every stretch length that fits a width, up to a
// height.
func (p *nestedPricer) stacks(limit []int, tallest, width int) {
	table := p.table[:tallest+1]
	clear(table)
	p.closes = false
	p.fillStacks(limit, table, width, func(l int) { copy(p.most[l], table) })
}

// closingStacks fills them up to all heights, and tells which close there.
func (p *nestedPricer) closingStacks(limit []int) {
	for h := range p.table {
		p.table[h] = worthless
	}
	p.table[0] = 0
	p.closes = true
	p.fillStacks(limit, p.table, p.in.width, func(l int) {
		copy(p.closed[l], p.table)
		best, at := int64(0), 0
		for h, v := range p.table {
			if v > best {
				best, at = v, h
			}
			p.most[l][h], p.mostAt[l][h] = best, at
		}
	})
}

// fillStacks adds the pieces that fit each stretch length up to a width to a
// table, and calls done when it holds all of them.
func (p *nestedPricer) fillStacks(limit []int, table []int64, width int, done func(length int)) {
	p.lots = p.lots[:0]
	next := 0
	for l, length := range p.lengths {
		if length > width {
			break
		}
		for ; next < len(p.byAlong) && p.in.options[p.byAlong[next]].along == length; next++ {
			o := p.in.options[p.byAlong[next]]
			if n := min(limit[o.size], (len(table)-1)/o.across); n > 0 {
				p.add(p.byAlong[next], n, table)
			}
		}
		p.lotsAt[l] = len(p.lots)
		done(l)
		p.steps += int64(len(table)) / 8
	}
}

// add enters n pieces of an option. Even worthless ones can close a stack.
func (p *nestedPricer) add(option, n int, table []int64) {
	from := len(p.lots)
	p.lots = appendLotsWithin(len(table)-1, p.lots, option, n, p.in.options[option].across, p.value[option])
	for i := from; i < len(p.lots); i++ {
		if i == len(p.took) {
			p.took = append(p.took, make([]bool, len(p.table)))
		}
		enter(p.lots[i], table, p.took[i][:len(table)], true)
		p.steps += int64(len(table)) / 2
	}
}

// atMost is an upper bound on what a strip of a height is worth: its width at
// the best worth per unit of length.
func (p *nestedPricer) atMost(top int) int64 {
	most := int64(0)
	for l, length := range p.lengths {
		if v := p.most[l][top]; v > 0 {
			// A price times a width can take more than 64 bits.
			high, low := bits.Mul64(uint64(v), uint64(p.in.width))
			if high >= uint64(length) {
				return math.MaxInt64 >> 1
			}
			share, _ := bits.Div64(high, low, uint64(length))
			if share >= priceSum*4 {
				return math.MaxInt64 >> 1
			}
			most = max(most, int64(share)+1)
		}
	}
	return most
}

// along fills the table of the stretches of a strip, up to a width, or goes on
// from a lower strip of the same stacks.
func (p *nestedPricer) along(width, top int, further bool) {
	if !further {
		p.strip.clear(width)
	}
	p.steps += p.strip.fill(p.lengths, p.most, width, top)
}

// stretchTable is a knapsack of stretches along the width.
type stretchTable struct {
	best []int64 // best[w]: the most that stretches in a width w are worth
	last []int64 // last[l]: what a stretch of the l-th length was worth when it was filled
}

func newStretchTable(width, lengths int) stretchTable {
	return stretchTable{make([]int64, width+1), make([]int64, lengths)}
}

func (t *stretchTable) clear(width int) {
	clear(t.best[:width+1])
	clear(t.last)
}

// fill enters the stretches of a strip of a height, up to a width, and returns
// the number of steps taken. Only those need entering that are worth more than
// in the lower strip that it was filled for before, if any.
func (t *stretchTable) fill(lengths []int, most [][]int64, width, top int) (steps int64) {
	best := t.best[:width+1]
	for l, length := range lengths {
		if length > width {
			break
		}
		v := most[l][top]
		if v <= t.last[l] || v <= best[length] {
			continue // shorter stretches hold as much
		}
		t.last[l] = v
		without := best[:len(best)-length]
		with := best[length:][:len(without)]
		for w, s := range without {
			with[w] = max(with[w], s+v)
		}
		steps += int64(len(best)-length) / 2
	}
	return steps
}

// close chooses the stretch that closes at the strip's height, or -1, and
// gives what the strip is then worth.
func (p *nestedPricer) close(top int) (closing int, worth int64) {
	closing, worth = -1, worthless
	for l, length := range p.lengths {
		if c := p.closed[l][top]; c > worthless/2 {
			if s := c + p.strip.best[p.in.width-length]; s > worth {
				closing, worth = l, s
			}
		}
	}
	return closing, worth
}

// chosen lists the stretches that the strip table chooses for a width in a strip
// of a height, the longest first. The list is good until the next.
func (p *nestedPricer) chosen(width, top int) []int {
	list := p.picks[:0]
	for l := len(p.lengths) - 1; p.strip.best[width] > 0; {
		rest := width - p.lengths[l]
		switch v := p.most[l][top]; {
		case rest >= 0 && v > 0 && p.strip.best[rest]+v == p.strip.best[width]:
			list = append(list, l)
			width = rest
		case l > 0:
			l--
		default: // all that is there ends before the width does
			width--
			l = len(p.lengths) - 1
		}
	}
	slices.Sort(list)
	slices.Reverse(list)
	p.picks = list
	return list
}

// read takes the strip out of the tables.
func (p *nestedPricer) read(top, closing int) column {
	stretches := p.stretches(p.in.width-p.lengths[closing], top)
	return p.in.newColumn(joinStretches(append(stretches, stretch{count: 1, parts: p.stack(closing, top)})))
}

// stretches reads the best stretches for a width out of the tables.
func (p *nestedPricer) stretches(width, top int) []stretch {
	chosen := p.chosen(width, top)
	list := make([]stretch, 0, len(chosen)+1) // as a strip may have one more
	for _, l := range chosen {
		h := top
		if p.closes {
			h = p.mostAt[l][top]
		}
		list = append(list, stretch{count: 1, parts: p.stack(l, h)})
	}
	return list
}

// usualParts is how many parts a stack has mostly, at most.
const usualParts = 4

// stack reads the stack of height h in a stretch out of the tables.
func (p *nestedPricer) stack(l, h int) []part {
	parts := make([]part, 0, usualParts)
	for i := p.lotsAt[l] - 1; i >= 0; i-- {
		var pieces int
		if pieces, h = p.lots[i].taken(p.took[i], h); pieces == 0 {
			continue
		}
		option := p.lots[i].option
		if n := len(parts); n > 0 && parts[n-1].option == option {
			parts[n-1].count += pieces
		} else {
			parts = append(parts, part{option, pieces})
		}
	}
	return parts
}
