package model

import (
	"fmt"
	"strconv"
	"strings"
)

// checkCuts checks every cut, and the number of pieces of all. It returns the
// labels of the cuts.
func (f *Faults) checkCuts(q Quilt) map[string]bool {
	fabrics := make(map[string]Fabric, len(q.Fabrics))
	for _, fabric := range q.Fabrics {
		fabrics[fabric.ID] = fabric
	}
	seen := make(map[string]bool, len(q.Cuts))
	pieces := 0
	for i, c := range q.Cuts {
		at := Fault{Part: CutPart, Index: i, Name: c.Name}
		f.checkLabel(at, FieldName, c.Name, seen)
		f.checkText(at, FieldUse, c.Use, maxTitle)
		fabric, known := fabrics[c.Fabric]
		if !known {
			f.add(at, FieldFabric, q.UnknownFabric(c.Fabric))
		}
		before := pieces
		pieces += f.checkCount(at, c.Count)
		if before <= MaxPieces && pieces > MaxPieces {
			f.add(at, FieldCount, &ValueError{
				Value: strconv.Itoa(c.Count), Err: ErrTooMany,
				Hint: "with it the quilt has more than 100,000 pieces, cut fewer",
			})
		}
		f.checkSize(at, c, q)
		if err := c.standing(q.Unit); err != nil {
			f.add(at, FieldGrain, err)
		} else if err := c.piece(fabric).fits(fabric, q.Unit); err != nil && known {
			f.add(at, FieldSize, err)
		}
	}
	return seen
}

// UnknownFabric is the error for a fabric that the quilt does not have: a
// *ValueError of the kind ErrMissing for no fabric at all, else ErrUnknown.
func (q Quilt) UnknownFabric(id string) error {
	if id == "" {
		return &ValueError{Err: ErrMissing, Hint: "write the fabric that the piece is cut from"}
	}
	const shown = 8
	var ids []string
	for _, fabric := range q.Fabrics {
		if fabric.ID != "" {
			ids = append(ids, fabric.ID)
		}
	}
	if len(ids) > shown {
		ids = append(ids[:shown], "…")
	}
	hint := "add it to the fabrics"
	switch len(ids) {
	case 0:
	case 1:
		hint = "write " + ids[0] + ", or " + hint
	default:
		hint = "write one of " + strings.Join(ids, ", ") + ", or " + hint
	}
	return &ValueError{Value: id, Err: ErrUnknown, Hint: hint}
}

// checkCount checks the count of one cut. It returns the count, and 0 for one
// that is out of range.
func (f *Faults) checkCount(at Fault, count int) int {
	if count >= 1 && count <= MaxPieces {
		return count
	}
	f.add(at, FieldCount, &ValueError{
		Value: strconv.Itoa(count), Err: ErrOutOfRange,
		Hint: "write a whole number from 1 to 100,000",
	})
	return 0
}

// checkSize checks the size of a cut apart from its fabric.
func (f *Faults) checkSize(at Fault, c Cut, q Quilt) {
	size := WrittenSize(c.Width, c.Height, q.Unit)
	if c.Width <= 0 || c.Height <= 0 {
		f.add(at, FieldSize, &ValueError{Value: size, Err: ErrNotPositive, Hint: "write the size that the blade cuts"})
		return
	}
	if c.Width > MaxSide || c.Height > MaxSide {
		f.add(at, FieldSize, &ValueError{Value: size, Err: ErrOutOfRange, Hint: "no side is longer than " + MaxSide.FormatWithUnit(q.Unit)})
	}
	if q.Ruler > 0 && !(c.Width.OnMark(q.Ruler) && c.Height.OnMark(q.Ruler)) {
		f.add(at, FieldSize, &ValueError{Value: size, Err: ErrOffMark, Hint: q.nextMark(c)})
	}
	if c.Halve > HalvedTwice {
		f.add(at, FieldHalve, &ValueError{Err: ErrNotAChoice, Hint: "write once or twice"})
	}
	if c.Halve == HalvedTwice && c.Width != c.Height {
		f.add(at, FieldHalve, &ValueError{Value: size, Err: ErrNotSquare, Hint: "write a square, or halve: once"})
	}
}

// nextMark proposes how to bring a cut onto the ruler's mark: a larger size,
// or the coarsest ruler that has both its own marks and the size's.
func (q Quilt) nextMark(c Cut) string {
	if least := DefaultRuler(q.Unit); min(c.Width, c.Height) < min(q.Ruler, least) {
		return "write the size that the blade cuts, at least " + least.FormatWithUnit(q.Unit)
	}
	hint := "write " + WrittenSize(c.Width.CeilTo(q.Ruler), c.Height.CeilTo(q.Ruler), q.Unit)
	finer := gcd(q.Ruler, gcd(c.Width, c.Height))
	if finer.writable() {
		hint += " or ruler: " + finer.Written(q.Unit)
	}
	metric := func(l Length) bool { return l.OnMark(tenthOfMil) && !l.onInchMark() }
	if q.Unit == Inches && (metric(c.Width) || metric(c.Height)) {
		hint += " or unit: cm"
	}
	return hint
}

// standing checks that the long side of a cut runs as its grain says, in the
// size as it is written.
func (c Cut) standing(u Unit) error {
	wrong := c.Grain == Lengthwise && c.Width > c.Height || c.Grain == Crosswise && c.Width < c.Height
	if c.Grain > Lengthwise {
		return &ValueError{Err: ErrNotAChoice, Hint: "write crosswise or lengthwise"}
	}
	if !wrong {
		return nil
	}
	return &ValueError{
		Value: c.Grain.String(), Err: ErrGrain,
		Hint: fmt.Sprintf("write size: %s (width across the fabric x height along it)", WrittenSize(c.Height, c.Width, u)),
	}
}

// fits checks that a piece fits between the selvages at each usable width of
// its fabric, as it stands or, if it may be turned, on its side.
func (p Piece) fits(f Fabric, u Unit) error {
	across := p.Along
	if p.Turnable {
		across = min(p.Along, p.Across)
	}
	narrowest := MaxUsableWidth
	for _, w := range f.UsableWidths {
		if w >= MinUsableWidth {
			narrowest = min(narrowest, w)
		}
	}
	if across <= narrowest {
		return nil
	}
	width := narrowest.FormatWithUnit(u)
	hint := fmt.Sprintf("the usable width is %s: cut it in parts and join them, or use wider fabric", width)
	if p.Across <= narrowest {
		hint = fmt.Sprintf("the usable width is %s: %s", width, p.otherWay(f, u))
	}
	return &ValueError{Value: WrittenSize(p.Along, p.Across, u), Err: ErrTooWide, Hint: hint}
}

// otherWay proposes how a piece that is too wide as it stands can be cut
// lengthwise.
func (p Piece) otherWay(f Fabric, u Unit) string {
	turned := WrittenSize(p.Across, p.Along, u)
	switch {
	case f.OneWay:
		return fmt.Sprintf("write size: %s if the print may lie on its side, or join two parts", turned)
	case p.Grain == Crosswise:
		return fmt.Sprintf("cut it lengthwise, with size: %s and grain: lengthwise", turned)
	default:
		return fmt.Sprintf("cut it lengthwise, without turn: no or with size: %s", turned)
	}
}
