package pack

import (
	"math"
	"math/bits"
)

// jointProof is how the rows of a joint program that matter add up to what its
// strips cost, in floating point: the duals, scaled as the prices are.
type jointProof struct {
	length  float64 // of the row of the length
	heights []heightDual
	planes  []planeDual
}

type heightDual struct {
	from int // strips from this height up
	dual float64
}

type planeDual struct {
	plane *plane
	dual  float64
}

// proof gathers the duals of the rows.
func (j *joint) proof(dual []float64, scale float64) jointProof {
	p := jointProof{length: -dual[j.lengthRow()] * scale}
	for r, row := range j.rows {
		switch w := dual[j.row(r)] * scale; {
		case w == 0:
		case row.plane != nil:
			p.planes = append(p.planes, planeDual{row.plane, w * j.scale})
		default:
			p.heights = append(p.heights, heightDual{row.from, w})
		}
	}
	return p
}

// costly bounds the parts of a cost, so that their sums stay whole.
const costly = 1 << 50

// view is the view of a region at the prices of its joint program: the rows, each
// as often as its dual suggests, say in whole numbers what all strips of a plan in
// the region cost at most, and that is gap more than the demand is worth. None of
// the strips is worth gap less than it costs. If the gap is negative, there is no
// plan.
func (a *joined) view(in *instance, heights []int, r region, length int) (view, bool) {
	cost, side, ok := a.proof.costs(heights, r, length)
	if !ok {
		return view{}, false
	}
	for k, most := range a.most {
		if over := most - cost[k]; over > 0 { // what the pricing did not tell, to a hair
			side.add(over, int64(min(r.most[k], length/heights[k])))
			cost[k] = most
		}
	}
	return in.viewWithin(prices{worth: a.worth, cost: cost}, side)
}

// refutes reports whether the view of a region shows that there is no plan. That takes
// no margin for floating point, which would hide a fifth of a unit in a length of a
// million.
func (a *joined) refutes(in *instance, heights []int, r region, length int) bool {
	if a.room >= 1 {
		return false
	}
	v, ok := a.view(in, heights, r, length)
	return ok && v.closes()
}

// viewWithin is the view at prices at which all strips of a plan cost no more than
// side. There is none if the gap is too wide to say anything.
func (in *instance) viewWithin(v prices, side wide) (view, bool) {
	for i, z := range in.sizes {
		side.add(-v.worth[i], int64(z.count))
	}
	if side.negative() {
		return view{gap: -1}, true
	}
	if (wide{0, costly}).less(side) {
		return view{}, false
	}
	return view{v, int64(side.lo)}, true
}

// costs adds up the rows: strips x of each height cost Σ cost x ≤ side in every
// plan of the region that is no longer than length.
func (p *jointProof) costs(heights []int, r region, length int) (cost []int64, side wide, ok bool) {
	cost = make([]int64, len(heights))
	add := func(k int, c int64) {
		ok = ok && -costly < c && c < costly
		cost[k] += c
	}
	ok = math.Abs(p.length) < costly/float64(heights[len(heights)-1])
	if by := int64(max(0, p.length)); ok && by > 0 {
		for k, h := range heights {
			add(k, by*int64(h))
		}
		side.add(by, int64(length))
	}
	for _, d := range p.heights {
		if math.Abs(d.dual) >= costly {
			return nil, side, false
		}
		by, limit := int64(-d.dual), r.most[d.from]
		if by < 0 {
			limit = r.least[d.from]
		}
		for k := d.from; k < len(heights); k++ {
			add(k, by)
		}
		side.add(by, int64(limit))
	}
	for _, d := range p.planes {
		if d.dual <= 0 || d.dual >= costly {
			continue
		}
		by, shift := fixedPoint(d.dual / float64(d.plane.least))
		sum := int64(0)
		for k, step := range d.plane.step {
			sum += step
			add(k, -scaled(by, sum, shift, true))
		}
		side.add(-scaled(by, d.plane.least, shift, false), 1)
	}
	return cost, side, ok
}

// fixedPoint is about a positive number as by/2^shift.
func fixedPoint(x float64) (by int64, shift int) {
	const digits = 40
	f, e := math.Frexp(x)
	return int64(f * (1 << digits)), min(digits-e, 127)
}

// scaled is by × a / 2^shift, rounded up or down, or costly if it is more.
func scaled(by, a int64, shift int, up bool) int64 {
	high, low := bits.Mul64(uint64(by), uint64(a))
	if shift < 0 || shift < 64 && high>>shift != 0 {
		return costly
	}
	var whole, rest uint64
	if shift < 64 {
		whole, rest = high<<(64-shift)|low>>shift, low<<(64-shift)
	} else {
		whole, rest = high>>(shift-64), high<<(128-shift)|low
	}
	if whole >= costly {
		return costly
	}
	if up && rest != 0 {
		whole++
	}
	return int64(whole)
}
