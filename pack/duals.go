package pack

import "math"

// priceSum bounds the sums of prices within a strip, and boundSum what a bound
// may come to: both far enough from 2^63.
const (
	priceSum = 1 << 58
	boundSum = 1 << 61
)

// duals are whole prices of the sizes. However they were found, what they are
// worth over the demand, with what single strips may gain on them added, is a
// lower bound on the length of any plan.
type duals struct {
	worth []int64
	// sum is the worth so far, modulo 2^64, and about the same in floating
	// point, to tell when it is beyond what counts.
	sum   int64
	about float64
}

// add adds times × price to the sum.
func (u *duals) add(price, times int64) {
	u.sum += price * times
	u.about += float64(price) * float64(times)
}

// bound is the sum, or boundSum on the side of zero where it lies beyond that.
func (u *duals) bound() int64 {
	switch {
	case u.about > boundSum:
		return boundSum
	case u.about < -boundSum:
		return -boundSum
	}
	return u.sum
}

func (m *master) exactDuals(demand []int, dual []float64) duals {
	most := min(m.penalty*priceScale, m.dearest)
	u := duals{worth: make([]int64, len(demand))}
	for i, d := range demand {
		u.worth[i] = wholePrice(dual[i], most)
		u.add(u.worth[i], int64(d))
	}
	return u
}

// wholePrice rounds a dual down to a whole price from 0 to most.
func wholePrice(dual float64, most int64) int64 {
	scaled := math.Floor(dual * priceScale)
	switch {
	case scaled <= 0:
		return 0
	case scaled >= float64(most):
		return most
	}
	return int64(scaled)
}

// prices are what the duals mean to the pricer.
func (m *master) prices(u duals) prices {
	v := prices{worth: u.worth}
	for _, h := range m.pr.heights() {
		v.cost = append(v.cost, priceScale*int64(h))
	}
	return v
}
