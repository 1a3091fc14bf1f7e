package pack

import "slices"

// A pricer finds the strip layouts that the present prices make worth having.
// All prices are whole numbers in units of 1/priceScale of the cost unit, so
// that what it proves is exact.
type pricer interface {
	// heights are the strip heights that a layout may have, ascending.
	heights() []int
	// price finds, for every height, the most that a layout of just that
	// height can be worth (worthless if there is none), or, where that is not
	// more than a strip costs, perhaps only a worth that it cannot exceed. It
	// returns the layouts worth more than they cost. The worths are good until
	// the next pricing.
	price(v prices, limit []int) (better []column, worth []int64)
	// upTo finds, for each of some heights, given by index in ascending order,
	// the layout worth the most among those no higher, and its worth. The
	// layout is given only where it is worth more than a strip costs. It takes
	// no account of bonuses.
	upTo(v prices, limit, at []int) (layouts []column, worth []int64)
	// fillings makes a few good layouts for what is left to cut that hold a
	// piece of size first, laid the lowest way, the best first: that worth the
	// most for its height.
	fillings(worth []int64, left []int, first int) []column
	// lister lists stacks for layouts up to a height that make no more than limit,
	// given what pieces of each size are worth, in several ways.
	lister(limit []int, worths [][]int64, tallest int) lister
	// work is the number of steps taken so far.
	work() int64
}

// lister lists what layouts can be made of.
type lister interface {
	// offers are the stacks of layouts of a strip's height that are worth at least
	// so much, in each of the ways; or false if there are more than most. It may
	// give others, too. The heights that it is asked for ascend.
	offers(top int, least []int64, most int) ([]offering, bool)
}

// priceScale is the number of price units in one unit of length.
const priceScale = 1 << 20

// prices are what the duals of a relaxation say.
type prices struct {
	worth []int64 // of one piece of each size
	cost  []int64 // of a strip of each of the pricer's heights
	extra []bonus
}

// bonus is added to the worth of a piece laid in one way in every strip at
// least from high. It may be negative.
type bonus struct {
	from, option int
	value        int64
}

// begin reports whether a bonus begins above a height and up to another.
func (v prices) begin(below, top int) bool {
	return slices.ContainsFunc(v.extra, func(b bonus) bool { return b.from > below && b.from <= top })
}

// at is the worth of a piece laid by an option in a strip of height top.
func (v prices) at(in *instance, option, top int) int64 {
	sum := v.worth[in.options[option].size]
	for _, b := range v.extra {
		if b.option == option && b.from <= top {
			sum += b.value
		}
	}
	return sum
}

// worthless is less than any worth that can be reached.
const worthless = -1 << 62

// lot is some pieces of one option taken together in a knapsack: splitting a
// count into lots of 1, 2, 4, … pieces makes a bounded knapsack a 0-1 one. Pieces
// of which there are more than fit are a single lot, taken again and again, as in
// an unbounded knapsack (Kellerer, Pferschy and Pisinger, Knapsack Problems, 2004,
// sections 7.1.1 and 8.1).
type lot struct {
	option, count int
	length        int
	value         int64
	again         bool
}

// appendLots splits count pieces into doubling lots.
func appendLots(to []lot, option, count, length int, value int64) []lot {
	for n := 1; count > 0; n *= 2 {
		n = min(n, count)
		count -= n
		to = append(to, lot{option, n, n * length, int64(n) * value, false})
	}
	return to
}

// appendLotsWithin makes lots of the pieces that have room beside each other.
func appendLotsWithin(room int, to []lot, option, count, length int, value int64) []lot {
	if n := room / length; n > 0 && count >= n {
		return append(to, lot{option, 1, length, value, n > 1})
	}
	return appendLots(to, option, count, length, value)
}

// enter takes a lot into a table of the most that each width is worth, and puts
// a mark where that makes it worth more.
func enter[M bool | uint8](l lot, best []int64, took []M, mark M) {
	clear(took)
	if l.length >= len(best) {
		return
	}
	// Slices of one length, so that no index needs to be checked.
	without := best[:len(best)-l.length]
	with := best[l.length:][:len(without)]
	marks := took[l.length:][:len(without)]
	if l.again {
		for w := range without {
			if v := without[w] + l.value; v > with[w] {
				with[w] = v
				marks[w] = mark
			}
		}
		return
	}
	for w := len(without) - 1; w >= 0; w-- {
		if v := without[w] + l.value; v > with[w] {
			with[w] = v
			marks[w] = mark
		}
	}
}

// taken is how many of its pieces are in the best filling of w, and the width
// that they leave.
func (l lot) taken(took []bool, w int) (pieces, rest int) {
	for took[w] {
		pieces += l.count
		w -= l.length
		if !l.again {
			break
		}
	}
	return pieces, w
}

// knapsack is a knapsack over lots that remembers its choices.
type knapsack struct {
	best []int64 // best[w]: the most that fits w
	lots []lot
	took [][]bool // took[l][w]: lot l is in the best filling of w
}

// reset empties the knapsack and gives it room for a width.
func (k *knapsack) reset(width int) {
	if cap(k.best) <= width {
		k.best = make([]int64, width+1)
		k.took = nil
	}
	k.best = k.best[:width+1]
	clear(k.best)
	k.lots = k.lots[:0]
}

// add enters n pieces and returns the number of steps taken, one for each entry of a
// table.
func (k *knapsack) add(option, n, length int, value int64) int64 {
	from := len(k.lots)
	k.lots = appendLotsWithin(len(k.best)-1, k.lots, option, n, length, value)
	for i := from; i < len(k.lots); i++ {
		if i == len(k.took) {
			k.took = append(k.took, make([]bool, cap(k.best)))
		}
		enter(k.lots[i], k.best, k.took[i][:len(k.best)], true)
	}
	return int64((len(k.lots) - from) * len(k.best))
}

// taken adds the pieces in the best filling of w to counts, by option, and
// returns the width that they leave.
func (k *knapsack) taken(w int, counts map[int]int) int {
	for i := len(k.lots) - 1; i >= 0; i-- {
		var n int
		if n, w = k.lots[i].taken(k.took[i], w); n > 0 {
			counts[k.lots[i].option] += n
		}
	}
	return w
}
