//go:build !cgo

package glpk

// Available reports whether this build has the solver.
func Available() bool { return false }

// Program is a linear program that GLPK keeps between solves; there is none in
// this build.
type Program struct{}

// Open fails with ErrUnavailable.
func Open() (*Program, error) { return nil, ErrUnavailable }

func (*Program) Close()       {}
func (*Program) Rows() int    { return 0 }
func (*Program) Columns() int { return 0 }

func (*Program) AddRow(_, _ float64, _ []int32, _ []float64) error       { return ErrUnavailable }
func (*Program) AddColumn(_, _, _ float64, _ []int32, _ []float64) error { return ErrUnavailable }
func (*Program) SetRow(int, float64, float64) error                      { return ErrUnavailable }
func (*Program) SetColumn(int, float64, float64) error                   { return ErrUnavailable }
func (*Program) DeleteRows([]int32) error                                { return ErrUnavailable }
func (*Program) DeleteColumns([]int32) error                             { return ErrUnavailable }
func (*Program) SetBasis(Basis) error                                    { return ErrUnavailable }
func (*Program) Solve(bool) (Solution, error)                            { return Solution{}, ErrUnavailable }
