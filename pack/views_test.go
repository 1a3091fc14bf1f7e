package pack

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// A view's gap is what the strips could be worth beyond the demand, or more:
// where sums of prices grow beyond 64 bits it must not come out small.
func TestGapIsNeverTooSmall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bits := rapid.SampledFrom([]int{4, 20, 40, 58}).Draw(t, "bits")
		v := prices{
			worth: rapid.SliceOfN(rapid.Int64Range(0, 1<<bits), 2, 2).Draw(t, "worth"),
			cost:  rapid.SliceOfN(rapid.Int64Range(0, 1<<bits), 2, 2).Draw(t, "cost"),
		}
		slices.Sort(v.cost)
		n := numbers{rapid.IntRange(0, MaxPieces).Draw(t, "low"), 0}
		n[1] = rapid.IntRange(0, n[0]).Draw(t, "high")
		demand := rapid.SliceOfN(rapid.IntRange(1, MaxPieces), 2, 2).Draw(t, "demand")
		want := new(big.Int)
		for k, c := range v.cost {
			want.Add(want, new(big.Int).Mul(big.NewInt(c), big.NewInt(int64(n.single(k)))))
		}
		for i, d := range demand {
			want.Sub(want, new(big.Int).Mul(big.NewInt(v.worth[i]), big.NewInt(int64(d))))
		}
		got := newView(v, n, demand)
		if slices.Max(got.worth) == 0 && slices.Max(got.cost) == 0 && got.gap == 0 {
			return // it says nothing
		}
		if !slices.Equal(got.worth, v.worth) || !slices.Equal(got.cost, v.cost) {
			t.Errorf("the view of %v has the prices %v", v, got.prices)
		}
		exact := big.NewInt(got.gap)
		if exact.Cmp(want) < 0 || want.BitLen() <= 60 && exact.Cmp(want) != 0 {
			t.Errorf("the gap is %d, want %v", got.gap, want)
		}
	})
}
