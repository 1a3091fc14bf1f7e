package drawing

import "crossgrain/model"

// Point is a place on a drawing: X to the right, Y downwards.
type Point struct{ X, Y model.Length }

// Drawing is a list of items, the later ones on top of the earlier.
type Drawing struct {
	// From and To are the corners of what is seen: the upper left and the lower
	// right.
	From, To Point
	// Scale is how many units go into one point of paper (1/72 in); 1 or more.
	Scale model.Length
	Title string // what it shows, for those who cannot see it
	Items []Item
}

// Item is a [Shape], a [Line] or a [Text].
type Item interface{ isItem() }

// Tone is a grey, from 0 for black to 255 for white.
type Tone uint8

// The tones in use.
const (
	Ink   Tone = 0x1c
	Grey  Tone = 0x70
	Pale  Tone = 0xb0
	Mist  Tone = 0xe6
	White Tone = 0xff
)

// Stroke is how a line is drawn. A width of 0 is no line.
type Stroke struct {
	Width model.Length
	Tone  Tone
	// Dash and Gap are the lengths of dashes and of what is between them; 0 is
	// an unbroken line.
	Dash, Gap model.Length
}

// Shape is a closed polygon.
type Shape struct {
	Outline []Point
	// Hollow says that it is not filled; else it is, with Fill.
	Hollow bool
	Fill   Tone
	Hatch  Hatch
	Stroke Stroke
	// Class and Name say what is drawn: the SVG has them.
	Class, Name string
}

// Line goes from point to point.
type Line struct {
	Points []Point
	Stroke Stroke
}

// Anchor says which part of a text stands at its place.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of writing. At is on its base line; Size is that of the
// font.
type Text struct {
	At     Point
	Size   model.Length
	Text   string
	Anchor Anchor
	Bold   bool
	// Upward says that it is read from the bottom to the top.
	Upward bool
	Tone   Tone
}

func (Shape) isItem() {}
func (Line) isItem()  {}
func (Text) isItem()  {}

// Add puts items on top.
func (d *Drawing) Add(items ...Item) { d.Items = append(d.Items, items...) }

// Size is the size on paper, in points, rounded up.
func (d Drawing) Size() (width, height int) {
	return int((d.To.X - d.From.X).CeilTo(d.Scale) / d.Scale), int((d.To.Y - d.From.Y).CeilTo(d.Scale) / d.Scale)
}

// Box is the outline of a rectangle between two corners.
func Box(from, to Point) []Point {
	return []Point{from, {to.X, from.Y}, to, {from.X, to.Y}}
}

// isBox reports whether an outline is that of an upright rectangle, and which.
func isBox(g []Point) (from, to Point, ok bool) {
	if len(g) != 4 {
		return from, to, false
	}
	from, to = bounds(g)
	for i, p := range Box(from, to) {
		if g[i] != p {
			return from, to, false
		}
	}
	return from, to, true
}

// bounds are the corners of the smallest upright rectangle around points.
func bounds(g []Point) (from, to Point) {
	from, to = g[0], g[0]
	for _, p := range g[1:] {
		from = Point{min(from.X, p.X), min(from.Y, p.Y)}
		to = Point{max(to.X, p.X), max(to.Y, p.Y)}
	}
	return from, to
}

// Sheet is drawings beside each other on one sheet of paper. Sizes and places
// are in points.
type Sheet struct {
	Width, Height int
	Title         string
	Parts         []Part
}

// Part is a drawing with its upper left corner at a place of a sheet.
type Part struct {
	X, Y    int
	Drawing Drawing
}

// Alone is a sheet of one drawing.
func Alone(d Drawing) Sheet {
	w, h := d.Size()
	return Sheet{Width: w, Height: h, Title: d.Title, Parts: []Part{{Drawing: d}}}
}
