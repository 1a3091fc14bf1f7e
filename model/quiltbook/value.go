package quiltbook

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// values reads what cells hold.
type values struct {
	unit      model.Unit
	since1904 bool
}

// text is what a cell says, as its maker sees it.
func (v values) text(c cell) (string, error) {
	switch {
	case c.kind == mistake:
		return "", &model.ValueError{Value: c.value, Err: ErrCellError, Hint: "mend the formula, or type what it should give"}
	case c.kind == noResult:
		return "", say(ErrNoResult, "open the file in your spreadsheet program and save it, or type the value")
	case c.kind == date || c.kind == number && c.format == dateFormat:
		return "", v.dateError(c)
	case c.kind == truth && c.value == "0":
		return "FALSE", nil
	case c.kind == truth:
		return "TRUE", nil
	case c.kind == number && c.format == percentFormat:
		if n, err := strconv.ParseFloat(c.value, 64); err == nil {
			return decimal(100*n) + "%", nil
		}
	case c.kind == number:
		if n, err := strconv.ParseFloat(c.value, 64); err == nil {
			return decimal(n), nil
		}
	}
	return c.value, nil
}

// decimal writes a number without an exponent, and without the digits that are
// left over where a fraction is kept in binary.
func decimal(n float64) string {
	const places = 9
	s := strconv.FormatFloat(n, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// bare is the text of a cell that holds no free text: without an apostrophe
// that was meant to keep the spreadsheet from reading it.
func (v values) bare(c cell) (string, error) {
	s, err := v.text(c)
	s = strings.TrimSpace(strings.TrimLeft(s, "'’‘"))
	if err == nil && strings.HasPrefix(s, "=") {
		err = &model.ValueError{Value: s, Err: ErrNoResult, Hint: "it stands in a cell for texts: type what it should give"}
	}
	return s, err
}

// length reads a length.
func (v values) length(c cell) (model.Length, error) {
	if l, ok := v.number(c); ok {
		return l, nil
	}
	if v.likelyDate(c) {
		return 0, v.dateError(c)
	}
	s, err := v.bare(c)
	if err != nil {
		return 0, err
	}
	return model.ParseLength(s, v.unit)
}

// number is a length that is kept as a number: in binary, so that 2 1/3 and
// 31.75 are near a length, not on it. What is nearer to one than the five
// hundredth part of a tick was meant to be it.
func (v values) number(c cell) (model.Length, bool) {
	if c.kind != number || c.format != plainFormat {
		return 0, false
	}
	n, err := strconv.ParseFloat(c.value, 64)
	unit := model.Inch
	if v.unit == model.Centimetres {
		unit = model.Centimetre
	}
	ticks := n * float64(unit)
	if err != nil || !(ticks >= 0 && ticks <= float64(model.MaxLength)) {
		return 0, false
	}
	const near = 1.0 / 50
	nearest := math.Round(ticks)
	l := model.Length(nearest)
	back, err := model.ParseLength(l.Exact(), v.unit)
	return l, math.Abs(ticks-nearest) <= near && err == nil && back == l && !v.likelyDate(c)
}

// likelyDate reports whether a number without a date's look is one all the
// same: a day of 2000 to 2064 where a length belongs.
func (v values) likelyDate(c cell) bool {
	const first, last = 36_526, 60_000
	n, err := strconv.Atoi(c.value)
	return c.kind == number && err == nil && n >= first && n <= last
}

// size reads width x height, or one length for a square; both says that there
// were two.
func (v values) size(c cell) (width, height model.Length, both bool, err error) {
	if c.kind != text {
		width, err = v.length(c)
		return width, width, false, err
	}
	s, err := v.bare(c)
	if err != nil {
		return 0, 0, false, err
	}
	width, height, err = model.ParseSize(s, v.unit)
	return width, height, twoSides.MatchString(s), err
}

// twoSides finds what parts the sides of a size.
var twoSides = regexp.MustCompile(`(?i)[x×*]|\bby\b`)

// whole reads a whole number.
func (v values) whole(c cell) (int, error) {
	s, err := v.bare(c)
	if err != nil {
		return 0, err
	}
	return quiltfile.WholeNumber(s)
}

// percent reads a share.
func (v values) percent(c cell) (model.Percent, error) {
	s, err := v.bare(c)
	if err != nil {
		return 0, err
	}
	return model.ParsePercent(s)
}

// price reads a price, with or without the sign of a currency.
func (v values) price(c cell) (model.Money, error) {
	s, err := v.bare(c)
	if err != nil {
		return 0, err
	}
	amount, err := model.ParsePrice(strings.TrimFunc(s, func(r rune) bool { return unicode.IsSpace(r) || unicode.Is(unicode.Sc, r) }))
	if e := (*model.ValueError)(nil); errors.As(err, &e) {
		e.Value = s
	}
	return amount, err
}

// shopCut reads a step of sale.
func (v values) shopCut(c cell) (model.ShopCut, error) {
	s, err := v.bare(c)
	if err != nil {
		return model.ShopCut{}, err
	}
	return model.ParseShopCut(s)
}

var (
	// betweenWidths is what may stand between the widths of a list.
	betweenWidths = regexp.MustCompile(`(?i)\s*[,;&+]\s*|\s+(?:and|or)\s+`)
	// decimalComma is a number like 102,5 that is no list of widths.
	decimalComma = regexp.MustCompile(`^\d+,\d$`)
)

// widths reads a list of usable widths. A width that cannot be read is 0; the
// error is that of the first.
func (v values) widths(c cell) ([]model.Length, error) {
	if c.kind != text {
		width, err := v.length(c)
		return []model.Length{width}, err
	}
	s, err := v.bare(c)
	if err != nil {
		return []model.Length{0}, err
	}
	parts := betweenWidths.Split(strings.Trim(s, " ,;[]()"), model.MaxUsableWidths+2)
	if decimalComma.MatchString(s) {
		parts = []string{s}
	}
	var widths []model.Length
	for _, part := range parts {
		width, e := model.ParseLength(part, v.unit)
		if errors.Is(e, model.ErrNotALength) {
			e = &model.ValueError{Value: s, Err: model.ErrNotALength, Hint: "write widths with a comma and a space between them, as in 40, 42"}
		}
		if err == nil {
			err = e
		}
		widths = append(widths, width)
	}
	return widths, err
}

// yesOrNo are the words for yes and no, in lower case.
var yesOrNo = map[string]bool{
	"yes": true, "y": true, "true": true, "on": true, "1": true, "x": true, "✓": true, "✔": true, "☑": true,
	"no": false, "n": false, "false": false, "off": false, "0": false, "-": false, "–": false, "none": false, "☐": false,
}

// yes reads yes or no.
func (v values) yes(c cell) (bool, error) {
	s, err := v.bare(c)
	if err != nil {
		return false, err
	}
	yes, known := yesOrNo[strings.ToLower(s)]
	if !known {
		return false, &model.ValueError{Value: s, Err: quiltfile.ErrNotYesOrNo, Hint: "write yes or no"}
	}
	return yes, nil
}

// choice reads a word: in lower case, by another spelling, or none for one
// that says that there is nothing to say.
func choice[T any](v values, c cell, spellings map[string]string, parse func(string) (T, error)) (T, error) {
	var none T
	s, err := v.bare(c)
	if err != nil {
		return none, err
	}
	word := strings.TrimRight(strings.ToLower(s), ".")
	if other, known := spellings[word]; known {
		word = other
	}
	if word == "" {
		return none, nil
	}
	chosen, err := parse(word)
	if e := (*model.ValueError)(nil); errors.As(err, &e) {
		e.Value = s
	}
	return chosen, err
}

// Other spellings of the words that a cell may have.
var (
	unitSpellings = map[string]string{
		"inch": "in", "inches": "in", `"`: "in", "″": "in", "”": "in", "ins": "in",
		"centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm", "cms": "cm",
	}
	halvingSpellings = map[string]string{
		"1": "once", "2": "twice", "1x": "once", "2x": "twice", "1 x": "once", "2 x": "twice",
		"no": "", "none": "", "not": "", "never": "", "0": "", "false": "", "-": "", "–": "", "n": "",
	}
	grainSpellings = map[string]string{
		"any": "", "none": "", "no": "", "either": "", "-": "", "–": "",
		"crossgrain": "crosswise", "cross": "crosswise", "across": "crosswise",
		"lengthwise grain": "lengthwise", "length": "lengthwise", "along": "lengthwise",
	}
)

// dateError tells of a date where none belongs. A spreadsheet makes dates of
// fractions such as 1/2.
func (v values) dateError(c cell) error {
	shown, typed := c.value, ""
	if day, ok := v.day(c); ok {
		shown, typed = day.Format("2 January 2006"), typedAs(day)
	}
	hint := "the spreadsheet made it of what was typed: type it again with an apostrophe before it, as in '1/2"
	if typed != "" {
		hint = fmt.Sprintf("the spreadsheet made it of what was typed: if that was %s, type '%[1]s, with the apostrophe", typed)
	}
	return &model.ValueError{Value: shown, Err: ErrDate, Hint: hint}
}

// day is the day that a cell holds.
func (v values) day(c cell) (time.Time, bool) {
	if c.kind == date {
		day, err := time.Parse(time.DateOnly, c.value[:min(len(c.value), len(time.DateOnly))])
		return day, err == nil
	}
	const last = 2_958_465 // 31 December 9999
	n, err := strconv.ParseFloat(c.value, 64)
	if err != nil || !(n >= 1 && n <= last) {
		return time.Time{}, false
	}
	// Counted from 1900, there is a 29 February in that year, so that later
	// days are one more than they were.
	first := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	if v.since1904 {
		first = time.Date(1904, time.January, 1, 0, 0, 0, 0, time.UTC)
	}
	return first.AddDate(0, 0, int(n)), true
}

// typedAs guesses the fraction that a spreadsheet made a day of; empty if
// there is no telling. 5/8 gives 8 May or 5 August, by the language: the
// smaller number stood first. 2-1/2 gives a day of the year 2002, and 3/32 the
// first of March 1932.
func typedAs(day time.Time) string {
	y, m, d := day.Year()%100, int(day.Month()), day.Day()
	if d == 1 && (y == 32 || y == 64) {
		return lowest(0, m, y)
	}
	if y <= 16 {
		for _, typed := range []string{lowest(m, d, y), lowest(d, m, y)} {
			if typed != "" {
				return typed
			}
		}
	}
	return lowest(0, min(d, m), max(d, m))
}

// lowest writes a fraction that a ruler has, in lowest terms; empty for others.
func lowest(whole, over, under int) string {
	onRuler := map[int]bool{2: true, 3: true, 4: true, 6: true, 8: true, 12: true, 16: true, 24: true, 32: true, 64: true}
	for n := 2; n <= over; n++ {
		if over%n == 0 && under%n == 0 {
			return ""
		}
	}
	switch {
	case !onRuler[under] || over >= under:
		return ""
	case whole == 0:
		return fmt.Sprintf("%d/%d", over, under)
	}
	return fmt.Sprintf("%d %d/%d", whole, over, under)
}
