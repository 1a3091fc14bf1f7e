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

// relay lays the pieces in strips of one height anew: again and again it takes
// the layout that can be cut the most times and still leaves a rest that fits
// the strips that are left. It returns nil if the strips are not simple or it
// finds no way.
func (in *instance) relay(group []run, height int) []run {
	left := make([]int, len(in.options))
	strips := 0
	for _, r := range group {
		strips += r.count
		for _, s := range r.col.stretches {
			if len(s.parts) != 1 || s.parts[0].count != 1 {
				return nil
			}
			left[s.parts[0].option] += s.count * r.count
		}
	}
	var out []run
	for anyLeft(left) {
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
