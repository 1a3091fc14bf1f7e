package pack

import (
	"math/bits"
	"slices"
)

// numbers are how many strips a plan has from each height of the pricer up: a
// list that never rises.
type numbers []int

// length of strips in such numbers.
func (n numbers) length(heights []int) int { return lengthOf(n, heights) }

// lengthOf is the length of numbers of strips that may be fractional.
func lengthOf[T int | float64](n []T, heights []int) T {
	sum, below := T(0), 0
	for k, h := range heights {
		sum += T(h-below) * n[k]
		below = h
	}
	return sum
}

// plane is a cutting plane: an inequality that the numbers n of strips of
// every plan keep,
//
//	Σ step[k]·n[k] ≥ least,    step ≥ 0, least > 0, all whole.
//
// At any prices of the pieces, no strip of height k is worth more than some
// worth(k), and all strips together must be worth what the demand is:
// Σ worth(k)·(n[k] − n[k+1]) ≥ Σ price(i)·demand(i). That is such a plane, and
// with the prices that the fit of the strips suggests, it cuts off numbers of
// strips which cannot hold the demand (Benders, Partitioning procedures for
// solving mixed-variables programming problems, Numerische Mathematik 4, 1962,
// with the cutting-stock relaxation as the second stage). Since numbers of
// strips are whole, roundings of it hold too.
type plane struct {
	step  []int64
	least int64
	unit  []float64 // step / least
	idle  int       // programs in a row in which it did not matter
}

// planeScale bounds the least of a plane, so that products with multipliers
// stay in 128 bits with room to spare.
const planeScale = 1 << 36

// newPlane scales a plane down if it must: steps are rounded up and the least
// down, which weakens it and keeps it true.
func newPlane(step []int64, least int64) *plane {
	p := &plane{step: slices.Clone(step), least: least}
	if least > planeScale {
		by := (least-1)/planeScale + 1
		p.least = least / by
		for k, a := range step {
			p.step[k] = (a + by - 1) / by
		}
	}
	p.unit = make([]float64, len(step))
	for k, a := range p.step {
		p.unit[k] = float64(a) / float64(p.least)
	}
	return p
}

// at is the left side over the right side.
func (p *plane) at(n []float64) float64 {
	sum := 0.0
	for k, u := range p.unit {
		sum += u * n[k]
	}
	return sum
}

// rounded is the mixed-integer rounding of the plane by a divisor (Nemhauser
// and Wolsey, Integer and Combinatorial Optimization, 1988, section II.1.7):
// with r = least mod q and F(a) = r·⌊a/q⌋ + min(r, a mod q),
//
//	Σ F(coefficient)·variable ≥ r·⌈least/q⌉
//
// for whole variables ≥ 0. The variables are the strips of each height
// (byHeight), or those from each height up.
func (p *plane) rounded(q int64, byHeight bool) *plane {
	r, up := p.least%q, (p.least+q-1)/q
	if r == 0 || up > roundingRoom/r {
		return nil
	}
	step := make([]int64, len(p.step))
	sum, last := int64(0), int64(0)
	for k, a := range p.step {
		if byHeight {
			sum += a
			a = sum
		}
		high, low := bits.Mul64(uint64(r), uint64(a/q))
		if high != 0 || low > roundingRoom {
			return nil
		}
		step[k] = mixedRounding(a, q, r)
		if byHeight {
			step[k], last = step[k]-last, step[k]
		}
	}
	return newPlane(step, r*up)
}

// mixedRounding is F(a) of the mixed-integer rounding by q.
func mixedRounding(a, q, r int64) int64 {
	whole := floorDiv(a, q)
	return r*whole + min(r, a-whole*q)
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// roundingRoom bounds what a rounding may come to before it is scaled down.
const roundingRoom = 1 << 61

// The divisors that roundings try are a coefficient over 1, 2, … these.
const (
	heightDivisors = 4
	upDivisors     = 3
)

// roundings are the roundings of the plane that could cut off n: by the worth
// of a strip of each height, and by the steps at fractional numbers.
func (p *plane) roundings(n []float64) []*plane {
	var list []*plane
	try := func(a, parts int64, byHeight bool, seen map[int64]bool) {
		for m := int64(1); m <= parts; m++ {
			q := a / m
			if q < 4 || seen[q] { // smaller divisors round to nothing
				continue
			}
			seen[q] = true
			if c := p.rounded(q, byHeight); c != nil {
				list = append(list, c)
			}
		}
	}
	seen, worth := map[int64]bool{}, int64(0)
	for k, a := range p.step {
		worth += a
		if single(n, k) > wholeEnough {
			try(worth, heightDivisors, true, seen)
		}
	}
	seen = map[int64]bool{}
	for k, a := range p.step {
		if fraction(n[k]) > wholeEnough {
			try(a, upDivisors, false, seen)
		}
	}
	return list
}
