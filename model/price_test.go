package model

import (
	"errors"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestParsePrice(t *testing.T) {
	for _, test := range []struct {
		text string
		want Money
		back string
	}{
		{"0", 0, "0.00"}, {"12", 1200, "12.00"}, {"12.5", 1250, "12.50"}, {" 12.50 ", 1250, "12.50"},
		{"0.05", 5, "0.05"}, {"1000000", MaxPrice, "1000000.00"},
	} {
		if got, err := ParsePrice(test.text); err != nil || got != test.want || got.String() != test.back {
			t.Errorf("ParsePrice(%q) = %v, %v, want %s", test.text, got, err, test.back)
		}
	}
	for _, text := range []string{"", "-1", "$12", "12,50", "12.505", "12.", ".5", "1e3", "1000000.01", "99999999999999999999", "12 per yd"} {
		if got, err := ParsePrice(text); !errors.Is(err, ErrNotAPrice) || got != 0 {
			t.Errorf("ParsePrice(%q) = %v, %v, want an error", text, got, err)
		}
	}
	if got := Money(-205).String(); got != "-2.05" {
		t.Errorf("got %s", got)
	}
}

func TestCost(t *testing.T) {
	for _, test := range []struct {
		soldBy string
		price  Money
		buy    Length
		want   string
	}{
		{"1/8 yd", 1200, 63 * Inch, "21.00"},       // 1 3/4 yd
		{"1/8 yd", 1299, 27 * Inch / 2, "4.87"},    // 3/8 yd: 4.87125
		{"1/8 yd", 1250, 9 * Inch / 2, "1.56"},     // 1/8 yd: 1.5625
		{"1/8 yd", 1252, 9 * Inch / 2, "1.57"},     // 1/8 yd: 1.565, halves up
		{"1 in", 1200, 63 * Inch, "21.00"},         // by the yard
		{"10 cm", 1890, 160 * Centimetre, "30.24"}, // by the metre
		{"0.25 m", 1890, 75 * Centimetre, "14.18"}, // 14.175, halves up
		{"1/8 yd", 0, 63 * Inch, "0.00"},           // no price
		{"1/8 yd", MaxPrice, 4 * Yard, "4000000.00"},
	} {
		cut, err := ParseShopCut(test.soldBy)
		if err != nil {
			t.Fatal(err)
		}
		if got := cut.Cost(test.price, test.buy).String(); got != test.want {
			t.Errorf("%s sold by %s at %v costs %s, want %s", test.buy.Exact(), test.soldBy, test.price, got, test.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		cut := ShopCut{Unit: CutUnit(rapid.IntRange(0, 3).Draw(t, "unit"))}
		price := Money(rapid.Int64Range(0, int64(MaxPrice)).Draw(t, "price"))
		l := Length(rapid.Int64Range(0, int64(MaxPieces*MaxSide)).Draw(t, "length"))
		unit := map[CutUnit]Length{Yards: Yard, Metres: Metre}[cut.PriceUnit()]
		exact := new(big.Rat).Mul(big.NewRat(int64(l), int64(unit)), big.NewRat(int64(price), 1))
		off := new(big.Rat).Sub(new(big.Rat).SetInt64(int64(cut.Cost(price, l))), exact)
		if half := big.NewRat(1, 2); off.Cmp(half) > 0 || off.Cmp(new(big.Rat).Neg(half)) <= 0 {
			t.Fatalf("%d ticks at %v: off by %v", l, price, off)
		}
	})
}
