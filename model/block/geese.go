package block

import "crossgrain/model"

// Geese is a flying goose: a triangle whose long side is the bottom of a
// rectangle twice as wide as it is high, and two sky triangles beside it. The
// fabrics are the goose's, and the sky's or those of the left and the right
// sky.
//
// For a finished width w and height h = w/2:
//
//   - [FromTriangles], the default: a square of w + s(2+2√2), halved twice, for
//     4 geese, and squares of h + s(2+√2), halved once, for the sky: + 1 1/4
//     and + 7/8 (christaquilts.com, quilty math). The trade's ease is 1/4 in
//     for the goose, 1/8 in for the sky.
//   - [FlipAndTrim]: a rectangle of w + 2s by h + 2s and two squares of h + 2s
//     (APQ, Flight of Geese). Ease enlarges the unit before it is trimmed: the
//     squares and both sides of the rectangle.
//   - [FourAtATime]: one square and four, of the same sizes as from triangles:
//     w + 1 1/4 and h + 7/8 at s = 1/4 in (Quilter's World, June 2024; a table
//     for 2 to 8 in at members.shaw.ca/beverlysquiltingpage/ffg.htm). The sky
//     must be of one fabric.
type Geese struct {
	Width, Height model.Length
	Fabrics       []string // goose, sky; or goose, left sky, right sky
	Method        Method
	Ease          Ease
}

// KeyGeese is the key of a flying goose in a quilt file.
const KeyGeese = "flying_goose"
