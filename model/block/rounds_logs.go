package block

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// roundEase is the trade's ease of triangles and trimmed logs.
const roundEase = model.Inch / 4

const centreUse = "centre"

// Notes of blocks of rounds.
const (
	noteTestBlock = "Make one test block before you cut for all of them, and follow the directions that came with your fabric and your tools."
	noteRoots     = "Sizes to trim to that fall between two marks of the ruler are rounded up: go by the distance beyond the points, or where none is given by that beyond the last seam."
	noteOnPoint   = "The centre of a block of rounds stands on point."
)

// Make is what n of the block take, without a unit in its centre. Each trim
// says what is sewn on before it.
func (r Rounds) Make(rules Rules, n int) Yield {
	l := r.lines()
	y := Yield{Made: n}
	if r.Centre.Unit == "" {
		r.makeCentre(&y, rules, l, n)
	}
	for i, s := range l.stages {
		r.makeRound(&y, rules, i, s, n)
	}
	if l.centre == diagonal {
		y.Notes = append(y.Notes, noteOnPoint)
	}
	if slices.ContainsFunc(l.stages, func(s stage) bool { return s.rounded(rules) }) {
		y.Notes = append(y.Notes, noteRoots)
	}
	if n > 1 {
		y.Notes = append(y.Notes, noteTestBlock)
	}
	return y
}

// makeCentre adds the square in the centre.
func (r Rounds) makeCentre(y *Yield, rules Rules, l lines, n int) {
	h := l.half
	square := geometry.Box(geometry.At(h.Neg(), h.Neg()), geometry.At(h, h))
	side := rules.unfinished(h)
	y.Cuts = append(y.Cuts, model.Cut{Fabric: r.Centre.Fabric, Width: side, Height: side, Count: n, Use: centreUse})
	y.Shapes = append(y.Shapes, Shape{Fabric: r.Centre.Fabric, Outline: r.placed(square, l.centre), Cut: 0})
}

// makeRound adds the four pieces of a round and how it is trimmed. Sides that
// take the same piece share one cut.
func (r Rounds) makeRound(y *Yield, rules Rules, i int, s stage, n int) {
	step := fmt.Sprintf("round %d, %s", i+1, s.kind.plainly())
	first := len(y.Cuts)
	var sides [][]string // of each cut
	for k := range 4 {
		cut := s.blank(rules, r.Rounds[i].Ease, k)
		cut.Fabric = r.Rounds[i].fabric(k)
		j := first + slices.IndexFunc(y.Cuts[first:], func(have model.Cut) bool { return have == cut })
		if j < first {
			j = len(y.Cuts)
			y.Cuts, sides = append(y.Cuts, cut), append(sides, nil)
		}
		sides[j-first] = append(sides[j-first], s.on.sideWord(k))
		outline := r.placed(s.outline(k).Turned(k), s.on)
		y.Shapes = append(y.Shapes, Shape{Fabric: cut.Fabric, Outline: outline, Cut: j})
	}
	edge := rules.unfinished(s.edge)
	t := Trim{Step: step, Width: edge, Height: edge, AllRound: true, OnPoint: s.along == diagonal}
	if s.hasSeam {
		t.SeamToEdge = s.beyondSeam(rules)
	}
	if s.points {
		t.PastPoints = rules.Seam
	}
	for j, words := range sides {
		cut := &y.Cuts[first+j]
		cut.Use = step
		if len(words) < 4 {
			cut.Use += ", " + andList(words)
		}
		one := *cut
		one.Count = upTo(len(words), cut.Halve.Shapes())
		cut.Count = upTo(n*len(words), cut.Halve.Shapes())
		t.Pieces = append(t.Pieces, one)
	}
	y.Trims = append(y.Trims, t)
}

// fabric is the fabric of a side.
func (r Round) fabric(side int) string { return r.Fabrics[side%len(r.Fabrics)] }

// plainly is what a maker calls the pieces of a round.
func (k RoundKind) plainly() string {
	if k == LogsAround || k == LogsOpposite {
		return "logs"
	}
	return k.String()
}

// sideWord is how a side of a family is called: the first is the top, or on
// point the upper right.
func (f family) sideWord(k int) string {
	if f == diagonal {
		return []string{"upper right", "lower right", "lower left", "upper left"}[k]
	}
	return Side(k).String()
}

// placed is an outline about the centre, in the directions of a family, where
// it is in the block.
func (r Rounds) placed(outline geometry.Polygon, f family) geometry.Polygon {
	if f == diagonal {
		outline = outline.OnPoint()
	}
	h := geometry.Of(r.Side).Half()
	return outline.Moved(geometry.At(h, h))
}

// reach is how far a log that is not trimmed goes to the left and to the right
// of the middle, seen from the centre.
func (s stage) reach(side int) (left, right geometry.Surd) {
	left, right = s.from, s.from
	switch {
	case s.kind == LogsAround && side > 0:
		left = s.to // over the end of the log before
		if side == 3 {
			right = s.to // and of the first
		}
	case s.kind == LogsOpposite && side%2 == 1:
		left, right = s.to, s.to
	}
	return left, right
}

// outline is the finished piece of a side as if it were the top, about the
// centre.
func (s stage) outline(side int) geometry.Polygon {
	low, high := s.from.Neg(), s.to.Neg()
	switch s.kind {
	case LogsAround, LogsOpposite:
		left, right := s.reach(side)
		return geometry.Box(geometry.At(left.Neg(), low), geometry.At(right, high))
	case LogsTrimmed:
		outer := s.half.Sub(s.to.Sub(s.from))
		return geometry.Polygon{{X: s.half.Neg(), Y: low}, {X: s.half, Y: low}, {X: outer, Y: high}, {X: outer.Neg(), Y: high}}
	}
	return geometry.Polygon{{X: s.half.Neg(), Y: low}, {X: s.half, Y: low}, {Y: high}}
}

// blank is the piece to cut for a side, without a fabric; of a square that is
// halved it is the whole.
func (s stage) blank(r Rules, e Ease, side int) model.Cut {
	seams := geometry.Of(2 * r.Seam)
	if !s.kind.isLogs() {
		square := r.Ceil(r.HalfSquareCut(s.half.TimesRoot2())) + e.length(r, roundEase)
		return model.Cut{Width: square, Height: square, Halve: model.HalvedOnce}
	}
	left, right := s.reach(side)
	length, trade := left.Add(right).Add(seams), model.Length(0)
	if s.kind == LogsTrimmed {
		length, trade = s.half.Times(2).Add(seams).Add(geometry.Root2(2*r.Seam)), roundEase
	}
	ease := e.length(r, trade)
	return model.Cut{Width: r.Ceil(length) + ease, Height: r.Ceil(s.to.Sub(s.from).Add(seams)) + ease}
}

// beyondSeam is from the last seam along the edge to the edge. It is what the
// maker goes by, and stays exact if a fine ruler has it, as it does where the
// seam allowance is off the quilt's own ruler: 2 cm and 0.75 cm.
func (s stage) beyondSeam(r Rules) model.Length {
	fine := model.Inch / 32
	if r.Unit == model.Centimetres {
		fine = model.Millimetre / 2
	}
	exact := s.edge.Sub(s.seam).Add(geometry.Of(r.Seam))
	if l, whole := exact.Length(); whole && l.OnMark(fine) {
		return l
	}
	return r.Ceil(exact)
}

// rounded reports whether a size to trim to is on no mark of the ruler.
func (s stage) rounded(r Rules) bool {
	across := s.edge.Times(2)
	if !geometry.Of(r.unfinished(s.edge) - 2*r.Seam).Equal(across) {
		return true
	}
	return s.hasSeam && !geometry.Of(s.beyondSeam(r)-r.Seam).Equal(s.edge.Sub(s.seam))
}

// unfinished is the size across of what is finished at a half-distance from
// its centre, up to the ruler's mark.
func (r Rules) unfinished(half geometry.Surd) model.Length {
	return r.Ceil(half.Times(2).Add(geometry.Of(2 * r.Seam)))
}

// andList is words as in: top, right and bottom.
func andList(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return fmt.Sprintf("%s and %s", strings.Join(words[:last], ", "), words[last])
}
