package setting

import (
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
)

// Corners say how the sides of a border meet.
type Corners uint8

// The ways that sides meet.
const (
	SidesFirst    Corners = iota // left and right, then top and bottom across them
	TopFirst                     // top and bottom, then left and right
	Mitred                       // on the diagonal
	CornerSquares                // a square of another fabric in each corner
)

var cornerWords = []string{"sides first", "top first", "mitred", "squares"}

// String is the way as a quilt file has it, as in: sides first.
func (c Corners) String() string { return cornerWords[c] }

// ParseCorners reads a way that sides meet. The error is a *model.ValueError
// of the kind model.ErrNotAChoice.
func ParseCorners(text string) (Corners, error) {
	i, err := choose(cornerWords, text)
	return Corners(i), err
}

// BorderCut says how the sides of a border are cut.
type BorderCut uint8

// The ways to cut.
const (
	CrosswiseStraight BorderCut = iota // across the fabric, straight joins
	CrosswiseDiagonal                  // across the fabric, diagonal joins
	LengthwiseCut                      // along the selvage, in one piece
)

var borderCutWords = []string{"crosswise", "crosswise diagonal", "lengthwise"}

// String is the way as a quilt file has it, as in: crosswise diagonal.
func (c BorderCut) String() string { return borderCutWords[c] }

// ParseBorderCut reads a way to cut. The error is a *model.ValueError of the
// kind model.ErrNotAChoice.
func ParseBorderCut(text string) (BorderCut, error) {
	i, err := choose(borderCutWords, text)
	return BorderCut(i), err
}

// ParseSide reads top, right, bottom or left. The error is a *model.ValueError
// of the kind model.ErrNotAChoice.
func ParseSide(text string) (block.Side, error) {
	words := make([]string, 0, 4)
	for s := block.Top; s <= block.Left; s++ {
		words = append(words, s.String())
	}
	i, err := choose(words, text)
	return block.Side(i), err
}

// choose is the place of a text among words.
func choose(words []string, text string) (int, error) {
	if i := slices.Index(words, text); i >= 0 {
		return i, nil
	}
	last := len(words) - 1
	return 0, &model.ValueError{Value: text, Err: model.ErrNotAChoice,
		Hint: "write " + strings.Join(words[:last], ", ") + " or " + words[last]}
}

// The keys of a border in a quilt file.
const (
	KeyBorders      = "borders"
	KeyBorderWidth  = "width"
	KeyBorderFabric = "fabric"
	KeyBorderCorner = "corners"
	KeyCornerFabric = "corner_fabric"
	KeyBorderCut    = "cut"
	KeyBorderSides  = "sides"
	KeyExtra        = "extra"
)
