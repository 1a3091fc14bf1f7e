package model

import (
	"encoding/json"
	"errors"
	"math"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// in and mm make lengths of fractions for the tables: in(5, 2) is 2 1/2 in.
func in(over, under int64) Length { return Length(over) * Inch / Length(under) }
func mm(tenths int64) Length      { return Length(tenths) * Millimetre / 10 }

func TestUnitsAreExact(t *testing.T) {
	// 1 in = 2.54 cm and 1 yd = 0.9144 m exactly: international yard, 1959.
	for _, test := range []struct {
		name      string
		got, want Length
	}{
		{"100 in in mm", 100 * Inch, 2540 * Millimetre},
		{"10000 yd in m", 10_000 * Yard, 9144 * Metre},
		{"1/64 in", Inch / 64, 381},
		{"1/3 in", Inch / 3, 8128},
		{"0.1 mm", Millimetre / 10, 96},
	} {
		if test.got != test.want {
			t.Errorf("%s: %d ticks, want %d", test.name, test.got, test.want)
		}
	}
	if 64*(Inch/64) != Inch || 24*(Inch/24) != Inch || 10*(Millimetre/10) != Millimetre {
		t.Error("a mark is no whole number of ticks")
	}
}

func TestParseLength(t *testing.T) {
	for _, test := range []struct {
		text string
		bare Unit
		want Length
	}{
		{"12", Inches, in(12, 1)},
		{"0", Inches, 0},
		{"0 cm", Inches, 0},
		{"12 1/2", Inches, in(25, 2)},
		{"12-1/2", Inches, in(25, 2)},
		{"12–1/2", Inches, in(25, 2)},
		{"12½", Inches, in(25, 2)},
		{"12 ½", Inches, in(25, 2)},
		{"12-½", Inches, in(25, 2)},
		{"12 1⁄2", Inches, in(25, 2)},
		{"12.5", Inches, in(25, 2)},
		{"12.500", Inches, in(25, 2)},
		{".5", Inches, in(1, 2)},
		{"1/2", Inches, in(1, 2)},
		{"½", Inches, in(1, 2)},
		{"  2   7/8\t", Inches, in(23, 8)},
		{"2\u00a07/8", Inches, in(23, 8)},
		{"002 7/8", Inches, in(23, 8)},
		{"2.875", Inches, in(23, 8)},
		{"2 14/16", Inches, in(23, 8)},
		{`12 1/2"`, Inches, in(25, 2)},
		{"12 1/2″", Inches, in(25, 2)},
		{"12½”", Centimetres, in(25, 2)},
		{"12 1/2''", Inches, in(25, 2)},
		{"12.5 in", Centimetres, in(25, 2)},
		{"12.5in", Centimetres, in(25, 2)},
		{"12.5 In.", Centimetres, in(25, 2)},
		{"1 inch", Centimetres, Inch},
		{"3 inches", Centimetres, 3 * Inch},
		{"2⅓", Inches, in(7, 3)},
		{"2 ⅔", Inches, in(8, 3)},
		{"3⅛", Inches, in(25, 8)},
		{"3⅜", Inches, in(27, 8)},
		{"3⅝", Inches, in(29, 8)},
		{"3⅞", Inches, in(31, 8)},
		{"3¼", Inches, in(13, 4)},
		{"3¾", Inches, in(15, 4)},
		{"1⅙", Inches, in(7, 6)},
		{"5/64", Inches, in(5, 64)},
		{"7/24", Inches, in(7, 24)},
		{"31.75 cm", Inches, in(25, 2)},
		{"31.75", Centimetres, in(25, 2)},
		{"317.5 mm", Inches, in(25, 2)},
		{"317.5MM", Inches, in(25, 2)},
		{"0.1 mm", Inches, mm(1)},
		{"6 1/2", Centimetres, mm(650)},
		{"1 1/8 yd", Inches, 81 * Inch / 2},
		{"1⅛ yards", Centimetres, 81 * Inch / 2},
		{"1/3 yd", Inches, 12 * Inch},
		{"0.5 m", Inches, Metre / 2},
		{"10000 yd", Inches, MaxLength},
	} {
		got, err := ParseLength(test.text, test.bare)
		if err != nil || got != test.want {
			t.Errorf("ParseLength(%q, %v) = %v, %v, want %v", test.text, test.bare, got.Exact(), err, test.want.Exact())
		}
	}
}

func TestParseLengthErrors(t *testing.T) {
	for _, test := range []struct {
		text string
		kind error
		says string
	}{
		{"", ErrNotALength, "write it like 12 1/2"},
		{"   ", ErrNotALength, "write it like 12 1/2"},
		{"12 1/x", ErrNotALength, `("12 1/x"), write it like 12 1/2, 12.5 or 31.75 cm`},
		{"abc", ErrNotALength, `("abc")`},
		{"in", ErrNotALength, `("in")`},
		{"12 1/0", ErrNotALength, "not over 0"},
		{"27/8", ErrNotALength, "as in 2 7/8"},
		{"2 8/8", ErrNotALength, "as in 2 7/8"},
		{"12 1 1/2", ErrNotALength, "write it like"},
		{"½2", ErrNotALength, "write it like"},
		{"½½", ErrNotALength, "write it like"},
		{"1.2.3", ErrNotALength, "write it like"},
		{"12.", ErrNotALength, "write it like"},
		{"1e3", ErrNotALength, "write it like"},
		{"0x10", ErrNotALength, "write it like"},
		{"1_000", ErrNotALength, "write it like"},
		{"٣", ErrNotALength, "write it like"},
		{"NaN", ErrNotALength, "write it like"},
		{"12 ft", ErrNotALength, "write the unit as in, cm, mm, m or yd"},
		{"12 in cm", ErrNotALength, "write it like"},
		{"12 1/2 \xff", ErrNotALength, "write it like"},
		{strings.Repeat("1", 65), ErrNotALength, "1111…"},
		{"12,5", ErrComma, `("12,5"), write a point for decimals, as in 12.5`},
		{"12,5 cm", ErrComma, "write a point"},
		{"1,000", ErrComma, "nothing between thousands"},
		{"-3", ErrSign, "leave out the sign"},
		{"+3", ErrSign, "leave out the sign"},
		{"−3 1/2", ErrSign, "leave out the sign"},
		{"-0", ErrSign, "leave out the sign"},
		{"1/128", ErrTooFine, "the next length up is 1/64 in"},
		{"12 1/128", ErrTooFine, "the next length up is 12 1/64 in"},
		{"12.3", ErrTooFine, "the next length up is 12 5/16 in"},
		{"2 1/5", ErrTooFine, "the next length up is 2 13/64 in"},
		{"2.33", ErrTooFine, "the next length up is 2 1/3 in"},
		{"1.3 yd", ErrTooFine, "the next length up is 46 13/16 in"},
		{"3.333 cm", ErrTooFine, "the next length up is 3.34 cm"},
		{"1/3 cm", ErrTooFine, "the next length up is 0.34 cm"},
		{"0.05 mm", ErrTooFine, "the next length up is 0.01 cm"},
		{"9999.99999999999999999999999999999 yd", ErrTooFine, "the next length up is 360000 in"},
		{"10000.25 yd", ErrTooLong, "write a shorter one"},
		{"360001", ErrTooLong, "write a shorter one"},
		{"999999999999999999999999999999", ErrTooLong, "write a shorter one"},
	} {
		got, err := ParseLength(test.text, Inches)
		if !errors.Is(err, test.kind) || got != 0 {
			t.Errorf("ParseLength(%q) = %v, %v, want the error %q", test.text, got, err, test.kind)
			continue
		}
		if !strings.Contains(err.Error(), test.says) {
			t.Errorf("ParseLength(%q) says %q, want %q in it", test.text, err, test.says)
		}
	}
}

func TestParseSize(t *testing.T) {
	for _, test := range []struct {
		text          string
		bare          Unit
		width, height Length
	}{
		{"2 7/8", Inches, in(23, 8), in(23, 8)},
		{"2 1/2 x 4 1/2", Inches, in(5, 2), in(9, 2)},
		{"2½x4½", Inches, in(5, 2), in(9, 2)},
		{"2 1/2 X 4 1/2", Inches, in(5, 2), in(9, 2)},
		{"2 1/2×4 1/2", Inches, in(5, 2), in(9, 2)},
		{"2 1/2 * 4 1/2", Inches, in(5, 2), in(9, 2)},
		{"2 1/2 by 4 1/2", Inches, in(5, 2), in(9, 2)},
		{`2 1/2" x 4 1/2"`, Inches, in(5, 2), in(9, 2)},
		{`2 1/2" by 10 cm`, Inches, in(5, 2), mm(1000)},
		{"5 x 10 cm", Inches, mm(500), mm(1000)},
		{"5 x 10 mm", Inches, mm(50), mm(100)},
		{"5 x 10 in", Centimetres, in(5, 1), in(10, 1)},
		{"1 yd x 2 yd", Inches, 36 * Inch, 72 * Inch},
		{"6.5 x 60.5", Centimetres, mm(650), mm(6050)},
		{"0 x 1", Inches, 0, Inch},
	} {
		width, height, err := ParseSize(test.text, test.bare)
		if err != nil || width != test.width || height != test.height {
			t.Errorf("ParseSize(%q, %v) = %v, %v, %v, want %v, %v", test.text, test.bare, width, height, err, test.width, test.height)
		}
	}
	for _, test := range []struct {
		text string
		kind error
		says string
	}{
		{"", ErrNotALength, "write it like"},
		{"12 1/x", ErrNotALength, `("12 1/x")`},
		{"2 1/2 x 4 1/x", ErrNotALength, `("4 1/x")`},
		{"2 1/2 x", ErrNotASize, `("2 1/2 x"), write both sides`},
		{"x 2 1/2", ErrNotASize, `("x 2 1/2"), write both sides`},
		{"2 x 3 x 4", ErrNotASize, "write width x height"},
		{"2 1/2 in x 4", ErrNotASize, "write the unit behind both"},
		{"2 x -3", ErrSign, `("-3")`},
		{"2 x 1/128", ErrTooFine, `("1/128")`},
		{"1/128 x 2", ErrTooFine, `("1/128")`},
		{"12,5 x 3", ErrComma, `("12,5")`},
		{"5 x 1 yd", ErrNotASize, "write the unit behind both numbers"},
		{"5 x 1 m", ErrNotASize, "write the unit behind both numbers"},
		{"1 yd x 5", ErrNotASize, "write the unit behind both numbers"},
		{"WOF x 2 1/2", ErrNotASize, "write the width in numbers"},
	} {
		width, height, err := ParseSize(test.text, Inches)
		if !errors.Is(err, test.kind) || width != 0 || height != 0 {
			t.Errorf("ParseSize(%q) = %v, %v, %v, want the error %q", test.text, width, height, err, test.kind)
		} else if !strings.Contains(err.Error(), test.says) {
			t.Errorf("ParseSize(%q) says %q, want %q in it", test.text, err, test.says)
		}
	}
}

func TestFormatLength(t *testing.T) {
	for _, test := range []struct {
		length                     Length
		inches, centimetres, exact string
		decimalIn, decimalCM       string
	}{
		{0, "0", "0", "0 in", "0", "0"},
		{in(25, 2), "12 1/2", "31.75", "12 1/2 in", "12.5", "31.75"},
		{in(3, 8), "3/8", "0.9525", "3/8 in", "0.375", "0.9525"},
		{in(42, 1), "42", "106.68", "42 in", "42", "106.68"},
		{in(7, 3), "2 1/3", "5.9267", "2 1/3 in", "2.333333", "5.926667"},
		{in(5, 24), "5/24", "0.5292", "5/24 in", "0.208333", "0.529167"},
		{in(1, 64), "1/64", "0.0397", "1/64 in", "0.015625", "0.039688"}, // 0.0396875
		{mm(1070), "4.2126", "10.7", "10.7 cm", "4.212598", "10.7"},      // 4.21259842…
		{mm(1), "0.004", "0.01", "0.01 cm", "0.003937", "0.01"},          // 0.00393700…
		{mm(254), "1", "2.54", "1 in", "1", "2.54"},
		{-in(25, 2), "-12 1/2", "-31.75", "-12 1/2 in", "-12.5", "-31.75"},
		{1, "0.0001", "0.0002", "1/24384 in", "0.000041", "0.000104"},
		{Inch - 1, "1", "2.5399", "24383/24384 in", "0.999959", "2.539896"},
		{math.MaxInt64, "378255086813270.0053", "960767920505705.8133", "378255086813270 1/192 in", "378255086813270.005208", "960767920505705.813229"},
	} {
		for _, form := range []struct{ name, got, want string }{
			{"Format(Inches)", test.length.Format(Inches), test.inches},
			{"Format(Centimetres)", test.length.Format(Centimetres), test.centimetres},
			{"Exact()", test.length.Exact(), test.exact},
			{"Decimal(Inches)", test.length.Decimal(Inches), test.decimalIn},
			{"Decimal(Centimetres)", test.length.Decimal(Centimetres), test.decimalCM},
			{"FormatWithUnit", test.length.FormatWithUnit(Centimetres), test.centimetres + " cm"},
			{"String()", test.length.String(), test.inches + `"`},
		} {
			if form.got != form.want {
				t.Errorf("%d ticks: %s = %q, want %q", int64(test.length), form.name, form.got, form.want)
			}
		}
	}
}

// anyMark draws a length that ParseLength can give.
func anyMark(most Length) *rapid.Generator[Length] {
	return rapid.Custom(func(t *rapid.T) Length {
		mark := rapid.SampledFrom([]Length{inch64th, inch24th, tenthOfMil, Inch / 8}).Draw(t, "mark")
		return mark * Length(rapid.Int64Range(0, int64(most/mark)).Draw(t, "marks"))
	})
}

func TestExactReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := anyMark(MaxLength).Draw(t, "length")
		bare := rapid.SampledFrom([]Unit{Inches, Centimetres}).Draw(t, "bare")
		if got, err := ParseLength(want.Exact(), bare); err != nil || got != want {
			t.Fatalf("ParseLength(%q) = %d, %v, want %d ticks", want.Exact(), int64(got), err, int64(want))
		}
	})
}

// value is the number that a text of Format stands for.
func value(t *rapid.T, text string) *big.Rat {
	sum, sign := new(big.Rat), int64(1)
	for _, part := range strings.Fields(text) {
		n, ok := new(big.Rat).SetString(part)
		if !ok {
			t.Fatalf("%q is no number", text)
		}
		if n.Sign() < 0 {
			sign, n = -1, n.Neg(n)
		}
		sum.Add(sum, n)
	}
	return sum.Mul(sum, new(big.Rat).SetInt64(sign))
}

func TestFormatNeverShort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Min(0).Draw(t, "ticks"))
		u := rapid.SampledFrom([]Unit{Inches, Centimetres}).Draw(t, "unit")
		exact := big.NewRat(int64(l), int64(u.measure().length))
		over := new(big.Rat).Sub(value(t, l.Format(u)), exact)
		if over.Sign() < 0 || over.Cmp(big.NewRat(1, 10_000)) >= 0 {
			t.Fatalf("%q is %v more than %v %v", l.Format(u), over, exact, u)
		}
	})
}

func TestDecimalIsNearestJSONNumber(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64().Draw(t, "ticks"))
		u := rapid.SampledFrom([]Unit{Inches, Centimetres}).Draw(t, "unit")
		text := l.Decimal(u)
		var number json.Number
		if err := json.Unmarshal([]byte(text), &number); err != nil || string(number) != text {
			t.Fatalf("%q is no JSON number: %v", text, err)
		}
		off := new(big.Rat).Sub(value(t, text), big.NewRat(int64(l), int64(u.measure().length)))
		if off.Abs(off).Cmp(big.NewRat(1, 2_000_000)) > 0 {
			t.Fatalf("%d ticks are not %s %v", int64(l), text, u)
		}
	})
}

func TestCeilTo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Length(rapid.Int64Range(-1e15, 1e15).Draw(t, "length"))
		step := Length(rapid.Int64Range(1, 1e12).Draw(t, "step"))
		if up := l.CeilTo(step); up < l || up-l >= step || !up.OnMark(step) {
			t.Fatalf("%d up to %d is %d", l, step, up)
		}
	})
	if got := Length(7).CeilTo(0); got != 7 {
		t.Errorf("7 up to no step is %d", got)
	}
	if Length(0).OnMark(0) || Length(8).OnMark(-4) || !Length(8).OnMark(4) || Length(9).OnMark(4) {
		t.Error("OnMark is wrong")
	}
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{
		"", "0", "12 1/2", "12-1/2", "12½", "12.5", `12 1/2"`, "31.75 cm", "317.5 mm", "1 1/8 yd", "0.5 m",
		"12,5", "-3", "1/128", "10000.25 yd", "12 1/x", "27/8", "1/0", "½½", "\xff", "1e9", "0/7", "2 1/2 x 4 1/2", "5 x 10 cm",
	} {
		f.Add(seed, false)
		f.Add(seed, true)
	}
	f.Fuzz(func(t *testing.T, text string, metric bool) {
		unit := Inches
		if metric {
			unit = Centimetres
		}
		l, err := ParseLength(text, unit)
		if err != nil {
			var wrong *ValueError
			if l != 0 || !errors.As(err, &wrong) || err.Error() == "" {
				t.Fatalf("ParseLength(%q) = %d and the error %v", text, l, err)
			}
		} else {
			back, err := ParseLength(l.Exact(), unit)
			if err != nil || back != l || !l.writable() {
				t.Fatalf("ParseLength(%q) = %d, but %q is %d, %v", text, l, l.Exact(), back, err)
			}
		}
		if w, h, err := ParseSize(text, unit); err != nil && (w != 0 || h != 0) {
			t.Fatalf("ParseSize(%q) = %d, %d and the error %v", text, w, h, err)
		}
		if _, err := ParseShopCut(text); err != nil && err.Error() == "" {
			t.Fatalf("ParseShopCut(%q) has an empty error", text)
		}
	})
}

func TestWrittenReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]Unit{Inches, Centimetres}).Draw(t, "unit")
		width, height := anyMark(MaxSide).Draw(t, "width"), anyMark(MaxSide).Draw(t, "height")
		if got, err := ParseLength(width.Written(u), u); err != nil || got != width {
			t.Fatalf("ParseLength(%q, %v) = %d, %v, want %d ticks", width.Written(u), u, int64(got), err, int64(width))
		}
		text := WrittenSize(width, height, u)
		if w, h, err := ParseSize(text, u); err != nil || w != width || h != height {
			t.Fatalf("ParseSize(%q, %v) = %d, %d, %v, want %d, %d ticks", text, u, int64(w), int64(h), err, int64(width), int64(height))
		}
	})
}
