package pack

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A list is complete: where all layouts can pack numbers of strips, those of
// the list can, each no oftener than it says. So for every set of the sizes
// that the views are of. In the same way a decision over the list, over all
// layouts and over priced ones is right.
func TestListAndDecisionAgainstAllLayouts(t *testing.T) {
	decided, asked := 0, 0
	answers := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 5)
		defer s.end()
		s.stop = s.work() + DefaultWork
		heights := s.pr.heights()
		whole := s.in.whole()
		n := drawNumbers(t, s, 3)
		q := s.newQuestion(target{n.length(heights), noLimit})
		every := s.everyLayout(heights[len(heights)-1])
		can := s.holds(n, whole, freely(every, n))
		answers[can]++
		views, err := q.views(n)
		if err != nil {
			t.Fatal(err)
		}
		demand := make([]int, len(whole))
		for m := range views {
			met := make([]bool, len(whole))
			for i := range demand {
				met[i] = demand[i] > 0
				if views[m].worth[i] > 0 || m == len(views)-1 {
					demand[i] = whole[i]
				}
			}
			list := &listing{s: s, n: n, demand: demand, views: views[:m+1], within: math.MaxInt64}
			layouts, complete := list.layouts()
			if !complete {
				t.Fatalf("the list of so few pieces is not complete")
			}
			for _, c := range layouts {
				if c.most < 1 {
					t.Fatalf("%v can be in no plan, and is in the list", c)
				}
			}
			part := s.holds(n, demand, freely(every, n))
			if got := s.holds(n, demand, layouts); got != part {
				t.Fatalf("of %v in %v: all layouts pack %v: %v; the %d of the list: %v",
					demand, s.in.sizes, n, part, len(layouts), got)
			}
			s.agrees(t, n, demand, part)(s.decide(n, demand, nil, layouts))
			called := &decision{s: s, n: n, demand: demand, met: met, list: s.withCutDowns(layouts), held: 2}
			s.agrees(t, n, demand, part)(called.decide())
		}
		s.agrees(t, n, whole, can)(s.decide(n, whole, nil, freely(every, n)))
		runs, v, err := s.decidePriced(n, s.known)
		if v != unknown {
			s.agrees(t, n, whole, can)(runs, v, err)
			decided++
		}
		asked++
	})
	if decided*10 < asked*9 {
		t.Errorf("pricing decides only %d of %d", decided, asked)
	}
	if answers[true] < 10 || answers[false] < 10 {
		t.Errorf("too few of one kind: %v", answers)
	}
}

// Without views a list holds, for every layout there is, one that makes no less in a
// strip no higher, if pieces may be cut down.
func TestListHoldsEveryLayout(t *testing.T) {
	kept, bars := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 7)
		defer s.end()
		heights := s.pr.heights()
		n := make(numbers, len(heights))
		for k := range n {
			n[k] = 1
		}
		list := &listing{s: s, n: n, demand: s.in.whole(), within: math.MaxInt64}
		layouts, complete := list.layouts()
		if !complete {
			t.Fatal("the list of so few pieces is not complete")
		}
		for _, b := range list.barred {
			bars += b2i(b)
		}
		var yields []column
		for i := range layouts {
			yields = append(yields, s.in.column(&layouts[i]))
		}
		for _, c := range s.everyLayout(heights[len(heights)-1]) {
			kept++
			if !slices.ContainsFunc(yields, func(l column) bool {
				return l.height <= c.height && s.makes(l.yield, c.yield)
			}) {
				t.Fatalf("no layout listed of %v makes up for %v", s.in.sizes, c)
			}
		}
	})
	if kept < 1000 || bars < 20 {
		t.Errorf("%d layouts, %d pairs barred: too few", kept, bars)
	}
}

// leftOf is what of some pieces others leave.
func leftOf(pieces, others []int) []int {
	left := slices.Clone(pieces)
	for i, n := range others {
		left[i] = max(0, left[i]-n)
	}
	return left
}

// agrees checks the answer of a decision.
func (s *search) agrees(t *rapid.T, n numbers, demand []int, want bool) func([]run, verdict, error) {
	return func(runs []run, v verdict, err error) {
		if err != nil || v == unknown || (v == yes) != want {
			t.Fatalf("whether %v hold %v of %v: %v, %v; want %v", n, demand, s.in.sizes, v, err, want)
		}
		if v == yes && !s.fits(n, demand, runs) {
			t.Fatalf("%v do not fit %v or not cover %v", runs, n, demand)
		}
	}
}

// Whatever the duals, and whatever the limits of the sums and the length: in a box
// that holds a plan, the gains come to no less than nothing, and when it is
// narrowed it still holds the plan.
func TestGainsNeverCloseAPlan(t *testing.T) {
	plans, closed, fewer, cuts := 0, 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 3)
		defer s.end()
		heights := s.pr.heights()
		n := drawNumbers(t, s, 3)
		d := &decision{s: s, n: n, demand: s.in.whole(), list: freely(s.everyLayout(heights[len(heights)-1]), n)}
		if rapid.Bool().Draw(t, "cut down") {
			d.list = s.withCutDowns(d.list)
		}
		d.held = rapid.SampledFrom([]int{0, 2}).Draw(t, "held")
		if len(d.list) > 20 {
			return // plans beyond number
		}
		if rapid.Bool().Draw(t, "length limited") {
			d.length = n.length(heights) + rapid.IntRange(-1, 2).Draw(t, "longer")
		}
		if err := d.open(); err != nil {
			t.Fatal(err)
		}
		defer d.lp.Close()
		for range rapid.IntRange(0, 2).Draw(t, "sums") {
			u := sum{rapid.SampledFrom(heights).Draw(t, "from"), rapid.IntRange(0, len(s.in.options)-1).Draw(t, "option")}
			if _, err := d.index(u); err != nil {
				t.Fatal(err)
			}
		}
		for range rapid.IntRange(0, 3).Draw(t, "cuts") {
			lines := d.lines(d.whole())
			times := make([]int64, len(lines))
			for i := range times {
				times[i] = rapid.Int64Range(-3, 3).Draw(t, "times")
			}
			var full []int
			for j := range d.list {
				if rapid.Bool().Draw(t, "full") {
					full = append(full, j)
				}
			}
			if r, ok := d.rounding(lines, times, rapid.Int64Range(2, 5).Draw(t, "divisor"), full); ok {
				if err := d.enterCuts([]cut{d.cutOf(r)}); err != nil {
					t.Fatal(err)
				}
			}
		}
		for range 10 {
			b, dual := d.drawBox(t), d.drawDuals(t)
			v, rest := d.prices(b, dual)
			gains := d.gains(b, v, rest, d.lacks(v))
			narrowed := b
			d.narrow(&narrowed, dual)
			d.everyPlan(b, func(runs []run, times []int) {
				plans++
				for j := range times {
					cuts += times[j] * b2i(d.list[j].cut != nil)
				}
				if gains.negative() {
					t.Fatalf("%v closes %v with the plan %v", v, b, runs)
				}
				for j, l := range narrowed.strips {
					fewer += b2i(l != b.strips[j])
					if x := times[j]; x < l.lo || x > l.hi {
						t.Fatalf("%v narrows %v to %v, and excludes the plan %v", v, b, narrowed, runs)
					}
				}
			})
			closed += b2i(gains.negative())
		}
	})
	if plans < 500 || closed < 50 || fewer < 100 || cuts < 100 {
		t.Errorf("%d plans, %d pieces cut down, %d boxes closed, and limits narrowed %d times: too few", plans, cuts, closed, fewer)
	}
}

// drawBox draws limits of the sums.
func (d *decision) drawBox(t *rapid.T) box {
	b := d.whole()
	for range d.sums {
		l := limits{rapid.IntRange(0, 1).Draw(t, "least"), noLimit}
		if rapid.Bool().Draw(t, "limited") {
			l.hi = l.lo + rapid.IntRange(0, 2).Draw(t, "more")
		}
		b.sums = append(b.sums, l)
	}
	return b
}

// drawDuals draws small whole duals, so that many boxes are closed by a hair or
// not at all.
func (d *decision) drawDuals(t *rapid.T) []float64 {
	dual := make([]float64, d.lp.Rows())
	for i := range dual {
		switch {
		case i < len(d.demand):
			dual[i] = float64(rapid.IntRange(0, 4).Draw(t, "worth"))
		case i < len(d.demand)+len(d.rows):
			dual[i] = float64(rapid.IntRange(-4, 1).Draw(t, "height"))
		default:
			dual[i] = float64(rapid.IntRange(-4, 4).Draw(t, "sum"))
		}
	}
	return dual
}

// everyPlan calls f with every plan over the list in a box: its strips, before pieces are
// cut down, and how often each choice is made.
func (d *decision) everyPlan(b box, f func(runs []run, times []int)) {
	times := make([]int, len(d.list))
	var grow func(j, strips int)
	grow = func(j, strips int) {
		if j == len(times) {
			if runs := d.keeps(b, times); runs != nil {
				f(runs, times)
			}
			return
		}
		takes := b2i(d.list[j].cut == nil)
		for times[j] = b.strips[j].lo; times[j] <= b.strips[j].hi && times[j]*takes <= strips; times[j]++ {
			grow(j+1, strips-times[j]*takes)
		}
		times[j] = 0
	}
	grow(0, d.n[0])
}

// keeps gives the strips of choices that are a plan in a box.
func (d *decision) keeps(b box, times []int) []run {
	runs, made := []run{}, make([]int, len(d.demand))
	for j, n := range times {
		for i, y := range d.yield(&d.list[j]) {
			made[i] += y * n
		}
		if n > 0 && d.list[j].cut == nil {
			runs = append(runs, run{d.s.in.column(&d.list[j]), n})
		}
	}
	for i, l := range b.sums {
		total := 0
		for j, n := range times {
			total += n * d.sums[i].of(&d.list[j])
		}
		if total < l.lo || total > l.hi {
			return nil
		}
	}
	if anyLeft(leftOf(d.demand, made)) || !d.s.fits(d.n, make([]int, len(d.demand)), runs) || !d.shortEnough(runs) {
		return nil
	}
	return runs
}
