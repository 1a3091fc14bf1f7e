package block

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Part is a block that is a unit of another block: pieced sashing, the stars
// of a larger star. It takes nothing itself: what it takes are the units inside
// it.
type Part struct {
	Block Block
	// Fabrics are the labels of the block's fabrics, sorted.
	Fabrics []string
	// Count is how many units are inside it, those inside others counted too.
	Count int
	// Swaps are made one after the other in the units inside it.
	Swaps []Swap
}

// MaxUnits is the most units that a block may have, those of blocks inside it
// counted too.
const MaxUnits = 10_000

// Parts are a block and its colourways as units of other blocks, by the labels
// that a row calls them by: star, star/rusty. The units are those that the block
// itself may have. There are none of a block that has more than MaxUnits.
func (b Block) Parts(units Units) Units {
	if b.count(units) > MaxUnits {
		return nil
	}
	plain := Part{Block: b, Fabrics: b.uses(units), Count: b.count(units)}
	parts := Units{b.Name: plain}
	for _, way := range b.Colourways {
		parts[b.Name+"/"+way.Name] = plain.Recolour(way.Swap)
	}
	return parts
}

// count is how many units the block has, those of blocks inside it counted too.
func (b Block) count(units Units) int {
	if b.Rounds != nil {
		return 1 + countOf(units[b.Rounds.Centre.Unit])
	}
	n := 0
	for _, row := range b.Rows {
		for _, cell := range row {
			n += countOf(units[cell.Unit])
		}
	}
	return n
}

func countOf(u Unit) int {
	if p, ok := u.(Part); ok {
		return 1 + p.Count
	}
	return 1
}

// Size is the finished size of the block.
func (p Part) Size() (width, height geometry.Surd) {
	return geometry.Of(p.Block.Width), geometry.Of(p.Block.Height)
}

// Uses are the labels of the block's fabrics.
func (p Part) Uses() []string {
	uses := p.Fabrics
	for _, swap := range p.Swaps {
		uses = swap.of(uses)
	}
	return uses
}

// Recolour is the part with fabrics exchanged, after those that are exchanged
// already.
func (p Part) Recolour(swap Swap) Unit {
	p.Swaps = append(slices.Clip(p.Swaps), swap)
	return p
}

// Check notes nothing: the block is checked where it stands.
func (p Part) Check(*Checker, model.Path) {}

// Make is nothing.
func (p Part) Make(_ Rules, n int) Yield { return Yield{Made: n} }

// Inner are the units of the block, without those inside them.
func (p Part) Inner(units Units) []Placed {
	placed := p.Block.outer(units)
	for i := range placed {
		for _, swap := range p.Swaps {
			placed[i].Unit = placed[i].Unit.Recolour(swap)
		}
	}
	return placed
}
