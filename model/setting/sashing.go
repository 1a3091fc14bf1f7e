package setting

import "crossgrain/model"

// Sashing is the strips between the blocks.
//
// With cornerstones every sash is as long as a block (cut b + 2s by w + 2s) and
// a square stands where sashes cross. Without, sashes of a block's length stand
// between the blocks of a row, and long ones between the rows, cut in one piece
// where the fabric is wide enough, else pieced like a crosswise border. On point
// the block and one sash are set as one (9 1/2 + 2 = 11 1/2,
// quiltingpassion.com, On-Point Lesson 7).
type Sashing struct {
	Width  model.Length // finished
	Fabric string
	// Cornerstone is the fabric of the squares where sashes cross; empty for
	// none.
	Cornerstone string
	// Around also puts sashing round the outside of the blocks.
	Around bool
}

// The keys of sashing in a quilt file.
const (
	KeySashWidth   = "width"
	KeySashFabric  = "fabric"
	KeyCornerstone = "cornerstones"
	KeyAround      = "around"
)
