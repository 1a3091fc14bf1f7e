package model

import (
	"fmt"
	"strconv"
	"strings"
)

// Format writes l as a number in the unit u, without the unit: in inches
// fractions, 12 1/2, in lowest terms; in centimetres decimals, 31.75.
//
// A length that is on no fraction of an inch that [ParseLength] reads, or on
// no hundredth of a centimetre, is written as a decimal that is exact if it
// ends within 4 places, and otherwise rounded up at the fourth. Use
// [Length.Exact] to write a length so that it can be read back.
func (l Length) Format(u Unit) string {
	if u == Centimetres {
		return l.decimalUp(Centimetre)
	}
	if l.onInchMark() {
		return l.fraction(Inch)
	}
	return l.decimalUp(Inch)
}

// FormatWithUnit is [Length.Format] with the unit behind: 12 1/2 in, 31.75 cm.
func (l Length) FormatWithUnit(u Unit) string { return l.Format(u) + " " + u.String() }

// String writes l in inches, as in 12 1/2".
func (l Length) String() string { return l.Format(Inches) + `"` }

// Exact writes l with its unit so that [ParseLength] reads the same length
// back, for every length that ParseLength can give. A length between those is
// written as a fraction of an inch that ParseLength finds too fine.
func (l Length) Exact() string {
	return l.exactIn(l.onInchMark() || !l.OnMark(tenthOfMil))
}

// exactIn is l in inches or in centimetres, whichever it is said to be read in.
func (l Length) exactIn(inches bool) string {
	if inches {
		return l.fraction(Inch) + " in"
	}
	return l.decimalUp(Centimetre) + " cm"
}

// Decimal writes l in the unit u as a JSON number: exactly if it ends within
// 6 places, otherwise rounded to 6 places, halves up.
func (l Length) Decimal(u Unit) string {
	const places = 6
	return l.decimal(u.measure().length, places, func(rest, unit Length) bool { return 2*rest >= unit })
}

// decimalUp writes l in multiples of the unit with 4 places at most, rounded
// up.
func (l Length) decimalUp(unit Length) string {
	const places = 4
	return l.decimal(unit, places, func(rest, _ Length) bool { return rest > 0 })
}

// decimal writes l in multiples of the unit. After the last place, up says of
// the rest, in parts of the unit, whether it counts as one more. The sign of
// a negative length is set before its absolute value, which is rounded alike.
func (l Length) decimal(unit Length, places int, up func(rest, unit Length) bool) string {
	sign, whole, rest := l.split(unit)
	scale := uint64(1)
	for range places {
		scale *= 10
	}
	// rest < unit <= Metre, so the product is far below the largest integer.
	scaled := uint64(rest) * scale
	digits := scaled / uint64(unit)
	if up(Length(scaled%uint64(unit)), unit) {
		digits++
	}
	if digits == scale {
		whole, digits = whole+1, 0
	}
	if whole == 0 && digits == 0 {
		return "0"
	}
	text := sign + strconv.FormatUint(whole, 10)
	if digits == 0 {
		return text
	}
	return strings.TrimRight(fmt.Sprintf("%s.%0*d", text, places, digits), "0")
}

// fraction writes l in multiples of the unit: 12, 1/2 or 12 1/2.
func (l Length) fraction(unit Length) string {
	sign, whole, rest := l.split(unit)
	if rest == 0 {
		return sign + strconv.FormatUint(whole, 10)
	}
	common := gcd(rest, unit)
	part := fmt.Sprintf("%d/%d", rest/common, unit/common)
	if whole == 0 {
		return sign + part
	}
	return fmt.Sprintf("%s%d %s", sign, whole, part)
}

// split gives the sign of l, and its absolute value as whole units and a rest.
func (l Length) split(unit Length) (sign string, whole uint64, rest Length) {
	size := uint64(l)
	if l < 0 {
		sign, size = "-", -size
	}
	return sign, size / uint64(unit), Length(size % uint64(unit))
}

// gcd is the greatest common divisor of two lengths, the coarsest mark that
// both are on.
func gcd(a, b Length) Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// FormatSize writes a cut size in the unit u: 2 1/2 x 4 1/2, or one number for
// a square.
func FormatSize(width, height Length, u Unit) string {
	if width == height {
		return width.Format(u)
	}
	return width.Format(u) + " x " + height.Format(u)
}

// Written writes l as a quilt file in the unit u has it: as a bare number if
// that reads back to l, and as [Length.Exact] otherwise.
func (l Length) Written(u Unit) string {
	text := l.Format(u)
	if back, err := ParseLength(text, u); err != nil || back != l {
		return l.Exact()
	}
	return text
}

// WrittenSize writes a cut size as a quilt file in the unit u has it, so that
// [ParseSize] reads it back.
func WrittenSize(width, height Length, u Unit) string {
	first, second := width.Written(u), height.Written(u)
	if first != width.Format(u) || second != height.Format(u) {
		first, second = width.Exact(), height.Exact()
	}
	if width == height {
		return first
	}
	return first + " x " + second
}
