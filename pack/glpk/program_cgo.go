//go:build cgo

package glpk

// #cgo LDFLAGS: -lglpk -lm
// #include "program.h"
import "C"

import (
	"cmp"
	"runtime"
	"strings"
	"unsafe"
)

// Available reports whether this build has the solver.
func Available() bool { return true }

// Statuses cross as numbers: these lines do not compile unless both sides
// count alike.
var (
	_ = [1]struct{}{}[C.PROGRAM_FAILED-Failed]
	_ = [1]struct{}{}[C.PROGRAM_OPTIMAL-Optimal]
	_ = [1]struct{}{}[C.PROGRAM_INFEASIBLE-Infeasible]
	_ = [1]struct{}{}[C.PROGRAM_UNBOUNDED-Unbounded]
	_ = [1]struct{}{}[C.PROGRAM_AT_LOWER-NonBasicLower]
	_ = [1]struct{}{}[C.PROGRAM_AT_UPPER-NonBasicUpper]
	_ = [1]struct{}{}[C.PROGRAM_FREE-NonBasicFree]
	_ = [1]struct{}{}[C.PROGRAM_FIXED-NonBasicFixed]
	_ = [1]struct{}{}[C.PROGRAM_BASIC-Basic]
)

// Program is a linear program,
//
//	minimise    cost·x
//	subject to  row lower ≤ A x ≤ row upper
//	            lower ≤ x ≤ upper
//
// empty at first. GLPK keeps it between solves, with its basis and the factors
// of that, so a solve after a small change takes little. Rows and columns are
// counted from 0; an infinite limit is none.
//
// It belongs to one goroutine, which Open ties to its thread until Close; every
// other call fails. A fault in GLPK frees all programs of the thread, and then
// every call fails too. So does every call after Close. A wrong argument is a
// *ShapeError and changes nothing.
type Program struct {
	kept          *C.struct_program
	rows, columns int
	x, dual       []float64
	basis         []VariableStatus // of the rows, then of the columns
}

// Open makes an empty program and ties the goroutine to its thread.
func Open() (*Program, error) {
	runtime.LockOSThread()
	opened := C.program_open()
	if opened == nil {
		runtime.UnlockOSThread()
		return nil, ErrNumerical
	}
	return &Program{kept: opened}, nil
}

// Close frees the program and unties the goroutine.
func (p *Program) Close() {
	if p.kept != nil {
		C.program_close(p.kept)
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
	return &FaultError{strings.Join(strings.Fields(C.GoString(C.program_fault(p.kept))), " ")}
}

// open refuses a call after Close.
func (p *Program) open() error {
	if p.kept == nil {
		return ErrClosed
	}
	return nil
}

func doubles(s []float64) *C.double { return (*C.double)(unsafe.Pointer(unsafe.SliceData(s))) }
func ints(s []int32) *C.int32_t     { return (*C.int32_t)(unsafe.Pointer(unsafe.SliceData(s))) }
func statuses(s []VariableStatus) *C.uint8_t {
	return (*C.uint8_t)(unsafe.Pointer(unsafe.SliceData(s)))
}

// AddRow adds lower ≤ Σ value·x ≤ upper over the columns; the row is basic.
func (p *Program) AddRow(lower, upper float64, column []int32, value []float64) error {
	if err := cmp.Or(p.open(), checkLimits(lower, upper), checkEntries(column, value, p.columns)); err != nil {
		return err
	}
	err := p.fault(C.program_add_row(p.kept, C.double(lower), C.double(upper), C.int32_t(len(column)), ints(column), doubles(value)))
	if err == nil {
		p.rows++
	}
	return err
}

// AddColumn adds a variable with its entries in the rows; it is not basic.
func (p *Program) AddColumn(cost, lower, upper float64, row []int32, value []float64) error {
	if err := cmp.Or(p.open(), checkLimits(lower, upper), checkFinite("cost", cost), checkEntries(row, value, p.rows)); err != nil {
		return err
	}
	err := p.fault(C.program_add_column(p.kept, C.double(cost), C.double(lower), C.double(upper), C.int32_t(len(row)), ints(row), doubles(value)))
	if err == nil {
		p.columns++
	}
	return err
}

// SetRow changes the limits of a row.
func (p *Program) SetRow(row int, lower, upper float64) error {
	if err := cmp.Or(p.open(), checkLimits(lower, upper), checkIndex("row", -1, row, p.rows)); err != nil {
		return err
	}
	return p.fault(C.program_row_limits(p.kept, C.int32_t(row), C.double(lower), C.double(upper)))
}

// SetColumn changes the limits of a column.
func (p *Program) SetColumn(column int, lower, upper float64) error {
	if err := cmp.Or(p.open(), checkLimits(lower, upper), checkIndex("column", -1, column, p.columns)); err != nil {
		return err
	}
	return p.fault(C.program_column_limits(p.kept, C.int32_t(column), C.double(lower), C.double(upper)))
}

// DeleteRows removes rows, none of them twice; those after them move up.
func (p *Program) DeleteRows(rows []int32) error {
	if err := cmp.Or(p.open(), checkIndices(rows, p.rows)); err != nil || len(rows) == 0 {
		return err
	}
	err := p.fault(C.program_delete_rows(p.kept, C.int32_t(len(rows)), ints(rows)))
	if err == nil {
		p.rows -= len(rows)
	}
	return err
}

// DeleteColumns removes columns, none of them twice; those after them move up.
// The basis stays what it is if none of them is basic, or else begins anew.
func (p *Program) DeleteColumns(columns []int32) error {
	if err := cmp.Or(p.open(), checkIndices(columns, p.columns)); err != nil || len(columns) == 0 {
		return err
	}
	err := p.fault(C.program_delete_columns(p.kept, C.int32_t(len(columns)), ints(columns)))
	if err == nil {
		p.columns -= len(columns)
	}
	return err
}

// SetBasis makes the next solve begin at a basis, one status for each row and each
// column: as many are basic as there are rows, and what they have in the rows is
// independent, or the solve may be a fault. So it is of a solution, and still is without
// columns that are not basic, and without rows that are.
func (p *Program) SetBasis(b Basis) error {
	if err := cmp.Or(p.open(), checkLength("row", len(b.Row), p.rows), checkLength("column", len(b.Column), p.columns)); err != nil {
		return err
	}
	return p.fault(C.program_set_basis(p.kept, statuses(b.Row), statuses(b.Column)))
}

func flag(b bool) C.int32_t {
	if b {
		return 1
	}
	return 0
}

// Solve solves the program from where it stands, first by the dual simplex
// method if asked to. The slices of the solution are good until the next
// Solve.
func (p *Program) Solve(dual bool) (Solution, error) {
	if err := p.open(); err != nil {
		return Solution{}, err
	}
	p.x = resized(p.x, p.columns)
	p.dual = resized(p.dual, p.rows)
	p.basis = resized(p.basis, p.rows+p.columns)
	rowBasis, columnBasis := p.basis[:p.rows], p.basis[p.rows:]
	var iterations C.int32_t
	status := C.program_solve(p.kept, flag(dual), &iterations, doubles(p.x), doubles(p.dual),
		statuses(rowBasis), statuses(columnBasis))
	s := Solution{Status: Status(status), Iterations: int(iterations)}
	switch s.Status {
	case Failed:
		if C.GoString(C.program_fault(p.kept)) != "" {
			return s, p.fault(-1)
		}
		return s, ErrNumerical
	case Optimal:
		s.X, s.RowDual, s.Basis = p.x, p.dual, Basis{rowBasis, columnBasis}
	}
	return s, nil
}

func resized[T any](s []T, n int) []T {
	if cap(s) < n {
		s = make([]T, n, 2*n)
	}
	return s[:n]
}
