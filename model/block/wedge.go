package block

import "crossgrain/model"

// Trapezoid is a shape with two parallel sides and two slants that mirror each
// other, given by its finished height and the finished lengths of its parallel
// sides. It is cut head to foot from a strip of h + 2s; slants of 45° or 60°
// are exact, others are rounded up through whole-number roots.
type Trapezoid struct{ Height, Long, Short model.Length }

// Wedge is a trapezoid for rings and fans: high, with little slant. A triangle
// has a Short of 0.
type Wedge struct{ Height, Long, Short model.Length }

// The keys of slanted shapes in a quilt file.
const (
	KeyTrapezoid = "trapezoid"
	KeyWedge     = "wedge"
)
