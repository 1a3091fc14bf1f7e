package glpk

import (
	"context"
	"errors"
	"math"
	"testing"
)

var inf = math.Inf(1)

// matrix fills in A, given by rows.
func (p *Problem) matrix(rows ...[]float64) *Problem {
	p.Start = []int32{0}
	for j := range p.Cost {
		for i, row := range rows {
			if row[j] != 0 {
				p.Index = append(p.Index, int32(i))
				p.Value = append(p.Value, row[j])
			}
		}
		p.Start = append(p.Start, int32(len(p.Index)))
	}
	return p
}

// strips is the smallest cutting problem with something to decide: strips
// that hold three of piece a, one of each, or two of piece b.
func strips(a, b float64) *Problem {
	p := &Problem{
		RowLower: []float64{a, b}, RowUpper: []float64{inf, inf},
		Cost: []float64{1, 1, 1}, Lower: []float64{0, 0, 0}, Upper: []float64{inf, inf, inf},
		Integer: []bool{true, true, true},
	}
	return p.matrix([]float64{3, 1, 0}, []float64{0, 1, 2})
}

func TestShapeErrors(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		field string
		at    int
		spoil func(*Problem)
	}{
		{"RowUpper", -1, func(p *Problem) { p.RowUpper = p.RowUpper[:1] }},
		{"Lower", -1, func(p *Problem) { p.Lower = nil }},
		{"Upper", -1, func(p *Problem) { p.Upper = append(p.Upper, 1) }},
		{"Start", -1, func(p *Problem) { p.Start = p.Start[:3] }},
		{"Start", -1, func(p *Problem) { p.Start = nil }},
		{"Value", -1, func(p *Problem) { p.Value = p.Value[:2] }},
		{"Integer", -1, func(p *Problem) { p.Integer = p.Integer[:2] }},
		{"Start", 0, func(p *Problem) { p.Start[0] = 1 }},
		{"Start", 0, func(p *Problem) { p.Start[0] = -1 }},
		{"Start", 2, func(p *Problem) { p.Start[2] = 0 }},
		{"Start", 1, func(p *Problem) { p.Start[1] = 99 }},
		{"Start", 3, func(p *Problem) { p.Start[3] = 3 }},
		{"Start", 3, func(p *Problem) { p.Start[3] = 5 }},
		{"Index", 2, func(p *Problem) { p.Index[2] = 2 }},
		{"Index", 0, func(p *Problem) { p.Index[0] = -1 }},
		{"Index", 2, func(p *Problem) { p.Index[2] = 0 }}, // twice in column 1
		{"RowLower", 1, func(p *Problem) { p.RowLower[1] = nan }},
		{"RowLower", 0, func(p *Problem) { p.RowLower[0] = inf }},
		{"RowUpper", 0, func(p *Problem) { p.RowUpper[0] = -inf }},
		{"Lower", 2, func(p *Problem) { p.Lower[2] = inf }},
		{"Upper", 2, func(p *Problem) { p.Upper[2] = nan }},
		{"Cost", 1, func(p *Problem) { p.Cost[1] = inf }},
		{"Value", 3, func(p *Problem) { p.Value[3] = nan }},
	}
	for _, tt := range tests {
		p := strips(9, 4)
		tt.spoil(p)
		_, lp := SolveLP(context.Background(), p, nil, Options{})
		_, mip := SolveMIP(context.Background(), p, Options{})
		for _, err := range []error{lp, mip} {
			wantShapeError(t, err, tt.field, tt.at)
		}
	}
	_, err := SolveLP(context.Background(), &Problem{Index: []int32{0}, Value: []float64{1}}, nil, Options{})
	wantShapeError(t, err, "Index", -1)
}

func TestBasisAndOptionErrors(t *testing.T) {
	row, column := make([]VariableStatus, 2), make([]VariableStatus, 3)
	for field, basis := range map[string]Basis{
		"Basis.Row":    {row[:1], column},
		"Basis.Column": {row, column[:2]},
	} {
		_, err := SolveLP(context.Background(), strips(9, 4), &basis, Options{})
		wantShapeError(t, err, field, -1)
	}
	_, err := SolveLP(context.Background(), strips(9, 4), &Basis{row, []VariableStatus{0, Basic + 1, 0}}, Options{})
	wantShapeError(t, err, "Basis.Column", 1)

	nan := math.NaN()
	for field, o := range map[string]Options{
		"IterationLimit": {IterationLimit: -1},
		"NodeLimit":      {NodeLimit: math.MaxInt32 + 1},
		"TimeLimit":      {TimeLimit: -1},
		"CutOff":         {CutOff: &nan},
	} {
		_, err := SolveMIP(context.Background(), strips(9, 4), o)
		wantShapeError(t, err, field, -1)
		_, err = SolveLP(context.Background(), strips(9, 4), nil, o)
		wantShapeError(t, err, field, -1)
	}
}

func wantShapeError(t *testing.T, err error, field string, at int) {
	t.Helper()
	var shape *ShapeError
	if !errors.As(err, &shape) || shape.Field != field || shape.At != at {
		t.Errorf("%v; want an error about %s[%d]", err, field, at)
	}
}

func TestUnavailable(t *testing.T) {
	_, lp := SolveLP(context.Background(), strips(9, 4), nil, Options{})
	_, mip := SolveMIP(context.Background(), strips(9, 4), Options{})
	for _, err := range []error{lp, mip} {
		if errors.Is(err, ErrUnavailable) == Available() {
			t.Errorf("available: %v; solving: %v", Available(), err)
		}
	}
}

func TestStatusString(t *testing.T) {
	for s := Failed; s <= Feasible; s++ {
		if s.String() == "" || s.String()[0] == 'S' {
			t.Errorf("status %d has no name", s)
		}
	}
	if got := (Feasible + 1).String(); got != "Status(9)" {
		t.Errorf("unknown status: %q", got)
	}
}
