package geometry

import (
	"math"
	"math/big"
	"testing"

	"crossgrain/model"
	"pgregory.net/rapid"
)

// drawn is a random surd with small fractions.
func drawn(t *rapid.T, name string) Surd {
	n := func(root string) int { return rapid.IntRange(-200, 200).Draw(t, name+root) }
	over := rapid.IntRange(1, 12).Draw(t, name+" over")
	root6 := Root2(1).Mul(Root3(1))
	return Of(model.Length(n("1"))).Add(Root2(1).Times(n("√2"))).Add(Root3(1).Times(n("√3"))).
		Add(root6.Times(n("√6"))).Over(over)
}

// value is s to some 60 digits, by another way than Sign and Cmp go.
func value(s Surd) *big.Float {
	const bits = 256
	sum := new(big.Float).SetPrec(bits)
	for i, n := range []int64{1, 2, 3, 6} {
		term := new(big.Float).SetPrec(bits).SetRat(s.coef(i))
		root := new(big.Float).SetPrec(bits).SetInt64(n)
		sum.Add(sum, term.Mul(term, root.Sqrt(root)))
	}
	return sum
}

func TestSurdIsAField(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := drawn(t, "a"), drawn(t, "b"), drawn(t, "c")
		for name, pair := range map[string][2]Surd{
			"a+b = b+a":       {a.Add(b), b.Add(a)},
			"(a+b)-b = a":     {a.Add(b).Sub(b), a},
			"ab = ba":         {a.Mul(b), b.Mul(a)},
			"a(b+c) = ab+ac":  {a.Mul(b.Add(c)), a.Mul(b).Add(a.Mul(c))},
			"(ab)c = a(bc)":   {a.Mul(b).Mul(c), a.Mul(b.Mul(c))},
			"(a/√2)√2 = a":    {a.OverRoot2().TimesRoot2(), a},
			"(a/√3)√3 = a":    {a.OverRoot3().TimesRoot3(), a},
			"7(a/7) = a":      {a.Over(7).Times(7), a},
			"a/2 + a/2 = a":   {a.Half().Add(a.Half()), a},
			"max + min = a+b": {Max(a, b).Add(Min(a, b)), a.Add(b)},
		} {
			if !pair[0].Equal(pair[1]) {
				t.Errorf("%s: %v and %v", name, pair[0], pair[1])
			}
		}
	})
}

func TestSurdQuotient(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawn(t, "a"), drawn(t, "b")
		if b.Sign() == 0 {
			return
		}
		if got := a.Quo(b); !got.Mul(b).Equal(a) {
			t.Errorf("(%v)/(%v) is %v", a, b, got)
		}
	})
}

func TestSurdOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawn(t, "a"), drawn(t, "b")
		if got, want := a.Cmp(b), value(a).Cmp(value(b)); got != want {
			t.Errorf("%v beside %v: %d, want %d", a, b, got, want)
		}
		if a.Less(b) && b.Less(a) || a.Cmp(b) != -b.Cmp(a) {
			t.Errorf("%v and %v are each less", a, b)
		}
	})
}

// Fractions that come ever nearer to a root, from both sides: p² - 2q² = ±1
// in turn, and p² - 3q² = 1.
func TestSurdNearRoots(t *testing.T) {
	p2, q2, p3, q3 := int64(1), int64(1), int64(2), int64(1)
	for want := -1; p2 < math.MaxInt64/8; want = -want {
		if got := Of(model.Length(p2)).Cmp(Root2(model.Length(q2))); got != want {
			t.Errorf("%d beside %d√2: %d, want %d", p2, q2, got, want)
		}
		p2, q2 = p2+2*q2, p2+q2
	}
	for p3 < math.MaxInt64/8 {
		if got := Of(model.Length(p3)).Cmp(Root3(model.Length(q3))); got != 1 {
			t.Errorf("%d beside %d√3: %d", p3, q3, got)
		}
		p3, q3 = 2*p3+3*q3, p3+2*q3
	}
	// √2 + √3 - √6 = 0.69677…
	sum := Root2(10000).Add(Root3(10000)).Sub(Root2(10000).Mul(Root3(1)))
	if got := sum.CeilTo(1); got != 6968 {
		t.Errorf("10000(√2+√3-√6) is up to %d", got)
	}
}

func TestSurdCeil(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawn(t, "s")
		step := model.Length(rapid.Int64Range(1, 50).Draw(t, "step"))
		got := s.CeilTo(step)
		if !got.OnMark(step) || Of(got).Less(s) || !Of(got-step).Less(s) {
			t.Errorf("%v up to %d is %d", s, step, got)
		}
	})
	if got := Root2(1000 * model.Inch).CeilTo(1); got != 34484184 { // 34484183.50490…
		t.Errorf("1000 in times √2 is up to %d ticks", got)
	}
}

func TestSurdLength(t *testing.T) {
	for _, test := range []struct {
		s     Surd
		want  model.Length
		whole bool
		text  string
	}{
		{Surd{}, 0, true, "0"},
		{Of(-3), -3, true, "-3"},
		{Of(3).Half(), 0, false, "3/2"},
		{Root2(2).Add(Of(1)), 0, false, "1 + 2√2"},
		{Root2(2).Mul(Root2(3)), 12, true, "12"},
		{Root3(1).Mul(Root2(1)).Mul(Root3(1)).Mul(Root2(1)), 6, true, "6"},
		{OfArea(model.AreaOf(2, 3)), 6, true, "6"},
	} {
		if got, whole := test.s.Length(); got != test.want || whole != test.whole {
			t.Errorf("%v: length %d, %v", test.s, got, whole)
		}
		if got := test.s.String(); got != test.text {
			t.Errorf("written %s, want %s", got, test.text)
		}
	}
}
