package setting

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Border is one border around a quilt. Borders are sewn in order, each around
// what is there.
//
// Butted sides first: two of the height, then two of the new width (guild class
// oldmvc.villageserver.com/4Bs_Oct.html: 32 1/2 x 44, border cut 1 1/2: two 44,
// two 34 1/2). Mitred: each side + 2w + extra (APQ: 40 + 10 + 6 = 56). With
// corner squares: two of each side, and four squares of w + 2s.
//
// Crosswise, sides that are no longer than the narrowest usable width are cut
// in one piece; longer ones are cut from one run of strips joined end to end,
// of which a straight join loses 2s and a diagonal one the cut width.
// Lengthwise, each is one piece along the selvage.
type Border struct {
	Width   model.Length // finished
	Fabric  string
	Corners Corners
	// CornerFabric is that of corner squares.
	CornerFabric string
	Cut          BorderCut
	// Sides are those that have the border; none named are all four.
	Sides []block.Side
	// Extra is added to the length of each side. Butted borders are cut to
	// measure and have 0; mitred ones mostly 6 in or 15 cm.
	Extra model.Length
}

// Framed is a quilt with one border more.
type Framed struct {
	Width, Height geometry.Surd // finished, with the border
	// Left and Top are how far the quilt inside has moved to the right and
	// down.
	Left, Top model.Length
	// Yield is what the border takes; its shapes are at their places on the
	// quilt with it.
	Yield block.Yield
}

// Around puts the border, the n-th from 1, around a quilt of a finished width
// and height. The fabric is that of the border. It is called only if Check
// noted nothing.
func (b Border) Around(r block.Rules, n int, width, height geometry.Surd, fabric model.Fabric) Framed {
	e := b.edges(width, height)
	f := Framed{Width: e.x[3], Height: e.y[3], Left: b.on(block.Left), Top: b.on(block.Top)}
	run := joined{what: fmt.Sprintf("Border %d", n)}
	for _, pair := range [][2]block.Side{{block.Left, block.Right}, {block.Top, block.Bottom}} {
		use := fmt.Sprintf("border %d, %v and %v", n, pair[0], pair[1])
		for _, side := range pair {
			if b.on(side) == 0 {
				continue
			}
			length, cut := r.Ceil(e.length(side, r)), -1
			if b.Cut != LengthwiseCut && length > slices.Min(fabric.UsableWidths) {
				run.lengths = append(run.lengths, length)
			} else {
				cut = addCut(&f.Yield, b.piece(r, length, use))
			}
			f.Yield.Shapes = append(f.Yield.Shapes, block.Shape{Fabric: b.Fabric, Outline: e.outline(side), Cut: cut})
		}
	}
	strip := model.Strip{Fabric: b.Fabric, Use: fmt.Sprintf("border %d", n), Height: r.Unfinished(b.Width), Join: 2 * r.Seam}
	if b.Cut == CrosswiseDiagonal {
		strip.Join = strip.Height
	}
	run.addTo(&f.Yield, r, strip)
	b.squares(r, n, e, &f.Yield)
	if fabric.OneWay {
		f.Yield.Notes = append(f.Yield.Notes, b.onItsSide(n)...)
	}
	return f
}

// Size is the size of a quilt of a finished width and height with the border
// around it.
func (b Border) Size(width, height geometry.Surd) (newWidth, newHeight geometry.Surd) {
	e := b.edges(width, height)
	return e.x[3], e.y[3]
}

// addCut adds one piece to a yield and returns the place of its cut.
func addCut(y *block.Yield, piece model.Cut) int {
	i := slices.IndexFunc(y.Cuts, func(have model.Cut) bool {
		have.Count = piece.Count
		return have == piece
	})
	if i < 0 {
		i, y.Cuts = len(y.Cuts), append(y.Cuts, piece)
	}
	y.Cuts[i].Count++
	return i
}

// piece is a side that is cut in one piece of a length.
func (b Border) piece(r block.Rules, length model.Length, use string) model.Cut {
	across := r.Unfinished(b.Width)
	cut := model.Cut{Fabric: b.Fabric, Width: length, Height: across, Use: use, Grain: grainOf(length, across)}
	if b.Cut == LengthwiseCut {
		cut.Width, cut.Height = across, length
		if length > across {
			cut.Grain = model.Lengthwise
		}
	}
	return cut
}

// onItsSide tells where a print with an up lies on its side.
func (b Border) onItsSide(n int) []string {
	cut, sides := "crosswise", []block.Side{block.Left, block.Right}
	if b.Cut == LengthwiseCut {
		cut, sides = "lengthwise", []block.Side{block.Top, block.Bottom}
	}
	sides = slices.DeleteFunc(sides, func(s block.Side) bool { return b.on(s) == 0 })
	if len(sides) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Border %d is cut %s: its print lies on its side at the %s.", n, cut, join(sides))}
}

func join(sides []block.Side) string {
	words := make([]string, len(sides))
	for i, s := range sides {
		words[i] = s.String()
	}
	return strings.Join(words, " and the ")
}

// squares adds the corner squares.
func (b Border) squares(r block.Rules, n int, e edges, y *block.Yield) {
	if b.Corners != CornerSquares {
		return
	}
	side := r.Unfinished(b.Width)
	for corner := range 4 {
		if !b.meet(corner) {
			continue
		}
		cut := addCut(y, model.Cut{Fabric: b.CornerFabric, Width: side, Height: side, Use: fmt.Sprintf("border %d, corners", n)})
		x0, y0 := []int{0, 2, 2, 0}[corner], []int{0, 0, 2, 2}[corner]
		outline := geometry.Box(geometry.At(e.x[x0], e.y[y0]), geometry.At(e.x[x0+1], e.y[y0+1]))
		y.Shapes = append(y.Shapes, block.Shape{Fabric: b.CornerFabric, Outline: outline, Cut: cut})
	}
}

// on is the border's finished width on a side; 0 if it is not there.
func (b Border) on(side block.Side) model.Length {
	if len(b.Sides) > 0 && !slices.Contains(b.Sides, side) {
		return 0
	}
	return b.Width
}

// meet reports whether the border is on both sides of a corner; corners are
// counted clockwise from the upper left.
func (b Border) meet(corner int) bool {
	sides := [4][2]block.Side{{block.Left, block.Top}, {block.Top, block.Right}, {block.Right, block.Bottom}, {block.Bottom, block.Left}}[corner]
	return b.on(sides[0]) > 0 && b.on(sides[1]) > 0
}
