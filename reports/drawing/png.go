package drawing

import (
	"image"
	"image/draw"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/vector"
)

// maxPixels bounds a picture, so that a very long one is drawn coarser rather
// than not at all.
const maxPixels = 40_000_000

// WritePNG writes a sheet as a picture in grey with dpi dots to the inch, or
// fewer if it would be too large.
func WritePNG(w io.Writer, s Sheet, dpi int) error {
	scale := float64(dpi) / 72
	if area := float64(s.Width) * float64(s.Height) * scale * scale; area > maxPixels {
		scale *= math.Sqrt(maxPixels / area)
	}
	width, height := max(1, int(float64(s.Width)*scale)), max(1, int(float64(s.Height)*scale))
	r := &raster{image: image.NewGray(image.Rect(0, 0, width, height))}
	for i := range r.image.Pix {
		r.image.Pix[i] = uint8(White)
	}
	for _, p := range s.Parts {
		r.part(p, scale)
	}
	// Better compression takes half of all the time, and saves little.
	return (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(w, r.image)
}

// raster draws on a picture. Places are in pixels once they have gone through
// place.
type raster struct {
	image         *image.Gray
	scale         float64 // pixels to a unit
	x, y          float64 // of the drawing's corner
	corner        Point
	rasterizer    vector.Rasterizer
	mask          image.Alpha
	left, top     float64 // of the mask
	columns, rows int
}

func (r *raster) part(p Part, scale float64) {
	d := p.Drawing
	r.x, r.y, r.corner = float64(p.X)*scale, float64(p.Y)*scale, d.From
	r.scale = scale / float64(d.Scale)
	for _, item := range d.Items {
		switch item := item.(type) {
		case Shape:
			r.shape(item)
		case Line:
			r.line(item.Points, item.Stroke)
		case Text:
			r.text(item)
		}
	}
}

// spot is a place in pixels.
type spot struct{ x, y float64 }

func (r *raster) place(p Point) spot {
	return spot{r.x + float64(p.X-r.corner.X)*r.scale, r.y + float64(p.Y-r.corner.Y)*r.scale}
}

func (r *raster) places(g []Point) []spot {
	spots := make([]spot, len(g))
	for i, p := range g {
		spots[i] = r.place(p)
	}
	return spots
}

func (r *raster) shape(s Shape) {
	if !s.Hollow {
		r.fill([][]spot{r.places(s.Outline)}, s.Fill)
	}
	// All lines of a hatch at once: each by itself would need a mask as large as
	// the box around it.
	var hatch [][]spot
	for _, l := range s.Hatch.segments(s.Outline) {
		hatch = append(hatch, r.strokes(l[:], s.Hatch.Stroke)...)
	}
	r.fill(hatch, s.Hatch.Stroke.Tone)
	r.line(append(s.Outline[:len(s.Outline):len(s.Outline)], s.Outline[0]), s.Stroke)
}

func (r *raster) line(g []Point, s Stroke) {
	for _, box := range r.strokes(g, s) {
		r.fill([][]spot{box}, s.Tone)
	}
}

// strokes are the parts of a line as thin boxes, all of them the same way round,
// so that boxes that overlap do not cancel each other.
func (r *raster) strokes(g []Point, s Stroke) [][]spot {
	if s.Width == 0 {
		return nil
	}
	// Thinner than this a line would fade away.
	width := max(float64(s.Width)*r.scale, 0.8)
	var boxes [][]spot
	for i := 1; i < len(g); i++ {
		a, b := r.place(g[i-1]), r.place(g[i])
		length := math.Hypot(b.x-a.x, b.y-a.y)
		if length == 0 {
			continue
		}
		dash, gap := length, 1.0
		if s.Dash > 0 {
			dash, gap = max(float64(s.Dash)*r.scale, 1), max(float64(s.Gap)*r.scale, 1)
		}
		along := spot{(b.x - a.x) / length, (b.y - a.y) / length}
		across := spot{-along.y * width / 2, along.x * width / 2}
		for from := 0.0; from < length; from += dash + gap {
			to := min(from+dash, length)
			p, q := spot{a.x + along.x*from, a.y + along.y*from}, spot{a.x + along.x*to, a.y + along.y*to}
			boxes = append(boxes, []spot{
				{p.x + across.x, p.y + across.y}, {q.x + across.x, q.y + across.y},
				{q.x - across.x, q.y - across.y}, {p.x - across.x, p.y - across.y},
			})
		}
	}
	return boxes
}

// fill fills polygons, in a box of their own size.
func (r *raster) fill(polygons [][]spot, tone Tone) {
	if len(polygons) == 0 {
		return
	}
	low, high := polygons[0][0], polygons[0][0]
	for _, g := range polygons {
		for _, p := range g {
			low, high = spot{min(low.x, p.x), min(low.y, p.y)}, spot{max(high.x, p.x), max(high.y, p.y)}
		}
	}
	if !r.begin(low, high) {
		return
	}
	for _, g := range polygons {
		r.rasterizer.MoveTo(r.local(g[0]))
		for _, p := range g[1:] {
			r.rasterizer.LineTo(r.local(p))
		}
		r.rasterizer.ClosePath()
	}
	r.end(tone)
}

// begin prepares a mask between two corners; false if it is outside the
// picture.
func (r *raster) begin(low, high spot) bool {
	r.left, r.top = math.Floor(low.x), math.Floor(low.y)
	r.columns, r.rows = int(math.Ceil(high.x)-r.left)+1, int(math.Ceil(high.y)-r.top)+1
	box := image.Rect(int(r.left), int(r.top), int(r.left)+r.columns, int(r.top)+r.rows)
	if !box.Overlaps(r.image.Bounds()) {
		return false
	}
	r.rasterizer.Reset(r.columns, r.rows)
	return true
}

func (r *raster) local(p spot) (x, y float32) { return float32(p.x - r.left), float32(p.y - r.top) }

// end puts what the mask covers on the picture.
func (r *raster) end(tone Tone) {
	if n := r.columns * r.rows; cap(r.mask.Pix) < n {
		r.mask.Pix = make([]uint8, n)
	}
	r.mask.Pix = r.mask.Pix[:r.columns*r.rows]
	r.mask.Stride, r.mask.Rect = r.columns, image.Rect(0, 0, r.columns, r.rows)
	r.rasterizer.DrawOp = draw.Src
	r.rasterizer.Draw(&r.mask, r.mask.Rect, image.Opaque, image.Point{})
	box := image.Rect(0, 0, r.columns, r.rows).Add(image.Pt(int(r.left), int(r.top))).Intersect(r.image.Rect)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		cover := r.mask.Pix[(y-int(r.top))*r.columns+box.Min.X-int(r.left):][:box.Dx()]
		pixels := r.image.Pix[r.image.PixOffset(box.Min.X, y):][:box.Dx()]
		for x, c := range cover {
			switch c {
			case 0:
			case 0xff:
				pixels[x] = uint8(tone)
			default:
				pixels[x] = uint8(int(pixels[x]) + (int(tone)-int(pixels[x]))*int(c)/0xff)
			}
		}
	}
}

// text draws the outlines of letters.
func (r *raster) text(t Text) {
	f := faceOf(t.Bold)
	at := r.place(t.start())
	unit := float64(t.Size) * r.scale / float64(f.units)
	for _, c := range Printable(t.Text) {
		g, _ := f.glyph(c)
		r.glyph(f.outline(g), at, unit, t)
		if t.Upward {
			at.y -= float64(g.advance) * unit
		} else {
			at.x += float64(g.advance) * unit
		}
	}
}

func (r *raster) glyph(outline sfnt.Segments, at spot, unit float64, t Text) {
	place := func(i int, s sfnt.Segment) spot {
		x, y := float64(s.Args[i].X)/64*unit, float64(s.Args[i].Y)/64*unit
		if t.Upward {
			return spot{at.x + y, at.y - x}
		}
		return spot{at.x + x, at.y + y}
	}
	if len(outline) == 0 {
		return
	}
	low, high := place(0, outline[0]), place(0, outline[0])
	for _, s := range outline {
		for i := range arguments[s.Op] {
			p := place(i, s)
			low, high = spot{min(low.x, p.x), min(low.y, p.y)}, spot{max(high.x, p.x), max(high.y, p.y)}
		}
	}
	if !r.begin(low, high) {
		return
	}
	for _, s := range outline {
		ax, ay := r.local(place(0, s))
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			r.rasterizer.ClosePath()
			r.rasterizer.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			r.rasterizer.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := r.local(place(1, s))
			r.rasterizer.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			bx, by := r.local(place(1, s))
			cx, cy := r.local(place(2, s))
			r.rasterizer.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	r.rasterizer.ClosePath()
	r.end(t.Tone)
}

// arguments is how many points each kind of curve has.
var arguments = map[sfnt.SegmentOp]int{
	sfnt.SegmentOpMoveTo: 1, sfnt.SegmentOpLineTo: 1, sfnt.SegmentOpQuadTo: 2, sfnt.SegmentOpCubeTo: 3,
}
