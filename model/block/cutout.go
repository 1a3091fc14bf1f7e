package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Cutout is a shape that is no part of a rectangle of patchwork: it is cut from
// a full-width strip, each beside the next, mostly head to foot. A design
// counts its cutouts; how they are set is the maker's.
type Cutout interface {
	// Outline is the finished shape as it stands on its base, with x and y from
	// 0.
	Outline() geometry.Polygon
	// Lie is how the shapes lie in a strip.
	Lie(r Rules) Lie
	// Words are what the shapes are called, and how they are cut.
	Words(r Rules) Words
	// Check notes the shape's faults; at is its place in the quilt file.
	Check(c *Checker, at model.Path)
}

// Lie is how cut shapes lie in a strip.
type Lie struct {
	Height model.Length // the cut height of the strip, on the ruler's mark
	// First is the length of strip that the first shape takes with its slanted
	// ends, Each what each further one takes; both rounded up to whole ticks.
	First, Each model.Length
	// Halve says that the two ends of a strip are half shapes, which can close a
	// row; they have no seam allowance on their straight side.
	Halve bool
}

// Strip is the strips to cut count shapes from. Slanted ends meet no mark of a
// ruler: set the strip's Mark to have its parts end on one.
func (l Lie) Strip(fabric, use string, count int) model.Strip {
	return model.Strip{Fabric: fabric, Use: use, Height: l.Height, Count: count, First: l.First, Each: l.Each}
}

// ticks is a length that is no mark of any ruler, rounded up to whole ticks.
func ticks(s geometry.Surd) model.Length { return s.CeilTo(1) }
