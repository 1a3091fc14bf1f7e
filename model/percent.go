package model

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Percent is a share in hundredths of one percent: 2.5 % is 250.
type Percent int64

// MaxPercent is the largest share that [ParsePercent] reads. No cloth shrinks
// by half.
const MaxPercent Percent = 50_00

// ErrNotAPercent is the kind of text that is not a [Percent].
var ErrNotAPercent = errors.New("not a share from 0% to 50%")

var percentForm = regexp.MustCompile(`^(\d{1,9})(?:\.(\d{1,2}))?\s*%$`)

// ParsePercent reads a share from 0% to 50% with two decimals at most, as in
// 2% or 2.5 %. Only 0 may stand without its sign: 0.02 could mean either. The
// error is a [*ValueError] of the kind [ErrNotAPercent].
func ParsePercent(text string) (Percent, error) {
	trimmed := strings.TrimSpace(text)
	if trimmed == "0" {
		return 0, nil
	}
	parts := percentForm.FindStringSubmatch(trimmed)
	if parts == nil {
		return 0, &ValueError{Value: text, Err: ErrNotAPercent, Hint: "write it like 2% or 2.5%"}
	}
	hundredths, err := strconv.ParseInt(parts[1]+(parts[2] + "00")[:2], 10, 64)
	if err != nil || Percent(hundredths) > MaxPercent {
		return 0, &ValueError{Value: text, Err: ErrNotAPercent, Hint: "write a smaller share"}
	}
	return Percent(hundredths), nil
}

// String is the share with its sign, as in 2.5%.
func (p Percent) String() string {
	text := strconv.FormatInt(int64(p/100), 10)
	if rest := p % 100; rest != 0 {
		text = strings.TrimRight(fmt.Sprintf("%s.%02d", text, rest), "0")
	}
	return text + "%"
}

// Grow is the length to buy so that l is left when the share p is lost:
// l/(1-p), rounded up to the next tick. The share must lie between 0 and
// [MaxPercent]; l is returned as it is for any other.
func (p Percent) Grow(l Length) Length {
	const whole = 100_00
	if p <= 0 || p > MaxPercent || l <= 0 {
		return l
	}
	left := Length(whole - p)
	// Whole multiples first, so that the product cannot overflow.
	return l/left*whole + (l%left*whole+left-1)/left
}
