package pack

import (
	"cmp"
	"math"
	"slices"
)

// The settings of the beam, found by trial.
const (
	beamWidth    = 3     // partial plans that are gone on with
	beamFillings = 3     // times that a strip is filled for each
	beamShake    = 0.05  // by so much prices are shaken, at most
	beamExponent = 1.025 // larger pieces are worth more than their value, up to so
	largeBonus   = 0.005 // of waste that partial plans with large pieces may have more
	largeExtra   = 0.2   // power of its area by which a piece counts as large
	stepsToGrow  = 800   // about what a partial plan takes besides the filling
)

// beam builds plans strip after strip, as the filler does, from several partial
// plans at once: each is gone on with in several ways, and of the results the few
// that have wasted least live on (Ow and Morton, Filtered beam search in
// scheduling, International Journal of Production Research 26, 1988). What a
// piece is worth, as a length of strips, is its price in the first relaxation:
// where that is near what the pieces cover, nearly every strip must be filled to
// the brim, and dives that round fractional strips leave scraps.
type beam struct {
	s     *search
	value []float64 // of a piece of each size, as a length
	large []float64 // the same, with larger pieces counting for more
}

// partial is a plan of some of the demand.
type partial struct {
	before *partial
	last   run
	left   []int
	length int
	// The value of what its strips hold, with larger pieces counting for more in
	// the latter, and the length that they lose to no piece.
	held, large, lost float64
}

// rank is what the partial plan has wasted of its length, less a bonus for large
// pieces: those left to the end find no place.
func (p *partial) rank() float64 { return (p.lost - largeBonus*p.large) / p.held }

func (s *search) newBeam(worth []int64) *beam {
	b := &beam{s: s, value: make([]float64, len(worth)), large: make([]float64, len(worth))}
	all, large := 0.0, 0.0
	for i, w := range worth {
		b.value[i] = float64(w) / priceScale
		b.large[i] = b.value[i] * math.Pow(s.in.area(i), largeExtra)
		n := float64(s.in.sizes[i].count)
		all, large = all+n*b.value[i], large+n*b.large[i]
	}
	for i := range b.large {
		b.large[i] *= all / max(large, math.SmallestNonzeroFloat64)
	}
	return b
}

// build plans what is left to cut in less than stop, or returns nil. No plan is
// shorter than its pieces are worth, so partial plans that have lost more than
// stop leaves beside that are given up.
func (b *beam) build(demand []int, stop int) []run {
	spare := float64(stop-1) + wholeEnough
	for i, n := range demand {
		spare -= float64(n) * b.value[i]
	}
	fill := b.s.fill
	price := b.prices(1 + (beamExponent-1)*fill.shake.Float64())
	shake := beamShake * fill.shake.Float64()
	alive := []*partial{{left: demand}}
	for spare >= 0 && len(alive) > 0 && !b.s.over() {
		var next []*partial
		known := map[string]bool{}
		for _, p := range alive {
			first := fill.hardest(p.left)
			for range beamFillings {
				for _, c := range b.s.pr.fillings(fill.shaken(price, shake), p.left, first) {
					q := b.grow(p, c)
					switch key := q.key(); {
					case q.length >= stop || q.lost > spare || known[key]:
					case !anyLeft(q.left):
						return q.runs()
					default:
						known[key] = true
						next = append(next, q)
					}
				}
			}
		}
		slices.SortStableFunc(next, func(p, q *partial) int { return cmp.Compare(p.rank(), q.rank()) })
		alive = next[:min(beamWidth, len(next))]
	}
	return nil
}

// prices are the values as prices of areas, those of larger pieces raised by an
// exponent.
func (b *beam) prices(exponent float64) []float64 {
	list := make([]float64, len(b.value))
	for i, v := range b.value {
		list[i] = v * float64(b.s.in.width) * math.Pow(b.s.in.area(i), exponent-1)
	}
	return list
}

// grow adds strips of a layout, as many as it makes no piece too many.
func (b *beam) grow(p *partial, c column) *partial {
	b.s.m.effort += stepsToGrow
	n := max(1, timesWhole(&c, p.left))
	q := &partial{before: p, last: run{c, n}, left: slices.Clone(p.left), length: p.length + n*c.height}
	q.held, q.large, q.lost = p.held, p.large, p.lost+float64(n*c.height)
	take(q.left, &c, n)
	for i, was := range p.left {
		if cut := float64(was - q.left[i]); cut > 0 {
			q.held += cut * b.value[i]
			q.large += cut * b.large[i]
			q.lost -= cut * b.value[i]
		}
	}
	return q
}

// key tells partial plans apart by what they leave to cut.
func (p *partial) key() string { return string(appendCounts(nil, p.left)) }

func (p *partial) runs() []run {
	var runs []run
	for ; p.before != nil; p = p.before {
		runs = append(runs, p.last)
	}
	return runs
}
