package pack_test

import (
	"flag"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/pack"
)

// Every run draws the same instances; -rapid.seed=0 draws new ones.
func init() {
	if err := flag.Set("rapid.seed", "1"); err != nil {
		panic(err)
	}
}

// tinyUnit keeps six pieces of the largest size, stacked, below the tallest
// strip of a nested plan, which the oracle does not know.
const tinyUnit = model.Inch / 8

// tinyWork is far more than six pieces should take, and ends soon where they
// take more.
const tinyWork = pack.DefaultWork / 4

// tile is one piece of an instance for the oracle, in whole numbers.
type tile struct {
	along, across int
	turnable      bool
}

// never is the cost of what cannot be cut. Twice never does not overflow.
const never = math.MaxInt / 2

// least is the length of the shortest plan of a style, and the fewest strips of
// a plan as short.
type least struct{ length, strips int }

// leastStrips finds the least partition into strips, given the height that
// each set of pieces needs as one strip: first by length, then by strips, of
// which there are fewer than a strip counts here for each unit of height.
func leastStrips(height []int) least {
	const unit = 64
	cost := make([]int, len(height))
	for set, h := range height {
		cost[set] = never
		if h < never {
			cost[set] = h*unit + 1
		}
	}
	all := leastPartition(cost)[len(cost)-1]
	return least{all / unit, all % unit}
}

// leastPartition gives, for every set of n pieces, the least total cost of a
// partition of it into subsets, where cost is that of each subset. Sets are
// bit masks. It tries every subset that holds the set's first piece: 3^n steps.
func leastPartition(cost []int) []int {
	least := make([]int, len(cost))
	for set := 1; set < len(cost); set++ {
		least[set] = never
		first := set & -set
		for sub := set; sub > 0; sub = (sub - 1) & set {
			if sub&first != 0 {
				least[set] = min(least[set], cost[sub]+least[set&^sub])
			}
		}
	}
	return least
}

// lie calls f with the pieces of a set for every way of turning those that may
// be turned.
func lie(tiles []tile, set int, f func([]tile)) {
	var chosen []tile
	var turn func(i int)
	turn = func(i int) {
		if i == len(tiles) {
			f(chosen)
			return
		}
		if set&(1<<i) == 0 {
			turn(i + 1)
			return
		}
		t := tiles[i]
		chosen = append(chosen, t)
		turn(i + 1)
		if t.turnable {
			chosen[len(chosen)-1] = tile{along: t.across, across: t.along}
			turn(i + 1)
		}
		chosen = chosen[:len(chosen)-1]
	}
	turn(0)
}

// leastShared is the least of shared plans, found by trying every
// partition of the pieces into strips and every way for each piece to lie.
func leastShared(width int, tiles []tile) least {
	cost := make([]int, 1<<len(tiles))
	for set := 1; set < len(cost); set++ {
		cost[set] = never
		lie(tiles, set, func(strip []tile) {
			along, height := 0, 0
			for _, t := range strip {
				along += t.along
				height = max(height, t.across)
			}
			if along <= width {
				cost[set] = min(cost[set], height)
			}
		})
	}
	return leastStrips(cost)
}

// leastNested is the least of nested plans. Every set of pieces
// is tried as one stack, in every way for its pieces to lie; for each height
// that a stack can have, every partition of a set into stacks no higher than
// it is tried as a strip; and every partition of the pieces into strips.
func leastNested(width int, tiles []tile) least {
	type box struct{ along, height int }
	sets := 1 << len(tiles)
	stacks := make([][]box, sets)
	heights := map[int]bool{}
	for set := 1; set < sets; set++ {
		lie(tiles, set, func(stack []tile) {
			var b box
			for _, t := range stack {
				b.along = max(b.along, t.along)
				b.height += t.across
			}
			stacks[set] = append(stacks[set], b)
			heights[b.height] = true
		})
	}
	cost := make([]int, sets)
	for set := range cost {
		cost[set] = never
	}
	for height := range heights {
		along := make([]int, sets)
		for set := range along {
			along[set] = never
			for _, b := range stacks[set] {
				if b.height <= height {
					along[set] = min(along[set], b.along)
				}
			}
		}
		for set, used := range leastPartition(along) {
			if used <= width {
				cost[set] = min(cost[set], height)
			}
		}
	}
	return leastStrips(cost)
}

// leastPlain is the length of the shortest plain plan: each size on strips of
// its own, with all its pieces lying the same way.
func leastPlain(width int, items []pack.Item) int {
	total := 0
	for _, it := range items {
		along, across := int(it.Along/tinyUnit), int(it.Across/tinyUnit)
		least := rows(it.Count, width, along) * across
		if it.Turnable && across <= width {
			least = min(least, rows(it.Count, width, across)*along)
		}
		total += least
	}
	return total
}

// rows is how many strips n pieces take.
func rows(n, width, along int) int {
	perStrip := width / along
	return (n + perStrip - 1) / perStrip
}

func TestOracleByHand(t *testing.T) {
	// Worked on paper. Width 10.
	cases := []struct {
		name           string
		tiles          []tile
		shared, nested least
	}{
		{"one piece", []tile{{4, 3, false}}, least{3, 1}, least{3, 1}},
		{"side by side", []tile{{4, 3, false}, {6, 2, false}}, least{3, 1}, least{3, 1}},
		{"one too many", []tile{{4, 3, false}, {6, 2, false}, {1, 1, false}}, least{4, 2}, least{3, 1}},
		{"a stack beside a tall piece", []tile{{5, 4, false}, {5, 2, false}, {4, 2, false}}, least{6, 2}, least{4, 1}},
		{"turned to fit", []tile{{8, 2, true}, {8, 2, true}}, least{4, 2}, least{4, 1}},
		{"turned beside", []tile{{8, 2, false}, {4, 2, true}}, least{4, 1}, least{4, 1}},
		{"turned into a strip", []tile{{6, 5, false}, {5, 2, true}, {5, 2, true}}, least{5, 1}, least{5, 1}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := leastShared(10, c.tiles); got != c.shared {
				t.Errorf("shared: %v, want %v", got, c.shared)
			}
			if got := leastNested(10, c.tiles); got != c.nested {
				t.Errorf("nested: %v, want %v", got, c.nested)
			}
		})
	}
}

// tiny is an instance of at most six pieces.
type tiny struct {
	width int
	items []pack.Item
	tiles []tile
}

// add puts count pieces of a size into the instance.
func (c *tiny) add(size tile, count int) {
	c.items = append(c.items, pack.Item{
		Along:    model.Length(size.along) * tinyUnit,
		Across:   model.Length(size.across) * tinyUnit,
		Count:    count,
		Turnable: size.turnable,
	})
	size.turnable = size.turnable && size.across <= c.width
	for range count {
		c.tiles = append(c.tiles, size)
	}
}

// holds reports whether the instance has a size, either way round.
func (c tiny) holds(piece tile) bool {
	for _, t := range c.tiles {
		if t.along == piece.along && t.across == piece.across || t.along == piece.across && t.across == piece.along {
			return true
		}
	}
	return false
}

// drawTiny draws an instance with sizes up to long by high, no size twice: a
// plain plan is by size.
func drawTiny(t *rapid.T, long, high int, turnable *rapid.Generator[bool]) tiny {
	c := tiny{width: rapid.IntRange(3, 12).Draw(t, "width")}
	for left := rapid.IntRange(1, 6).Draw(t, "pieces"); left > 0; {
		piece := tile{
			along:    rapid.IntRange(1, min(long, c.width)).Draw(t, "along"),
			across:   rapid.IntRange(1, high).Draw(t, "across"),
			turnable: turnable.Draw(t, "turnable"),
		}
		count := rapid.IntRange(1, left).Draw(t, "count")
		left -= count
		if !c.holds(piece) {
			c.add(piece, count)
		}
	}
	return c
}

// Every plan of an instance of up to six pieces is proven, and is as short as
// the shortest that trying everything finds.
func TestBruteForce(t *testing.T) {
	draws := []struct {
		name       string
		long, high int
		turnable   *rapid.Generator[bool]
	}{
		{"none turned", 12, 12, rapid.Just(false)},
		{"all turnable", 12, 12, rapid.Just(true)},
		{"some turnable", 9, 9, rapid.Bool()},
		{"many to a strip", 5, 4, rapid.Bool()},
	}
	for _, d := range draws {
		t.Run(d.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				drawTiny(t, d.long, d.high, d.turnable).agrees(t)
			})
		})
	}
}

// Instances that a search has once found hard: long strips that leave room for
// nothing, and a piece that fits a stack only at one height.
func TestBruteForceHard(t *testing.T) {
	cases := []struct {
		width int
		sizes [][3]int // along, across, count
	}{
		{9, [][3]int{{2, 5, 1}, {1, 4, 1}, {7, 6, 1}}},
		{7, [][3]int{{7, 8, 2}, {1, 8, 1}}},
		{6, [][3]int{{6, 7, 1}, {1, 5, 1}}},
		{9, [][3]int{{7, 6, 1}, {1, 7, 3}}},
		{6, [][3]int{{6, 11, 1}, {1, 11, 1}, {6, 4, 2}}},
		{6, [][3]int{{1, 3, 3}, {5, 7, 1}}},
	}
	for _, c := range cases {
		t.Run(fmt.Sprint(c.width, c.sizes), func(t *testing.T) {
			instance := tiny{width: c.width}
			for _, s := range c.sizes {
				instance.add(tile{along: s[0], across: s[1]}, s[2])
			}
			instance.agrees(t)
		})
	}
}

// agrees checks that the plans of an instance are as short as they can be, and
// proven to be, and have the fewest strips where they say so. A nested plan no
// shorter than the shared one does not.
func (c tiny) agrees(t tester) {
	p := newProblem(t, model.Length(c.width)*tinyUnit, c.items)
	shared, nested := leastShared(c.width, c.tiles), leastNested(c.width, c.tiles)
	for _, s := range []struct {
		style  pack.Style
		least  least
		fewest bool // must be proven
	}{
		{pack.Plain, least{length: leastPlain(c.width, c.items)}, false},
		{pack.Shared, shared, true},
		{pack.Nested, nested, nested.length < shared.length},
	} {
		r := solve(t, p, pack.Options{Style: s.style, Work: tinyWork, LengthWork: tinyWork})
		if l := model.Length(s.least.length) * tinyUnit; r.Plan.Length() != l || r.Bound != l {
			t.Errorf("width %d, %v: the %v plan is %v long with the bound %v, want %d",
				c.width, c.tiles, s.style, inUnits(r.Plan.Length()), inUnits(r.Bound), s.least.length)
		}
		if s.fewest && !r.FewestStrips || r.FewestStrips && r.Plan.StripCount() != s.least.strips {
			t.Errorf("width %d, %v: the %v plan has %d strips, the fewest: %v; the least is %d",
				c.width, c.tiles, s.style, r.Plan.StripCount(), r.FewestStrips, s.least.strips)
		}
	}
}

// inUnits is a length in the units of the tiles, for messages.
func inUnits(l model.Length) float64 { return float64(l) / float64(tinyUnit) }
