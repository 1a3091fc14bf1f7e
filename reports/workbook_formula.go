package reports

import (
	"fmt"
	"strconv"
	"strings"

	"crossgrain/model"
)

// The formulas below are those of package yardage, in the words of a
// spreadsheet:
//
//	need = length / (1 - shrinkage) + straighten
//	buy  = need, rounded up to the next step of the shop's cut
//
// A spreadsheet computes in binary fractions, in which a sum that is a whole
// number of steps may come out a hair above it. Quotients are therefore
// rounded to roundedTo decimals before they are rounded up: much finer than a
// tick, of which the shortest above a step of 5 yd is 2e-7 of it, and coarser
// than the error of any sum of strips.
const roundedTo = 11

// stepsFormula is how many steps a length is, rounded up.
func stepsFormula(length, step string) string {
	return fmt.Sprintf("ROUNDUP(ROUND((%s)/%s,%d),0)", length, step, roundedTo)
}

// bracketed is a formula that may be multiplied or divided.
func bracketed(formula string) string {
	if strings.Contains(formula, "+") {
		return "(" + formula + ")"
	}
	return formula
}

// needFormula is the cloth that strips of a length ask for.
func (c clothFigures) needFormula(length string) string {
	return fmt.Sprintf("%s/(1-%s)+%s", bracketed(length), c.name(shrinkage), c.name(straighten))
}

// buyFormula is what to buy for strips of a length, in the unit of sale.
func (c clothFigures) buyFormula(length string, u model.Unit) string {
	step := c.name(soldBy)
	if factor := literal(saleUnits[c.unit], u); factor != "1" {
		step = fmt.Sprintf("(%s*%s)", step, factor)
	}
	return fmt.Sprintf("IF(%s=0,0,%s*%s)", length, stepsFormula(c.needFormula(length), step), c.name(soldBy))
}

// costFormula is what a purchase, in the unit of sale, costs; an empty text
// where there is no price.
func (c clothFigures) costFormula(bought string) string {
	if parts := saleUnits[c.priceUnit()] / saleUnits[c.unit]; parts > 1 {
		bought = fmt.Sprintf("%s/%d", bought, parts)
	}
	return fmt.Sprintf(`IF(%s="","",ROUND(%s*%[1]s,2))`, c.name(price), bought)
}

// priceUnit is the unit that the price is for.
func (c clothFigures) priceUnit() model.CutUnit { return model.ShopCut{Unit: c.unit}.PriceUnit() }

// saleUnits are the lengths of the units of sale.
var saleUnits = map[model.CutUnit]model.Length{
	model.Yards: model.Yard, model.Metres: model.Metre,
	model.CentimetresOfCloth: model.Centimetre, model.InchesOfCloth: model.Inch,
}

// literal is a length in the quilt's unit, as a formula has it: a number, or a
// quotient where it has no end.
func literal(l model.Length, u model.Unit) string {
	unit := model.Inch
	if u == model.Centimetres {
		unit = model.Centimetre
	}
	if n := multiple(l, unit); l.OnMark(unit) || l*1_000_000%unit == 0 {
		return strconv.FormatFloat(n, 'f', -1, 64)
	}
	return fmt.Sprintf("(%d/%d)", l, unit)
}
