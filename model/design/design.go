package design

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// Design is a quilt file that says what a quilt looks like. Cuts stand beside
// it: pieces that the design does not know of.
type Design struct {
	Title   string
	Unit    model.Unit
	Ruler   model.Length
	Seam    model.Length // the seam allowance of one side
	Fabrics []model.Fabric
	Units   []NamedUnit
	Blocks  []block.Block
	Cutouts []Cutouts
	// Setting is nil for a file of cuts and cutouts alone, and then there are
	// no borders, binding, backing or batting.
	Setting *setting.Setting
	Borders []setting.Border
	Binding *setting.Binding
	Backing *setting.Backing
	Batting *setting.Batting
	// Sizes are empty for a quilt in one size, which has no name.
	Sizes []setting.Size
	Cuts  []model.Cut
}

// OfCuts is the design of a quilt that is nothing but its cuts. Strips, which
// are worked out, are no part of it.
func OfCuts(q model.Quilt) Design {
	return Design{Title: q.Title, Unit: q.Unit, Ruler: q.Ruler, Seam: block.DefaultRules(q.Unit).Seam,
		Fabrics: q.Fabrics, Cuts: q.Cuts}
}

// NamedUnit is a unit of a design.
type NamedUnit struct {
	Name string // its label, unique among the units
	Unit block.Unit
}

// Cutouts are shapes that are cut from strips and set by the maker.
type Cutouts struct {
	Shape  block.Cutout
	Fabric string
	Count  int // in the whole quilt, in every size
	Use    string
}

// The keys of a design in a quilt file, besides those of its parts.
const (
	KeySeam    = "seam"
	KeyCutouts = "cutouts"
	KeyCount   = "count" // of a cutout
	KeyUse     = "use"   // of a cutout
)

// MaxSeam is the widest seam allowance.
const MaxSeam = 2 * model.Inch

// Rules are what the sizes of the design are worked out with.
func (d Design) Rules() block.Rules {
	return block.Rules{Unit: d.Unit, Seam: d.Seam, Ruler: d.Ruler}
}

// units are the units by their labels, and the blocks that others may have
// inside them. Where a unit and a block have one label, it is the unit's.
func (d Design) units() block.Units {
	units := d.plainUnits()
	for _, b := range d.Blocks {
		addParts(units, b)
	}
	return units
}

// plainUnits are the units by their labels, without blocks.
func (d Design) plainUnits() block.Units {
	units := make(block.Units, len(d.Units))
	for _, u := range d.Units {
		units[u.Name] = u.Unit
	}
	return units
}

// addParts makes a block a unit for those that follow.
func addParts(units block.Units, b block.Block) {
	for label, part := range b.Parts(units) {
		if _, taken := units[label]; !taken {
			units[label] = part
		}
	}
}

// block is the block of a label.
func (d Design) block(name string) (b block.Block, known bool) {
	for _, b := range d.Blocks {
		if b.Name == name {
			return b, true
		}
	}
	return block.Block{}, false
}

// fabric is the fabric of a label, which the design has.
func (d Design) fabric(id string) model.Fabric {
	i := slices.IndexFunc(d.Fabrics, func(f model.Fabric) bool { return f.ID == id })
	return d.Fabrics[i]
}
