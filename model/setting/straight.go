package setting

import (
	"strconv"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// checkGrid notes what is wrong with the rows, the columns and the layout.
func (s Setting) checkGrid(c *block.Checker, at func(key string) model.Path) {
	for _, count := range []struct {
		key string
		n   int
	}{{KeyRows, s.Rows}, {KeyColumns, s.Columns}} {
		if count.n < 1 || count.n > MaxRows {
			c.Faults.AddAt(at(count.key), &model.ValueError{
				Value: strconv.Itoa(count.n), Err: model.ErrOutOfRange, Hint: "write a whole number from 1 to " + strconv.Itoa(MaxRows)})
		}
	}
	if len(s.Layout) == 0 {
		c.Faults.AddAt(at(KeyLayout), &model.ValueError{Err: model.ErrMissing, Hint: "write the blocks, row by row"})
	}
	for i, row := range s.Layout {
		if len(row) == 0 {
			c.Faults.AddAt(at(KeyLayout).Entry(i), &model.ValueError{Err: model.ErrMissing, Hint: "write at least one block"})
		}
	}
}

// straight sets blocks of a finished width and height edge to edge.
func (s Setting) straight(width, height model.Length) Top {
	top := Top{Width: geometry.Of(width).Times(s.Columns), Height: geometry.Of(height).Times(s.Rows)}
	for row := range s.Rows {
		for column := range s.Columns {
			top.Places = append(top.Places, Set{
				Place: placeAt(s.Layout, row, column),
				X:     geometry.Of(width).Times(column), Y: geometry.Of(height).Times(row),
			})
		}
	}
	return top
}
