package pack

import (
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// drawWaste draws a problem whose relaxation is seldom as long as its plans: a few
// pieces of each size, of which few fit beside each other.
func drawWaste(t *rapid.T) (width model.Length, items []Item) {
	width = model.Length(rapid.IntRange(20, 60).Draw(t, "width"))
	for range rapid.IntRange(3, 6).Draw(t, "sizes") {
		items = append(items, Item{
			Along:  model.Length(rapid.IntRange(4, int(width)*2/3).Draw(t, "along")),
			Across: model.Length(rapid.IntRange(3, 20).Draw(t, "across")),
			Count:  rapid.IntRange(1, 9).Draw(t, "count"),
		})
	}
	return width, items
}

// Raising the bound, and answering the questions that it hands over, comes to the same
// least length as asking one length after another, in however small shares it goes on,
// and is never above it.
func TestRaisingComesToTheLeast(t *testing.T) {
	raised, handed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		width, items := drawWaste(t)
		rose, times := checkRaising(t, width, items, rapid.Int64Range(50_000, 2_000_000).Draw(t, "share"))
		raised += b2i(rose)
		handed += times
	})
	if raised < 50 {
		t.Errorf("raised only %d bounds", raised)
	}
	t.Logf("raised %d, handed over %d times", raised, handed)
}

// A leaf that holds no plan leaves numbers around it that do: here one of 19.
func TestRaisingGoesOnAroundLeaves(t *testing.T) {
	items := []Item{{12, 3, 1, false}, {4, 5, 8, false}, {11, 4, 3, false}}
	if _, handed := checkRaising(t, 22, items, 50_000); handed > 0 {
		t.Errorf("leaves were handed over %d times; they are decided at once", handed)
	}
}

// checkRaising raises the bound of a problem in growing shares. It tells whether that
// rose, and how often leaves were handed over.
func checkRaising(t rapid.TB, width model.Length, items []Item, share int64) (rose bool, handed int) {
	asked, err := beginSearch(width, items, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer asked.end()
	asked.share = firstShare
	if err := asked.narrow(asked.shorter); err != nil {
		t.Fatal(err)
	}
	want := asked.length
	s, err := beginSearch(width, items, Shared)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	before := s.lower
	for ; s.lower < s.length; share *= 2 {
		if err := s.within(share, s.raiseBound); err != nil {
			t.Fatal(err)
		}
		s.raising.check(t)
		if s.lower > want {
			t.Fatalf("%v in %d: a bound of %d, where a plan is %d long", items, width, s.lower, want)
		}
		if len(s.raising.waiting) > 0 {
			handed++
			if _, err := s.answer(target{s.lower, noLimit}, share); err != nil {
				t.Fatal(err)
			}
		}
		if share > 1<<36 {
			t.Fatalf("%v in %d: stays at %d to %d; the least is %d", items, width, s.lower, s.length, want)
		}
	}
	if s.length != want {
		t.Fatalf("%v in %d: %d long, the least is %d", items, width, s.length, want)
	}
	return before < want, handed
}

// check checks that the open regions are counted, and kept by their bound.
func (g *raising) check(t rapid.TB) {
	size := 0
	for bound, list := range g.open {
		size += len(list)
		for _, r := range list {
			if r.bound != bound {
				t.Fatalf("a region of bound %d is among those of %d", r.bound, bound)
			}
		}
	}
	if size != g.size {
		t.Fatalf("%d regions are open, and counted as %d", size, g.size)
	}
}

// In one region after another, the cheapest numbers cost no more than any that hold the
// demand are long, which their view does not exclude; numbers that leave some of the
// demand out cost more than these.
func TestCheapestNumbers(t *testing.T) {
	held, dear := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 12)
		defer s.end()
		heights := s.pr.heights()
		for range 4 {
			n := drawNumbers(t, s, 6)
			r := drawRegionAround(t, n)
			if r.tighten(); r.least.length(heights) >= s.length {
				continue
			}
			a, err := s.joint.cheapest(r)
			if err != nil {
				t.Fatal(err)
			}
			room, err := s.fit.theta(n)
			if err != nil {
				t.Fatal(err)
			}
			price, length := s.joint.price(a), n.length(heights)
			dear += b2i(a.room < 1-1e-6)
			if room < 1+1e-9 {
				continue
			}
			held++
			if price > float64(length)+1e-6 {
				t.Errorf("the cheapest in %v cost %v; %v holds all and is %d long", r, price, n, length)
			}
			if v, ok := a.view(s.in, heights, r, length); ok && v.closes() {
				t.Errorf("the prices of %v exclude %v, which holds all, in %d", r, n, length)
			}
		}
	})
	if held < 10 || dear < 50 {
		t.Errorf("only %d numbers hold the demand, and in %d regions it is dear", held, dear)
	}
}
