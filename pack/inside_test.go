package pack

import (
	"context"
	"fmt"
	"math"
	"slices"
	"time"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// What tests of the parts of a search share: small searches, and all that
// trying everything finds out about them.

// drawSearch draws a problem of up to so many pieces and begins a search of its
// shared or nested plan. End it. It has all the work it may want.
func drawSearch(t *rapid.T, pieces int) *search {
	style := rapid.SampledFrom([]Style{Shared, Nested}).Draw(t, "style")
	width := rapid.IntRange(2, 10).Draw(t, "width")
	turnable := rapid.SampledFrom([]*rapid.Generator[bool]{rapid.Just(false), rapid.Just(true), rapid.Bool()}).Draw(t, "turnable")
	var items []Item
	for left := rapid.IntRange(1, pieces).Draw(t, "pieces"); left > 0; {
		it := Item{
			Along:    model.Length(rapid.IntRange(1, width).Draw(t, "along")),
			Across:   model.Length(rapid.IntRange(1, 6).Draw(t, "across")),
			Count:    rapid.IntRange(1, left).Draw(t, "count"),
			Turnable: turnable.Draw(t, "turnable"),
		}
		left -= it.Count
		items = append(items, it)
	}
	s, err := beginSearch(model.Length(width), items, style)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// drawDemand draws some of the pieces of an instance.
func drawDemand(t *rapid.T, in *instance) []int {
	demand := in.whole()
	for i := range demand {
		demand[i] = rapid.IntRange(0, demand[i]).Draw(t, "demand")
	}
	return demand
}

func beginSearch(width model.Length, items []Item, style Style) (*search, error) {
	p, err := NewProblem(width, items)
	if err != nil {
		return nil, err
	}
	in := newInstance(p)
	seed := in.plain()
	length, _ := total(seed)
	pr, h := pricer(newSharedPricer(in)), sharedHeuristics
	if style == Nested {
		pr, h = newNestedPricer(in, in.tallest(length)), nestedHeuristics
	}
	s := in.newSearch(context.Background(), pr, Options{Style: style, Work: math.MaxInt64 / 2}, paced(nil, time.Now()))
	s.h = h
	s.seed(seed)
	return s, s.begin()
}

// drawNumbers draws numbers of up to so many strips of the search's heights.
func drawNumbers(t *rapid.T, s *search, most int) numbers {
	n := make(numbers, len(s.pr.heights()))
	for range rapid.IntRange(1, most).Draw(t, "strips") {
		top := rapid.IntRange(0, len(n)-1).Draw(t, "height")
		for k := range top + 1 {
			n[k]++
		}
	}
	return n
}

// everyLayout lists, of all strips of pieces within the demand and no higher
// than top, one for each way to lay pieces and each height.
func (s *search) everyLayout(top int) []column {
	stacks := s.everyStack(top)
	var found pool
	made := make([]int, len(s.in.sizes))
	var chosen []stretch
	var grow func(from, left int)
	grow = func(from, left int) {
		if len(chosen) > 0 {
			list := slices.Clone(chosen)
			for i := range list {
				list[i].parts = slices.Clone(list[i].parts)
			}
			found.add(s.in.newColumn(list))
		}
		for j := from; j < len(stacks); j++ {
			if stacks[j].along > left || !s.mayMake(made, stacks[j].parts) {
				continue
			}
			s.make(made, stacks[j].parts, 1)
			chosen = append(chosen, stretch{count: 1, parts: stacks[j].parts})
			grow(j, left-stacks[j].along)
			chosen = chosen[:len(chosen)-1]
			s.make(made, stacks[j].parts, -1)
		}
	}
	grow(0, s.in.width)
	return found.list
}

// everyStack lists all stacks of pieces within the demand no higher than top;
// in shared strips, of one piece each.
func (s *search) everyStack(top int) []stretch {
	var list []stretch
	made := make([]int, len(s.in.sizes))
	var parts []part
	var grow func(from, height int)
	grow = func(from, height int) {
		if len(parts) > 0 {
			along := 0
			for _, p := range parts {
				along = max(along, s.in.options[p.option].along)
			}
			list = append(list, stretch{along: along, count: 1, parts: mergeParts(slices.Clone(parts))})
		}
		if s.h.style == Shared && len(parts) == 1 {
			return
		}
		for o := from; o < len(s.in.options); o++ {
			one := []part{{o, 1}}
			if height+s.in.options[o].across > top || !s.mayMake(made, one) {
				continue
			}
			s.make(made, one, 1)
			parts = append(parts, one[0])
			grow(o, height+s.in.options[o].across)
			parts = parts[:len(parts)-1]
			s.make(made, one, -1)
		}
	}
	grow(0, 0)
	return list
}

func (s *search) make(made []int, parts []part, times int) {
	for _, p := range parts {
		made[s.in.options[p.option].size] += p.count * times
	}
}

// mayMake reports whether parts besides what is made stay within the demand.
func (s *search) mayMake(made []int, parts []part) bool {
	s.make(made, parts, 1)
	ok := true
	for i, z := range s.in.sizes {
		ok = ok && made[i] <= z.count
	}
	s.make(made, parts, -1)
	return ok
}

// holds reports whether strips in these numbers can hold a demand, by trying
// every layout of a list in every strip. No layout is cut more than its most.
func (s *search) holds(n numbers, demand []int, list []choice) bool {
	var strips []int // heights, as indices, the highest first
	for k := len(n) - 1; k >= 0; k-- {
		for range n.single(k) {
			strips = append(strips, s.pr.heights()[k])
		}
	}
	used := make([]int, len(list))
	failed, tried := map[string]bool{}, map[string]bool{}
	enough := func(made []int) bool {
		key := fmt.Sprint(made)
		if _, known := tried[key]; !known {
			tried[key] = s.makes(made, demand)
		}
		return tried[key]
	}
	var fill func(i int, made []int) bool
	fill = func(i int, made []int) bool {
		if enough(made) {
			return true
		}
		key := fmt.Sprint(i, made, used)
		if i == len(strips) || failed[key] {
			return false
		}
		for j := range list {
			c := &list[j]
			if c.height > strips[i] || used[j] == c.most {
				continue
			}
			more := slices.Clone(made)
			for size, y := range s.in.column(c).yield {
				more[size] += y
			}
			used[j]++
			ok := fill(i+1, more)
			used[j]--
			if ok {
				return true
			}
		}
		failed[key] = !fill(i+1, made)
		return !failed[key]
	}
	return fill(0, make([]int, len(demand)))
}

// makes reports whether pieces are those asked for and more, if they may be cut down.
func (s *search) makes(pieces, asked []int) bool {
	known := map[string]bool{}
	var cut func(pieces []int) bool
	cut = func(pieces []int) bool {
		if !anyLeft(leftOf(asked, pieces)) {
			return true
		}
		if key := fmt.Sprint(pieces); known[key] {
			return false
		} else {
			known[key] = true
		}
		for _, c := range s.withCutDowns(nil) {
			u := c.cut
			if pieces[u.large] > asked[u.large] {
				smaller := slices.Clone(pieces)
				smaller[u.large]--
				for _, i := range u.small {
					smaller[i]++
				}
				if cut(smaller) {
					return true
				}
			}
		}
		return false
	}
	return cut(pieces)
}

// freely lets a layout be cut as often as there are strips.
func freely(list []column, n numbers) []choice {
	var free []choice
	for _, c := range list {
		free = append(free, choiceOf(c, n[0]))
	}
	return free
}
