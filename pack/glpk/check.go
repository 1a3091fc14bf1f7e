package glpk

import (
	"cmp"
	"fmt"
	"math"
)

// ShapeError says which argument of a call is not as it must be. It is a
// mistake of the caller.
type ShapeError struct {
	Field  string // such as index
	At     int    // position in the field; −1 if it is not one entry
	Reason string
}

func (e *ShapeError) Error() string {
	if e.At < 0 {
		return fmt.Sprintf("glpk: %s %s", e.Field, e.Reason)
	}
	return fmt.Sprintf("glpk: %s[%d] %s", e.Field, e.At, e.Reason)
}

// checkLimits refuses limits that are none, or that exclude each other.
func checkLimits(lower, upper float64) error {
	if !(lower <= upper) || math.IsInf(lower, 1) || math.IsInf(upper, -1) {
		return &ShapeError{"limits", -1, fmt.Sprintf("are %v and %v", lower, upper)}
	}
	return nil
}

func checkFinite(field string, values ...float64) error {
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return &ShapeError{field, i, fmt.Sprintf("is %v", v)}
		}
	}
	return nil
}

// checkEntries checks a row or column; GLPK itself checks that none is twice.
func checkEntries(at []int32, value []float64, limit int) error {
	return cmp.Or(checkLength("value", len(value), len(at)), checkFinite("value", value...), checkIndices(at, limit))
}

func checkIndices(at []int32, limit int) error {
	for i, a := range at {
		if err := checkIndex("index", i, int(a), limit); err != nil {
			return err
		}
	}
	return nil
}

func checkIndex(field string, at, index, limit int) error {
	if index < 0 || index >= limit {
		return &ShapeError{field, at, fmt.Sprintf("is %d, not one of %d", index, limit)}
	}
	return nil
}

func checkLength(field string, length, want int) error {
	if length != want {
		return &ShapeError{field, -1, fmt.Sprintf("has %d entries, not %d", length, want)}
	}
	return nil
}
