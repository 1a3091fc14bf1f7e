package pack

import "math"

// A region is split at the number of strips on which branching promises to
// cost the most on both sides, of room or of length, as it has cost on average so far
// (pseudo-costs; Bénichou and others, Experiments in mixed-integer linear
// programming, Mathematical Programming 1, 1971).

// The two sides of a split.
const (
	downward = iota
	upward
)

// pseudoCosts are what splits at one number have cost for each unit by which the
// number was moved.
type pseudoCosts struct {
	loss  [2]float64
	times [2]int
}

// splitCosts are the pseudo-costs of the numbers from each height up.
type splitCosts []pseudoCosts

// trustedAfter so many splits a number's own average counts alone; until then
// it is mixed with the average of all.
const trustedAfter = 4

// learn takes note of what the split that made a region has cost.
func (c splitCosts) learn(r region, loss float64) {
	const least = 1e-6
	if r.branched < 0 || r.moved < least {
		return
	}
	c[r.branched].loss[r.side] += max(0, loss) / r.moved
	c[r.branched].times[r.side]++
}

// splitting is a number that a region could be split at, with what each side is
// likely to cost, and whether that has shown often enough to be trusted.
type splitting struct {
	k       int
	cost    [2]float64
	trusted bool
}

// splittings are the fractional numbers of n.
func (c splitCosts) splittings(heights []int, n []float64) []splitting {
	mean := c.mean()
	typical := float64(heights[len(heights)-1]) / float64(len(heights))
	var list []splitting
	below := 0
	for k, h := range heights {
		rise := h - below
		below = h
		if fraction(n[k]) <= wholeEnough || inside(n, k) {
			continue
		}
		s := splitting{k: k, trusted: true}
		for side := range s.cost {
			// A greater rise in height costs more length.
			s.cost[side] = mean[side] * math.Sqrt(float64(rise)/typical)
			times := c[k].times[side]
			if times > 0 {
				trust := min(1, float64(times)/trustedAfter)
				s.cost[side] += trust * (c[k].loss[side]/float64(times) - s.cost[side])
			}
			s.trusted = s.trusted && times >= trustedAfter
		}
		part := n[k] - math.Floor(n[k])
		s.cost[downward] *= part
		s.cost[upward] *= 1 - part
		list = append(list, s)
	}
	return list
}

// mean is the average over all numbers.
func (c splitCosts) mean() [2]float64 {
	mean := [2]float64{1, 1}
	for side := range mean {
		loss, times := 0.0, 0
		for _, p := range c {
			loss += p.loss[side]
			times += p.times[side]
		}
		if times > 0 {
			mean[side] = loss / float64(times)
		}
	}
	return mean
}

// branchOn chooses the number to split at, or -1 if all are whole, and the side
// that is likely to cost less.
func (st *strips) branchOn(n []float64) (best, side int) {
	best = -1
	score := -1.0
	for _, c := range st.costs.splittings(st.heights, n) {
		const least = 1e-7
		v := max(least, c.cost[downward]) * max(least, c.cost[upward])
		if v > score {
			best, score, side = c.k, v, upward
			if c.cost[downward] < c.cost[upward] {
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
