package pack

import "math"

// A region is split at the number of strips on which branching promises to
// cost the most room on both sides, as it has cost on average so far
// (pseudo-costs; Bénichou and others, Experiments in mixed-integer linear
// programming, Mathematical Programming 1, 1971).

// The two sides of a split.
const (
	downward = iota
	upward
)

// pseudoCosts are what splits at one number have cost: room for each unit by
// which the number was moved.
type pseudoCosts struct {
	loss  [2]float64
	times [2]int
}

// trustedAfter so many splits a number's own average counts alone; until then
// it is mixed with the average of all.
const trustedAfter = 4

// learn takes note of what the split that made a region has cost.
func (st *strips) learn(r region, room float64) {
	const least = 1e-6
	if r.branched < 0 || r.moved < least {
		return
	}
	c := &st.costs[r.branched]
	c.loss[r.side] += max(0, r.room-room) / r.moved
	c.times[r.side]++
}

// branchOn chooses the number to split at, or -1 if all are whole, and the side
// that is likely to cost less.
func (st *strips) branchOn(n []float64) (best, side int) {
	mean := st.meanCosts()
	typical := float64(st.heights[len(st.heights)-1]) / float64(len(st.heights))
	best = -1
	score := -1.0
	below := 0
	for k, h := range st.heights {
		rise := h - below
		below = h
		if fraction(n[k]) <= wholeEnough || inside(n, k) {
			continue
		}
		var cost [2]float64
		for side := range cost {
			// A greater rise in height costs more length.
			cost[side] = mean[side] * math.Sqrt(float64(rise)/typical)
			if times := st.costs[k].times[side]; times > 0 {
				trust := min(1, float64(times)/trustedAfter)
				cost[side] += trust * (st.costs[k].loss[side]/float64(times) - cost[side])
			}
		}
		part := n[k] - math.Floor(n[k])
		const least = 1e-7
		v := max(least, cost[downward]*part) * max(least, cost[upward]*(1-part))
		if v > score {
			best, score, side = k, v, upward
			if cost[downward]*part < cost[upward]*(1-part) {
				side = downward
			}
		}
	}
	return best, side
}

// inside reports whether as many strips as from the k-th height up are there
// from the heights next to it up. Of a row of such heights only the ends are
// worth a split: there the strips must become whole.
func inside(n []float64, k int) bool {
	return k > 0 && n[k-1] <= n[k] && single(n, k) <= 0
}

// meanCosts is the average over all numbers.
func (st *strips) meanCosts() [2]float64 {
	mean := [2]float64{1, 1}
	for side := range mean {
		loss, times := 0.0, 0
		for _, c := range st.costs {
			loss += c.loss[side]
			times += c.times[side]
		}
		if times > 0 {
			mean[side] = loss / float64(times)
		}
	}
	return mean
}
