package model

import (
	"errors"
	"fmt"
	"strings"
)

// ValueError says what is wrong with a value and what to do about it. Values
// that cannot be read and values that break a rule are both told this way.
type ValueError struct {
	Value string // as it was written; empty if there is none to show
	Err   error  // the kind: one of the errors named in this package
	Hint  string // what to do, as in: write in or cm
}

// Error is the kind, the value in quotes, and what to do.
func (e *ValueError) Error() string {
	const longest = 60
	if e.Value == "" {
		return fmt.Sprintf("%v, %s", e.Err, e.Hint)
	}
	value := e.Value
	if runes := []rune(value); len(runes) > longest {
		value = string(runes[:longest]) + "…"
	}
	return fmt.Sprintf("%v (%q), %s", e.Err, value, e.Hint)
}

// Unwrap is the kind of error.
func (e *ValueError) Unwrap() error { return e.Err }

// Part is the part of a quilt that a fault is in.
type Part uint8

// The parts of a quilt.
const (
	WholeQuilt Part = iota
	FabricPart
	CutPart
	StripPart
	DesignPart // a value of the design: a Path says which
)

// The fields that a fault may be in, as a quilt file calls them.
const (
	FieldTitle        = "title"
	FieldUnit         = "unit"
	FieldRuler        = "ruler"
	FieldFabrics      = "fabrics"
	FieldCuts         = "cuts"
	FieldID           = "id" // the key of a fabric
	FieldName         = "name"
	FieldOneWay       = "one_way"
	FieldUsableWidths = "usable_widths"
	FieldSoldBy       = "sold_by"
	FieldStraighten   = "straighten"
	FieldShrinkage    = "shrinkage"
	FieldPrice        = "price"
	FieldFabric       = "fabric"
	FieldSize         = "size"
	FieldCount        = "count"
	FieldHalve        = "halve"
	FieldUse          = "use"
	FieldTurn         = "turn"
	FieldGrain        = "grain"
)

// Fault is one value of a quilt that breaks a rule.
type Fault struct {
	Part Part
	// Index is the place of the fabric or the cut in its list, from 0. It is
	// -1 where only the name is known, and for what is said of all fabrics.
	Index int
	Name  string // the fabric's ID or the cut's name; may be empty
	Field string // one of the Field constants
	Item  int    // the place of the value in a field that is a list, from 0
	Path  Path   // of a fault of the DesignPart, in place of all of these
	Err   error  // mostly a *ValueError
}

// Error names the part and the field, then what is wrong and what to do.
func (f *Fault) Error() string {
	if f.Part == DesignPart {
		return fmt.Sprintf("%s: %v", f.Path.Words(), f.Err)
	}
	if subject := f.subject(); subject != "" {
		return fmt.Sprintf("%s: %s: %v", subject, f.Field, f.Err)
	}
	return fmt.Sprintf("%s: %v", f.Field, f.Err)
}

// Unwrap is what is wrong.
func (f *Fault) Unwrap() error { return f.Err }

// subject is the part as a message calls it: cut "A", or cut 3 if it has no
// name. It is empty for the whole quilt and for all fabrics.
func (f *Fault) subject() string {
	part := map[Part]string{FabricPart: "fabric", CutPart: "cut", StripPart: "strip"}[f.Part]
	switch {
	case part == "" || f.Name == "" && f.Index < 0:
		return ""
	case f.Name == "":
		return fmt.Sprintf("%s %d", part, f.Index+1)
	default:
		return fmt.Sprintf("%s %q", part, f.Name)
	}
}

// Faults are all the faults of a quilt, in the order of its fields.
type Faults []*Fault

// Error is one fault on each line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, fault := range f {
		lines[i] = fault.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the single faults to [errors.Is] and [errors.As].
func (f Faults) Unwrap() []error {
	errs := make([]error, len(f))
	for i, fault := range f {
		errs[i] = fault
	}
	return errs
}

// add notes a fault like the one given, with the rest of what is known of it.
func (f *Faults) add(at Fault, field string, err error) {
	at.Field, at.Err = field, err
	*f = append(*f, &at)
}

// AddAt notes a fault of a design, at the place of the value.
func (f *Faults) AddAt(at Path, err error) {
	*f = append(*f, &Fault{Part: DesignPart, Index: -1, Path: at, Err: err})
}

// OrNil is f as an error, nil if there are none.
func (f Faults) OrNil() error {
	if len(f) == 0 {
		return nil
	}
	return f
}

// The rules that a quilt may break.
var (
	ErrMissing      = errors.New("missing")
	ErrNotPrintable = errors.New("not plain text on one line")
	ErrTooManyChars = errors.New("too long a text")
	ErrDuplicate    = errors.New("used twice")
	ErrUnknown      = errors.New("not a fabric of this quilt")
	ErrNotPositive  = errors.New("not more than 0")
	ErrOutOfRange   = errors.New("out of range")
	ErrTooMany      = errors.New("too many")
	ErrOffMark      = errors.New("off the ruler's mark")
	ErrNotAChoice   = errors.New("unknown word")
	ErrNotSquare    = errors.New("only a square is halved twice")
	ErrGrain        = errors.New("the long side runs the other way")
	ErrTooWide      = errors.New("wider than the fabric")
	ErrCurlyQuotes  = errors.New("in curly quotes")
)

// The rules that a design may break besides.
var (
	ErrOffSum        = errors.New("does not add up")
	ErrFabricCount   = errors.New("wrong number of fabrics")
	ErrTooSmall      = errors.New("too small")
	ErrTooLarge      = errors.New("too large")
	ErrUnknownName   = errors.New("not in this quilt")
	ErrNotInBlock    = errors.New("not in this block")
	ErrNotTogether   = errors.New("do not go together")
	ErrUnevenBlocks  = errors.New("blocks of different sizes")
	ErrNotSquareUnit = errors.New("not a square")
)
