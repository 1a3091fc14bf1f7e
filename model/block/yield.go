package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Yield is what a number of units take, and how one of them is made.
type Yield struct {
	// Cuts are the pieces to cut from each fabric, for all the units. They
	// have no names yet; Use says which part of the unit they are for.
	Cuts []model.Cut
	// Strips are full-width strips, for all the units, without names.
	Strips []model.Strip
	// Sets say how strips are sewn side by side and cut across.
	Sets []StripSet
	// Trims are the steps of trimming one unit, in the order of sewing.
	Trims []Trim
	// Shapes are the finished pieces of one unit. Together with the units
	// inside it they fill the unit's size and do not overlap.
	Shapes []Shape
	// Made is how many units the cuts make: at least as many as were wanted.
	Made int
	// Notes are what a maker must know besides, in whole sentences.
	Notes []string
}

// Trim is one step of trimming: what a unit must measure once it is sewn.
type Trim struct {
	// Step is what was sewn before, as in: round 3, logs.
	Step string
	// Width and Height are from edge to edge after trimming, with the seam
	// allowances; across the edges where the step leaves a square on point.
	Width, Height model.Length
	// SeamToEdge is from the last seam to the edge after trimming; 0 where
	// the edges alone are measured.
	SeamToEdge model.Length
	// PastPoints is from the points where the seams of the step meet to the
	// edge: the seam allowance; 0 where no seams meet at the edge.
	PastPoints model.Length
	// AllRound is for a step in which all four sides are trimmed: first the
	// two sides of the cutting hand (see [FirstSides]), then, turned half
	// round, the other two to size.
	AllRound bool
	// OnPoint is for a step in which the edges are trimmed that lie at 45° to
	// the sides of the finished block.
	OnPoint bool
	// Pieces are what is sewn on in the step, for one unit, without names; nil
	// where the unit is made in one step. Of squares to halve it has as many as
	// have enough triangles.
	Pieces []model.Cut
}

// Shape is one finished piece, as it shows in the unit.
type Shape struct {
	Fabric  string
	Outline geometry.Polygon // convex, in ticks from the unit's upper left corner
	// Cut is the place among the yield's cuts of the piece that it comes
	// from, if each shape is cut on its own (once all its halvings are cut),
	// and -1 if it is cut from what is sewn already, or from a strip.
	Cut int
}

// StripSet is a band of strips sewn side by side, from which sections are cut.
type StripSet struct {
	// Fabrics and Heights are those of its strips, in order; heights are cut
	// heights.
	Fabrics []string
	Heights []model.Length
	// Section is the width to which sections are cut across the set, Count
	// how many of them are wanted for all the units.
	Section model.Length
	Count   int
	// Length is the length of the strips, if it is less than the whole usable
	// width; 0 otherwise.
	Length model.Length
}

// upTo is how many times of size it takes to make n: n/size, rounded up.
func upTo(n, size int) int { return (n + size - 1) / size }
