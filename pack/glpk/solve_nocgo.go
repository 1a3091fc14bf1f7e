//go:build !cgo

package glpk

import "context"

// Available reports whether this build has the solver.
func Available() bool { return false }

func solve(context.Context, *task) (Solution, error) { return Solution{}, ErrUnavailable }
