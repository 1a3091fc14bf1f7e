//go:build cgo

package glpk

// #include "bridge.h"
// #include "kept.h"
import "C"

import (
	"cmp"
	"fmt"
	"math"
	"runtime"
	"strings"
	"unsafe"
)

// Program is a linear program that GLPK keeps between solves, with its basis
// and the factors of that: a solve after a small change takes a fraction of
// what SolveLP would. It belongs to one goroutine, which Open ties to its
// thread until Close; every other call fails. A fault in GLPK, or a cancelled
// solve of another problem on that thread, frees it, and then every call
// fails too. So does every call after Close. A wrong argument is a *ShapeError
// and changes nothing.
type Program struct {
	kept          *C.struct_kept
	rows, columns int
	x, dual       []float64
	basis         []VariableStatus
}

// Open makes an empty program and ties the goroutine to its thread.
func Open() (*Program, error) {
	runtime.LockOSThread()
	k := C.kept_open()
	if k == nil {
		runtime.UnlockOSThread()
		return nil, ErrNumerical
	}
	return &Program{kept: k}, nil
}

// Close frees the program and unties the goroutine.
func (p *Program) Close() {
	if p.kept != nil {
		C.kept_close(p.kept)
		p.kept = nil
		runtime.UnlockOSThread()
	}
}

// Rows and Columns are how many there are.
func (p *Program) Rows() int    { return p.rows }
func (p *Program) Columns() int { return p.columns }

func (p *Program) fault(code C.int) error {
	if code == 0 {
		return nil
	}
	text := strings.Join(strings.Fields(C.GoString(C.kept_fault(p.kept))), " ")
	return &FaultError{Text: text, Freed: C.kept_freed(p.kept) != 0}
}

// check refuses a call after Close, and limits that are none.
func (p *Program) check(lower, upper float64) error {
	if p.kept == nil {
		return ErrClosed
	}
	if !(lower <= upper) || math.IsInf(lower, 1) || math.IsInf(upper, -1) {
		return &ShapeError{"limits", -1, fmt.Sprintf("are %v and %v", lower, upper)}
	}
	return nil
}

func doubles(s []float64) *C.double { return (*C.double)(unsafe.Pointer(unsafe.SliceData(s))) }
func ints(s []int32) *C.int32_t     { return (*C.int32_t)(unsafe.Pointer(unsafe.SliceData(s))) }

// AddRow adds lower ≤ Σ value·x ≤ upper over the columns; the row is basic.
func (p *Program) AddRow(lower, upper float64, column []int32, value []float64) error {
	if err := cmp.Or(p.check(lower, upper), checkEntries(column, value, p.columns)); err != nil {
		return err
	}
	err := p.fault(C.kept_add_row(p.kept, C.double(lower), C.double(upper), C.int32_t(len(column)), ints(column), doubles(value)))
	if err == nil {
		p.rows++
	}
	return err
}

// AddColumn adds a variable with its entries in the rows; it is not basic.
func (p *Program) AddColumn(cost, lower, upper float64, row []int32, value []float64) error {
	if err := cmp.Or(p.check(lower, upper), checkFinite("cost", []float64{cost}), checkEntries(row, value, p.rows)); err != nil {
		return err
	}
	err := p.fault(C.kept_add_column(p.kept, C.double(cost), C.double(lower), C.double(upper), C.int32_t(len(row)), ints(row), doubles(value)))
	if err == nil {
		p.columns++
	}
	return err
}

// SetRow changes the limits of a row.
func (p *Program) SetRow(row int, lower, upper float64) error {
	if err := cmp.Or(p.check(lower, upper), checkIndex("row", -1, row, p.rows)); err != nil {
		return err
	}
	return p.fault(C.kept_row_limits(p.kept, C.int32_t(row), C.double(lower), C.double(upper)))
}

// SetColumn changes the limits of a column.
func (p *Program) SetColumn(column int, lower, upper float64) error {
	if err := cmp.Or(p.check(lower, upper), checkIndex("column", -1, column, p.columns)); err != nil {
		return err
	}
	return p.fault(C.kept_column_limits(p.kept, C.int32_t(column), C.double(lower), C.double(upper)))
}

// DeleteRows removes rows, none of them twice; those after them move up.
func (p *Program) DeleteRows(rows []int32) error {
	if err := cmp.Or(p.check(0, 0), checkIndices(rows, p.rows)); err != nil || len(rows) == 0 {
		return err
	}
	err := p.fault(C.kept_delete_rows(p.kept, C.int32_t(len(rows)), ints(rows)))
	if err == nil {
		p.rows -= len(rows)
	}
	return err
}

// DeleteColumns removes columns, none of them twice; those after them move up.
// The basis stays what it is if none of them is basic, or else begins anew.
func (p *Program) DeleteColumns(columns []int32) error {
	if err := cmp.Or(p.check(0, 0), checkIndices(columns, p.columns)); err != nil || len(columns) == 0 {
		return err
	}
	err := p.fault(C.kept_delete_columns(p.kept, C.int32_t(len(columns)), ints(columns)))
	if err == nil {
		p.columns -= len(columns)
	}
	return err
}

// Solve solves the program from where it stands, first by the dual simplex
// method if asked to. The slices of the solution are good until the next
// call; it has no reduced costs and no basis statuses of columns.
func (p *Program) Solve(dual bool) (Solution, error) {
	if err := p.check(0, 0); err != nil {
		return Solution{}, err
	}
	p.x = resized(p.x, p.columns)
	p.dual = resized(p.dual, p.rows)
	p.basis = resized(p.basis, p.rows)
	var iterations C.int32_t
	status := C.kept_solve(p.kept, flag(dual), &iterations, doubles(p.x), doubles(p.dual),
		(*C.uint8_t)(unsafe.Pointer(unsafe.SliceData(p.basis))))
	s := Solution{Status: Status(status), Iterations: int(iterations)}
	switch s.Status {
	case Failed:
		if C.GoString(C.kept_fault(p.kept)) != "" {
			return s, p.fault(-1)
		}
		return s, ErrNumerical
	case Optimal:
		s.X, s.RowDual, s.Basis.Row = p.x, p.dual, p.basis
	}
	return s, nil
}

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		s = make([]T, n, 2*n)
	}
	return s[:n]
}

// checkEntries checks a row or column; GLPK itself checks that none is twice.
func checkEntries(at []int32, value []float64, limit int) error {
	if len(at) != len(value) {
		return &ShapeError{"value", -1, fmt.Sprintf("has %d entries, not %d", len(value), len(at))}
	}
	if err := checkFinite("value", value); err != nil {
		return err
	}
	return checkIndices(at, limit)
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
