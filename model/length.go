package model

// Length is an exact length in ticks of 1/24384 inch. 1/64 in (381 ticks),
// 1/3 in (8128) and 0.1 mm (96) are all whole numbers of ticks, so sizes
// written in either system add up without rounding. The zero value is no
// length.
type Length int64

// The units of length that quilts are written and fabric is sold in.
// 1 in = 2.54 cm and 1 yd = 0.9144 m exactly (international yard, 1959).
const (
	Inch       Length = 24384
	Yard              = 36 * Inch
	Millimetre Length = 960
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
)

// MaxLength is the longest length that [ParseLength] reads.
const MaxLength = 10_000 * Yard

// The marks that a written length may sit on. The 24ths are the thirds of an
// inch and their halves, quarters and eighths.
const (
	inch64th   = Inch / 64
	inch24th   = Inch / 24
	tenthOfMil = Millimetre / 10
)

// onInchMark reports whether l is written as a fraction of an inch.
func (l Length) onInchMark() bool { return l.OnMark(inch64th) || l.OnMark(inch24th) }

// writable reports whether l is a length that [ParseLength] can give.
func (l Length) writable() bool {
	return l >= 0 && l <= MaxLength && (l.onInchMark() || l.OnMark(tenthOfMil))
}

// OnMark reports whether l is a whole number of steps. Nothing is on a step
// of zero or less.
func (l Length) OnMark(step Length) bool { return step > 0 && l%step == 0 }

// CeilTo rounds l up to a whole number of steps. It returns l itself when l is
// on the mark already, or when step is zero or less.
func (l Length) CeilTo(step Length) Length {
	if step <= 0 {
		return l
	}
	switch rest := l % step; {
	case rest > 0:
		return l + (step - rest)
	default: // a negative length rounds up towards zero
		return l - rest
	}
}
