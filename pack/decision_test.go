package pack

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Three pieces of either of two sizes, two to a strip: one and a half strips of
// each hold them, but whole strips are two of each, and there are three in all.
func TestCutsCloseByHand(t *testing.T) {
	s, err := beginSearch(10, []Item{{5, 2, 3, false}, {5, 3, 3, false}}, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	var list []choice
	for o := range s.in.options {
		list = append(list, choiceOf(s.in.row(o, 2), 3))
	}
	d := &decision{s: s, n: numbers{3, 2}, demand: s.in.whole(), list: list}
	if err := d.open(); err != nil {
		t.Fatal(err)
	}
	defer d.lp.Close()
	if _, err := d.cutRoot(d.whole()); err != nil {
		t.Fatal(err)
	}
	if len(d.cuts) == 0 {
		t.Fatal("no cuts")
	}
	b := d.whole()
	if _, v, err := d.relax(&b); v != no || err != nil {
		t.Errorf("%v, %v; want no, without a branch", v, err)
	}
	d.n = numbers{4, 2}
	if _, v, err := s.decide(d.n, d.demand, nil, list); v != yes || err != nil {
		t.Errorf("of four strips: %v, %v", v, err)
	}
}

// Of 92 pieces, 11 or 2 to a strip, eight strips of 11 leave 4: all strips of 11
// beyond them and half of the others are one or more.
func TestCutByHand(t *testing.T) {
	s, err := beginSearch(22, []Item{{2, 1, 92, false}, {9, 2, 40, false}}, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	small, large := s.in.lowest[1], s.in.lowest[0]
	mixed := s.in.newColumn([]stretch{{count: 2, parts: []part{{large, 1}}}, {count: 2, parts: []part{{small, 1}}}})
	d := &decision{s: s, n: numbers{60, 40}, demand: s.in.whole(), list: []choice{choiceOf(s.in.row(small, 11), 60), choiceOf(mixed, 40)}}
	if err := d.open(); err != nil {
		t.Fatal(err)
	}
	defer d.lp.Close()
	r, ok := d.rounding([]line{d.sizeLine(1)}, []int64{1}, 11, nil)
	if !ok {
		t.Fatal("nothing is rounded")
	}
	if c, want := d.cutOf(r), []int32{2, 1}; !slices.Equal(c.at, want) || c.least != 18 {
		t.Errorf("%v ≥ %d, want %v ≥ 18", c.at, c.least, want)
	}
}

func TestInvert(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		m, kept := make([][]float64, n), make([][]float64, n)
		for i := range m {
			for range n {
				m[i] = append(m[i], float64(rapid.IntRange(-3, 3).Draw(t, "value")))
			}
			kept[i] = slices.Clone(m[i])
		}
		inverse := invert(m)
		if inverse == nil {
			return
		}
		for i := range n {
			for j := range n {
				sum := 0.0
				for k := range n {
					sum += kept[i][k] * inverse[k][j]
				}
				if want := float64(b2i(i == j)); math.Abs(sum-want) > 1e-6 {
					t.Fatalf("%v times %v is %v at %d, %d", kept, inverse, sum, i, j)
				}
			}
		}
	})
}

// Roundings of sums beyond what whole numbers hold are not made: with as many
// strips as there may be, and multipliers as large as may be, a plan keeps all
// that are.
func TestRoundingsOfHugeSums(t *testing.T) {
	s, err := beginSearch(10, []Item{{6, 2, 500_000, false}, {7, 3, 500_000, false}}, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	d := &decision{s: s, n: numbers{1_000_000, 500_000}, demand: s.in.whole()}
	plan := []int64{500_000, 500_000}
	for o, most := range d.n {
		d.list = append(d.list, choiceOf(s.in.row(o, 1), most))
	}
	if err := d.open(); err != nil {
		t.Fatal(err)
	}
	defer d.lp.Close()
	shake := rand.New(rand.NewPCG(27, 720))
	made := map[int64]int{}
	for range 2000 {
		d.cuts = nil
		for range 100 { // as cuts are that were scaled down
			c := cut{at: []int32{shake.Int32N(2*cutScale) - cutScale, shake.Int32N(2*cutScale) - cutScale}, top: cutScale, scale: 1}
			c.least = int64(c.at[0])*plan[0] + int64(c.at[1])*plan[1] - shake.Int64N(9)
			d.cuts = append(d.cuts, c)
		}
		lines := d.lines(d.whole())
		size := []int64{3, mostTimes * rootDivisor}[shake.IntN(2)]
		times := make([]int64, len(lines))
		for i := range times {
			times[i] = shake.Int64N(2*size) - size
		}
		var full []int
		for j := range d.list {
			if shake.IntN(2) == 0 {
				full = append(full, j)
			}
		}
		r, ok := d.rounding(lines, times, rootDivisor, full)
		if !ok {
			continue
		}
		made[size]++
		if c := d.cutOf(r); int64(c.at[0])*plan[0]+int64(c.at[1])*plan[1] < c.least {
			t.Fatalf("%v ≥ %d cuts off %v", c.at, c.least, plan)
		}
	}
	if made[3] == 0 {
		t.Error("none of small multipliers was made")
	}
}

// Of no layouts there is no plan, whether strips or a length are given.
func TestDecisionOverNothing(t *testing.T) {
	s, err := beginSearch(10, []Item{{5, 2, 3, false}}, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	for _, length := range []int{0, 8} {
		d := &decision{s: s, n: numbers{4}, demand: s.in.whole(), length: length}
		if _, v, err := d.decide(); v != no || err != nil {
			t.Errorf("length %d: %v, %v", length, v, err)
		}
	}
}

// The vertex that a kept program has come to, with theta and what may be missed left out,
// is one of the lines: those that are tight have nothing left over, and are as many as the
// layouts that are basic, which they tell apart.
func TestKeptVertex(t *testing.T) {
	kept, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 5)
		defer s.end()
		heights := s.pr.heights()
		n := drawNumbers(t, s, 3)
		list := s.withCutDowns(freely(s.everyLayout(heights[len(heights)-1]), n))
		d := &decision{s: s, n: n, demand: s.in.whole(), list: list, length: n.length(heights)}
		d.held = rapid.SampledFrom([]int{0, 2}).Draw(t, "held")
		if err := d.open(); err != nil {
			t.Fatal(err)
		}
		defer d.lp.Close()
		for b := d.whole(); ; {
			if _, v, err := d.relax(&b); v == no || err != nil {
				return
			}
			lines := d.lines(b)
			rows := d.each(lines)
			v, ok := d.keptVertex(lines, rows)
			if !ok {
				refused++
				return
			}
			kept++
			for i, l := range lines {
				over := -float64(l.side)
				for j, x := range v.x {
					over += float64(rows[i].of(d, j)) * x
				}
				if l.most {
					over = -over
				}
				if over < -1e-5 || slices.Contains(v.tight, i) && over > 1e-5 {
					t.Fatalf("line %d of %v has %g left over; %v are tight", i, lines, over, v.tight)
				}
			}
			if invert(d.matrix(v, rows)) == nil {
				t.Fatalf("the tight lines %v do not tell the basic layouts %v apart", v.tight, v.basic)
			}
			if fresh, err := d.cutRoot(b); !fresh || err != nil {
				return
			}
		}
	})
	if kept < 50 || refused*10 > kept {
		t.Errorf("%d vertices, %d refused", kept, refused)
	}
}
