package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Block is a block of a design: rows of units, or rounds, not both.
type Block struct {
	Name          string // its label, unique in the design
	Width, Height model.Length
	// Rows are the units of a pieced block, row by row from the top; a block
	// that stands before this one is a unit too (see [Part]). The
	// widths of each row add up to the block's, the units of a row are equally
	// high, and the rows' heights add up to the block's.
	Rows   [][]Cell
	Rounds *Rounds // whose Side is Width and Height
	// Colourways are other fabrics for the same block.
	Colourways []Colourway
}

// Cell is a unit in a row.
type Cell struct {
	Unit string // its label; of a block in a colourway block/colourway
	Turn Turn
}

// Colourway is a block in other fabrics.
type Colourway struct {
	Name string // its label, unique in the block
	Swap Swap
}

// The keys of a block in a quilt file.
const (
	KeyBlocks     = "blocks"
	KeyUnits      = "units"
	KeyFinished   = "finished"
	KeyRows       = "rows"
	KeyColourways = "colourways"
)

// Contents are the units of the block at their places, each before the units
// inside it; a block of rounds is a unit by itself, under the block's name.
// Cells of units that there are not are left out.
func (b Block) Contents(units Units) []Placed {
	var placed []Placed
	for _, p := range b.outer(units) {
		placed = append(placed, p.WithInner(units)...)
	}
	return placed
}

// outer are the units of the block at their places, without those inside them.
func (b Block) outer(units Units) []Placed {
	if b.Rounds != nil {
		return []Placed{{Unit: b.Rounds.within(units), Name: b.Name, At: model.PathOf(KeyBlocks, b.Name)}}
	}
	var placed []Placed
	var y geometry.Surd
	for _, row := range b.Rows {
		var x, height geometry.Surd
		for _, cell := range row {
			u, known := units[cell.Unit]
			if !known {
				continue
			}
			p := Placed{Unit: u, Name: cell.Unit, At: model.PathOf(KeyUnits, cell.Unit), X: x, Y: y, Turn: cell.Turn}
			w, h := p.Size()
			x, height = x.Add(w), geometry.Max(height, h)
			placed = append(placed, p)
		}
		y = y.Add(height)
	}
	return placed
}

// Turned is an outline of the block where it is once the block is turned.
func (b Block) Turned(outline geometry.Polygon, turn Turn) geometry.Polygon {
	return turn.turned(outline, geometry.Of(b.Width), geometry.Of(b.Height))
}

// Swap is what the colourway of a name exchanges; nothing for the empty name,
// which is the block in its own fabrics.
func (b Block) Swap(colourway string) (swap Swap, known bool) {
	for _, c := range b.Colourways {
		if c.Name == colourway {
			return c.Swap, true
		}
	}
	return nil, colourway == ""
}
