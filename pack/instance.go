package pack

import (
	"crossgrain/model"
)

// size is one distinct cut size on the grid, with how many to cut.
type size struct {
	along, across int
	count         int
	turnable      bool
	items         []int // the problem's items of this size, in order
}

// option is one way a size may lie on the fabric.
type option struct {
	size          int
	along, across int
	turned        bool
}

// instance is a problem in whole numbers: lengths along the strip in units of
// alongUnit, heights in units of acrossUnit, equal sizes merged.
type instance struct {
	problem               *Problem
	width                 int // usable width in whole alongUnits, rounded down
	alongUnit, acrossUnit model.Length
	sizes                 []size
	// options lists every way that a size fits the width, lowest first.
	options []option
	// lowest is, for every size, the option in which it lies lowest (of two,
	// the shorter along the strip).
	lowest []int
}

func newInstance(p *Problem) *instance {
	in := &instance{problem: p, alongUnit: 0, acrossUnit: 0}
	mixed := false
	for _, it := range p.items {
		in.alongUnit = gcd(in.alongUnit, it.Along)
		in.acrossUnit = gcd(in.acrossUnit, it.Across)
		mixed = mixed || it.Turnable
	}
	if mixed {
		in.alongUnit = gcd(in.alongUnit, in.acrossUnit)
		in.acrossUnit = in.alongUnit
	}
	if len(p.items) == 0 {
		return in
	}
	in.width = int(p.width / in.alongUnit)
	in.mergeItems()
	in.listOptions()
	return in
}

// mergeItems joins items of one size into one. A turnable size is kept with
// its longer side along the strip, so that the two ways of writing it merge.
func (in *instance) mergeItems() {
	type key struct {
		along, across int
		turnable      bool
	}
	at := map[key]int{}
	for i, it := range in.problem.items {
		k := key{int(it.Along / in.alongUnit), int(it.Across / in.acrossUnit), it.Turnable}
		if k.along == k.across && in.alongUnit == in.acrossUnit {
			k.turnable = false
		}
		if k.turnable && k.along < k.across {
			k.along, k.across = k.across, k.along
		}
		j, ok := at[k]
		if !ok {
			j = len(in.sizes)
			at[k] = j
			in.sizes = append(in.sizes, size{along: k.along, across: k.across, turnable: k.turnable})
		}
		in.sizes[j].count += it.Count
		in.sizes[j].items = append(in.sizes[j].items, i)
	}
	sortSizes(in.sizes)
}

func (in *instance) listOptions() {
	for i, s := range in.sizes {
		if s.along <= in.width {
			in.options = append(in.options, option{i, s.along, s.across, false})
		}
		if s.turnable && s.across <= in.width {
			in.options = append(in.options, option{i, s.across, s.along, true})
		}
	}
	sortOptions(in.options)
	in.findLowest()
}

func (in *instance) findLowest() {
	in.lowest = make([]int, len(in.sizes))
	for i := len(in.options) - 1; i >= 0; i-- { // the lowest stand first
		in.lowest[in.options[i].size] = i
	}
}

// mostInStrip is a number of pieces that no strip can hold more of.
func (in *instance) mostInStrip(pr pricer) int {
	if len(in.options) == 0 {
		return 1
	}
	shortest, lowest := in.width, in.options[0].across
	for _, o := range in.options {
		shortest = min(shortest, o.along)
	}
	tops := pr.heights()
	return (in.width/shortest + 1) * (tops[len(tops)-1]/lowest + 1)
}

// need is the least height of a strip for a size.
func (in *instance) need(size int) int { return in.options[in.lowest[size]].across }

// highest is the most that any size needs.
func (in *instance) highest() int {
	most := 0
	for i := range in.sizes {
		most = max(most, in.need(i))
	}
	return most
}

// many reports whether the sizes are many: their questions are seldom answered.
func (in *instance) many() bool { return len(in.sizes) >= manySizes }

// whole is the demand of every size.
func (in *instance) whole() []int {
	demand := make([]int, len(in.sizes))
	for i, s := range in.sizes {
		demand[i] = s.count
	}
	return demand
}

// shares are the sizes' parts of the area of the whole demand.
func (in *instance) shares() []float64 {
	list := make([]float64, len(in.sizes))
	all := in.covered(in.whole())
	for i, z := range in.sizes {
		list[i] = in.area(i) * float64(z.count) / all
	}
	return list
}

func gcd[T ~int64](a, b T) T {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
