package pack_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/pack"
)

// What must hold between the plans of two problems, whatever their plans are.
// A result that is not proven is the interval from its bound to its length.

// metaUnit is the mark that the sizes of these problems sit on.
const metaUnit = model.Inch / 8

// relationWork is enough to prove most of these problems, and little enough to
// be quick where it is not.
const relationWork = pack.DefaultWork / 200

// drawItems draws up to most sizes of a quilt's proportions, up to copies of
// each, in whole units.
func drawItems(t *rapid.T, width, most, copies int) []pack.Item {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) pack.Item {
		return pack.Item{
			Along:    model.Length(rapid.IntRange(3, width).Draw(t, "along")),
			Across:   model.Length(rapid.IntRange(2, 12).Draw(t, "across")),
			Count:    rapid.IntRange(1, copies).Draw(t, "count"),
			Turnable: rapid.Bool().Draw(t, "turnable"),
		}
	}), 1, most).Draw(t, "items")
}

// scaled is the items with every size multiplied.
func scaled(items []pack.Item, k model.Length) []pack.Item {
	larger := slices.Clone(items)
	for i := range larger {
		larger[i].Along *= k
		larger[i].Across *= k
	}
	return larger
}

// interval solves a problem of a width and items in a style.
func interval(t *rapid.T, width model.Length, items []pack.Item, style pack.Style) pack.Result {
	return solve(t, newProblem(t, width, items), pack.Options{Style: style, Work: relationWork})
}

// sameOptimum fails unless the optima of two results can be the same: where
// both are proven, their lengths are equal.
func sameOptimum(t *rapid.T, what string, a, b pack.Result) {
	if a.Bound > b.Plan.Length() || b.Bound > a.Plan.Length() {
		t.Errorf("%s: from %d to %d, against %d to %d",
			what, a.Bound, a.Plan.Length(), b.Bound, b.Plan.Length())
	}
}

// checkRelation draws problems for both styles that share strips. The sizes
// and the width are in ticks.
func checkRelation(t *testing.T, f func(t *rapid.T, width model.Length, items []pack.Item, style pack.Style)) {
	for _, style := range []pack.Style{pack.Shared, pack.Nested} {
		t.Run(style.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				width := rapid.IntRange(12, 60).Draw(t, "width")
				items := scaled(drawItems(t, width, 4, 8), metaUnit)
				f(t, model.Length(width)*metaUnit, items, style)
			})
		})
	}
}

func TestExtraPieceNeverShortens(t *testing.T) {
	checkRelation(t, func(t *rapid.T, width model.Length, items []pack.Item, style pack.Style) {
		before := interval(t, width, items, style)
		more := slices.Clone(items)
		if i := rapid.IntRange(0, len(items)).Draw(t, "grown"); i < len(items) {
			more[i].Count++
		} else {
			extra := drawItems(t, int(width/metaUnit), 1, 1)
			more = append(more, scaled(extra, metaUnit)...)
		}
		after := interval(t, width, more, style)
		if after.Plan.Length() < before.Bound {
			t.Errorf("a piece more takes %d, without it %d was the least", after.Plan.Length(), before.Bound)
		}
	})
}

// The tallest strip of a nested plan does not scale with the sizes, so these
// problems are small enough never to reach it: nine pieces of 20 units, three
// times as large, make 22 1/2 in.
func TestScalingScales(t *testing.T) {
	const unit = model.Inch / 24
	for _, style := range []pack.Style{pack.Shared, pack.Nested} {
		t.Run(style.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				width := rapid.IntRange(12, 20).Draw(t, "width")
				items := drawItems(t, width, 3, 3)
				k := model.Length(rapid.IntRange(2, 3).Draw(t, "factor"))
				w := model.Length(width) * unit
				small := interval(t, w, scaled(items, unit), style)
				large := interval(t, k*w, scaled(items, k*unit), style)
				if large.Plan.Length() != k*small.Plan.Length() || large.Bound != k*small.Bound {
					t.Errorf("%d times as large: from %d to %d, against %d to %d",
						k, small.Bound, small.Plan.Length(), large.Bound, large.Plan.Length())
				}
			})
		})
	}
}

func TestItemOrderDoesNotMatter(t *testing.T) {
	checkRelation(t, func(t *rapid.T, width model.Length, items []pack.Item, style pack.Style) {
		shuffled := rapid.Permutation(items).Draw(t, "shuffled")
		sameOptimum(t, "in another order", interval(t, width, items, style), interval(t, width, shuffled, style))
	})
}

func TestSplittingEqualSizesDoesNotMatter(t *testing.T) {
	checkRelation(t, func(t *rapid.T, width model.Length, items []pack.Item, style pack.Style) {
		var split []pack.Item
		for _, it := range items {
			first, second := it, it
			first.Count = rapid.IntRange(0, it.Count).Draw(t, "first")
			second.Count -= first.Count
			for _, part := range []pack.Item{first, second} {
				if part.Count > 0 {
					split = append(split, part)
				}
			}
		}
		sameOptimum(t, "one size as two items", interval(t, width, items, style), interval(t, width, split, style))
	})
}

// A turnable item written the other way round is the same item.
func TestTurnedItemIsTheSame(t *testing.T) {
	checkRelation(t, func(t *rapid.T, width model.Length, items []pack.Item, style pack.Style) {
		turned := slices.Clone(items)
		for i, it := range turned {
			if it.Turnable {
				turned[i].Along, turned[i].Across = it.Across, it.Along
			}
		}
		sameOptimum(t, "turned", interval(t, width, items, style), interval(t, width, turned, style))
	})
}

// Every plain plan is a shared plan, and every shared plan a nested one.
func TestStylesOnlyGainFreedom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := rapid.IntRange(12, 60).Draw(t, "width")
		items := scaled(drawItems(t, width, 5, 8), metaUnit)
		w := model.Length(width) * metaUnit
		plain := interval(t, w, items, pack.Plain)
		shared := interval(t, w, items, pack.Shared)
		nested := interval(t, w, items, pack.Nested)
		if shared.Plan.Length() > plain.Plan.Length() || nested.Plan.Length() > shared.Plan.Length() {
			t.Errorf("plain %d, shared %d, nested %d",
				plain.Plan.Length(), shared.Plan.Length(), nested.Plan.Length())
		}
		if nested.Bound > shared.Plan.Length() || shared.Bound > plain.Plan.Length() {
			t.Errorf("bounds: shared %d of %d, nested %d of %d",
				shared.Bound, plain.Plan.Length(), nested.Bound, shared.Plan.Length())
		}
	})
}
