package quiltbook

import (
	"errors"
	"fmt"

	"crossgrain/model"
)

// The faults of a workbook besides those that [crossgrain/model] and
// [crossgrain/model/quiltfile] name.
var (
	ErrNotAWorkbook = errors.New("not an .xlsx workbook")
	ErrDamaged      = errors.New("a damaged workbook")
	ErrLocked       = errors.New("locked with a password")
	ErrNoSheet      = errors.New("no such sheet")
	ErrNoHeading    = errors.New("no such heading")
	ErrFarAway      = errors.New("too far from the table")
	ErrDate         = errors.New("a date")
	ErrNoResult     = errors.New("a formula without its result")
	ErrCellError    = errors.New("an error of the spreadsheet")
)

// What to do with a file that is no workbook.
const (
	saveAs    = "open it in your spreadsheet program and save it as .xlsx"
	saveAgain = "open it in your spreadsheet program and save it again, or copy it again"
)

// say is an error of the given kind with what to do, about no value.
func say(kind error, hint string) error { return &model.ValueError{Err: kind, Hint: hint} }

// not says what a file is that is no workbook.
func not(what string) error { return say(fmt.Errorf("%w: %s", ErrNotAWorkbook, what), saveAs) }
