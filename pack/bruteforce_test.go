package pack_test

import (
	"flag"
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

// tile is one piece of an instance for the oracle, in whole numbers.
type tile struct {
	along, across int
	turnable      bool
}

// never is the cost of what cannot be cut. Twice never does not overflow.
const never = math.MaxInt / 2

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

// leastShared is the length of the shortest shared plan, found by trying every
// partition of the pieces into strips and every way for each piece to lie.
func leastShared(width int, tiles []tile) int {
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
	return leastPartition(cost)[len(cost)-1]
}

// leastNested is the length of the shortest nested plan. Every set of pieces
// is tried as one stack, in every way for its pieces to lie; for each height
// that a stack can have, every partition of a set into stacks no higher than
// it is tried as a strip; and every partition of the pieces into strips.
func leastNested(width int, tiles []tile) int {
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
	return leastPartition(cost)[sets-1]
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
		shared, nested int
	}{
		{"one piece", []tile{{4, 3, false}}, 3, 3},
		{"side by side", []tile{{4, 3, false}, {6, 2, false}}, 3, 3},
		{"one too many", []tile{{4, 3, false}, {6, 2, false}, {1, 1, false}}, 4, 3},
		{"a stack beside a tall piece", []tile{{5, 4, false}, {5, 2, false}, {4, 2, false}}, 6, 4},
		{"turned to fit", []tile{{8, 2, true}, {8, 2, true}}, 4, 4},
		{"turned beside", []tile{{8, 2, false}, {4, 2, true}}, 4, 4},
		{"turned into a strip", []tile{{6, 5, false}, {5, 2, true}, {5, 2, true}}, 5, 5},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := leastShared(10, c.tiles); got != c.shared {
				t.Errorf("shared: %d, want %d", got, c.shared)
			}
			if got := leastNested(10, c.tiles); got != c.nested {
				t.Errorf("nested: %d, want %d", got, c.nested)
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

func (c tiny) problem(t *rapid.T) *pack.Problem {
	p, err := pack.NewProblem(model.Length(c.width)*tinyUnit, c.items)
	if err != nil {
		t.Fatalf("problem: %v", err)
	}
	return p
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
		if c.holds(piece) {
			continue
		}
		c.items = append(c.items, pack.Item{
			Along:    model.Length(piece.along) * tinyUnit,
			Across:   model.Length(piece.across) * tinyUnit,
			Count:    count,
			Turnable: piece.turnable,
		})
		for range count {
			tile := piece
			tile.turnable = piece.turnable && piece.across <= c.width
			c.tiles = append(c.tiles, tile)
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
				c := drawTiny(t, d.long, d.high, d.turnable)
				agreesWithOracle(t, c, pack.Plain, leastPlain(c.width, c.items))
				agreesWithOracle(t, c, pack.Shared, leastShared(c.width, c.tiles))
				agreesWithOracle(t, c, pack.Nested, leastNested(c.width, c.tiles))
			})
		})
	}
}

func agreesWithOracle(t *rapid.T, c tiny, style pack.Style, want int) {
	p := c.problem(t)
	r, err := pack.Solve(t.Context(), p, pack.Options{Style: style})
	if err != nil {
		t.Fatalf("%v plan: %v", style, err)
	}
	if err := pack.Verify(p, r.Plan); err != nil {
		t.Errorf("%v plan: %v", style, err)
	}
	least := model.Length(want) * tinyUnit
	if r.Plan.Length() != least || r.Bound != least {
		t.Errorf("width %d, %v: the %v plan is %v long with the bound %v, want %d",
			c.width, c.tiles, style, inUnits(r.Plan.Length()), inUnits(r.Bound), want)
	}
}

// inUnits is a length in the units of the tiles, for messages.
func inUnits(l model.Length) float64 { return float64(l) / float64(tinyUnit) }
