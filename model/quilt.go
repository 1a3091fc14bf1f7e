package model

import (
	"slices"
)

// Quilt is what a quilt file says.
type Quilt struct {
	Title   string
	Unit    Unit
	Ruler   Length // the mark that every cut size sits on
	Fabrics []Fabric
	Cuts    []Cut
	// Strips are needs of full-width strips. No quilt file writes them: they
	// are worked out from a design.
	Strips []Strip
}

// Cut is one line of a quilt's cutting list.
type Cut struct {
	Name   string // the label of the piece, unique in the quilt
	Fabric string // the ID of its fabric
	// Width across the fabric and Height along it, as the piece stands on the
	// print.
	Width, Height Length
	// Count is how many are cut, before they are halved.
	Count int
	Halve Halving
	// Diagonal is the one that a rectangle is halved on, if it matters.
	Diagonal Diagonal
	Use      string // what it is for; may be empty
	// NoTurn keeps a piece from being turned on a fabric that is not one-way.
	NoTurn bool
	// Grain is the way that the long side must run. It says nothing of a
	// square, which has no long side.
	Grain Grain
}

// CutList sorts the cuts by fabric, once every rule is kept. The error is
// [Faults], with every fault of the quilt.
func (q Quilt) CutList() (CutList, error) {
	var faults Faults
	faults.checkQuilt(q)
	faults.checkFabrics(q)
	faults.checkStrips(q, faults.checkCuts(q))
	if err := faults.OrNil(); err != nil {
		return CutList{}, err
	}
	list := CutList{Title: q.Title, Unit: q.Unit, Ruler: q.Ruler, Fabrics: make([]FabricCuts, len(q.Fabrics))}
	place := make(map[string]int, len(q.Fabrics))
	for i, f := range q.Fabrics {
		f.UsableWidths = slices.Sorted(slices.Values(f.UsableWidths))
		list.Fabrics[i].Fabric = f
		place[f.ID] = i
	}
	for _, c := range q.Cuts {
		f := &list.Fabrics[place[c.Fabric]]
		f.Pieces = append(f.Pieces, c.piece(f.Fabric))
	}
	for _, s := range q.Strips {
		f := &list.Fabrics[place[s.Fabric]]
		f.Strips = append(f.Strips, s)
	}
	return list, nil
}

// CheckSetup checks what stands before the cuts: title, unit, ruler and
// fabrics. The error is [Faults].
func (q Quilt) CheckSetup() error {
	var faults Faults
	faults.checkHead(q)
	faults.checkFabrics(q)
	return faults.OrNil()
}

// piece is what the cut asks of the fabric f.
func (c Cut) piece(f Fabric) Piece {
	square := c.Width == c.Height
	p := Piece{
		Name: c.Name, Use: c.Use,
		Along: c.Width, Across: c.Height,
		Count: c.Count, Halve: c.Halve,
	}
	if !square {
		p.Grain, p.Diagonal = c.Grain, c.Diagonal
		p.Turnable = !f.OneWay && !c.NoTurn && c.Grain == AnyGrain
	}
	return p
}
