package pack

import (
	"math"
	"math/rand/v2"
	"slices"
)

// filler builds plans of what is left to cut strip after strip, the piece that
// needs the highest strip first. Each strip is filled for the most worth by
// pseudo-prices, and then the prices of its pieces move towards what they
// cost in it: sequential value correction (Mukhacheva, Belousova and others,
// 2000; Belov and Scheithauer, A branch-and-cut-and-price algorithm for
// one-dimensional stock cutting and two-dimensional two-stage cutting,
// European Journal of Operational Research 171, 2006). Prices are shaken a
// little, always in the same way, so that no two passes are alike.
type filler struct {
	in    *instance
	pr    pricer
	price []float64
	worth []int64
	shake *rand.Rand
	over  func() bool // the search must end
}

// The settings of the filler, found by trial.
const (
	shakeBy      = 0.2  // width of the band in which prices are shaken
	areaExponent = 1.02 // larger pieces are worth a little more than their area
	correction   = 0.3  // share of the way that a price moves
	worthScale   = 256  // whole units of worth in one square unit
)

func newFiller(in *instance, pr pricer) *filler {
	f := &filler{in: in, pr: pr, shake: rand.New(rand.NewPCG(1959, 24384))}
	f.price = make([]float64, len(in.sizes))
	f.worth = make([]int64, len(in.sizes))
	for i := range in.sizes {
		f.price[i] = in.area(i)
	}
	return f
}

// area is the size of one piece.
func (in *instance) area(size int) float64 {
	return float64(in.sizes[size].along) * float64(in.sizes[size].across)
}

// pass fills strips until nothing is left, or returns nil when their length
// reaches stop or the search must end.
func (f *filler) pass(demand []int, stop int) []run {
	left := append([]int(nil), demand...)
	var runs []run
	length := 0
	for {
		first := f.hardest(left)
		if first < 0 {
			return runs
		}
		if f.over() {
			return nil
		}
		c := f.pr.fillings(f.shaken(f.price, shakeBy), left, first)[0]
		times := max(1, timesWhole(&c, left))
		if length += c.height * times; length >= stop {
			return nil
		}
		runs = append(runs, run{c, times})
		f.correct(c)
		take(left, &c, times)
	}
}

// shaken are prices as whole worths, each shaken within a band of such a width.
// They are good until the next.
func (f *filler) shaken(price []float64, by float64) []int64 {
	for i, p := range price {
		f.worth[i] = int64(p * worthScale * (1 - by/2 + by*f.shake.Float64()))
	}
	return f.worth
}

// hardest is the size still to cut that needs the highest strip, the dearest
// of several, or -1.
func (f *filler) hardest(left []int) int {
	first := -1
	for i, n := range left {
		if n == 0 {
			continue
		}
		if first < 0 || f.in.need(i) > f.in.need(first) ||
			f.in.need(i) == f.in.need(first) && f.price[i] > f.price[first] {
			first = i
		}
	}
	return first
}

// correct moves the prices of a strip's pieces towards their share of it.
func (f *filler) correct(c column) {
	share := 1 / (1 - f.in.waste(&c))
	for i, y := range c.yield {
		if y > 0 {
			want := math.Pow(f.in.area(i), areaExponent) * share
			f.price[i] += correction * (want - f.price[i])
		}
	}
}

// timesWhole is how often a layout can be cut before it makes too much of a
// size.
func timesWhole(c *column, left []int) int {
	times := -1
	for i, y := range c.yield {
		switch {
		case y == 0:
		case y > left[i]:
			return 0
		case times < 0 || left[i]/y < times:
			times = left[i] / y
		}
	}
	return times
}

// take takes what strips of a layout yield from what is left to cut.
func take(left []int, c *column, times int) {
	for i, y := range c.yield {
		left[i] = max(0, left[i]-y*times)
	}
}

// leftBeside is what is left to cut of a demand beside strips.
func leftBeside(demand []int, runs []run) []int {
	left := slices.Clone(demand)
	for i := range runs {
		take(left, &runs[i].col, runs[i].count)
	}
	return left
}

// anyLeft reports whether anything is left to cut.
func anyLeft(left []int) bool {
	for _, n := range left {
		if n > 0 {
			return true
		}
	}
	return false
}
