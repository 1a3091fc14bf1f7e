package pack

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// A set of tallies knows just what was put into it, and sums of tallies are
// tallies of sums.
func TestTalliesAgainstAMap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.SliceOfN(rapid.IntRange(0, 5000), 1, 30).Draw(t, "most")
		tl := newTallying(most)
		set := tallies{words: tl.words}
		places := map[string]int{}
		for range rapid.IntRange(1, 200).Draw(t, "tallies") {
			var once, more []pieces
			counts := make([]int, len(most))
			for i, m := range most {
				n := rapid.IntRange(0, min(m, 2)).Draw(t, "count")
				k := rapid.IntRange(0, n).Draw(t, "of these")
				once, more = append(once, pieces{i, k}), append(more, pieces{i, n - k})
				counts[i] = n
			}
			sum := tl.of(once)
			sum.add(tl.of(more), 1)
			at, known := set.find(sum)
			want, expected := places[fmt.Sprint(counts)]
			if known != expected || known && at != want {
				t.Fatalf("%v: at %d, known %v; want %d, %v", counts, at, known, want, expected)
			}
			places[fmt.Sprint(counts)] = at
			sum.add(tl.of(more), -1)
			if !equalWords(sum, tl.of(once)) {
				t.Fatalf("%v less what was added is not what it was", counts)
			}
		}
	})
}
