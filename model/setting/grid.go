package setting

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// grid is a setting as a grid of blocks and sashes, measured along its own
// directions: u along its rows, v across them. In a straight setting these are
// to the right and down; on point, to the lower right and the lower left.
//
// On point the block of row i and column j of the outer lattice is in the
// grid's place (i+j+1, i-j), and the one between the rows i-1 and i and the
// columns j-1 and j is in (i+j, i-j), all counted from 0.
type grid struct {
	Setting
	width, height model.Length // of a block
	sash          model.Length // 0 without sashing
	rim           model.Length // the sash around all; 0 without one
	from, to      spot         // the least and the largest places of blocks
}

type spot struct{ u, v int }

func (s Setting) grid(width, height model.Length) grid {
	g := grid{Setting: s, width: width, height: height, to: spot{s.Columns - 1, s.Rows - 1}}
	if s.Way == OnPoint {
		g.from, g.to = spot{1, 1 - s.Columns}, spot{s.Rows + s.Columns - 1, s.Rows - 1}
	}
	if s.Sashing != nil {
		g.sash = s.Sashing.Width
		if s.Sashing.Around {
			g.rim = g.sash
		}
	}
	return g
}

// what stands in a place of a grid.
type what uint8

const (
	nothing what = iota
	aBlock
	aSquare // a setting square
)

// standing is what stands in a place.
func (g grid) standing(u, v int) (Place, what) {
	if g.Way == Straight {
		if u < 0 || u >= g.Columns || v < 0 || v >= g.Rows {
			return Place{}, nothing
		}
		return placeAt(g.Layout, v, u), aBlock
	}
	// Both sums are odd in the outer lattice and even between.
	if (u+v)%2 != 0 {
		row, column := (u+v-1)/2, (u-v-1)/2
		if u+v < 0 || u-v < 0 || row >= g.Rows || column >= g.Columns {
			return Place{}, nothing
		}
		return placeAt(g.Layout, row, column), aBlock
	}
	row, column := (u+v)/2-1, (u-v)/2-1
	switch {
	case row < 0 || column < 0 || row >= g.Rows-1 || column >= g.Columns-1:
		return Place{}, nothing
	case len(g.Between) == 0:
		return Place{}, aSquare
	}
	return placeAt(g.Between, row, column), aBlock
}

// Standing are what the layouts say that stands in at least one place.
func (s Setting) Standing() []Place {
	standing := reached(s.Layout, s.Rows, s.Columns)
	if s.Way == OnPoint {
		standing = append(standing, reached(s.Between, s.Rows-1, s.Columns-1)...)
	}
	return standing
}

// reached is what is set of a layout that is repeated over rows and columns.
func reached(layout [][]Place, rows, columns int) []Place {
	var places []Place
	for _, line := range layout[:min(len(layout), max(rows, 0))] {
		places = append(places, line[:min(len(line), max(columns, 0))]...)
	}
	return places
}

// placeAt is what the repeated layout has in a place; the layout must not be
// empty.
func placeAt(layout [][]Place, row, column int) Place {
	line := layout[row%len(layout)]
	return line[column%len(line)]
}

// has reports whether a block or a square stands in a place.
func (g grid) has(u, v int) bool {
	_, what := g.standing(u, v)
	return what != nothing
}

// across and down are where a place begins, in the directions of the grid.
func (g grid) across(u int) model.Length { return model.Length(u) * (g.width + g.sash) }
func (g grid) down(v int) model.Length   { return model.Length(v) * (g.height + g.sash) }

// cell is what a block covers in a place.
func (g grid) cell(u, v int) box {
	return box{g.across(u), g.down(v), g.across(u) + g.width, g.down(v) + g.height}
}

// point is a point of the grid on the top.
func (g grid) point(u, v model.Length) geometry.Point {
	if g.Way == Straight {
		return geometry.At(geometry.Of(u+g.rim), geometry.Of(v+g.rim))
	}
	// A grid that is turned by an eighth: x = (u-v)/√2, y = (u+v)/√2, less the
	// left corner of the first block for x, and its top corner for y.
	pitch := g.width + g.sash
	x := geometry.Root2(u - v - (pitch - g.width - 2*g.rim)).Half()
	y := geometry.Root2(u + v - (pitch - 2*g.rim)).Half()
	return geometry.At(x.Add(geometry.Of(g.Float)), y.Add(geometry.Of(g.Float)))
}

// size is the finished size of the top.
//
// Straight: n blocks and the sashes between and around. On point, with blocks
// b and sashes w: ((n-1)(b+w) + b)√2, 2w√2 more with sashing around, and the
// float at both ends. Without sashing, n diagonals of a block.
func (g grid) size() (width, height geometry.Surd) {
	side := func(n int, block model.Length) geometry.Surd {
		length := model.Length(n-1)*(block+g.sash) + block + 2*g.rim
		if g.Way == OnPoint {
			return geometry.Root2(length).Add(geometry.Of(2 * g.Float))
		}
		return geometry.Of(length)
	}
	return side(g.Columns, g.width), side(g.Rows, g.height)
}
