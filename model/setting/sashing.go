package setting

import (
	"crossgrain/model"
	"crossgrain/model/block"
)

// Sashing is the strips between the blocks.
//
// With cornerstones every sash is as long as a block (cut b + 2s by w + 2s) and
// a square stands where sashes cross. Without, sashes of a block's length stand
// between the blocks of a row, and long ones between the rows, cut in one piece
// where the fabric is wide enough, else pieced like a crosswise border. On point
// the block and one sash are set as one (9 1/2 + 2 = 11 1/2,
// quiltingpassion.com, On-Point Lesson 7), and the rows run from the upper left
// to the lower right.
type Sashing struct {
	Width  model.Length // finished
	Fabric string
	// Cornerstone is the fabric of the squares where sashes cross; empty for
	// none.
	Cornerstone string
	// Around also puts sashing round the outside of the blocks.
	Around bool
}

// The keys of sashing in a quilt file.
const (
	KeySashWidth   = "width"
	KeySashFabric  = "fabric"
	KeyCornerstone = "cornerstones"
	KeyAround      = "around"
)

// beside reports whether a sash stands left of a place, between it and the one
// before it in its row.
func (g grid) beside(u, v int) bool { return g.between(g.has(u-1, v), g.has(u, v)) }

// above reports whether a sash lies above a place.
func (g grid) above(u, v int) bool { return g.between(g.has(u, v-1), g.has(u, v)) }

// crossing reports whether sashes cross, or meet, above and left of a place.
// Without sashing around, the triangles of a setting on point reach in where
// only three blocks meet.
func (g grid) crossing(u, v int) bool {
	row, above := g.between(g.has(u-1, v), g.has(u, v)), g.between(g.has(u-1, v-1), g.has(u, v-1))
	return g.between(row, above)
}

// between reports whether there is sashing between two: both must be there, or
// one of them if sashing goes around.
func (g grid) between(a, b bool) bool { return a && b || g.rim > 0 && (a || b) }

// sashes are all sashes and cornerstones.
func (g grid) sashes(r block.Rules, fabrics []model.Fabric) Part {
	part := Part{Key: KeySashing}
	var long []box
	// On point no sash stands upright, so the print says nothing of its way.
	sash := model.Cut{Fabric: g.Sashing.Fabric, Use: "sashes", NoTurn: g.Way == Straight && oneWay(fabrics, g.Sashing.Fabric)}
	stone := model.Cut{Fabric: g.Sashing.Cornerstone, Use: "cornerstones"}
	for v := g.from.v; v <= g.to.v+1; v++ {
		for u := g.from.u; u <= g.to.u+1; u++ {
			c := g.cell(u, v)
			if g.beside(u, v) {
				part.add(r, box{c.u0 - g.sash, c.v0, c.u0, c.v1}, sash)
			}
			crossing, level := box{c.u0 - g.sash, c.v0 - g.sash, c.u0, c.v0}, box{c.u0, c.v0 - g.sash, c.u1, c.v0}
			if g.crossing(u, v) {
				if stone.Fabric != "" {
					part.add(r, crossing, stone)
				} else {
					long = lengthened(long, crossing)
				}
			}
			if g.above(u, v) {
				if stone.Fabric != "" {
					part.add(r, level, sash)
				} else {
					long = lengthened(long, level)
				}
			}
		}
	}
	sash.Use = "long sashes"
	part.addLong(r, long, sash, Narrowest(fabrics, sash.Fabric))
	return part
}

// lengthened puts a piece of a long sash behind the last of the sashes, or
// begins another with it.
func lengthened(long []box, piece box) []box {
	if n := len(long); n > 0 && long[n-1].v0 == piece.v0 && long[n-1].u1 == piece.u0 {
		long[n-1].u1 = piece.u1
		return long
	}
	return append(long, piece)
}

// addLong adds long sashes: in one piece where they fit the narrowest usable
// width, all others from one run of strips.
func (p *Part) addLong(r block.Rules, long []box, cut model.Cut, narrowest model.Length) {
	run := joined{what: "Long sashes"}
	var height model.Length
	for _, b := range long {
		length := r.Unfinished(b.u1 - b.u0).CeilTo(r.Ruler)
		height = r.Unfinished(b.v1 - b.v0)
		if length <= narrowest {
			cut.Grain = grainOf(length, height)
			p.add(r, b, cut)
			continue
		}
		run.lengths = append(run.lengths, length)
		p.boxes = append(p.boxes, piece{b, cut.Fabric, -1})
	}
	run.addTo(&p.Yield, r, model.Strip{Fabric: cut.Fabric, Use: cut.Use, Height: height, Join: 2 * r.Seam})
}
