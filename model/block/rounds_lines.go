package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

// family is all lines of one direction and those across them.
type family uint8

const (
	straight family = iota // parallel to the sides of the block
	diagonal               // at 45° to them
)

func (f family) other() family { return 1 - f }

// stage is one round as it lies on the block. Lines are given by their
// half-distance from the centre.
type stage struct {
	kind RoundKind
	on   family // whose sides the pieces are sewn to
	// from and to are the lines of the seam and of the outer edge; the point,
	// of triangles.
	from, to geometry.Surd
	// half is half the length of the seam.
	half geometry.Surd
	// The block is then trimmed along the lines of a family, at edge. The last
	// seam along it is at seam, if there is one.
	along   family
	edge    geometry.Surd
	seam    geometry.Surd
	hasSeam bool
	// points is whether the corners of the square within lie on the edge.
	points bool
}

// outward is a block in the making.
type outward struct {
	// A square has the family side, and its line is that of side. What is not
	// a square has eight sides, and the next round goes on those of side.
	square bool
	side   family
	line   [2]geometry.Surd
	// seam is the last seam along each family's lines, if there is one.
	seam    [2]geometry.Surd
	hasSeam [2]bool
}

// add sews a round on; width is that of logs.
func (o *outward) add(kind RoundKind, width geometry.Surd) stage {
	on, off := o.side, o.side.other()
	s := stage{kind: kind, on: on, from: o.line[on], half: o.line[on], along: off}
	o.seam[on], o.hasSeam[on] = s.from, true
	switch kind {
	case Triangles:
		s.to, s.edge, s.points = s.from.Times(2), s.from.TimesRoot2(), true
		o.side = off
	case LogsAround, LogsOpposite:
		s.to = s.from.Add(width)
		s.along, s.edge = on, s.to
	case LogsTrimmed:
		s.to, s.edge, s.points = s.from.Add(width), o.line[off], o.square
		if o.square {
			s.edge = s.from.TimesRoot2()
		}
		s.half = s.edge.TimesRoot2().Sub(s.from)
		o.square, o.side, o.line[on] = false, off, s.to
	case CornerTriangles:
		s.edge = o.line[off]
		s.to = s.edge.TimesRoot2()
		s.half = s.to.Sub(s.from)
		o.square, o.side = true, off
	}
	o.line[s.along] = s.edge
	s.seam, s.hasSeam = o.seam[s.along], o.hasSeam[s.along]
	return s
}

// grow sews all rounds on a centre of a half-distance; width is that of logs
// that have none of their own.
func (r Rounds) grow(centre family, half, width geometry.Surd) ([]stage, outward) {
	o := outward{square: true, side: centre}
	o.line[centre] = half
	stages := make([]stage, len(r.Rounds))
	for i, round := range r.Rounds {
		w := geometry.Of(round.Width)
		if round.Width == 0 {
			w = width
		}
		stages[i] = o.add(round.Kind, w)
	}
	return stages, o
}

// lines are what the rounds come to.
type lines struct {
	centre family
	half   geometry.Surd // of the centre
	width  geometry.Surd // of logs that have none of their own
	// loose is for a width that does not count for the size of the block, as
	// that of the diagonal logs of a pineapple: it cannot be worked out.
	loose  bool
	stages []stage
	end    outward
}

// lines works out the lines of the block, and what its maker left to be worked
// out: the centre's size or the width of logs. All lines are of the form
// a + b·half + c·width.
func (r Rounds) lines() lines {
	half, width := geometry.Of(r.Centre.Side).Half(), geometry.Surd{}
	l := lines{centre: straight}
	if _, o := r.grow(straight, half, width); o.side == diagonal {
		l.centre = diagonal
	}
	end := func(half, width geometry.Surd) geometry.Surd {
		_, o := r.grow(l.centre, half, width)
		return o.line[o.side]
	}
	unit := geometry.Of(1)
	switch rest := geometry.Of(r.Side).Half().Sub(end(half, width)); {
	case r.Centre.Side == 0:
		perHalf := end(unit, width).Sub(end(half, width))
		half = rest.Quo(perHalf)
	case r.open():
		perWidth := end(half, unit).Sub(end(half, width))
		if l.loose = perWidth.Sign() == 0; !l.loose {
			width = rest.Quo(perWidth)
		}
	}
	l.half, l.width = half, width
	l.stages, l.end = r.grow(l.centre, half, width)
	return l
}

// open reports whether the width of some logs is left to be worked out.
func (r Rounds) open() bool {
	for _, round := range r.Rounds {
		if round.Kind.isLogs() && round.Width == 0 {
			return true
		}
	}
	return false
}

// widthToClose is the width that all logs must have for the block to close, if
// there are logs and it is a length that the ruler has.
func (r Rounds) widthToClose(rules Rules) (width model.Length, ok bool) {
	rounds := make([]Round, len(r.Rounds))
	for i, round := range r.Rounds {
		rounds[i].Kind = round.Kind
	}
	r.Rounds = rounds
	if r.Centre.Side == 0 || !r.open() {
		return 0, false
	}
	width, ok = r.lines().width.Length()
	return width, ok && width > 0 && rules.Unfinished(width).OnMark(rules.Ruler)
}
