package block

import "crossgrain/model"

// Ease is how much larger than need be the pieces of a unit are cut, to be
// trimmed once they are sewn. It is added to the width and to the height of
// each piece that is trimmed, after rounding. The zero value is none.
type Ease struct {
	Kind EaseKind
	Own  model.Length // for OwnEase; 0 or more
}

// EaseKind says where the length of an ease comes from.
type EaseKind uint8

// The kinds of ease.
const (
	NoEase    EaseKind = iota
	TradeEase          // what is usual for the unit, named in its docstring
	OwnEase            // a length of the maker's own
)

// MaxEase is the most ease that a unit may have.
const MaxEase = 6 * model.Inch

// length is the ease on the ruler's mark, of a unit for which trade is usual.
func (e Ease) length(r Rules, trade model.Length) model.Length {
	switch e.Kind {
	case TradeEase:
		return trade.CeilTo(r.Ruler)
	case OwnEase:
		return e.Own.CeilTo(r.Ruler)
	}
	return 0
}

// ParseEase reads none, trade, or a length. The error is that of
// [model.ParseLength].
func ParseEase(text string, bare model.Unit) (Ease, error) {
	switch text {
	case "none":
		return Ease{}, nil
	case "trade":
		return Ease{Kind: TradeEase}, nil
	}
	own, err := model.ParseLength(text, bare)
	if err != nil {
		return Ease{}, err
	}
	return Ease{Kind: OwnEase, Own: own}, nil
}

// Written is the ease as a quilt file in the unit u has it.
func (e Ease) Written(u model.Unit) string {
	switch e.Kind {
	case TradeEase:
		return "trade"
	case OwnEase:
		return e.Own.Written(u)
	}
	return "none"
}
