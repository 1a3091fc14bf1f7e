package model

import "errors"

// Unit is the unit that a quilt file's bare numbers are in.
type Unit uint8

// The units a quilt may be written in.
const (
	Inches Unit = iota
	Centimetres
)

// ErrNotAUnit is the kind of text that is not a [Unit].
var ErrNotAUnit = errors.New("not a unit")

// String is in or cm.
func (u Unit) String() string {
	if u == Centimetres {
		return "cm"
	}
	return "in"
}

// ParseUnit reads in or cm. The error is a [*ValueError] of the kind
// [ErrNotAUnit].
func ParseUnit(text string) (Unit, error) {
	switch text {
	case "in":
		return Inches, nil
	case "cm":
		return Centimetres, nil
	}
	return 0, &ValueError{Value: text, Err: ErrNotAUnit, Hint: "write in or cm"}
}

func (u Unit) measure() *measureUnit {
	if u == Centimetres {
		return centimetreUnit
	}
	return inchUnit
}
