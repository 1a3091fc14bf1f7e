package model

import "errors"

// ShopCut is the step that a shop sells a fabric in, such as 1/8 yd or 10 cm.
type ShopCut struct {
	Step Length
	Unit CutUnit // the unit that purchases are written in
}

// CutUnit is a unit in which lengths of fabric are sold.
type CutUnit uint8

// The units of sale.
const (
	Yards CutUnit = iota
	Metres
	CentimetresOfCloth
	InchesOfCloth
)

// cutUnits are the units of sale as they are written.
var cutUnits = [...]struct {
	name   string
	length Length
}{
	Yards:              {"yd", Yard},
	Metres:             {"m", Metre},
	CentimetresOfCloth: {"cm", Centimetre},
	InchesOfCloth:      {"in", Inch},
}

// ErrNotAShopCut is the kind of text that is not a [ShopCut], or not a
// [CutUnit].
var ErrNotAShopCut = errors.New("not a length that cloth is sold by")

// String is yd, m, cm or in.
func (u CutUnit) String() string { return cutUnits[u.known()].name }

// known is u, or Yards for a value that is no unit of sale.
func (u CutUnit) known() CutUnit {
	if int(u) < len(cutUnits) {
		return u
	}
	return Yards
}

// ParseCutUnit reads yd, m, cm or in. The error is a [*ValueError] of the kind
// [ErrNotAShopCut].
func ParseCutUnit(text string) (CutUnit, error) {
	for u, c := range cutUnits {
		if text == c.name {
			return CutUnit(u), nil
		}
	}
	return 0, &ValueError{Value: text, Err: ErrNotAShopCut, Hint: "write yd, m, cm or in"}
}

// ParseShopCut reads a step of sale with its unit: 1/8 yd, 10 cm, 0.25 m,
// 1 in. The step may be zero, which [Quilt.CutList] does not accept. The
// error is a [*ValueError] of the kind [ErrNotAShopCut], or one of those of
// [ParseLength].
func ParseShopCut(text string) (ShopCut, error) {
	m, err := readMeasure(text)
	if err != nil && !errors.Is(err, ErrNotALength) {
		return ShopCut{}, err
	}
	if err != nil || m.unit == nil || !m.unit.sold {
		return ShopCut{}, &ValueError{Value: text, Err: ErrNotAShopCut, Hint: "write it with yd, m, cm or in, as in 1/8 yd or 10 cm"}
	}
	step, err := m.length(m.unit)
	if err != nil {
		return ShopCut{}, err
	}
	return ShopCut{Step: step, Unit: m.unit.sale}, nil
}

// Ceil is the least whole number of steps that is at least l. A cut without a
// step sells any length.
func (c ShopCut) Ceil(l Length) Length { return l.CeilTo(c.Step) }

// Format writes a length of cloth in the unit of sale: 1 3/4 yd, 1.6 m,
// 160 cm, 63 in. A length that is no simple fraction of a yard, or that does
// not end within 4 decimal places, is a decimal rounded up at the fourth.
func (c ShopCut) Format(l Length) string {
	// A 72nd of a yard is half an inch: no finer fraction of it is spoken.
	const finest = Yard / 72
	unit := c.Unit.known()
	switch {
	case unit == Yards && (l.OnMark(finest) || l.OnMark(Yard/64)):
		return l.fraction(Yard) + " yd"
	case unit == InchesOfCloth:
		return l.FormatWithUnit(Inches)
	default:
		return l.decimalUp(cutUnits[unit].length) + " " + unit.String()
	}
}

// String is the step, as in 1/8 yd.
func (c ShopCut) String() string { return c.Format(c.Step) }
