package model

// Diagonal says on which diagonal a rectangle is halved, as the piece stands on
// the print. Halved on the other one, its triangles are mirror images. It says
// nothing of a square, whose halves are alike, and no quilt file writes it: it
// is worked out from a design.
type Diagonal uint8

// Rising runs from the lower left to the upper right corner, Falling from the
// upper left to the lower right one.
const (
	EitherDiagonal Diagonal = iota
	Rising
	Falling
)

// diagonalWords are the diagonals as they are told.
var diagonalWords = [...]string{
	EitherDiagonal: "", Rising: "from lower left to upper right", Falling: "from upper left to lower right",
}

// String is where the diagonal runs from and to, and empty for either.
func (d Diagonal) String() string { return word(diagonalWords[:], int(d)) }

// Turned is the diagonal of a piece that is turned a quarter: the one that rose
// falls, and the other way round.
func (d Diagonal) Turned() Diagonal {
	switch d {
	case Rising:
		return Falling
	case Falling:
		return Rising
	}
	return d
}
