package pack

import (
	"cmp"
	"slices"
)

// The orders here make a plan independent of the order of its items.

// sortSizes puts the highest first, then the longest.
func sortSizes(sizes []size) {
	slices.SortStableFunc(sizes, func(a, b size) int {
		return cmp.Or(
			cmp.Compare(b.across, a.across),
			cmp.Compare(b.along, a.along),
			cmp.Compare(b2i(a.turnable), b2i(b.turnable)),
		)
	})
}

// sortOptions puts the lowest first, then the longest along the strip.
func sortOptions(options []option) {
	slices.SortStableFunc(options, func(a, b option) int {
		return cmp.Or(
			cmp.Compare(a.across, b.across),
			cmp.Compare(b.along, a.along),
			cmp.Compare(a.size, b.size),
		)
	})
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
