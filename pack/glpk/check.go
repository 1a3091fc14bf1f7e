package glpk

import (
	"fmt"
	"math"
)

// ShapeError says which array of a problem, basis or set of options is not
// as it must be. It is a mistake of the caller.
type ShapeError struct {
	Field  string // such as Index
	At     int    // position in the field; −1 if it is not one entry
	Reason string
}

func (e *ShapeError) Error() string {
	if e.At < 0 {
		return fmt.Sprintf("glpk: %s %s", e.Field, e.Reason)
	}
	return fmt.Sprintf("glpk: %s[%d] %s", e.Field, e.At, e.Reason)
}

func (p *Problem) check() error {
	m, n := len(p.RowLower), len(p.Cost)
	if err := p.checkLengths(m, n); err != nil {
		return err
	}
	if err := checkLimits("RowLower", p.RowLower, "RowUpper", p.RowUpper); err != nil {
		return err
	}
	if err := checkLimits("Lower", p.Lower, "Upper", p.Upper); err != nil {
		return err
	}
	if err := checkFinite("Cost", p.Cost); err != nil {
		return err
	}
	if err := checkFinite("Value", p.Value); err != nil {
		return err
	}
	return p.checkMatrix(m, n)
}

func (p *Problem) checkLengths(m, n int) error {
	starts := n + 1
	if n == 0 && len(p.Start) == 0 {
		starts = 0
	}
	integers := n
	if p.Integer == nil {
		integers = 0
	}
	for _, f := range []struct {
		name      string
		got, want int
	}{
		{"RowUpper", len(p.RowUpper), m},
		{"Lower", len(p.Lower), n},
		{"Upper", len(p.Upper), n},
		{"Start", len(p.Start), starts},
		{"Value", len(p.Value), len(p.Index)},
		{"Integer", len(p.Integer), integers},
	} {
		if f.got != f.want {
			return &ShapeError{f.name, -1, fmt.Sprintf("has %d entries, not %d", f.got, f.want)}
		}
	}
	for _, f := range []struct {
		name string
		size int
	}{{"RowLower", m}, {"Cost", n}, {"Index", len(p.Index)}} {
		if f.size >= math.MaxInt32 {
			return &ShapeError{f.name, -1, "is too long for GLPK"}
		}
	}
	return nil
}

// checkMatrix checks that Start climbs from 0 to the number of entries and
// that each column names rows that exist, none twice.
func (p *Problem) checkMatrix(m, n int) error {
	if len(p.Start) == 0 {
		if len(p.Index) > 0 {
			return &ShapeError{"Index", -1, "has entries of no column"}
		}
		return nil
	}
	if p.Start[0] != 0 {
		return &ShapeError{"Start", 0, fmt.Sprintf("is %d, not 0", p.Start[0])}
	}
	if last := int(p.Start[n]); last != len(p.Index) {
		return &ShapeError{"Start", n, fmt.Sprintf("is %d, not the %d entries of Index", last, len(p.Index))}
	}
	lastColumn := make([]int32, m) // 1 + the last column seen in each row
	for j := range n {
		if p.Start[j+1] < p.Start[j] || int(p.Start[j+1]) > len(p.Index) {
			return &ShapeError{"Start", j + 1, fmt.Sprintf("is %d, out of order", p.Start[j+1])}
		}
		for k := p.Start[j]; k < p.Start[j+1]; k++ {
			i := p.Index[k]
			if i < 0 || int(i) >= m {
				return &ShapeError{"Index", int(k), fmt.Sprintf("is %d, not one of %d rows", i, m)}
			}
			if lastColumn[i] == int32(j)+1 {
				return &ShapeError{"Index", int(k), fmt.Sprintf("is %d, which column %d has already", i, j)}
			}
			lastColumn[i] = int32(j) + 1
		}
	}
	return nil
}

// checkLimits refuses what is no limit: NaN, +Inf from below, −Inf from above.
func checkLimits(lowerName string, lower []float64, upperName string, upper []float64) error {
	for i, v := range lower {
		if math.IsNaN(v) || math.IsInf(v, 1) {
			return &ShapeError{lowerName, i, fmt.Sprintf("is %v", v)}
		}
	}
	for i, v := range upper {
		if math.IsNaN(v) || math.IsInf(v, -1) {
			return &ShapeError{upperName, i, fmt.Sprintf("is %v", v)}
		}
	}
	return nil
}

func checkFinite(name string, values []float64) error {
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return &ShapeError{name, i, fmt.Sprintf("is %v", v)}
		}
	}
	return nil
}

func (b *Basis) check(p *Problem) error {
	for _, f := range []struct {
		name string
		got  []VariableStatus
		want int
	}{{"Basis.Row", b.Row, len(p.RowLower)}, {"Basis.Column", b.Column, len(p.Cost)}} {
		if len(f.got) != f.want {
			return &ShapeError{f.name, -1, fmt.Sprintf("has %d entries, not %d", len(f.got), f.want)}
		}
		for i, s := range f.got {
			if s > Basic {
				return &ShapeError{f.name, i, fmt.Sprintf("is %d, not a status", s)}
			}
		}
	}
	return nil
}

func (o *Options) check() error {
	for _, f := range []struct {
		name  string
		limit int
	}{{"IterationLimit", o.IterationLimit}, {"NodeLimit", o.NodeLimit}} {
		if f.limit < 0 || f.limit > math.MaxInt32 {
			return &ShapeError{f.name, -1, fmt.Sprintf("is %d", f.limit)}
		}
	}
	if o.TimeLimit < 0 {
		return &ShapeError{"TimeLimit", -1, fmt.Sprintf("is %v", o.TimeLimit)}
	}
	if o.CutOff != nil && (math.IsNaN(*o.CutOff) || math.IsInf(*o.CutOff, 0)) {
		return &ShapeError{"CutOff", -1, fmt.Sprintf("is %v", *o.CutOff)}
	}
	return nil
}
