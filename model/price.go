package model

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// Money is an amount in hundredths of whatever currency the maker pays in.
type Money int64

// MaxPrice is the highest price that [ParsePrice] reads.
const MaxPrice Money = 1_000_000_00

// ErrNotAPrice is the kind of text that is not a price.
var ErrNotAPrice = errors.New("not a price")

var priceForm = regexp.MustCompile(`^(\d{1,9})(?:\.(\d{1,2}))?$`)

// ParsePrice reads a price with two decimals at most, without a currency:
// 12, 12.5, 12.50. The error is a [*ValueError] of the kind [ErrNotAPrice].
func ParsePrice(text string) (Money, error) {
	parts := priceForm.FindStringSubmatch(strings.TrimSpace(text))
	if parts == nil {
		return 0, &ValueError{Value: text, Err: ErrNotAPrice, Hint: "write a number alone, as in 12 or 12.50"}
	}
	amount, err := strconv.ParseInt(parts[1]+(parts[2] + "00")[:2], 10, 64)
	if err != nil || Money(amount) > MaxPrice {
		return 0, &ValueError{Value: text, Err: ErrNotAPrice, Hint: "write at most " + MaxPrice.String()}
	}
	return Money(amount), nil
}

// String is the amount with two decimals, as in 12.50.
func (m Money) String() string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	return fmt.Sprintf("%s%d.%02d", sign, m/100, m%100)
}

// PriceUnit is the unit that a price is for: the yard for cloth sold in yards
// or inches, the metre for cloth sold in metres or centimetres.
func (c ShopCut) PriceUnit() CutUnit {
	switch c.Unit {
	case Metres, CentimetresOfCloth:
		return Metres
	}
	return Yards
}

// Cost is what a length of cloth costs at a price for one [ShopCut.PriceUnit],
// rounded to the nearest hundredth, halves up.
func (c ShopCut) Cost(price Money, l Length) Money {
	unit := cutUnits[c.PriceUnit()].length
	// Whole units first, so that the product cannot overflow.
	whole, rest := Money(l/unit)*price, Money(l%unit)*price
	return whole + (2*rest+Money(unit))/Money(2*unit)
}
