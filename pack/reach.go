package pack

import "math/big"

// mostLengths is the longest plan, in grid units, for which the lengths that
// strips can add up to are listed.
const mostLengths = 1 << 22

// lengthsUpTo marks the lengths that the strips of a plan can add up to: a
// strip is as high as its highest stack, so a plan is as long as some of its
// pieces laid one above another. Bit l is set if l is such a sum of no more
// pieces of each size than there are, either way they may lie.
func (in *instance) lengthsUpTo(most int) *big.Int {
	if most > mostLengths {
		return nil
	}
	sums := big.NewInt(1)
	shifted, mask := new(big.Int), new(big.Int)
	mask.Sub(mask.Lsh(big.NewInt(1), uint(most)+1), big.NewInt(1))
	var lots []lot
	for i, o := range in.options {
		lots = appendLots(lots, i, in.sizes[o.size].count, o.across, 0)
	}
	for _, l := range lots {
		if l.length <= most {
			sums.Or(sums, shifted.Lsh(sums, uint(l.length)))
			sums.And(sums, mask)
		}
	}
	return sums
}

// raise is the least length from low up that strips can add up to, or high if
// there is none below it.
func raise(sums *big.Int, low, high int) int {
	for sums != nil && low < high && sums.Bit(low) == 0 {
		low++
	}
	return min(low, high)
}
