package block

import (
	"slices"
	"strings"

	"crossgrain/model"
)

// Method is a way to make a unit. Which ones a unit knows, and which it is
// made by if none is said (DefaultMethod), is in its docstring.
type Method uint8

// The methods.
const (
	DefaultMethod Method = iota
	// FromTriangles cuts every triangle on its own, before it is sewn.
	FromTriangles
	// TwoAtATime, FourAtATime and EightAtATime sew larger squares and cut the
	// units from them.
	TwoAtATime
	FourAtATime
	EightAtATime
	// FlipAndTrim sews a square across a corner, folds it open and cuts the
	// corner below it away.
	FlipAndTrim
	// PieceByPiece cuts every patch on its own.
	PieceByPiece
	// StripSets sews strips side by side and cuts sections across them.
	StripSets
)

var methodWords = []string{
	"", "from triangles", "2 at a time", "4 at a time", "8 at a time", "flip and trim", "piece by piece", "strip sets",
}

// String is the method as a quilt file has it, as in: 8 at a time. It is empty
// for the default.
func (m Method) String() string { return methodWords[m] }

// use is what a piece is for, with the method, but for triangles that are cut
// before they are sewn: those say in how they are halved.
func (m Method) use(what string) string {
	if m == DefaultMethod || m == FromTriangles {
		return what
	}
	return what + ", " + strings.ReplaceAll(m.String(), " ", "-")
}

// The methods of each unit that has more than one.
var (
	HalfSquareMethods     = []Method{FromTriangles, TwoAtATime, FourAtATime, EightAtATime}
	QuarterSquareMethods  = []Method{FromTriangles, TwoAtATime}
	GeeseMethods          = []Method{FromTriangles, FlipAndTrim, FourAtATime}
	SquareInSquareMethods = []Method{FromTriangles, FlipAndTrim}
	PatchesMethods        = []Method{PieceByPiece, StripSets}
)

// ParseMethod reads a method of a unit that knows some. The error is a
// *model.ValueError of the kind model.ErrNotAChoice, also for a method that the
// unit does not know.
func ParseMethod(text string, known []Method) (Method, error) {
	if i := slices.Index(methodWords, text); i > 0 && slices.Contains(known, Method(i)) {
		return Method(i), nil
	}
	return 0, &model.ValueError{Value: text, Err: model.ErrNotAChoice, Hint: "this unit is made " + methodList(known)}
}

// methodList joins methods for a message.
func methodList(methods []Method) string {
	words := make([]string, len(methods))
	for i, m := range methods {
		words[i] = m.String()
	}
	return wordList(words)
}

func wordList(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
