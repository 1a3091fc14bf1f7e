package model

import "fmt"

// Strip is a need of strips that run from selvage to selvage, for strip sets,
// for shapes cut head to foot, for borders, binding: how many they are hangs
// on the usable width. A strip either gives sections (Each is more than 0) or
// is joined end to end with its like (Run is).
type Strip struct {
	Name   string // the label, unique among the quilt's cuts and strips
	Fabric string // the ID of its fabric
	Use    string // what it is for; may be empty
	Height Length // the cut height, along the selvage
	// Count sections are wanted. The first takes First of a strip's length,
	// each further one Each: the same for rectangles, less for shapes that
	// lie head to foot. First is at least Each.
	Count       int
	First, Each Length
	// Mark is the ruler's mark that a part of a strip ends on, up to the next;
	// 0 is any.
	Mark Length
	// Beside is how many such strips each band of sections is sewn of: 2 for
	// the ink in a strip set of ink, foam, ink. 0 is 1.
	Beside int
	// Run is the length to reach by joining strips, of which each join loses
	// Join: two seam allowances if it is straight, the strip's cut height if
	// it is on the diagonal.
	Run, Join Length
	// Longest is the most that can be used of a strip's length, for strips
	// that are sewn to narrower ones; 0 is all of it.
	Longest Length
}

// PerStrip is how many sections one strip gives where width is usable: the
// first, and one for each Each of the rest.
func (s Strip) PerStrip(width Length) int {
	width = s.usable(width)
	if s.Each <= 0 || width < s.First {
		return 0
	}
	return 1 + int((width-s.First)/s.Each)
}

// At is how many whole strips the need takes where width is usable, and the
// length of one more strip that is not used up; part is 0 if there is none. Of
// strips that lie beside each other it counts one.
// It is not ok if no section fits the width, or a strip is no longer than what
// a join loses.
//
// With n strips a run of n*width - (n-1)*Join is reached (checks of borders
// and binding: handbook arithmetic, joins as in common practice, no source).
func (s Strip) At(width Length) (whole int, part Length, ok bool) {
	usable := s.usable(width)
	if s.Each > 0 {
		per := s.PerStrip(width)
		if per == 0 {
			return 0, 0, false
		}
		whole = s.Count / per
		if rest := s.Count % per; rest > 0 {
			part = s.First + Length(rest-1)*s.Each
		}
		if s.Mark > 0 {
			part = min(part.CeilTo(s.Mark), usable)
		}
		return whole, part, true
	}
	if usable <= s.Join {
		return 0, 0, false
	}
	if s.Run <= usable {
		whole, part = 0, s.Run
	} else {
		gain := usable - s.Join // of each strip after the first
		more := s.Run - usable
		whole = 1 + int(more/gain)
		if rest := more % gain; rest > 0 {
			part = rest + s.Join
		}
	}
	if part == usable {
		whole, part = whole+1, 0
	}
	return whole, part, true
}

// Strips is the number of strips that the need takes where width is usable,
// the last of them whole or not; 0 if it cannot be met.
func (s Strip) Strips(width Length) int {
	whole, part, _ := s.At(width)
	if part > 0 {
		whole++
	}
	return whole * s.beside()
}

func (s Strip) beside() int { return max(s.Beside, 1) }

func (s Strip) usable(width Length) Length {
	if s.Longest > 0 {
		return min(width, s.Longest)
	}
	return width
}

// PiecesAt is everything that is cut from the fabric where width is usable:
// the pieces, and of each strip the whole ones and a part.
func (f FabricCuts) PiecesAt(width Length) []Piece {
	pieces := f.Pieces[:len(f.Pieces):len(f.Pieces)]
	for _, s := range f.Strips {
		whole, part, _ := s.At(width)
		if whole > 0 {
			pieces = append(pieces, s.piece(s.Name, s.usable(width), whole*s.beside()))
		}
		if part > 0 {
			pieces = append(pieces, s.piece(s.Name+" part", part, s.beside()))
		}
	}
	return pieces
}

// piece is count strips of a length. They lie across the fabric, so that the
// long side of those that are higher than long runs lengthwise.
func (s Strip) piece(name string, length Length, count int) Piece {
	p := Piece{Name: name, Use: s.Use, Along: length, Across: s.Height, Count: count}
	switch {
	case length > s.Height:
		p.Grain = Crosswise
	case length < s.Height:
		p.Grain = Lengthwise
	}
	return p
}

// checkStrips checks every strip. The labels seen are those of the cuts.
func (f *Faults) checkStrips(q Quilt, seen map[string]bool) {
	fabrics := make(map[string]Fabric, len(q.Fabrics))
	for _, fabric := range q.Fabrics {
		fabrics[fabric.ID] = fabric
	}
	for i, s := range q.Strips {
		at := Fault{Part: StripPart, Index: i, Name: s.Name}
		f.checkLabel(at, FieldName, s.Name, seen)
		f.checkText(at, FieldUse, s.Use, maxTitle)
		fabric, known := fabrics[s.Fabric]
		if !known {
			f.add(at, FieldFabric, q.UnknownFabric(s.Fabric))
		}
		if err := s.check(q); err != nil {
			f.add(at, FieldSize, err)
			continue
		}
		f.checkStripFits(at, s, fabric, q.Unit)
	}
}

// checkStripFits checks that a strip can be used at each usable width.
func (f *Faults) checkStripFits(at Fault, s Strip, fabric Fabric, u Unit) {
	for _, w := range fabric.UsableWidths {
		if _, _, ok := s.At(w); !ok {
			f.add(at, FieldSize, s.tooNarrow(w, u))
			return
		}
	}
}

// check checks a strip apart from its fabric.
func (s Strip) check(q Quilt) error {
	sections, run := s.Each > 0, s.Run > 0
	height := s.Height.Written(q.Unit)
	switch {
	case s.Height <= 0 || sections == run || sections && (s.Count < 1 || s.First < s.Each):
		return &ValueError{Value: height, Err: ErrNotPositive, Hint: "a strip has a height, and sections or a length to reach"}
	case s.Height > MaxSide || s.Run > MaxRun || s.First > MaxSide || s.Count > MaxPieces || s.Beside < 0 || s.Beside > MaxPieces || s.Join < 0:
		return &ValueError{Value: height, Err: ErrOutOfRange, Hint: fmt.Sprintf(
			"no strip is higher than %s or joined to more than %s", MaxSide.FormatWithUnit(q.Unit), MaxRun.FormatWithUnit(q.Unit))}
	case q.Ruler > 0 && !s.Height.OnMark(q.Ruler):
		return &ValueError{Value: height, Err: ErrOffMark, Hint: "write a height such as " + s.Height.CeilTo(q.Ruler).Written(q.Unit)}
	}
	return nil
}

func (s Strip) tooNarrow(width Length, u Unit) error {
	need := max(s.First, s.Join)
	return &ValueError{Value: need.FormatWithUnit(u), Err: ErrTooWide, Hint: fmt.Sprintf(
		"the strip is only %s long: use wider fabric", s.usable(width).FormatWithUnit(u))}
}
