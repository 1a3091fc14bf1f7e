package pack

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// big is the number in another arithmetic.
func (w wide) big() *big.Int {
	n := new(big.Int).Lsh(big.NewInt(int64(w.hi)), 64)
	return n.Add(n, new(big.Int).SetUint64(w.lo))
}

// anyInt64 draws numbers of every size, the outermost among them.
func anyInt64() *rapid.Generator[int64] {
	return rapid.OneOf(
		rapid.Int64(),
		rapid.SampledFrom([]int64{math.MinInt64, math.MinInt64 + 1, -1, 0, 1, math.MaxInt64}),
	)
}

// A wide number does what a whole number of any size does. Two products of 64
// bits fit 128, three may not.
func TestWideAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sum := func(label string) (wide, *big.Int) {
			w, want := wide{}, new(big.Int)
			for range rapid.IntRange(0, 2).Draw(t, label+" terms") {
				a, b := anyInt64().Draw(t, label), rapid.Int64Range(math.MinInt64+1, math.MaxInt64).Draw(t, label)
				w.add(a, b)
				want.Add(want, new(big.Int).Mul(big.NewInt(a), big.NewInt(b)))
			}
			return w, want
		}
		a, wantA := sum("a")
		b, wantB := sum("b")
		if a.big().Cmp(wantA) != 0 || b.big().Cmp(wantB) != 0 {
			t.Fatalf("sums %v and %v, want %v and %v", a.big(), b.big(), wantA, wantB)
		}
		if got, want := a.less(b), wantA.Cmp(wantB) < 0; got != want {
			t.Errorf("%v < %v is %v", wantA, wantB, got)
		}
		if got, want := a.negative(), wantA.Sign() < 0; got != want {
			t.Errorf("%v < 0 is %v", wantA, got)
		}
		if got := a.negated().big(); got.Cmp(new(big.Int).Neg(wantA)) != 0 {
			t.Errorf("the negative of %v is %v", wantA, got)
		}
	})
}

func TestWideTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := anyInt64().Draw(t, "a"), rapid.Int64Range(-1<<31, 1<<31).Draw(t, "b")
		n := rapid.IntRange(0, math.MaxInt32).Draw(t, "n")
		w := wide{}
		w.add(a, b)
		want := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		want.Mul(want, big.NewInt(int64(n)))
		if got := w.times(n).big(); got.Cmp(want) != 0 {
			t.Errorf("%d × %d × %d is %v, want %v", a, b, n, got, want)
		}
	})
}

func TestWidePlus(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := wide{uint64(rapid.Int64Range(-1<<62, 1<<62-1).Draw(t, "a high")), rapid.Uint64().Draw(t, "a low")}
		b := wide{uint64(rapid.Int64Range(-1<<62, 1<<62-1).Draw(t, "b high")), rapid.Uint64().Draw(t, "b low")}
		want := new(big.Int).Add(a.big(), b.big())
		if a.plus(b); a.big().Cmp(want) != 0 {
			t.Errorf("the sum is %v, want %v", a.big(), want)
		}
	})
}
