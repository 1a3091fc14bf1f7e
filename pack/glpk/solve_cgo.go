//go:build cgo

package glpk

// #cgo LDFLAGS: -lglpk -lm
// #include "bridge.h"
import "C"

import (
	"context"
	"runtime"
	"strings"
	"sync/atomic"
	"time"
	"unsafe"
)

// Available reports whether this build has the solver.
func Available() bool { return true }

// Statuses cross as numbers: these lines do not compile unless both sides
// count alike.
var (
	_ = [1]struct{}{}[C.BRIDGE_FAILED-Failed]
	_ = [1]struct{}{}[C.BRIDGE_OPTIMAL-Optimal]
	_ = [1]struct{}{}[C.BRIDGE_INFEASIBLE-Infeasible]
	_ = [1]struct{}{}[C.BRIDGE_UNBOUNDED-Unbounded]
	_ = [1]struct{}{}[C.BRIDGE_ITERATION_LIMIT-IterationLimit]
	_ = [1]struct{}{}[C.BRIDGE_TIME_LIMIT-TimeLimit]
	_ = [1]struct{}{}[C.BRIDGE_NODE_LIMIT-NodeLimit]
	_ = [1]struct{}{}[C.BRIDGE_CANCELLED-Cancelled]
	_ = [1]struct{}{}[C.BRIDGE_FEASIBLE-Feasible]
	_ = [1]struct{}{}[C.BRIDGE_AT_LOWER-NonBasicLower]
	_ = [1]struct{}{}[C.BRIDGE_AT_UPPER-NonBasicUpper]
	_ = [1]struct{}{}[C.BRIDGE_FREE-NonBasicFree]
	_ = [1]struct{}{}[C.BRIDGE_FIXED-NonBasicFixed]
	_ = [1]struct{}{}[C.BRIDGE_BASIC-Basic]
)

// solve is the crossing. It does not look at the arrays of the task, which
// must be checked.
func solve(ctx context.Context, t *task) (Solution, error) {
	if ctx.Err() != nil {
		return Solution{Status: Cancelled}, nil
	}
	var stop int32
	defer watch(ctx, t.options.TimeLimit, &stop)()

	var pinner runtime.Pinner
	defer pinner.Unpin()
	call := new(C.struct_bridge_call)
	fillProblem(call, t, &pinner)
	fillOptions(call, t)
	call.interruptible = flag(ctx.Done() != nil || t.options.TimeLimit > 0)
	pinner.Pin(&stop)
	call.stop = (*C.int32_t)(&stop)
	solution := makeRoom(call, t, &pinner)
	C.bridge_solve(call)
	return result(call, t, solution)
}

// watch sets stop when the context is cancelled or the time is up, whichever
// is first, until the function that it returns is called.
func watch(ctx context.Context, limit time.Duration, stop *int32) (end func()) {
	unwatch := func() bool { return false }
	if ctx.Done() != nil {
		unwatch = context.AfterFunc(ctx, func() {
			atomic.CompareAndSwapInt32(stop, C.BRIDGE_GO_ON, C.BRIDGE_STOP_CANCELLED)
		})
	}
	if limit <= 0 {
		return func() { unwatch() }
	}
	timer := time.AfterFunc(limit, func() {
		atomic.CompareAndSwapInt32(stop, C.BRIDGE_GO_ON, C.BRIDGE_STOP_TIME)
	})
	return func() { unwatch(); timer.Stop() }
}

// pinned keeps a slice in place while C uses it.
func pinned[T any](pinner *runtime.Pinner, s []T) unsafe.Pointer {
	if len(s) == 0 {
		return nil
	}
	first := unsafe.Pointer(unsafe.SliceData(s))
	pinner.Pin(first)
	return first
}

func fillProblem(call *C.struct_bridge_call, t *task, pinner *runtime.Pinner) {
	p := t.problem
	call.rows, call.columns = C.int32_t(len(p.RowLower)), C.int32_t(len(p.Cost))
	call.row_lower = (*C.double)(pinned(pinner, p.RowLower))
	call.row_upper = (*C.double)(pinned(pinner, p.RowUpper))
	call.cost = (*C.double)(pinned(pinner, p.Cost))
	call.lower = (*C.double)(pinned(pinner, p.Lower))
	call.upper = (*C.double)(pinned(pinner, p.Upper))
	call.index = (*C.int32_t)(pinned(pinner, p.Index))
	call.value = (*C.double)(pinned(pinner, p.Value))
	start := p.Start
	if len(start) == 0 {
		start = []int32{0}
	}
	call.start = (*C.int32_t)(pinned(pinner, start))
	if t.integer {
		call.whole = 1
		call.integer = (*C.uint8_t)(pinned(pinner, p.Integer))
	}
}

func fillOptions(call *C.struct_bridge_call, t *task) {
	o := t.options
	call.dual, call.presolve = flag(o.Dual), flag(o.Presolve)
	call.scale, call.cuts = flag(o.Scale), flag(o.Cuts)
	call.iteration_limit = C.int32_t(o.IterationLimit)
	call.node_limit = C.int32_t(o.NodeLimit)
	if o.CutOff != nil {
		call.has_cut_off, call.cut_off = 1, C.double(*o.CutOff)
	}
}

func flag(b bool) C.int32_t {
	if b {
		return 1
	}
	return 0
}

// makeRoom gives the call arrays for its answer, with the start basis in
// them, and returns a Solution that holds the same arrays.
func makeRoom(call *C.struct_bridge_call, t *task, pinner *runtime.Pinner) Solution {
	m, n := len(t.problem.RowLower), len(t.problem.Cost)
	if t.integer {
		s := Solution{X: make([]float64, n)}
		call.x = (*C.double)(pinned(pinner, s.X))
		return s
	}
	values := make([]float64, n+n+m)
	statuses := make([]VariableStatus, m+n)
	s := Solution{
		X:           values[:n:n],
		ReducedCost: values[n : 2*n : 2*n],
		RowDual:     values[2*n:],
		Basis:       Basis{Row: statuses[:m:m], Column: statuses[m:]},
	}
	if t.start != nil {
		call.has_basis = 1
		copy(s.Basis.Row, t.start.Row)
		copy(s.Basis.Column, t.start.Column)
	}
	call.x = (*C.double)(pinned(pinner, s.X))
	call.reduced_cost = (*C.double)(pinned(pinner, s.ReducedCost))
	call.row_dual = (*C.double)(pinned(pinner, s.RowDual))
	call.row_basis = (*C.uint8_t)(pinned(pinner, s.Basis.Row))
	call.column_basis = (*C.uint8_t)(pinned(pinner, s.Basis.Column))
	return s
}

func result(call *C.struct_bridge_call, t *task, s Solution) (Solution, error) {
	if call.has_values == 0 {
		s = Solution{}
	}
	s.Status = Status(call.status)
	s.Iterations, s.Nodes = int(call.iterations), int(call.nodes)
	if call.has_values != 0 {
		s.Objective = float64(call.objective)
	}
	if t.integer {
		s.Bound = float64(call.bound)
	}
	if s.Status != Failed {
		return s, nil
	}
	if text := C.GoString(&call.fault[0]); text != "" {
		return s, &FaultError{Text: strings.Join(strings.Fields(text), " ")}
	}
	return s, ErrNumerical
}
