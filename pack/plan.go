package pack

import "crossgrain/model"

// Style says which strips a plan may use.
type Style uint8

const (
	// Plain is the way by hand: each cut size on strips of its own, all its
	// pieces lying one way.
	Plain Style = iota
	// Shared strips hold several sizes; a piece lower than its strip is
	// trimmed.
	Shared
	// Nested strips are shared ones in which a stretch of a strip may be
	// cut into a stack of lower pieces.
	Nested
)

// String is the style's name: plain, shared or nested.
func (s Style) String() string { return [...]string{"plain", "shared", "nested"}[s] }

// Placement is one piece where it lies in a stack. Along and Across are its
// size as it lies; Turned says that they are the item's, exchanged.
type Placement struct {
	Item          int // index into Problem.Items
	Along, Across model.Length
	Turned        bool
}

// Segment is a stretch of a strip, cut off across the strip at Along and then
// cut into a stack of pieces, each no longer than Along.
type Segment struct {
	Along  model.Length
	Repeat int         // how many times it follows itself along the strip
	Stack  []Placement // never empty
}

// Strip is one layout: a cut of Height across the whole usable width, made
// Repeat times, each subcut into the same segments. Offcut is what is left of
// the width at the end of each.
type Strip struct {
	Height   model.Length
	Repeat   int
	Segments []Segment
	Offcut   model.Length
}

// Plan is every strip to cut from one fabric at one usable width, highest
// first. It holds exactly the pieces that its problem asks for.
type Plan struct {
	Style  Style
	Width  model.Length
	Strips []Strip
}

// Length is the cloth that the strips take: the sum of their heights.
func (p Plan) Length() model.Length {
	var sum model.Length
	for _, s := range p.Strips {
		sum += s.Height * model.Length(s.Repeat)
	}
	return sum
}

// StripCount is the number of strips to cut.
func (p Plan) StripCount() int {
	n := 0
	for _, s := range p.Strips {
		n += s.Repeat
	}
	return n
}

// LayoutCount is the number of different strips to follow.
func (p Plan) LayoutCount() int { return len(p.Strips) }
