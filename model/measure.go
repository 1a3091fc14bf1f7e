package model

import (
	"errors"
	"math/big"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The kinds of text that are not a length. Every error of [ParseLength] and
// [ParseSize] wraps one of them.
var (
	ErrNotALength = errors.New("not a length")
	ErrNotASize   = errors.New("not a size")
	ErrComma      = errors.New("comma in a number")
	ErrSign       = errors.New("a length has no sign")
	ErrTooFine    = errors.New("finer than 1/64 in, 1/24 in or 0.1 mm")
	ErrTooLong    = errors.New("longer than 10,000 yd")
)

// What to do about them.
const (
	writeLength = "write it like 12 1/2, 12.5 or 31.75 cm"
	writeUnit   = "write the unit as in, cm, mm, m or yd"
	writePoint  = "write a point for decimals, as in 12.5, and nothing between thousands"
)

// maxText is the longest text, in bytes, that is read as a number with a
// unit. It keeps the arithmetic small whatever the input.
const maxText = 64

// measureUnit is a unit that may stand behind a number.
type measureUnit struct {
	length Length
	inches bool // its multiples are read on an inch ruler
	sale   CutUnit
	sold   bool // cloth is sold by it
}

var (
	inchUnit       = &measureUnit{length: Inch, inches: true, sale: InchesOfCloth, sold: true}
	yardUnit       = &measureUnit{length: Yard, inches: true, sale: Yards, sold: true}
	millimetreUnit = &measureUnit{length: Millimetre}
	centimetreUnit = &measureUnit{length: Centimetre, sale: CentimetresOfCloth, sold: true}
	metreUnit      = &measureUnit{length: Metre, sale: Metres, sold: true}
)

// unitSpellings are the units as they are written, in lower case and without
// a full stop at the end.
var unitSpellings = map[string]*measureUnit{
	`"`: inchUnit, "″": inchUnit, "”": inchUnit, "“": inchUnit, "''": inchUnit, "′′": inchUnit,
	"in": inchUnit, "inch": inchUnit, "inches": inchUnit,
	"yd": yardUnit, "yds": yardUnit, "yard": yardUnit, "yards": yardUnit,
	"mm": millimetreUnit, "cm": centimetreUnit, "m": metreUnit,
}

// vulgarFractions are the fractions that have a character of their own.
var vulgarFractions = map[rune]string{
	'½': "1/2", '⅓': "1/3", '⅔': "2/3", '¼': "1/4", '¾': "3/4",
	'⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6",
	'⅐': "1/7", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8", '⅑': "1/9", '⅒': "1/10",
}

// measure is a number as written, and the unit behind it: nil if there is
// none.
type measure struct {
	text   string
	number *big.Rat
	unit   *measureUnit
}

// numberForm is a whole number, a decimal, or a fraction with or without a
// whole number before it.
var numberForm = regexp.MustCompile(`^(?:(\d+|\d*\.\d+)|(?:(\d+)(?: +|- ?))?(\d+)/(\d+))$`)

var numberWithComma = regexp.MustCompile(`^[\d.]*,[\d.,]*$`)

// readMeasure takes a text apart. The number it returns is not negative.
func readMeasure(text string) (measure, error) {
	if len(text) > maxText || !utf8.ValidString(text) {
		return measure{}, &ValueError{Value: text, Err: ErrNotALength, Hint: writeLength}
	}
	plain := plainCharacters(text)
	if plain == "" {
		return measure{}, &ValueError{Err: ErrNotALength, Hint: "nothing is written: " + writeLength}
	}
	if strings.HasPrefix(plain, "-") || strings.HasPrefix(plain, "+") {
		return measure{}, &ValueError{Value: text, Err: ErrSign, Hint: "leave out the sign"}
	}
	end := strings.LastIndexAny(plain, "0123456789") + 1
	m := measure{text: text}
	if suffix := unitText(plain[end:]); suffix != "" && end > 0 {
		if m.unit = unitSpellings[suffix]; m.unit == nil {
			hint := writeLength
			if strings.IndexFunc(suffix, func(r rune) bool { return !unicode.IsLetter(r) }) < 0 {
				hint = writeUnit
			}
			return measure{}, &ValueError{Value: text, Err: ErrNotALength, Hint: hint}
		}
	}
	number, err := readNumber(plain[:end])
	if err != nil {
		err.Value = text
		return measure{}, err
	}
	m.number = number
	return m, nil
}

// plainCharacters writes a text with ASCII digits, slashes, hyphens and
// spaces, where it has the typesetter's kind.
func plainCharacters(text string) string {
	var b strings.Builder
	for _, r := range text {
		fraction, vulgar := vulgarFractions[r]
		switch {
		case vulgar:
			b.WriteString(" " + fraction + " ")
		case r == '⁄' || r == '∕':
			b.WriteByte('/')
		case r == '‐' || r == '‑' || r == '–' || r == '−':
			b.WriteByte('-')
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		default:
			b.WriteRune(r)
		}
	}
	return strings.TrimSpace(b.String())
}

// unitText is what stands behind a number, in the spelling of unitSpellings.
func unitText(s string) string {
	unit := strings.ToLower(strings.TrimSpace(s))
	if len(unit) > 1 {
		unit = strings.TrimSuffix(unit, ".")
	}
	return unit
}

// readNumber reads a number that has the form of numberForm.
func readNumber(s string) (*big.Rat, *ValueError) {
	parts := numberForm.FindStringSubmatch(s)
	if parts == nil {
		if numberWithComma.MatchString(s) {
			return nil, &ValueError{Err: ErrComma, Hint: writePoint}
		}
		return nil, &ValueError{Err: ErrNotALength, Hint: writeLength}
	}
	decimal, whole, over, under := parts[1], parts[2], parts[3], parts[4]
	if decimal != "" {
		number, ok := new(big.Rat).SetString(decimal)
		if !ok {
			return nil, &ValueError{Err: ErrNotALength, Hint: writeLength}
		}
		return number, nil
	}
	top, _ := new(big.Int).SetString(over, 10)
	bottom, _ := new(big.Int).SetString(under, 10)
	if bottom.Sign() == 0 {
		return nil, &ValueError{Err: ErrNotALength, Hint: "a fraction is not over 0, " + writeLength}
	}
	// 27/8 is more likely 2 7/8 without its space than a fraction above 1,
	// and the two do not cut the same piece.
	if top.Cmp(bottom) >= 0 {
		return nil, &ValueError{Err: ErrNotALength, Hint: "write whole numbers before the fraction, as in 2 7/8"}
	}
	number := new(big.Rat).SetFrac(top, bottom)
	if whole != "" {
		n, _ := new(big.Int).SetString(whole, 10)
		number.Add(number, new(big.Rat).SetInt(n))
	}
	return number, nil
}

// length is m in ticks; bare is the unit of a number without one.
func (m measure) length(bare *measureUnit) (Length, error) {
	unit := m.unit
	if unit == nil {
		unit = bare
	}
	ticks := new(big.Rat).SetInt64(int64(unit.length))
	ticks.Mul(ticks, m.number)
	if ticks.Cmp(new(big.Rat).SetInt64(int64(MaxLength))) > 0 {
		return 0, &ValueError{Value: m.text, Err: ErrTooLong, Hint: "write a shorter one"}
	}
	below := Length(new(big.Int).Quo(ticks.Num(), ticks.Denom()).Int64())
	if ticks.IsInt() && below.writable() {
		return below, nil
	}
	above := below
	if !ticks.IsInt() {
		above++
	}
	next := above.CeilTo(tenthOfMil)
	if unit.inches {
		next = min(above.CeilTo(inch64th), above.CeilTo(inch24th))
	}
	return 0, &ValueError{Value: m.text, Err: ErrTooFine, Hint: "the next length up is " + next.exactIn(unit.inches)}
}

// ParseLength reads a length. A number without a unit is in the unit bare.
//
// It reads whole numbers, decimals with a point, fractions, and whole numbers
// with a fraction after a space or a hyphen: 12, 12.5, 1/2, 12 1/2, 12-1/2,
// 12½. A unit may follow: in, ", ″, ”, yd, mm, cm or m. The length may be
// zero. It has to be a multiple of 1/64 in, of 1/24 in or of 0.1 mm, and at
// most [MaxLength].
//
// The error is a [*ValueError] that wraps [ErrNotALength], [ErrComma],
// [ErrSign], [ErrTooFine] or [ErrTooLong].
func ParseLength(text string, bare Unit) (Length, error) {
	m, err := readMeasure(text)
	if err != nil {
		return 0, err
	}
	return m.length(bare.measure())
}

// sizeMark stands between the sides of a size. It does not follow a slash:
// 12 1/x is a slip in a fraction.
var sizeMark = regexp.MustCompile(`(?i)(?:^|[^/\s])\s*([x×*]|\bby\b)`)

// splitSize parts a size at its marks.
func splitSize(text string) []string {
	var sides []string
	start := 0
	for _, at := range sizeMark.FindAllStringSubmatchIndex(text, 3) {
		sides = append(sides, strings.TrimSpace(text[start:at[2]]))
		start = at[3]
	}
	return append(sides, strings.TrimSpace(text[start:]))
}

// ParseSize reads a cut size: width x height, or one number for a square. The
// sign between may be x, X, ×, * or the word by. The unit in, cm or mm behind the
// second number alone is that of both: 5 x 10 cm is 5 cm x 10 cm. Other units
// stand behind both numbers.
//
// The error is a [*ValueError] that wraps [ErrNotASize] or one of the errors
// of [ParseLength].
func ParseSize(text string, bare Unit) (width, height Length, err error) {
	const hint = "write width x height, as in 2 1/2 x 4 1/2, or one number for a square"
	sides := splitSize(text)
	if len(sides) > 2 {
		return 0, 0, &ValueError{Value: text, Err: ErrNotASize, Hint: hint}
	}
	first, err := readMeasure(sides[0])
	if len(sides) == 1 {
		if err != nil {
			return 0, 0, err
		}
		width, err = first.length(bare.measure())
		return width, width, err
	}
	if err != nil {
		return 0, 0, inSize(text, sides[0], err)
	}
	second, err := readMeasure(sides[1])
	if err != nil {
		return 0, 0, inSize(text, sides[1], err)
	}
	if (first.unit == nil) != (second.unit == nil) && !second.unit.ofBothSides() {
		return 0, 0, &ValueError{Value: text, Err: ErrNotASize, Hint: "write the unit behind both numbers"}
	}
	if first.unit == nil {
		first.unit = second.unit
	}
	if width, err = first.length(bare.measure()); err != nil {
		return 0, 0, err
	}
	if height, err = second.length(bare.measure()); err != nil {
		return 0, 0, err
	}
	return width, height, nil
}

// ofBothSides reports whether a unit behind the second number of a size is
// taken for that of the first. A piece 5 in x 1 yd is likelier than one of 5
// yards, so that a yard or a metre is not.
func (u *measureUnit) ofBothSides() bool {
	return u == inchUnit || u == centimetreUnit || u == millimetreUnit
}

// inSize shows the whole size in the error of a side that has no number.
func inSize(size, side string, err error) error {
	switch {
	case side == "":
		return &ValueError{Value: size, Err: ErrNotASize, Hint: "write both sides, as in 2 1/2 x 4 1/2"}
	case !strings.ContainsAny(plainCharacters(side), "0123456789"):
		return &ValueError{Value: size, Err: ErrNotASize, Hint: "write the width in numbers, as in 40 x 2 1/2"}
	}
	return err
}
