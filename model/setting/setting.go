package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Setting says how the blocks of a quilt are set.
type Setting struct {
	Way Way
	// Rows and Columns count the blocks; on point, those that stand in whole
	// rows between the corners (r x c of them, and (r-1)(c-1) between).
	Rows, Columns int
	// Layout says which block stands where. It is repeated over the rows and
	// columns if it has fewer: one row [A, B] and one [B, A] alternate.
	Layout [][]Place
	// Between is the same for the (r-1)(c-1) places between the blocks of a
	// setting on point. It is empty if SettingSquare is used there.
	Between [][]Place
	// SettingSquare is the fabric of plain squares between the blocks on point.
	SettingSquare string
	// Sides and Corners are the triangles around a setting on point.
	Sides, Corners Triangles
	// Float is the finished distance, on point, between the blocks' corners
	// and the edge.
	Float   model.Length
	Sashing *Sashing
}

// Way is the way that blocks are set.
type Way uint8

// The ways.
const (
	Straight Way = iota
	OnPoint
)

// String is straight or on point, as a quilt file has it.
func (w Way) String() string { return []string{"straight", "on point"}[w] }

// ParseWay reads straight or on point. The error is a *model.ValueError of the
// kind model.ErrNotAChoice.
func ParseWay(text string) (Way, error) {
	for w := Straight; w <= OnPoint; w++ {
		if text == w.String() {
			return w, nil
		}
	}
	return 0, &model.ValueError{Value: text, Err: model.ErrNotAChoice, Hint: "write straight or on point"}
}

// Place is what stands in one place of a setting.
type Place struct {
	Block     string // its label
	Colourway string // its label; empty for the block in its own fabrics
	Turn      block.Turn
}

// Triangles are the side or the corner triangles of a setting on point.
type Triangles struct {
	Fabric string
	Ease   block.Ease
}

// Top is a quilt top, or the middle of one before its borders.
type Top struct {
	// Width and Height are finished: whole lengths in a straight setting, mostly
	// surds on point.
	Width, Height geometry.Surd
	Places        []Set  // where the blocks stand
	Parts         []Part // what the setting takes besides its blocks
	grid          grid
}

// Part is what one part of a setting takes. Its shapes are told by [Top.Shapes].
type Part struct {
	Key   string // the key of the setting that asks for it
	Yield block.Yield
	boxes []piece // its rectangles
}

// Set is a block in its place.
type Set struct {
	Place
	u, v int // in the grid
}

// MaxRows is the most rows, and the most columns, of blocks.
const MaxRows = 500

// The keys of a setting in a quilt file.
const (
	KeySetting       = "setting"
	KeyWay           = "way"
	KeyRows          = "rows"
	KeyColumns       = "columns"
	KeyLayout        = "layout"
	KeyBetween       = "between"
	KeySettingSquare = "setting_squares"
	KeySides         = "side_triangles"
	KeyCorners       = "corner_triangles"
	KeyFloat         = "float"
	KeySashing       = "sashing"
)
