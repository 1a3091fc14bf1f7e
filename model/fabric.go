package model

// Fabric is one cloth of a quilt, as it is bought.
type Fabric struct {
	ID   string // key in the quilt file, unique
	Name string // what the maker calls it; may be empty, else unique
	// OneWay marks a print with an up: its pieces are never turned.
	OneWay bool
	// UsableWidths are the widths between the selvages to plan for. A quilt
	// may give them in any order, a cut list has them ascending.
	UsableWidths []Length
	SoldBy       ShopCut
	// Straighten is lost once in squaring up one cut of cloth.
	Straighten Length
	// Shrinkage of the length in the wash, before cutting.
	Shrinkage Percent
	// Price is what one [ShopCut.PriceUnit] of it costs; 0 if it is not known.
	Price Money
}

// DefaultFabric is a fabric as a quilt file in the unit u has it if it says
// nothing more: planned for 40 and 42 in of usable width and sold by 1/8 yd,
// or for 102 and 107 cm and sold by 10 cm. (Pattern writers assume 40 in or 42
// in of cloth sold as 44 in wide: common practice, no source.)
func DefaultFabric(u Unit) Fabric {
	if u == Centimetres {
		return Fabric{
			UsableWidths: []Length{102 * Centimetre, 107 * Centimetre},
			SoldBy:       ShopCut{Step: 10 * Centimetre, Unit: CentimetresOfCloth},
		}
	}
	return Fabric{
		UsableWidths: []Length{40 * Inch, 42 * Inch},
		SoldBy:       ShopCut{Step: Yard / 8, Unit: Yards},
	}
}

// DefaultRuler is the mark that cut sizes sit on if a quilt file says nothing
// else: 1/8 in, or 0.1 cm in a file in centimetres.
func DefaultRuler(u Unit) Length {
	if u == Centimetres {
		return Millimetre
	}
	return Inch / 8
}
