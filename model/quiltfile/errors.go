package quiltfile

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
)

// The faults of a file besides those that [crossgrain/model] names.
var (
	ErrEmpty        = errors.New("empty file")
	ErrTooLarge     = errors.New("too large a file")
	ErrNotText      = errors.New("not UTF-8 text")
	ErrUnreadable   = errors.New("cannot be read")
	ErrSyntax       = errors.New("not YAML")
	ErrTooDeep      = errors.New("nested too deep")
	ErrTwoQuilts    = errors.New("a second YAML document")
	ErrAlias        = errors.New("an alias of YAML")
	ErrTag          = errors.New("a tag of YAML")
	ErrWrongKind    = errors.New("wrong kind of value")
	ErrUnknownKey   = errors.New("unknown key")
	ErrDuplicateKey = errors.New("key used twice")
	ErrNotANumber   = errors.New("not a whole number")
	ErrNotYesOrNo   = errors.New("not yes or no")
	ErrDesign       = errors.New("a design where a cutting list belongs")
	ErrLabel        = errors.New("not a label")
	ErrEase         = errors.New("not an ease")
)

// Error is one fault at its place in a file.
type Error struct {
	File string
	// Line and Column count from 1, columns in characters. Both are 0 for a
	// fault of the file as a whole, and in a workbook.
	Line, Column int
	// Cell is the place in a workbook: Cuts!C7, or the sheet alone.
	Cell string
	Err  error
}

// Error is FILE:LINE:COLUMN: what is wrong (the value), what to do. In a
// workbook it begins FILE: SHEET!CELL.
func (e *Error) Error() string {
	switch {
	case e.Cell != "":
		return fmt.Sprintf("%s: %s: %v", e.File, e.Cell, e.Err)
	case e.Line == 0:
		return fmt.Sprintf("%s: %v", e.File, e.Err)
	}
	return fmt.Sprintf("%s:%d:%d: %v", e.File, e.Line, e.Column, e.Err)
}

// Placed reports whether the fault has a place in the file.
func (e *Error) Placed() bool { return e.Line > 0 || e.Cell != "" }

// Unwrap is what is wrong, without the place.
func (e *Error) Unwrap() error { return e.Err }

// Errors are all faults of a file, in the order of their places. It is never
// empty when it is returned as an error.
type Errors []*Error

// maxPrinted is how many errors are printed at once.
const maxPrinted = 50

// Error is one fault on each line, for the first 50 of them.
func (e Errors) Error() string {
	var lines []string
	for i, err := range e {
		if i == maxPrinted {
			lines = append(lines, fmt.Sprintf("and %d more", len(e)-maxPrinted))
			break
		}
		lines = append(lines, err.Error())
	}
	return strings.Join(lines, "\n")
}

// Unwrap gives the single errors to [errors.Is] and [errors.As].
func (e Errors) Unwrap() []error {
	errs := make([]error, len(e))
	for i, err := range e {
		errs[i] = err
	}
	return errs
}

// sorted orders the errors by place and drops those that say the same twice.
func (e Errors) sorted() Errors {
	slices.SortStableFunc(e, func(a, b *Error) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	type said struct {
		line, column int
		text         string
	}
	seen := make(map[said]bool, len(e))
	return slices.DeleteFunc(e, func(err *Error) bool {
		s := said{err.Line, err.Column, err.Err.Error()}
		again := seen[s]
		seen[s] = true
		return again
	})
}

// fileError is a fault of the file as a whole, or of its text.
func fileError(file string, line, column int, err error) Errors {
	return Errors{{File: file, Line: line, Column: column, Err: err}}
}

// say is an error of the given kind with what to do, about no value.
func say(kind error, hint string) error { return &model.ValueError{Err: kind, Hint: hint} }
