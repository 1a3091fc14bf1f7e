// Package glpk solves linear programs with GLPK, the GNU Linear Programming Kit,
// version 5.0. It is the only package that uses cgo.
//
// A Program lives on the thread that opened it; any number of threads may each
// have some. A fault inside GLPK becomes a FaultError, and its messages never
// reach the standard output.
//
// Values are floating point and hold only to GLPK's tolerances, 1e-7 relative
// for limits and duals. Who needs a proof must check them in exact arithmetic.
//
// In a build without cgo, Available is false and every call fails with
// ErrUnavailable.
package glpk

import "errors"

// Solution is the outcome of a solve. All but Status and Iterations are of an
// Optimal one.
type Solution struct {
	Status Status
	// X are the values of the columns.
	X []float64
	// RowDual is what the cost rises by for each unit by which a row's limit
	// does: ≥ 0 of a row at its lower limit, ≤ 0 of one at its upper limit.
	RowDual []float64
	Basis   Basis
	// Iterations of the simplex method.
	Iterations int
}

// Basis says where each row's sum and each column's value stands.
type Basis struct{ Row, Column []VariableStatus }

// ErrUnavailable says that this build has no solver.
var ErrUnavailable = errors.New("the solver is not in this build; build with cgo and GLPK 5.0")

// ErrNumerical says that GLPK could not bring the program to an end because
// of rounding errors.
var ErrNumerical = errors.New("the simplex method broke down on rounding errors")

// ErrClosed says that a Program was used after its Close.
var ErrClosed = errors.New("the program is closed")

// FaultError is a wrong argument or a failed check inside GLPK.
type FaultError struct {
	Text string // in GLPK's words
}

func (e *FaultError) Error() string { return "fault in GLPK: " + e.Text }
