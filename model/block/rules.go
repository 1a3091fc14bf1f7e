package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Rules are what all sizes of a quilt are worked out with.
type Rules struct {
	Unit model.Unit
	Seam model.Length // the seam allowance, of one side of a piece
	// Ruler is the mark that cut sizes are rounded up to.
	Ruler model.Length
}

// DefaultRules are those of a quilt file in the unit u that says nothing else:
// a seam allowance of 1/4 in on a ruler of 1/8 in, or of 0.75 cm on a ruler of
// 0.1 cm (common practice, no source).
func DefaultRules(u model.Unit) Rules {
	r := Rules{Unit: u, Seam: model.Inch / 4, Ruler: model.DefaultRuler(u)}
	if u == model.Centimetres {
		r.Seam = 3 * model.Centimetre / 4
	}
	return r
}

// Unfinished is what a finished size measures before it is joined: f + 2s
// (Karen Combs, Formulas for Quilters).
func (r Rules) Unfinished(finished model.Length) model.Length { return finished + 2*r.Seam }

// Ceil is a size on the ruler's mark, rounded up.
func (r Rules) Ceil(s geometry.Surd) model.Length { return s.CeilTo(r.Ruler) }

// HalfSquareCut is the exact side of the square that is halved once into
// triangles of the finished leg: f + s(2+√2). At s = 1/4 in that is up to
// f + 7/8 (APQ how-to, allpeoplequilt.com/print/325998).
func (r Rules) HalfSquareCut(leg geometry.Surd) geometry.Surd {
	return leg.Add(geometry.Of(2 * r.Seam)).Add(geometry.Root2(r.Seam))
}

// QuarterSquareCut is the exact side of the square that is halved twice into
// triangles of the finished long side: f + s(2+2√2). At s = 1/4 in that is up
// to f + 1 1/4 (APQ how-to, allpeoplequilt.com/print/325998).
func (r Rules) QuarterSquareCut(long geometry.Surd) geometry.Surd {
	return long.Add(geometry.Of(2 * r.Seam)).Add(geometry.Root2(2 * r.Seam))
}
