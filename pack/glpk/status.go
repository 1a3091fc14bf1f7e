package glpk

import "strconv"

// Status says how a solve ended.
type Status uint8

const (
	// Failed: there is no answer; the error says why.
	Failed Status = iota
	// Optimal: the solution is best.
	Optimal
	// Infeasible: there is no solution, or none below the cut-off.
	Infeasible
	// Unbounded: the objective falls without end.
	Unbounded
	// IterationLimit: SolveLP did its share of iterations.
	IterationLimit
	// TimeLimit: the time was up, without a solution.
	TimeLimit
	// NodeLimit: SolveMIP solved its share of relaxations and found no
	// solution.
	NodeLimit
	// Cancelled: the context was, and there is no solution.
	Cancelled
	// Feasible: SolveMIP ended early with a solution that need not be best.
	Feasible
)

var statusNames = [...]string{
	"failed", "optimal", "infeasible", "unbounded", "iteration limit",
	"time limit", "node limit", "cancelled", "feasible",
}

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
	// NonBasicLower: at its lower limit (or, having none, where GLPK puts
	// it).
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
