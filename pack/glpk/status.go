package glpk

import "strconv"

// Status says how a solve ended.
type Status uint8

const (
	// Failed: there is no answer; the error says why.
	Failed Status = iota
	// Optimal: the solution is best.
	Optimal
	// Infeasible: there is no solution.
	Infeasible
	// Unbounded: the cost falls without end.
	Unbounded
)

var statusNames = [...]string{"failed", "optimal", "infeasible", "unbounded"}

// String is the status in words.
func (s Status) String() string {
	if int(s) < len(statusNames) {
		return statusNames[s]
	}
	return "Status(" + strconv.Itoa(int(s)) + ")"
}

// VariableStatus says where a row's sum or a column's value stands in a
// basis.
type VariableStatus uint8

const (
	// NonBasicLower: at its lower limit.
	NonBasicLower VariableStatus = iota
	// NonBasicUpper: at its upper limit.
	NonBasicUpper
	// NonBasicFree: at zero, having no limits.
	NonBasicFree
	// NonBasicFixed: at its two limits, which are equal.
	NonBasicFixed
	// Basic: determined by the others.
	Basic
)
