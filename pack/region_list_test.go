package pack

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// A view of a region holds for every plan in it: no strip is worth more than it
// costs, and together they are worth no more than the gap less.
func TestViewOfARegionHoldsForItsPlans(t *testing.T) {
	plans, planes, all := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 5)
		defer s.end()
		heights := s.pr.heights()
		n := drawNumbers(t, s, 3)
		r := drawRegionAround(t, n)
		r.tighten()
		length := n.length(heights) + rapid.IntRange(0, 2).Draw(t, "longer")
		d := &decision{s: s, n: r.most, demand: s.in.whole(), length: length}
		if d.list = freely(s.everyLayout(heights[len(heights)-1]), r.most); len(d.list) > 14 {
			return // plans beyond number
		}
		if err := d.open(); err != nil {
			t.Fatal(err)
		}
		defer d.lp.Close()
		for range 8 { // so that there are planes, too
			a, err := s.joint.solve(r, length)
			if err != nil {
				t.Fatal(err)
			}
			q := s.newQuestion(target{length, noLimit})
			views, err := q.regionViews(r, a)
			if err != nil {
				t.Fatal(err)
			}
			planes += len(a.proof.planes)
			d.everyPlan(d.whole(), func(runs []run, _ []int) {
				if r.holds(s.numbersOf(runs)) {
					plans++
					for i := range views {
						views[i].check(t, s, runs)
					}
				}
			})
			all += b2i(len(views) == 3)
			if _, err := s.strips.offer(planeOf(a.prices, a.most, s.in.whole()), r.nearest(a.n)); err != nil {
				t.Fatal(err)
			}
		}
	})
	if plans < 500 || planes < 2 || all < 100 {
		t.Errorf("%d plans, %d planes, %d times all views: too few", plans, planes, all)
	}
}

// numbersOf are the strips of a plan from each height up.
func (s *search) numbersOf(runs []run) numbers {
	n := make(numbers, len(s.pr.heights()))
	for k, h := range s.pr.heights() {
		for _, r := range runs {
			if r.col.height >= h {
				n[k] += r.count
			}
		}
	}
	return n
}

// check checks that a plan lacks no more than the gap, and none of its strips
// less than nothing.
func (v *view) check(t *rapid.T, s *search, runs []run) {
	sum := int64(0)
	for _, r := range runs {
		if v.gap < 0 {
			break
		}
		lacks := int64(0)
		for k, h := range s.pr.heights() {
			if h == r.col.height {
				lacks = v.cost[k]
			}
		}
		for i, y := range r.col.yield {
			lacks -= v.worth[i] * int64(y)
		}
		if lacks < 0 {
			t.Errorf("%v is worth %d more than it costs", r.col, -lacks)
		}
		sum += lacks * int64(r.count)
	}
	if sum > v.gap { // so it is if that is negative
		t.Errorf("%v lacks %d, the gap is %d", runs, sum, v.gap)
	}
}

// Over lists, the whole of a question has the answer that trying everything has,
// and where it is split at random, so have its parts together.
func TestRegionsOverListsAgainstTryingEverything(t *testing.T) {
	answers, best := map[verdict]int{}, map[verdict]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 5)
		defer s.end()
		want := s.shortest()
		if want < 0 {
			return
		}
		s.m.effort = 1 << 40 // so that lists have all that they want
		s.stop = 1 << 50
		length := max(1, want+rapid.IntRange(-2, 1).Draw(t, "longer"))
		q := s.newQuestion(target{length, noLimit})
		whole, err := q.overWhole()
		if err != nil || whole == unknown || (whole == yes) != (length >= want) {
			t.Fatalf("whether %v fit length %d: %v, %v; the least is %d", s.in.sizes, length, whole, err, want)
		}
		answers[whole]++
		v, err := q.bestOfWhole()
		if err != nil || v != unknown && v != whole {
			t.Fatalf("over the best: %v, %v; the whole says %v", v, err, whole)
		}
		best[v]++
		parts := no
		for _, r := range q.drawParts(t) {
			if r.least.length(s.pr.heights()) > length {
				continue
			}
			a, err := s.joint.solve(r, length)
			if err != nil {
				t.Fatal(err)
			}
			v, err := q.overRegion(r, a)
			if err != nil || v == unknown {
				t.Fatalf("%v: %v, %v", r, v, err)
			}
			if v == yes {
				parts = yes
			}
		}
		if parts != whole {
			t.Fatalf("whether %v fit length %d: %v; its parts say %v", s.in.sizes, length, whole, parts)
		}
	})
	if answers[yes] < 20 || answers[no] < 20 || best[yes] < 10 {
		t.Errorf("too few of one kind: %v, over the best %v", answers, best)
	}
}

// bestOfWhole answers a question over lists of the best layouts, wider and wider.
func (q *question) bestOfWhole() (verdict, error) {
	q.s.h.bestPart = 1
	r := q.whole()
	if !r.tighten() {
		return no, nil
	}
	a, err := q.s.joint.solve(r, q.length)
	if err != nil {
		return unknown, err
	}
	views, err := q.regionViews(r, a)
	if err != nil || closed(views) {
		return unknown, err
	}
	q.over.gap = q.s.gapOf(views)
	return q.overBest(r, views)
}

// drawParts splits the whole of a question a few times.
func (q *question) drawParts(t *rapid.T) []region {
	list := []region{q.whole()}
	for range rapid.IntRange(1, 4).Draw(t, "splits") {
		i := rapid.IntRange(0, len(list)-1).Draw(t, "region")
		r := list[i]
		k := rapid.IntRange(0, len(r.most)-1).Draw(t, "height")
		if r.least[k] == r.most[k] {
			continue
		}
		down, up := r.split(k, float64(rapid.IntRange(r.least[k], r.most[k]-1).Draw(t, "at"))+0.5)
		list[i] = down
		list = append(list, up)
	}
	var parts []region
	for _, r := range list {
		if r.tighten() {
			parts = append(parts, r)
		}
	}
	return parts
}

func TestScaledRoundsTheRightWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		by := rapid.Int64Range(0, 1<<41).Draw(t, "by")
		a := rapid.Int64Range(0, planeScale).Draw(t, "a")
		shift := rapid.IntRange(-1, 127).Draw(t, "shift")
		up := rapid.Bool().Draw(t, "up")
		product := new(big.Int).Mul(big.NewInt(by), big.NewInt(a))
		if up {
			product.Add(product, new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), uint(max(0, shift))), big.NewInt(1)))
		}
		want := product.Rsh(product, uint(max(0, shift)))
		if got := scaled(by, a, shift, up); shift < 0 || want.Cmp(big.NewInt(costly)) >= 0 {
			if got < costly {
				t.Errorf("%d of %d/2^%d: %d, want too much", a, by, shift, got)
			}
		} else if got != want.Int64() {
			t.Errorf("%d of %d/2^%d: %d, want %v", a, by, shift, got, want)
		}
	})
}
