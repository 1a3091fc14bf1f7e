package model

import "slices"

// CutList is every piece to cut, by fabric, in the order of the quilt file.
type CutList struct {
	Title   string
	Unit    Unit
	Ruler   Length // every cut size is a multiple of it
	Fabrics []FabricCuts
}

// FabricCuts is what is cut from one fabric. Pieces and Strips may be empty.
type FabricCuts struct {
	Fabric Fabric
	Pieces []Piece
	Strips []Strip
}

// Count is the number of pieces to cut, before they are halved, without those
// of strips, which hang on the usable width.
func (f FabricCuts) Count() int {
	n := 0
	for _, p := range f.Pieces {
		n += p.Count
	}
	return n
}

// Area is what the pieces take of the fabric, without strips.
func (f FabricCuts) Area() Area {
	var sum Area
	for _, p := range f.Pieces {
		sum += p.Area()
	}
	return sum
}

// WithWidths is the cut list with the usable widths of every fabric replaced,
// for cloth that is narrower or wider than the quilt file says. The widths
// must keep the rules for usable widths, every piece must fit each of them, and
// a strip must give a section or be longer than what a join loses;
// the error is [Faults] otherwise.
func (c CutList) WithWidths(widths []Length) (CutList, error) {
	var faults Faults
	faults.checkWidths(Fault{Part: WholeQuilt, Index: -1}, widths, c.Unit)
	fabrics := slices.Clone(c.Fabrics)
	for i := range fabrics {
		fabrics[i].Fabric.UsableWidths = slices.Sorted(slices.Values(widths))
		if len(faults) > 0 {
			continue // a piece that does not fit a wrong width is no news
		}
		for _, p := range fabrics[i].Pieces {
			at := Fault{Part: CutPart, Index: -1, Name: p.Name}
			if err := p.fits(fabrics[i].Fabric, c.Unit); err != nil {
				faults.add(at, FieldSize, err)
			}
		}
		for _, s := range fabrics[i].Strips {
			at := Fault{Part: StripPart, Index: -1, Name: s.Name}
			faults.checkStripFits(at, s, fabrics[i].Fabric, c.Unit)
		}
	}
	if err := faults.OrNil(); err != nil {
		return CutList{}, err
	}
	c.Fabrics = fabrics
	return c, nil
}
