package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Unit is a rectangle of patchwork: what a block is made of. Its values are
// never changed once they are made. Two units are alike if they are equal in
// depth.
type Unit interface {
	// Size is the finished size. It is on no mark where it comes from a root.
	Size() (width, height geometry.Surd)
	// Uses are the labels of the fabrics, in the order of its parts, each as
	// often as it is said.
	Uses() []string
	// Recolour is the unit with fabrics exchanged.
	Recolour(swap Swap) Unit
	// Check notes the unit's faults; at is its place in the quilt file. The
	// units inside it are checked on their own.
	Check(c *Checker, at model.Path)
	// Make is what n of the unit take, n being 1 or more, without the units
	// inside it. It is called only if Check noted nothing.
	Make(r Rules, n int) Yield
}

// Composite is a unit that has others inside.
type Composite interface {
	Unit
	// Inner are the units inside it, at their places, without those inside
	// them.
	Inner(units Units) []Placed
}

// Units are the units of a design by their labels.
type Units map[string]Unit

// Placed is a unit at its place: X and Y are those of the upper left corner of
// what it covers once it is turned.
type Placed struct {
	Unit Unit
	Name string     // its label, or that of its block of rounds
	At   model.Path // where the quilt file tells of it
	X, Y geometry.Surd
	Turn Turn
}

// Turn is a number of quarter turns, clockwise: 0 to 3.
type Turn uint8

// Size is the finished size of the unit as it is turned.
func (p Placed) Size() (width, height geometry.Surd) {
	width, height = p.Unit.Size()
	if p.Turn%2 == 1 {
		return height, width
	}
	return width, height
}

// Place moves an outline of the unit to where it stands.
func (p Placed) Place(outline geometry.Polygon) geometry.Polygon {
	w, h := p.Unit.Size()
	return p.Turn.turned(outline, w, h).Moved(geometry.At(p.X, p.Y))
}

// WithInner is the unit and those inside it, which turn with it.
func (p Placed) WithInner(units Units) []Placed {
	all := []Placed{p}
	outer, ok := p.Unit.(Composite)
	if !ok {
		return all
	}
	for _, q := range outer.Inner(units) {
		w, h := q.Size()
		corner := geometry.At(q.X, q.Y)
		from, _ := p.Place(geometry.Box(corner, corner.Plus(geometry.At(w, h)))).Bounds()
		q.X, q.Y, q.Turn = from.X, from.Y, (p.Turn+q.Turn)%4
		all = append(all, q.WithInner(units)...)
	}
	return all
}

// turned is an outline in a rectangle of width and height that is turned, so
// that the rectangle's upper left corner is at (0, 0) again.
func (t Turn) turned(outline geometry.Polygon, width, height geometry.Surd) geometry.Polygon {
	corner := []geometry.Point{{}, {X: height}, {X: width, Y: height}, {Y: width}}[t%4]
	return outline.Turned(int(t)).Moved(corner)
}

// Swap says which fabric takes the place of which, by their labels. Fabrics
// that it does not name stay.
type Swap map[string]string

// of is what takes the place of each fabric.
func (s Swap) of(fabrics []string) []string {
	swapped := make([]string, len(fabrics))
	for i, f := range fabrics {
		swapped[i] = s.one(f)
	}
	return swapped
}

func (s Swap) one(fabric string) string {
	if other, ok := s[fabric]; ok {
		return other
	}
	return fabric
}
