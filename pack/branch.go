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

// chooseRow chooses the row to branch on: the number of strips from a height
// up that is nearest to a half; if all are whole, the number of pieces laid
// one way in strips from a height up that is.
func (s *search) chooseRow(r relaxed) branching {
	best, found := row{}, branching{row: -1}
	score := wholeEnough
	try := func(rw row) {
		sum := 0.0
		for j, x := range r.x {
			if x > 0 {
				sum += x * float64(rw.coef(&s.m.pool[j]))
			}
		}
		if f := fraction(sum); f > score {
			best, score = rw, f
			found = branching{0, sum}
		}
	}
	tops := s.usedHeights(r)
	for _, h := range tops {
		try(row{h, allPieces})
	}
	if found.row < 0 {
		for _, h := range tops {
			for o, opt := range s.in.options {
				if opt.across <= h {
					try(row{h, o})
				}
			}
		}
	}
	if found.row >= 0 {
		found.row = s.m.rowIndex(best)
	}
	return found
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
