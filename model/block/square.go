package block

import "crossgrain/model"

// Rectangle is a unit of one piece; a square where its sides are equal. It is
// cut f + 2s each way (Karen Combs, Formulas for Quilters).
type Rectangle struct {
	Width, Height model.Length
	Fabric        string
}

// The keys of a unit of one piece in a quilt file.
const (
	KeySquare    = "square"
	KeyRectangle = "rectangle"
)
