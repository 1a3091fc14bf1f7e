package pack

import "math"

// branching is a row of limits whose sum is not whole in a relaxation.
type branching struct {
	row int // or -1
	sum float64
}

// children are a node with the sum rounded down, and with it rounded up.
func (b branching) children(nd *node) (down, up *node) {
	l := limits{0, noLimit}
	if b.row < len(nd.limits) {
		l = nd.limits[b.row]
	}
	floor := int(math.Floor(b.sum))
	return nd.limit(b.row, limits{l.lo, floor}), nd.limit(b.row, limits{floor + 1, l.hi})
}

// wholeEnough is how near to a whole number a sum of strips counts as whole:
// well above the 1e-7 to which the relaxation is solved.
const wholeEnough = 1e-5

// fraction is the distance to the nearest whole number.
func fraction(x float64) float64 { return math.Abs(x - math.Round(x)) }

// stripsRow chooses the number of strips from a height up to branch on: the
// one nearest to a half.
func (s *search) stripsRow(r relaxed) branching {
	var rows []row
	for _, h := range s.usedHeights(r) {
		rows = append(rows, row{h, allPieces})
	}
	return s.nearestHalf(r, rows)
}

// optionRow chooses, where the numbers of strips are whole, the number of
// pieces laid one way in strips from a height up.
func (s *search) optionRow(r relaxed) branching {
	var rows []row
	for _, h := range s.usedHeights(r) {
		for o, opt := range s.in.options {
			if opt.across <= h {
				rows = append(rows, row{h, o})
			}
		}
	}
	return s.nearestHalf(r, rows)
}

// nearestHalf chooses the row whose sum in a relaxation is farthest from whole.
func (s *search) nearestHalf(r relaxed, rows []row) branching {
	best, score, at := -1, wholeEnough, 0.0
	for k, rw := range rows {
		sum := 0.0
		for j, x := range r.x {
			if x > 0 {
				sum += x * float64(rw.coef(&s.m.pool[j]))
			}
		}
		if f := fraction(sum); f > score {
			best, score, at = k, f, sum
		}
	}
	if best < 0 {
		return branching{row: -1}
	}
	return branching{s.m.rowIndex(rows[best]), at}
}

// usedHeights are the heights of the strips in a relaxation, in the order of
// the pricer's heights.
func (s *search) usedHeights(r relaxed) []int {
	used := map[int]bool{}
	for j, x := range r.x {
		if x > 0 {
			used[s.m.pool[j].height] = true
		}
	}
	var tops []int
	for _, h := range s.pr.heights() {
		if used[h] {
			tops = append(tops, h)
		}
	}
	return tops
}
