package pack

import (
	"math"
	"slices"
)

// The settings of choosing strips to cut apart, found by trial.
const (
	evenlyApart  = 0.5  // by so many mean losses every strip loses more
	mostLikeness = 3    // power of what a strip shares with those taken, at most
	strangeness  = 0.02 // of a strip that shares nothing with them
	stepsToWeigh = 10   // about what it takes to weigh a run that a strip may be drawn from
	stepsToLook  = 3    // and, once for all, to look at a size of it
)

// losers draws strips of a plan, one after another.
type losers struct {
	s        *search
	plan     []run
	sizes    [][]int // of the pieces in each run's strips
	loss     []float64
	evenly   float64     // what each loses more
	likeness float64     // power of what a strip shares with those taken
	count    int         // strips of the plan
	out      []int       // strips of each run that are taken
	in       []bool      // the sizes that the strips taken hold
	like     []float64   // what each run's strips share with those taken, to that power
	powers   [][]float64 // powers[m][n]: that of n sizes of m, if it was needed before
}

// takeLosers takes so many strips out of the latest plan. Those that lose more are
// likelier to go, and so are those whose sizes are in the strips taken already: of
// fewer sizes there are fewer layouts, and more of these can be put together anew
// (relatedness; Shaw, Using constraint programming and local search methods to
// solve vehicle routing problems, 1998). How much that counts differs from call to
// call.
func (s *search) takeLosers(most int) (kept, taken []run) {
	l := s.newLosers()
	for range min(most, l.count) {
		l.take(l.draw())
	}
	for i, r := range l.plan {
		if n := r.count - l.out[i]; n > 0 {
			kept = append(kept, run{r.col, n})
		}
		if l.out[i] > 0 {
			taken = append(taken, run{r.col, l.out[i]})
		}
	}
	return kept, taken
}

func (s *search) newLosers() *losers {
	l := &losers{s: s, plan: s.latest, sizes: make([][]int, len(s.latest)), loss: make([]float64, len(s.latest))}
	l.out, l.in = make([]int, len(s.latest)), make([]bool, len(s.in.sizes))
	l.likeness, l.like = mostLikeness*s.fill.shake.Float64(), slices.Repeat([]float64{1}, len(s.latest))
	s.m.effort += int64(len(l.plan)*len(s.in.sizes)) * stepsToLook
	sum := 0.0
	_, l.count = total(l.plan)
	var sizes []int
	for i := range l.plan {
		r := &l.plan[i]
		l.loss[i] = s.loses(&r.col)
		sum += l.loss[i] * float64(r.count)
		from := len(sizes)
		for z, y := range r.col.yield {
			if y > 0 {
				sizes = append(sizes, z)
			}
		}
		l.sizes[i] = sizes[from:]
	}
	l.evenly = evenlyApart*sum/float64(l.count) + wholeEnough
	return l
}

// loses is what a strip loses to no piece, at the beam's values.
func (s *search) loses(c *column) float64 { return max(0, -c.gain(s.beam.value)) }

// draw draws the run of the next strip, one of those that have strips left.
func (l *losers) draw() int {
	upTo, sum := make([]float64, len(l.plan)), 0.0
	for i, r := range l.plan {
		sum += (l.loss[i] + l.evenly) * float64(r.count-l.out[i]) * l.like[i]
		upTo[i] = sum
	}
	l.s.m.effort += int64(len(l.plan)) * stepsToWeigh
	i, _ := slices.BinarySearch(upTo, l.s.fill.shake.Float64()*sum)
	for l.out[i] == l.plan[i].count { // if the draw is 0
		i++
	}
	return i
}

// take takes one strip of a run, after which runs that share its sizes are likelier.
func (l *losers) take(i int) {
	l.out[i]++
	fresh := false
	for _, z := range l.sizes[i] {
		fresh = fresh || !l.in[z]
		l.in[z] = true
	}
	if fresh {
		for i := range l.plan {
			l.like[i] = l.likenessOf(i)
		}
	}
}

// likenessOf is what a run's strips share with those taken, as a share of their
// sizes, to the power.
func (l *losers) likenessOf(i int) float64 {
	n, m := 0, max(1, len(l.sizes[i]))
	for _, z := range l.sizes[i] {
		n += b2i(l.in[z])
	}
	for len(l.powers) <= m {
		l.powers = append(l.powers, make([]float64, len(l.powers)+1))
	}
	if l.powers[m][n] == 0 {
		l.powers[m][n] = math.Pow(float64(n)/float64(m)+strangeness, l.likeness)
	}
	return l.powers[m][n]
}
