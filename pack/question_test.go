package pack

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// shortest is the length of the shortest plan, found by trying all numbers of
// strips no longer than the best known plan, or −1 where these are too many.
func (s *search) shortest() int {
	const most = 3000
	heights := s.pr.heights()
	every := s.everyLayout(heights[len(heights)-1])
	length, tried := s.length, 0
	var grow func(n numbers, k int)
	grow = func(n numbers, k int) {
		if tried++; tried > most || n.length(heights) >= length {
			return
		}
		if s.holds(n, s.in.whole(), freely(every, n)) {
			length = n.length(heights)
			return
		}
		for ; k >= 0; k-- {
			more := slices.Clone(n)
			for j := range k + 1 {
				more[j]++
			}
			grow(more, k)
		}
	}
	grow(make(numbers, len(heights)), len(heights)-1)
	if tried > most {
		return -1
	}
	return length
}

// Questions of every length about one search share its planes, its layouts and
// its leaves. In whatever order they are asked, and put aside in between, each
// has the answer that trying everything has.
func TestQuestionsShareLeaves(t *testing.T) {
	asked, shared := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 4)
		defer s.end()
		want := s.shortest()
		if want < 0 {
			return
		}
		var list []*question
		for length := max(1, want-3); length <= want+2; length++ {
			list = append(list, s.newQuestion(target{length, noLimit}))
		}
		list = rapid.Permutation(list).Draw(t, "order")
		share := rapid.Int64Range(50_000, 2_000_000).Draw(t, "share")
		for len(list) > 0 {
			q := list[0]
			list = list[1:]
			leaves := len(s.leaves)
			stop := s.stop
			s.stop = s.work() + share
			v, err := q.ask()
			s.stop = stop
			asked++
			shared += b2i(len(q.waiting) > 0 && len(s.leaves) == leaves)
			switch {
			case err != nil:
				t.Fatal(err)
			case v == unknown:
				share *= 2
				list = append(list, q)
			case (v == yes) != (q.length >= want):
				t.Fatalf("whether %v fit %d at length %d: %v; the least is %d", s.in.sizes, s.in.width, q.length, v, want)
			case v == yes && s.length > q.length:
				t.Fatalf("yes to length %d, but the plan is %d long", q.length, s.length)
			}
			if share > 1<<40 {
				t.Fatalf("no answer for %v at length %d, where the least is %d", s.in.sizes, q.length, want)
			}
		}
	})
	if asked < 300 {
		t.Errorf("only %d questions were asked", asked)
	}
	t.Logf("%d questions, %d met only known leaves", asked, shared)
}

// A question that is asked from the beginning has the answer that trying everything
// has, which the search takes up. It is asked once that is due, while the purchase is
// open and the question that goes on has more than leaves left.
func TestAskedAnew(t *testing.T) {
	asked := 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 4)
		defer s.end()
		want := s.shortest()
		if want < 0 {
			return
		}
		s.lower = max(1, s.lower-3) // as if less were known
		if rapid.Bool().Draw(t, "plain") {
			s.best = s.in.plain()
			s.length, s.count = total(s.best)
		}
		if s.lower == s.length {
			return
		}
		length := rapid.IntRange(s.lower, s.length-1).Draw(t, "length")
		s.bought = true
		due := rapid.Bool().Draw(t, "due")
		if s.share = anewFrom; !due {
			s.share = anewFrom - 1
		}
		if v, err := s.anew(length); v != unknown || err != nil {
			t.Fatalf("asked anew before it was asked: %v, %v", v, err)
		}
		q := s.questionOf(target{length, noLimit})
		q.open = []region{q.whole()}
		v, err := s.anew(length)
		switch {
		case err != nil:
			t.Fatal(err)
		case !due:
			if v != unknown {
				t.Fatal("asked anew too early")
			}
			return
		case v == unknown:
			t.Fatalf("no answer for %v at length %d, where the least is %d", s.in.sizes, length, want)
		case (v == yes) != (length >= want), v == yes && s.length > length, v == no && s.lower <= length:
			t.Fatalf("whether %v fit %d at length %d: %v, from %d to %d; the least is %d", s.in.sizes, s.in.width, length, v, s.lower, s.length, want)
		}
		asked++
		if s.lower == s.length {
			return
		}
		s.purchase = func(int) model.Length { return 1 }
		q = s.questionOf(target{s.lower, noLimit})
		q.open = []region{q.whole()}
		if v, err := s.anew(s.lower); v != unknown || err != nil {
			t.Fatalf("asked anew though the purchase is settled: %v, %v", v, err)
		}
	})
	if asked < 20 {
		t.Errorf("only %d questions were asked", asked)
	}
	t.Logf("%d asked anew", asked)
}

// Boxes whose sums no strips can meet must be closed too: without that these
// were given up on.
func TestSumsThatCannotBeMet(t *testing.T) {
	cases := []struct {
		width model.Length
		items []Item
		want  int
	}{
		{3, []Item{{3, 1, 2, false}, {1, 2, 4, false}}, 6},
		{6, []Item{{2, 2, 4, false}, {5, 1, 2, false}}, 6},
		{15, []Item{{5, 2, 4, true}, {15, 1, 2, true}}, 6},
		{8, []Item{{4, 3, 3, true}, {7, 2, 4, true}}, 13},
	}
	for _, c := range cases {
		s, err := beginSearch(c.width, c.items, Nested)
		if err != nil {
			t.Fatal(err)
		}
		s.stop = DefaultWork / 20
		err = s.narrow(s.shorter)
		s.end()
		if err != nil || s.lower != c.want || s.length != c.want {
			t.Errorf("%d, %v: from %d to %d, %v; want %d", c.width, c.items, s.lower, s.length, err, c.want)
		}
	}
}

// What packing returns fits the strips, covers the demand and is a plan; as
// many strips as the best plan has, it packs more often than not.
func TestPackingsHold(t *testing.T) {
	packed, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		n := make(numbers, len(s.pr.heights()))
		for k, h := range s.pr.heights() {
			for _, r := range s.best {
				if r.col.height >= h {
					n[k] += r.count
				}
			}
		}
		if rapid.Bool().Draw(t, "other numbers") {
			n = drawNumbers(t, s, 8)
		}
		q := s.newQuestion(target{n.length(s.pr.heights()), noLimit})
		runs, err := q.pack(n, rapid.IntRange(0, 4).Draw(t, "try"), 1<<62)
		if err != nil {
			t.Fatal(err)
		}
		tried++
		if runs == nil {
			return
		}
		packed++
		if !s.fits(n, s.in.whole(), runs) {
			t.Fatalf("%v do not fit %v, or do not cover %v", runs, n, s.in.sizes)
		}
		if err := Verify(s.in.problem, s.in.plan(s.h.style, runs)); err != nil {
			t.Fatal(err)
		}
	})
	if packed*3 < tried {
		t.Errorf("only %d of %d were packed", packed, tried)
	}
}
