package block

import (
	"crossgrain/model"
	"crossgrain/model/geometry"
)

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
//     squares and both sides of the rectangle. The trade's is 1/4 in (common
//     practice, no source).
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

const (
	gooseEase     = model.Inch / 4
	skyEase       = model.Inch / 8
	flipEase      = model.Inch / 4
	gooseUse      = "goose"
	skyUse        = "sky"
	oneSkyFabrics = 2 // the number of fabrics where both skies are of one
)

// Size is Width by Height.
func (u Geese) Size() (width, height geometry.Surd) {
	return geometry.Of(u.Width), geometry.Of(u.Height)
}

// Uses are the goose's fabric and that of the sky, or those of both skies.
func (u Geese) Uses() []string { return u.Fabrics }

// Recolour is the unit with fabrics exchanged.
func (u Geese) Recolour(swap Swap) Unit {
	u.Fabrics = swap.of(u.Fabrics)
	return u
}

// Check notes a size, fabrics, a method or an ease that cannot be.
func (u Geese) Check(c *Checker, at model.Path) {
	c.Finished(at.At(KeyGeese), u.Width)
	if u.Height != u.Width {
		c.Finished(at.At(KeyGeese), u.Height)
	}
	if u.Width > 0 && u.Height > 0 && u.Width != 2*u.Height {
		c.Faults.AddAt(at.At(KeyGeese), &model.ValueError{
			Value: model.FormatSize(u.Width, u.Height, c.Rules.Unit), Err: model.ErrNotTogether,
			Hint: "a flying goose is twice as wide as it is high: write " + model.WrittenSize(2*u.Height, u.Height, c.Rules.Unit)})
	}
	parts := []string{"goose", "sky"}
	if len(u.Fabrics) > oneSkyFabrics {
		parts = []string{"goose", "left sky", "right sky"}
	}
	c.FabricList(at, u.Fabrics, parts...)
	c.Method(at, u.Method, GeeseMethods)
	c.Ease(at, u.Ease)
	if len(u.Fabrics) == 3 && u.Method == FourAtATime && u.Fabrics[1] != u.Fabrics[2] {
		c.Faults.AddAt(at.At(KeyFabrics), &model.ValueError{Err: model.ErrNotTogether,
			Hint: "4 at a time gives a sky of one fabric: write goose, sky, or method: " + FromTriangles.String()})
	}
}

// Make is what n flying geese take.
func (u Geese) Make(r Rules, n int) Yield {
	y := Yield{Made: n, Trims: []Trim{{Step: "flying goose", Width: r.Unfinished(u.Width), Height: r.Unfinished(u.Height)}}}
	large := r.Ceil(r.QuarterSquareCut(geometry.Of(u.Width))) + u.Ease.length(r, gooseEase)
	small := r.Ceil(r.HalfSquareCut(geometry.Of(u.Height))) + u.Ease.length(r, skyEase)
	goose := model.Cut{Fabric: u.Fabrics[0], Width: large, Height: large, Use: u.Method.use(gooseUse)}
	sky := model.Cut{Width: small, Height: small, Use: u.Method.use(skyUse)}
	triangles := u.triangles()
	switch u.Method {
	case FlipAndTrim:
		u.flip(&y, r, n)
	case FourAtATime:
		times := upTo(n, 4)
		goose.Count, sky.Count, sky.Fabric = times, 4*times, u.Fabrics[1]
		y.Made, y.Cuts = 4*times, []model.Cut{goose, sky}
	default:
		goose.Halve, sky.Halve = model.HalvedTwice, model.HalvedOnce
		y.Made = y.halved(goose, n, triangles[0])
		y.Made = min(y.Made, y.halved(sky, n, triangles[1:]...))
		return y
	}
	for _, t := range triangles {
		y.Shapes = append(y.Shapes, Shape{Fabric: t.fabric, Outline: t.outline, Cut: -1})
	}
	return y
}

// flip adds the rectangle and the two squares of flip and trim.
func (u Geese) flip(y *Yield, r Rules, n int) {
	ease := u.Ease.length(r, flipEase)
	side := r.Unfinished(u.Height) + ease
	y.Cuts = []model.Cut{{Fabric: u.Fabrics[0], Width: r.Unfinished(u.Width) + ease, Height: side, Count: n, Use: u.Method.use(gooseUse)}}
	left, right := u.skies()
	sky := model.Cut{Fabric: left, Width: side, Height: side, Count: n, Use: u.Method.use(skyUse)}
	if left == right {
		sky.Count = 2 * n
		y.Cuts = append(y.Cuts, sky)
		return
	}
	y.Cuts = append(y.Cuts, sky)
	sky.Fabric = right
	y.Cuts = append(y.Cuts, sky)
}

func (u Geese) skies() (left, right string) {
	return u.Fabrics[1], u.Fabrics[len(u.Fabrics)-1]
}

// triangles are the goose, the left and the right sky.
func (u Geese) triangles() []triangle {
	corners := box(u.Width, u.Height)
	peak := geometry.At(geometry.Of(u.Width).Half(), geometry.Surd{})
	left, right := u.skies()
	return []triangle{
		{u.Fabrics[0], geometry.Polygon{peak, corners[LowerRight], corners[LowerLeft]}},
		{left, geometry.Polygon{corners[UpperLeft], peak, corners[LowerLeft]}},
		{right, geometry.Polygon{peak, corners[UpperRight], corners[LowerRight]}},
	}
}
