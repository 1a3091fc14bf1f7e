// Package glpk solves linear and integer programs with GLPK, the GNU Linear
// Programming Kit, version 5.0. It is the only package that uses cgo.
//
// A solve is one call into C: flat arrays go in, and the status, the
// objective, the values, the duals and the basis come out. Nothing of the
// library is kept between calls, so a call may be made from any goroutine,
// any number at a time. A Program alone lives on between calls, on a thread of
// its own. A fault inside GLPK becomes a FaultError, and its
// messages never reach the standard output.
//
// Values are floating point and hold only to GLPK's tolerances (1e-7 relative
// for limits and duals, 1e-5 for integrality, 1e-3 where it rounds the bound
// of an integer program up to a multiple of the costs). Who needs a proof
// must check them in exact arithmetic.
//
// In a build without cgo, Available is false and every solve fails with
// ErrUnavailable.
package glpk

import (
	"context"
	"errors"
	"time"
)

// Problem is
//
//	minimise    Cost·x
//	subject to  RowLower ≤ A x ≤ RowUpper
//	            Lower ≤ x ≤ Upper
//
// with m = len(RowLower) rows and n = len(Cost) columns. A is stored by
// columns: column j has the entries Value[Start[j]:Start[j+1]] in the rows
// Index[Start[j]:Start[j+1]], in any order, none twice. Rows and columns are
// counted from 0. An infinite limit is none; limits that exclude each other
// make the problem infeasible. The zero Problem is optimal at 0.
type Problem struct {
	RowLower, RowUpper []float64 // m each
	Cost, Lower, Upper []float64 // n each
	Start              []int32   // n+1, from 0 to len(Index)
	Index              []int32
	Value              []float64
	// Integer marks the columns that must be whole, n or none; SolveLP
	// takes no notice of it.
	Integer []bool
}

// Basis says where each row's sum and each column's value stands. A basis
// from one solve starts the next one of a problem that has gained columns if
// these are appended as NonBasicLower, the zero value.
type Basis struct {
	Row, Column []VariableStatus // m and n
}

// Options say how to solve and how far. The zero value asks for the primal
// simplex method or branch and bound, to the end.
type Options struct {
	// IterationLimit ends SolveLP after so many iterations; 0 is none.
	IterationLimit int
	// NodeLimit ends SolveMIP after so many solved relaxations, a new one
	// after cuts counted like a new node; 0 is none.
	NodeLimit int
	// TimeLimit ends a solve after so much time, give or take some tens of
	// milliseconds; 0 is none. Only it and a cancelled context make
	// the answer differ from run to run.
	TimeLimit time.Duration
	// CutOff asks SolveMIP for solutions with an objective below it, by
	// more than 1e-7·(1+|CutOff|). Nil asks for any.
	CutOff *float64
	// Cuts lets SolveMIP add Gomory and mixed-integer-rounding cuts.
	Cuts bool
	// Dual starts with the dual simplex method.
	Dual bool
	// Presolve reduces the problem first. SolveLP then makes no use of a
	// basis; SolveMIP does so only without a CutOff, and does not stop
	// before its first relaxation is solved.
	Presolve bool
	// Scale evens out coefficients of very different size first.
	Scale bool
}

// Solution is the outcome of a solve.
type Solution struct {
	Status Status
	// Objective is Cost·X; 0 without X.
	Objective float64
	// X has the n values. SolveLP gives them when Optimal, and at its
	// IterationLimit (then perhaps outside the limits) if not presolved;
	// SolveMIP when Optimal or Feasible, whole where Integer. Else nil.
	X []float64
	// RowDual (m) and ReducedCost (n), of SolveLP with X only, satisfy
	// ReducedCost = Cost − Aᵀ RowDual. A row at its lower limit has a dual
	// ≥ 0, one at its upper limit ≤ 0.
	RowDual, ReducedCost []float64
	// Basis belongs to X, of SolveLP only.
	Basis Basis
	// Iterations of the simplex method, and relaxations solved by SolveMIP
	// in its search.
	Iterations, Nodes int
	// Bound of SolveMIP: no solution has a lower objective. It is
	// the objective when Optimal, the cut-off or +Inf when Infeasible, −Inf
	// while nothing is known.
	Bound float64
}

// ErrUnavailable says that this build has no solver.
var ErrUnavailable = errors.New("the solver is not in this build; build with cgo and GLPK 5.0")

// ErrNumerical says that GLPK could not bring the problem to an end because
// of rounding errors.
var ErrNumerical = errors.New("the simplex method broke down on rounding errors")

// ErrClosed says that a Program was used after its Close.
var ErrClosed = errors.New("the program is closed")

// FaultError is a wrong argument or a failed check inside GLPK.
type FaultError struct {
	Text string // in GLPK's words
	// Freed says that the Program did nothing wrong, but that a fault elsewhere, or
	// a solve that was stopped, on its thread has freed it.
	Freed bool
}

func (e *FaultError) Error() string { return "fault in GLPK: " + e.Text }

// SolveLP solves the problem without its Integer marks, from the basis start
// or, if that is nil or of no use, from one of GLPK's own. Reaching a limit
// or a cancelled context is a Status, not an error; Failed comes with one: a
// *ShapeError if the arrays do not make a problem, a *FaultError,
// ErrNumerical, or ErrUnavailable.
func SolveLP(ctx context.Context, p *Problem, start *Basis, o Options) (Solution, error) {
	if err := p.check(); err != nil {
		return Solution{}, err
	}
	if start != nil {
		if err := start.check(p); err != nil {
			return Solution{}, err
		}
	}
	if err := o.check(); err != nil {
		return Solution{}, err
	}
	o.NodeLimit, o.CutOff = 0, nil
	return solve(ctx, &task{problem: p, start: start, options: o})
}

// SolveMIP solves the problem by branch and cut. Unbounded says that its
// relaxation is. Statuses and errors are as in SolveLP; a search that ends at
// a limit or a cancelled context with a solution in hand is Feasible.
func SolveMIP(ctx context.Context, p *Problem, o Options) (Solution, error) {
	if err := p.check(); err != nil {
		return Solution{}, err
	}
	if err := o.check(); err != nil {
		return Solution{}, err
	}
	o.IterationLimit = 0
	return solve(ctx, &task{problem: p, options: o, integer: true})
}

// task is a checked solve.
type task struct {
	problem *Problem
	start   *Basis // nil: none
	options Options
	integer bool
}
