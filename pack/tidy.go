package pack

import (
	"cmp"
	"slices"
)

// tidy cuts the strips of each height in fewer layouts where it can, without
// another strip: among plans of equal length and strips the one with the
// shortest instructions is the best. It looks at the strips of one height at
// a time, so that their number and the pieces in them stay as they are.
func (in *instance) tidy(runs []run) []run {
	byHeight := map[int][]run{}
	var heights []int
	for _, r := range runs {
		h := r.col.height
		if byHeight[h] == nil {
			heights = append(heights, h)
		}
		byHeight[h] = append(byHeight[h], r)
	}
	slices.SortFunc(heights, func(a, b int) int { return cmp.Compare(b, a) })
	var out []run
	for _, h := range heights {
		group := byHeight[h]
		if better := in.relay(group, h); better != nil && len(better) < len(group) {
			group = better
		}
		out = append(out, group...)
	}
	return out
}

// mostTidying bounds strips × width × options, of which laying strips anew takes
// a few steps each: a second or two, on grids finer than any ruler.
const mostTidying = 3e8

// relay lays the pieces in strips of one height anew: again and again it takes
// the layout that can be cut the most times and still leaves a rest that fits
// the strips that are left. It returns nil if the strips are not simple or it
// finds no way.
func (in *instance) relay(group []run, height int) []run {
	left := make([]int, len(in.options))
	_, strips := total(group)
	if float64(strips)*float64(in.width)*float64(len(in.options)) > mostTidying {
		return nil
	}
	for _, r := range group {
		for _, s := range r.col.stretches {
			if len(s.parts) != 1 || s.parts[0].count != 1 {
				return nil
			}
			left[s.parts[0].option] += s.count * r.count
		}
	}
	var out []run
	for anyLeft(left) {
		if two := in.inTwo(left, strips); two != nil && len(out)+len(two) < len(group) {
			return append(out, two...)
		}
		r := in.mostTimes(left, strips, height)
		if r.count == 0 || len(out)+1 >= len(group) {
			return nil
		}
		out = append(out, r)
		strips -= r.count
		for o, n := range r.col.laid {
			left[o] -= n * r.count
		}
	}
	return out
}

// inTwo cuts pieces left by option in one layout or two that use just so many
// strips, or returns nil if there is no such way. For every number of times
// that the first is cut it chooses, option by option, how many pieces go into
// each strip of either: the table holds, for every width of the first, the
// least width of the second. Cost: strips × width × ways to divide the
// options.
func (in *instance) inTwo(left []int, strips int) []run {
	for times := strips; times*2 >= strips; times-- {
		if first := in.divide(left, times, strips-times); first != nil {
			return in.twoRuns(left, first, times, strips-times)
		}
	}
	return nil
}

// divide chooses how many pieces of each option go into each of times strips
// so that the others fill just others strips alike, or returns nil.
func (in *instance) divide(left []int, times, others int) []int {
	const never = 1 << 30
	least := []int{0} // least[w]: width of the second layout if the first takes w
	picks := make([][]int, len(left))
	for o, n := range left {
		if n == 0 {
			continue
		}
		along := in.options[o].along
		next := make([]int, in.width+1)
		picks[o] = make([]int, in.width+1)
		for w := range next {
			next[w] = never
		}
		for a := 0; a*times <= n && a*along <= in.width; a++ {
			rest := n - a*times
			if others == 0 && rest > 0 || others > 0 && rest%others != 0 {
				continue
			}
			b := 0
			if others > 0 {
				b = rest / others
			}
			for w, second := range least {
				if to := w + a*along; to <= in.width && second+b*along < min(next[to], in.width+1) {
					next[to] = second + b*along
					picks[o][to] = a
				}
			}
		}
		least = next
	}
	for w, second := range least {
		if second <= in.width {
			return in.picked(picks, w)
		}
	}
	return nil
}

// picked reads the pieces of the first layout out of the table of divide.
func (in *instance) picked(picks [][]int, w int) []int {
	counts := make([]int, len(picks))
	for o := len(picks) - 1; o >= 0; o-- {
		if picks[o] == nil {
			continue
		}
		counts[o] = picks[o][w]
		w -= counts[o] * in.options[o].along
	}
	return counts
}

func (in *instance) twoRuns(left, first []int, times, others int) []run {
	runs := []run{{in.flatOf(first), times}}
	if others > 0 {
		second := make([]int, len(left))
		for o, n := range left {
			second[o] = (n - first[o]*times) / others
		}
		runs = append(runs, run{in.flatOf(second), others})
	}
	return slices.DeleteFunc(runs, func(r run) bool { return len(r.col.stretches) == 0 })
}

// flatOf is a layout of single pieces from counts by option.
func (in *instance) flatOf(counts []int) column {
	byOption := map[int]int{}
	for o, n := range counts {
		if n > 0 {
			byOption[o] = n
		}
	}
	return in.flatColumn(byOption, 0, 0, nil)
}

// mostTimes is the layout that can be cut the most times from pieces left by
// option, such that the rest still fits the strips that are left.
func (in *instance) mostTimes(left []int, strips, height int) run {
	for _, times := range in.timesToTry(left, strips) {
		c := in.fullest(left, times)
		if c.height != height {
			continue
		}
		rest := slices.Clone(left)
		for o, n := range c.laid {
			rest[o] -= n * times
		}
		if in.firstFit(rest) <= strips-times {
			return run{c, times}
		}
	}
	return run{}
}

// timesToTry are the numbers of times that cut all pieces of some option, the
// most first: between two of them the layouts are the same.
func (in *instance) timesToTry(left []int, strips int) []int {
	var list []int
	for o, n := range left {
		for k := 1; k <= min(n, in.width/in.options[o].along); k++ {
			list = append(list, min(strips, n/k))
		}
	}
	slices.Sort(list)
	list = slices.Compact(list)
	slices.Reverse(list)
	return list
}

// fullest is the layout of pieces that are left times times that uses most of
// the width, and of those the most cloth.
func (in *instance) fullest(left []int, times int) column {
	var k knapsack
	k.reset(in.width)
	tallest := in.options[len(in.options)-1].across
	for o := len(left) - 1; o >= 0; o-- {
		opt := in.options[o]
		if n := min(left[o]/times, in.width/opt.along); n > 0 {
			value := int64(opt.along) * (int64(in.width*tallest) + int64(opt.across))
			k.add(o, n, opt.along, value)
		}
	}
	counts := map[int]int{}
	k.taken(in.width, counts)
	return in.flatColumn(counts, 0, 0, nil)
}

// firstFit is the number of strips that first fit decreasing takes for pieces
// by option.
func (in *instance) firstFit(left []int) int {
	order := make([]int, 0, len(left))
	for o, n := range left {
		if n > 0 {
			order = append(order, o)
		}
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(in.options[b].along, in.options[a].along) })
	var room []int
	for _, o := range order {
		for range left[o] {
			along := in.options[o].along
			i := slices.IndexFunc(room, func(r int) bool { return r >= along })
			if i < 0 {
				room = append(room, in.width)
				i = len(room) - 1
			}
			room[i] -= along
		}
	}
	return len(room)
}
