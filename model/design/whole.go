package design

import (
	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
)

// Whole is a design in one size, worked out.
type Whole struct {
	Size string // its name; empty if the design has one size only
	// Quilt is what to cut; every piece and strip has a name.
	Quilt model.Quilt
	// Width and Height are those of the finished quilt; 0 without a setting.
	Width, Height geometry.Surd
	// TopWidth and TopHeight are those of the top before its borders.
	TopWidth, TopHeight geometry.Surd
	// Backing are both ways to lay the panels of the back at each usable width
	// of its fabric; none without a backing. BackWidth and BackHeight are its
	// size.
	Backing               []setting.Panels
	BackWidth, BackHeight model.Length
	// BattingWidth and BattingHeight are those of the batting; 0 without one.
	BattingWidth, BattingHeight model.Length

	Blocks []BlockCount
	Charts []Chart
	Notes  []string // in whole sentences

	design Design // in the size
	top    setting.Top
	corner geometry.Point // where the top's upper left corner is in the quilt
	frame  []block.Shape  // of the borders, in the quilt
	origin [][]model.Path // of each cut and then each strip: what asks for it
}

// BlockCount is how often a block is made.
type BlockCount struct {
	Block, Colourway string // labels; no colourway is the block's own fabrics
	Count            int
}

// Chart is how one kind of unit is made: the steps of trimming, and the strip
// sets.
type Chart struct {
	Name    string   // the label of the unit, or of the block of rounds
	Fabrics []string // labels, in the order of the unit's parts
	Count   int      // how many are wanted
	Made    int      // how many the cuts make, at least as many
	Trims   []block.Trim
	Sets    []block.StripSet

	unit block.Unit
}

// Shapes are the finished pieces of the whole quilt top, in their places, with
// a Cut of -1. They fill Width by Height and do not overlap. Cutouts and the
// file's own cuts are not among them. They are worked out at each call.
func (w Whole) Shapes() []block.Shape {
	var shapes []block.Shape
	units, rules := w.design.units(), w.design.Rules()
	for _, place := range w.top.Places {
		b, _ := w.design.block(place.Block)
		swap, _ := b.Swap(place.Colourway)
		for _, p := range b.Contents(units) {
			for _, s := range p.Unit.Recolour(swap).Make(rules, 1).Shapes {
				outline := w.top.Block(place, b.Turned(p.Place(s.Outline), place.Turn))
				shapes = append(shapes, block.Shape{Fabric: s.Fabric, Outline: outline, Cut: -1})
			}
		}
	}
	for _, part := range w.top.Parts {
		for _, s := range w.top.Shapes(part) {
			s.Cut = -1
			shapes = append(shapes, s)
		}
	}
	moveAll(shapes, w.corner)
	return append(shapes, w.frame...)
}
