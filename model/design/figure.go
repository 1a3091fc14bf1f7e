package design

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Figure is a unit or a block as it shows once it is sewn, and what one of it
// is cut from.
type Figure struct {
	// Width and Height are finished.
	Width, Height geometry.Surd
	// Shapes are the finished pieces, in ticks from the upper left corner; their
	// Cut is a place in Cuts, or -1 (see [block.Shape]). They fill the figure.
	Shapes []block.Shape
	// Cuts are what one is cut from, under the names that they have in the
	// quilt: of a unit of which several are made at a time, what those are cut
	// from.
	Cuts []model.Cut
	// Inner is how many of the shapes, the first ones, are those of a unit
	// inside, as in the centre of a block of rounds.
	Inner int
}

// Rules are what the sizes were worked out with.
func (w Whole) Rules() block.Rules { return w.design.Rules() }

// Rounds is the block of rounds that a chart is about, if it is.
func (c Chart) Rounds() (r block.Rounds, is bool) {
	r, is = c.unit.(block.Rounds)
	return r, is
}

// Unit is the unit, or the block of rounds, that a chart of the whole is about.
func (w Whole) Unit(c Chart) Figure {
	var f Figure
	if c.unit == nil {
		return f
	}
	f.Width, f.Height = c.unit.Size()
	all := block.Placed{Unit: c.unit}.WithInner(w.design.units())
	for _, p := range all[1:] {
		w.place(&f, p)
	}
	f.Inner = len(f.Shapes)
	w.place(&f, all[0])
	return f
}

// Block is a block as it is counted in the whole, upright.
func (w Whole) Block(c BlockCount) Figure {
	b, _ := w.design.block(c.Block)
	swap, _ := b.Swap(c.Colourway)
	f := Figure{Width: geometry.Of(b.Width), Height: geometry.Of(b.Height)}
	for _, p := range b.Contents(w.design.units()) {
		p.Unit = p.Unit.Recolour(swap)
		w.place(&f, p)
	}
	return f
}

// place adds one unit to a figure.
func (w Whole) place(f *Figure, p block.Placed) {
	y := p.Unit.Make(w.design.Rules(), 1)
	places := make([]int, len(y.Cuts))
	for i, c := range y.Cuts {
		c = w.named(c, p)
		places[i] = slices.IndexFunc(f.Cuts, func(have model.Cut) bool {
			have.Count = c.Count
			return have == c
		})
		if places[i] < 0 {
			places[i], f.Cuts = len(f.Cuts), append(f.Cuts, c)
		} else {
			f.Cuts[places[i]].Count += c.Count
		}
	}
	for _, s := range y.Shapes {
		s.Outline = p.Place(s.Outline)
		if s.Cut >= 0 {
			s.Cut = places[s.Cut]
		}
		f.Shapes = append(f.Shapes, s)
	}
}

// named is a cut of a unit as the quilt has it: with its name, and with width and
// height exchanged where it is cut so for a unit that stands turned, or for all
// of them.
func (w Whole) named(c model.Cut, p block.Placed) model.Cut {
	turned := onSide(c)
	c.Name, turned.Name = w.nameOf(c), w.nameOf(turned)
	if turned.Name != "" && isWhole(p.Unit, c) && (c.Name == "" || lies(p.Turn) > 0) {
		return turned
	}
	return c
}

// nameOf is the name that the quilt gives the cuts like one that the design asks
// for.
func (w Whole) nameOf(c model.Cut) string {
	for _, have := range w.Quilt.Cuts[len(w.design.Cuts):] {
		name := have.Name
		have.Name, have.Count = c.Name, c.Count
		if have == c {
			return name
		}
	}
	return ""
}
