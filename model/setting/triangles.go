package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Side triangles of a setting on point have legs of a block and a sash, b + w,
// and with a float F the long side (b+w)√2 + 2F. They are quarters of squares
// of (b+w)√2 + 2F + s(2+2√2) (Moonlight Quilters, tip on on-point settings: 6 in
// blocks, 9 3/4; sashed, "block + sash" in place of the block: 9 1/2 + 2 =
// 11 1/2, quiltingpassion.com, On-Point Lesson 7). As in the trade, in inches the
// seams are rounded up on their own first, at s = 1/4 in to 1 1/4 in.
func (s Setting) sideCut(r block.Rules, b model.Length) model.Length {
	long := geometry.Root2(s.grid(b, b).pitch()).Add(geometry.Of(2 * s.Float))
	return s.Sides.cut(r, long.Add(seams(r, r.QuarterSquareCut(geometry.Surd{}))))
}

// Corner triangles have the first block's side as their long side, with sashing
// around b + 2w, and a float adds 2F to each leg. They are halves of squares of
// b/√2 + 2F + s(2+√2) (the same: 6 in blocks, 5 1/8), the seams in inches rounded
// up first, at s = 1/4 in to 7/8 in.
func (s Setting) cornerCut(r block.Rules, b model.Length) model.Length {
	g := s.grid(b, b)
	leg := geometry.Of(b + 2*g.rim).OverRoot2().Add(geometry.Of(2 * s.Float))
	return s.Corners.cut(r, leg.Add(seams(r, r.HalfSquareCut(geometry.Surd{}))))
}

// seams are what seams add to a square, on the ruler's mark in inches. No table
// in centimetres has that step: there only the whole is rounded up.
func seams(r block.Rules, exact geometry.Surd) geometry.Surd {
	if r.Unit == model.Centimetres {
		return exact
	}
	return geometry.Of(r.Ceil(exact))
}

// pitch is a block and a sash.
func (g grid) pitch() model.Length { return g.width + g.sash }

// cut is the side of a square on the ruler's mark, with its ease. The trade's
// is 1/4 in, and then up to the next 1/4: 6 in blocks take 10 and 5 1/2 in
// place of 9 3/4 and 5 1/8 (APQ, Table Manners). In centimetres 0.5 serves for
// 1/4 in (our own).
func (t Triangles) cut(r block.Rules, exact geometry.Surd) model.Length {
	switch t.Ease.Kind {
	case block.TradeEase:
		more := model.Inch / 4
		if r.Unit == model.Centimetres {
			more = model.Centimetre / 2
		}
		return exact.Add(geometry.Of(more)).CeilTo(more).CeilTo(r.Ruler)
	case block.OwnEase:
		return r.Ceil(exact) + t.Ease.Own.CeilTo(r.Ruler)
	}
	return r.Ceil(exact)
}

// touch is a corner of a block, or of the sashing around, that touches the
// edge or the float; end is where the seam from it meets the edge.
type touch struct {
	corner, end geometry.Point
	u, v        model.Length // the corner in the grid
}

// touches are the corners along one side of the top, from left to right or from
// the top down.
//
// The seams that run from them through the float are those of the rows, which
// are sewn with constant v; only the corner triangles at the upper left and the
// lower right, which are sewn last, reach across theirs.
func (g grid) touches(side block.Side) []touch {
	n := g.Columns
	if side == block.Left || side == block.Right {
		n = g.Rows
	}
	far := side == block.Bottom || side == block.Right
	touches := make([]touch, n)
	for k := range touches {
		t := &touches[k]
		row, column := 0, k // of the block in the outer lattice
		switch side {
		case block.Right:
			row, column = k, g.Columns-1
		case block.Bottom:
			row = g.Rows - 1
		case block.Left:
			row, column = k, 0
		}
		cell := g.cell(row+column+1, row-column)
		t.u, t.v = cell.u0-g.rim, cell.v0-g.rim
		x, y := -1, -1 // the way that the seam runs
		if far {
			t.u, x, y = cell.u1+g.rim, 1, 1
		}
		if side == block.Bottom || side == block.Left {
			t.v = cell.v1 + g.rim
		}
		switch {
		case k == 0 && side == block.Top, k == n-1 && side == block.Right:
			x, y = 1, -1
		case k == 0 && side == block.Left, k == n-1 && side == block.Bottom:
			x, y = -1, 1
		}
		t.corner = g.point(t.u, t.v)
		float := geometry.Of(g.Float)
		t.end = t.corner.Plus(geometry.At(float.Times(x), float.Times(y)))
	}
	return touches
}

// sideTriangles are the triangles along the four sides.
func (g grid) sideTriangles(r block.Rules) block.Yield {
	var y block.Yield
	for side := block.Top; side <= block.Left; side++ {
		touches := g.touches(side)
		for k := 1; k < len(touches); k++ {
			a, b := touches[k-1], touches[k]
			// The rows and columns of the grid that the two corners are on meet
			// at the triangle's right angle, on the inner side.
			apex := g.point(b.u, a.v)
			if side == block.Bottom || side == block.Right {
				apex = g.point(a.u, b.v)
			}
			outline := neat(geometry.Polygon{apex, a.corner, a.end, b.end, b.corner})
			y.Shapes = append(y.Shapes, block.Shape{Fabric: g.Sides.Fabric, Outline: outline})
		}
	}
	if n := len(y.Shapes); n > 0 {
		square := g.sideCut(r, g.width)
		y.Cuts = []model.Cut{{Fabric: g.Sides.Fabric, Width: square, Height: square, Count: (n + 3) / 4,
			Halve: model.HalvedTwice, Use: "side triangles"}}
	}
	return y
}

// cornerTriangles are the four triangles in the corners.
func (g grid) cornerTriangles(r block.Rules) block.Yield {
	square := g.cornerCut(r, g.width)
	y := block.Yield{Cuts: []model.Cut{{Fabric: g.Corners.Fabric, Width: square, Height: square, Count: 2,
		Halve: model.HalvedOnce, Use: "corner triangles"}}}
	width, height := g.size()
	top, right, bottom, left := g.touches(block.Top), g.touches(block.Right), g.touches(block.Bottom), g.touches(block.Left)
	for _, c := range []struct {
		corner geometry.Point
		a, b   touch
	}{
		{geometry.Point{}, top[0], left[0]},
		{geometry.Point{X: width}, top[g.Columns-1], right[0]},
		{geometry.At(width, height), bottom[g.Columns-1], right[g.Rows-1]},
		{geometry.Point{Y: height}, bottom[0], left[g.Rows-1]},
	} {
		outline := neat(geometry.Polygon{c.corner, c.a.end, c.a.corner, c.b.corner, c.b.end})
		y.Shapes = append(y.Shapes, block.Shape{Fabric: g.Corners.Fabric, Outline: outline})
	}
	return y
}

// neat leaves out corners that are flat, or there twice.
func neat(g geometry.Polygon) geometry.Polygon {
	var kept geometry.Polygon
	for i, p := range g {
		if i > 0 && p.Equal(g[i-1]) || i == len(g)-1 && p.Equal(g[0]) {
			continue
		}
		kept = append(kept, p)
	}
	var corners geometry.Polygon
	for i, p := range kept {
		before, after := kept[(i+len(kept)-1)%len(kept)], kept[(i+1)%len(kept)]
		if (geometry.Polygon{before, p, after}).Area().Sign() != 0 {
			corners = append(corners, p)
		}
	}
	return corners
}
