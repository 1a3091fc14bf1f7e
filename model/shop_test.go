package model

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestShopCut(t *testing.T) {
	// 1/8 yd = 4 1/2 in, 1/3 yd = 12 in, 2/3 yd = 24 in, 3/4 yd = 27 in: the
	// yard fractions of atimetosewquilts.com/measurements.htm.
	for _, test := range []struct {
		step string
		need Length
		buy  Length
		text string
	}{
		{"1/8 yd", in(119, 2), 63 * Inch, "1 3/4 yd"},
		{"1/8 yd", 0, 0, "0 yd"},
		{"1/8 yd", 1, in(9, 2), "1/8 yd"},
		{"1/4 yd", 27 * Inch, 27 * Inch, "3/4 yd"},
		{"1/4 yd", 27*Inch + 1, 36 * Inch, "1 yd"},
		{"1/3 yd", 13 * Inch, 24 * Inch, "2/3 yd"},
		{"0.25 yd", 1, 9 * Inch, "1/4 yd"},
		{"10 cm", in(115, 2), mm(15000), "150 cm"},
		{"10 cm", 160 * Centimetre, 160 * Centimetre, "160 cm"},
		{"0.1 m", 155 * Centimetre, 160 * Centimetre, "1.6 m"},
		{"0.25 m", 1, 25 * Centimetre, "0.25 m"},
		{"1/2 m", Metre + 1, 150 * Centimetre, "1.5 m"},
		{"1 in", in(125, 2), 63 * Inch, "63 in"},
		{`1/2"`, in(123, 4), 31 * Inch, "31 in"},
		{`1/2"`, in(121, 4), in(61, 2), "30 1/2 in"},
	} {
		cut, err := ParseShopCut(test.step)
		if err != nil {
			t.Errorf("ParseShopCut(%q): %v", test.step, err)
			continue
		}
		if buy := cut.Ceil(test.need); buy != test.buy || cut.Format(buy) != test.text {
			t.Errorf("%s sold by %s: buy %s, want %s", test.need.Exact(), cut, cut.Format(buy), test.text)
		}
		if back, err := ParseShopCut(cut.String()); err != nil || back != cut {
			t.Errorf("ParseShopCut(%q) = %v, %v, want %v", cut.String(), back, err, cut)
		}
	}
	if got := (ShopCut{Unit: Yards}).Format(in(1, 3)); got != "0.0093 yd" {
		t.Errorf("1/3 in is %q", got)
	}
	if got := (ShopCut{Unit: Metres}).Format(Inch); got != "0.0254 m" {
		t.Errorf("1 in is %q", got)
	}
}

func TestParseShopCutErrors(t *testing.T) {
	for _, test := range []struct {
		text string
		kind error
	}{
		{"", ErrNotAShopCut}, {"1/8", ErrNotAShopCut}, {"1/8 yard of cloth", ErrNotAShopCut},
		{"100 mm", ErrNotAShopCut}, {"yd", ErrNotAShopCut}, {"0,1 m", ErrComma}, {"-1 yd", ErrSign},
		{"1/7 yd", ErrTooFine}, {"20000 yd", ErrTooLong},
	} {
		if got, err := ParseShopCut(test.text); !errors.Is(err, test.kind) || got != (ShopCut{}) {
			t.Errorf("ParseShopCut(%q) = %v, %v, want the error %q", test.text, got, err, test.kind)
		}
	}
}

func TestUnitWords(t *testing.T) {
	for _, u := range []Unit{Inches, Centimetres} {
		if got, err := ParseUnit(u.String()); err != nil || got != u {
			t.Errorf("ParseUnit(%q) = %v, %v", u, got, err)
		}
	}
	for _, u := range []CutUnit{Yards, Metres, CentimetresOfCloth, InchesOfCloth} {
		if got, err := ParseCutUnit(u.String()); err != nil || got != u {
			t.Errorf("ParseCutUnit(%q) = %v, %v", u, got, err)
		}
	}
	for _, h := range []Halving{HalvedOnce, HalvedTwice} {
		if got, err := ParseHalving(h.String()); err != nil || got != h {
			t.Errorf("ParseHalving(%q) = %v, %v", h, got, err)
		}
	}
	for _, g := range []Grain{Crosswise, Lengthwise} {
		if got, err := ParseGrain(g.String()); err != nil || got != g {
			t.Errorf("ParseGrain(%q) = %v, %v", g, got, err)
		}
	}
	for _, text := range []string{"", "feet", "IN", "thrice"} {
		_, unit := ParseUnit(text)
		_, cutUnit := ParseCutUnit(text)
		_, halving := ParseHalving(text)
		_, grain := ParseGrain(text)
		if !errors.Is(unit, ErrNotAUnit) || !errors.Is(cutUnit, ErrNotAShopCut) ||
			!errors.Is(halving, ErrNotAChoice) || !errors.Is(grain, ErrNotAChoice) {
			t.Errorf("%q was read: %v, %v, %v, %v", text, unit, cutUnit, halving, grain)
		}
	}
	if NotHalved.Shapes() != 1 || HalvedOnce.Shapes() != 2 || HalvedTwice.Shapes() != 4 {
		t.Error("a square halved once gives 2 triangles, twice gives 4")
	}
}

func TestPercent(t *testing.T) {
	for _, test := range []struct {
		text string
		want Percent
		back string
	}{
		{"0%", 0, "0%"}, {"0", 0, "0%"}, {"2%", 200, "2%"}, {"2.5 %", 250, "2.5%"},
		{" 0.25% ", 25, "0.25%"}, {"2.05%", 205, "2.05%"}, {"50%", 5000, "50%"},
	} {
		got, err := ParsePercent(test.text)
		if err != nil || got != test.want || got.String() != test.back {
			t.Errorf("ParsePercent(%q) = %v, %v, want %v", test.text, got, err, test.back)
		}
	}
	for _, text := range []string{"", "%", "2", "0.02", "2,5%", "-1%", "50.01%", "51%", "2.555%", "999999999%", "9999999999999999999%", "2 percent"} {
		if got, err := ParsePercent(text); !errors.Is(err, ErrNotAPercent) || got != 0 {
			t.Errorf("ParsePercent(%q) = %v, %v, want an error", text, got, err)
		}
	}
}

func TestGrow(t *testing.T) {
	// 3 yd at 5 % are 108/0.95 = 113.684… in, to the next tick.
	if got, want := Percent(500).Grow(3*Yard), 3*Yard*100/95+1; got != want {
		t.Errorf("3 yd at 5%% grow to %d ticks, want %d", got, want)
	}
	if got := Percent(5000).Grow(Yard); got != 2*Yard {
		t.Errorf("1 yd at 50%% grows to %v, want 2 yd", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(0, 1<<61).Draw(t, "length"))
		p := Percent(rapid.Int64Range(0, 5000).Draw(t, "hundredths"))
		// The least g with g(1-p) >= l.
		left := big.NewInt(int64(10_000 - p))
		need := new(big.Int).Mul(big.NewInt(int64(l)), big.NewInt(10_000))
		after := func(g Length) *big.Int { return new(big.Int).Mul(big.NewInt(int64(g)), left) }
		g := p.Grow(l)
		if after(g).Cmp(need) < 0 || g > 0 && after(g-1).Cmp(need) >= 0 {
			t.Fatalf("%d ticks at %v grow to %d", l, p, g)
		}
	})
}
