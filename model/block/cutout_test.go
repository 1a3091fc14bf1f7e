package block

import (
	"math"
	"math/big"
	"strconv"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
	"pgregory.net/rapid"
)

func TestCutoutsPublished(t *testing.T) {
	for _, test := range []struct {
		source      string
		shape       Cutout
		strip       string
		first, each float64 // in inches; 0 where the source has none
		width       model.Length
		perStrip    int
		count       int
		strips      int
	}{
		{source: "blotchandthrum.com, 2013-08", shape: SixtyTriangle{6 * in}, strip: "6 3/4", first: 7.794},
		// Printed as 8 2/3.
		{source: "blotchandthrum.com, 2013-08", shape: SixtyTriangle{27 * in / 4}, strip: "7 1/2", first: 8.660},
		// 7 triangles and 2 half shapes of a folded strip; its page names no usable
		// width. That is what 40 in give; by our arithmetic 42 in give 8.
		{source: "quilt-it.blogspot.com, 2012-06, 1/4 yd", shape: SixtyTriangle{29 * in / 4}, strip: "8", first: 9.238, each: 4.619, width: 40 * in, perStrip: 7, count: 14, strips: 2},
		{source: "our own arithmetic", shape: SixtyTriangle{29 * in / 4}, strip: "8", width: 42 * in, perStrip: 8},
		{source: "quilt-it.blogspot.com, 2012-06, 6 of a fat quarter", shape: SixtyTriangle{29 * in / 4}, strip: "8", width: 22 * in, perStrip: 3, count: 6, strips: 2},
		{source: "slaneyquiltingstudio.com, how to cut the hexagon shape", shape: Hexagon{11 * in / 4}, strip: "3 1/4"},
		{source: "oocities.com, quick cut hexagons, of 3 in", shape: Hexagon{5 * in / 2}, strip: "3", width: 44 * in, perStrip: 12, count: 200, strips: 17},
		{source: "quiltinjeanie.blogspot.com, 2011-06; repeat: our own arithmetic", shape: Diamond{23 * eighth, Degrees60}, strip: "3 3/8", each: 3.897},
		{source: "our own arithmetic", shape: Diamond{5 * in / 2, Degrees45}, strip: "3", first: 7.243, each: 4.243, width: 40 * in, perStrip: 8},
		{source: "our own arithmetic", shape: Trapezoid{2 * in, 6 * in, 2 * in}, strip: "2 1/2", first: 7.207, each: 4.707},
		{source: "our own arithmetic", shape: Wedge{10 * in, 2 * in, 0}, strip: "10 1/2", first: 2.552, each: 1.502},
	} {
		lie := test.shape.Lie(inches)
		if lie.Height != asPrinted(t, test.strip) {
			t.Errorf("%s: %+v: the strip is %s", test.source, test.shape, lie.Height.Format(model.Inches))
		}
		if test.first != 0 && math.Abs(inInches(lie.First)-test.first) > 0.0006 || test.each != 0 && math.Abs(inInches(lie.Each)-test.each) > 0.0006 {
			t.Errorf("%s: %+v: first %v, each %v", test.source, test.shape, inInches(lie.First), inInches(lie.Each))
		}
		if test.width == 0 {
			continue
		}
		strip := lie.Strip("ink", "cutouts", max(test.count, 1))
		if got := strip.PerStrip(test.width); got != test.perStrip {
			t.Errorf("%s: %+v: %d of a strip", test.source, test.shape, got)
		}
		if got := strip.Strips(test.width); test.count != 0 && got != test.strips {
			t.Errorf("%s: %+v: %d strips", test.source, test.shape, got)
		}
	}
}

func TestCutoutWords(t *testing.T) {
	for _, test := range []struct {
		shape Cutout
		want  Words
	}{
		{SixtyTriangle{6 * in}, Words{"triangles of 60°", "cut across at 60°, leaning to one side and to the other by turns"}},
		{Hexagon{3 * in}, Words{"hexagons", "point to point, with two cuts at 60° at each end, so that all opposite sides are 3 1/2 in apart"}},
		{Diamond{23 * eighth, Degrees60}, Words{"diamonds of 60°", "cut across at 60°, 3 3/8 in from cut to cut, measured square to the cuts"}},
		{Diamond{2 * in, Degrees45}, Words{"diamonds of 45°", "cut across at 45°, 2 1/2 in from cut to cut, measured square to the cuts"}},
		// Slants of 5 for 4 of height: s(5+3)/4 and s(5-3)/4 more, our own arithmetic.
		{Trapezoid{2 * in, 6 * in, 3 * in}, Words{"trapezoids", "head to foot, with parallel sides of 7 in and 3 1/4 in as cut"}},
		{Wedge{8 * in, 3 * in, in}, Words{"wedges", "head to foot, with parallel sides of just under 3 5/8 in and just under 1 1/2 in as cut"}},
	} {
		if got := test.shape.Words(inches); got != test.want {
			t.Errorf("%+v: got %q, want %q", test.shape, got, test.want)
		}
	}
}

func inInches(l model.Length) float64 { return float64(l) / float64(in) }

func TestProportionsPublished(t *testing.T) {
	// A 60° diamond of height 5 has the diagonals 5.77 and 10
	// (catbirdquilts.wordpress.com, 2016-05-31).
	d := Diamond{5 * in, Degrees60}.Outline()
	if short, long := distance(d[0], d[2]), distance(d[1], d[3]); math.Abs(short-5.77) > 0.005 || math.Abs(long-10) > 1e-6 {
		t.Errorf("the diagonals of %v are %v and %v", d, short, long)
	}
	// The side of the 45° diamonds of an eight-point star, times 3.41, is the
	// block (karencombs.com): twice the long diagonal, seen along a side.
	d = Diamond{5 * in, Degrees45}.Outline()
	side, along := distance(d[0], d[1]), number(d[1].X.Sub(d[3].X))/float64(in)
	if math.Abs(2*along/side-3.41) > 0.005 {
		t.Errorf("the star is %v times the side", 2*along/side)
	}
	// A hexagon of side s is 2s from point to point, 1.73s from flat to flat
	// (quiltartdesigns.blogspot.com, 2014-01).
	h := Hexagon{3 * in}.Outline()
	if side := distance(h[0], h[1]); math.Abs(distance(h[2], h[5])/side-2) > 1e-6 || math.Abs(3/side-1.73) > 0.005 {
		t.Errorf("the side of %v is %v", h, side)
	}
}

// What seams take of sides at 60°, where sources say otherwise.
func TestLossOfSidesPublished(t *testing.T) {
	for _, test := range []struct {
		shape Cutout
		loss  float64 // of a side, from cut to finished
	}{
		// Printed as cut side less 1/2 (blotchandthrum.com, 2013-08). By our own
		// arithmetic the three seams take 2√3 times one: 0.866.
		{SixtyTriangle{6 * in}, 0.866},
		// Printed: 5 in from point to point, so with a cut side of 2 1/2, sews to a
		// side of 2 (yahoo groups medievalsawdust 2852). By our own arithmetic a
		// side loses 2/√3 times a seam: 2.21.
		{Hexagon{11 * in / 4}, 0.289},
	} {
		outline := test.shape.Outline()
		cut := inInches(test.shape.Lie(inches).First)
		if len(outline) == 6 {
			cut /= 2 // from point to point
		}
		if got := cut - distance(outline[0], outline[1]); math.Abs(got-test.loss) > 0.0006 {
			t.Errorf("%+v: a side loses %v", test.shape, got)
		}
	}
}

func distance(p, q geometry.Point) float64 {
	v := p.Minus(q)
	return math.Hypot(number(v.X), number(v.Y)) / float64(in)
}

// number is a surd as a floating point number, as precise as 1/1000 of a tick.
func number(s geometry.Surd) float64 { return float64(s.Times(1000).CeilTo(1)) / 1000 }

// drawCutout draws a shape of any kind.
func drawCutout(t *rapid.T) Cutout {
	h := model.Length(rapid.IntRange(1, 96).Draw(t, "height")) * eighth
	short := model.Length(rapid.IntRange(1, 96).Draw(t, "short")) * eighth
	long := short + model.Length(rapid.IntRange(1, 96).Draw(t, "more"))*eighth
	shapes := []Cutout{SixtyTriangle{h}, Hexagon{h}, Diamond{h, Degrees45}, Diamond{h, Degrees60},
		Trapezoid{h, long, short}, Wedge{h, long, short}, Wedge{h, long, 0}}
	return rapid.SampledFrom(shapes).Draw(t, "shape")
}

// Shapes with seam allowances, every second one head to foot, lie in the strip
// one after another as Lie says, without overlapping; with a little less for
// each they would.
func TestLieHoldsShapes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := drawCutout(t)
		lie := shape.Lie(inches)
		_, sixty := shape.(SixtyTriangle)
		raw := outset(shape.Outline(), 0.25, !sixty)
		low, high := spans(raw)
		if w, h := high[0]-low[0], high[1]-low[1]; math.Abs(w-inInches(lie.First)) > 1e-3 || math.Abs(h-inInches(lie.Height)) > 1e-3 ||
			w > inInches(lie.First)+1e-9 || h > inInches(lie.Height)+1e-9 {
			t.Fatalf("%+v: the raw shape is %v x %v, %+v", shape, w, h, lie)
		}
		each := inInches(lie.Each)
		for k := range 3 {
			this, next := placed(raw, k, float64(k)*each), placed(raw, k+1, float64(k+1)*each)
			if overlaps(this, next, 1e-9) {
				t.Errorf("%+v: shapes %d and %d overlap", shape, k, k+1)
			}
			if !overlaps(this, placed(raw, k+1, float64(k+1)*each-0.01), 1e-9) {
				t.Errorf("%+v: shapes %d and %d need not be %v apart", shape, k, k+1, each)
			}
		}
	})
}

// outset is a polygon in inches with its sides moved out by s; upright, it ends
// at s above and below.
func outset(g geometry.Polygon, s float64, upright bool) [][2]float64 {
	const far = 1e4
	raw := [][2]float64{{-far, -far}, {far, -far}, {far, far}, {-far, far}}
	low, high := math.Inf(1), math.Inf(-1)
	for i, p := range g {
		q := g[(i+1)%len(g)]
		x, y := number(p.X)/float64(in), number(p.Y)/float64(in)
		dx, dy := number(q.X)/float64(in)-x, number(q.Y)/float64(in)-y
		length := math.Hypot(dx, dy)
		// Clockwise on a page whose y runs down, (dy, -dx) points out.
		raw = clip(raw, dy/length, -dx/length, (dy*x-dx*y)/length+s)
		low, high = min(low, y), max(high, y)
	}
	if upright {
		raw = clip(raw, 0, -1, s-low)
		raw = clip(raw, 0, 1, high+s)
	}
	return raw
}

// clip is the part of a polygon where a·x + b·y is at most c.
func clip(g [][2]float64, a, b, c float64) (part [][2]float64) {
	for i, p := range g {
		q := g[(i+1)%len(g)]
		dp, dq := a*p[0]+b*p[1]-c, a*q[0]+b*q[1]-c
		if dp <= 0 {
			part = append(part, p)
		}
		if dp < 0 && dq > 0 || dp > 0 && dq < 0 {
			k := dp / (dp - dq)
			part = append(part, [2]float64{p[0] + k*(q[0]-p[0]), p[1] + k*(q[1]-p[1])})
		}
	}
	return part
}

func spans(g [][2]float64) (low, high [2]float64) {
	low, high = g[0], g[0]
	for _, p := range g {
		for i := range p {
			low[i], high[i] = min(low[i], p[i]), max(high[i], p[i])
		}
	}
	return low, high
}

// placed is the k-th shape of a strip, with its left end at x.
func placed(raw [][2]float64, k int, x float64) [][2]float64 {
	low, high := spans(raw)
	shape := make([][2]float64, len(raw))
	for i, p := range raw {
		shape[i] = [2]float64{p[0] - low[0] + x, p[1]}
		if k%2 == 1 {
			shape[i] = [2]float64{high[0] - p[0] + x, low[1] + high[1] - p[1]}
		}
	}
	return shape
}

// overlaps reports whether two convex polygons overlap by more than near: they
// do not if a side of one parts them.
func overlaps(g, h [][2]float64, near float64) bool {
	parts := func(g, h [][2]float64) bool {
		for i, p := range g {
			q := g[(i+1)%len(g)]
			a, b := q[1]-p[1], p[0]-q[0]
			length := math.Hypot(a, b)
			if length < 1e-9 {
				continue
			}
			nearest := math.Inf(1)
			for _, r := range h {
				nearest = min(nearest, (a*(r[0]-p[0])+b*(r[1]-p[1]))/length)
			}
			if nearest >= -near {
				return true
			}
		}
		return false
	}
	return !parts(g, h) && !parts(h, g)
}

func TestCutoutOutlines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shape := drawCutout(t)
		outline := shape.Outline()
		from, _ := outline.Bounds()
		if !outline.Convex() || from.X.Sign() != 0 || from.Y.Sign() != 0 {
			t.Errorf("%+v is %v", shape, outline)
		}
	})
}

// Roots of whole numbers are rounded up, never by as much as 1.
func TestRoot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, most model.Length) model.Length {
			return model.Length(rapid.Int64Range(1, int64(most)).Draw(t, name))
		}
		f, x, y := draw("factor", 2*in), draw("x", MaxFinished), draw("y", MaxFinished)
		n := new(big.Int)
		for _, l := range []model.Length{x, y} {
			square := big.NewInt(int64(l))
			n.Add(n, square.Mul(square, square))
		}
		n.Mul(n, big.NewInt(int64(f))).Mul(n, big.NewInt(int64(f)))
		r := root(f, x, y)
		less := new(big.Int).Sub(r, big.NewInt(1))
		if r.Mul(r, r).Cmp(n) < 0 || less.Mul(less, less).Cmp(n) >= 0 {
			t.Errorf("the root of %v is %v", n, root(f, x, y))
		}
	})
	for _, test := range []struct{ x, y, r, d, want model.Length }{{2, 3, 4, 5, 2}, {2, 3, 5, 5, 3}, {0, 9, 0, 7, 0}} {
		if got := over(test.x, test.y, big.NewInt(int64(test.r)), test.d); got != test.want {
			t.Errorf("over%v is %d", test, got)
		}
	}
}

func TestCutoutFaults(t *testing.T) {
	cm := Rules{Unit: model.Centimetres, Seam: 3 * model.Centimetre / 4, Ruler: model.Centimetre / 2}
	for i, test := range []struct {
		rules Rules
		shape Cutout
		kind  error
		want  string
	}{
		{inches, SixtyTriangle{6 * in}, nil, ""},
		{inches, SixtyTriangle{0}, model.ErrNotPositive, `cutout 1: sixty_triangle: not more than 0 ("0 in"), write the finished size`},
		// With three seam allowances it is off a mark where others are on it.
		{cm, SixtyTriangle{10 * model.Centimetre}, model.ErrOffMark,
			`cutout 2: sixty_triangle: off the ruler's mark ("10 cm"), with its seams it is 12.25 cm: write 10.25, or a finer ruler`},
		{cm, SixtyTriangle{1025 * model.Centimetre / 100}, nil, ""},
		{inches, Hexagon{201 * in}, model.ErrOutOfRange, `cutout 4: hexagon: out of range ("201 in"), write at most 200 in`},
		{inches, Diamond{in / 16, Degrees45}, model.ErrOffMark,
			`cutout 5: diamond_45: off the ruler's mark ("1/16 in"), with its seams it is 9/16 in: write 1/8, or a finer ruler`},
		{inches, Diamond{0, Degrees60}, model.ErrNotPositive, `cutout 6: diamond_60: not more than 0 ("0 in"), write the finished size`},
		{inches, Trapezoid{2 * in, 6 * in, 0}, model.ErrNotPositive,
			`cutout 7: short: not more than 0 ("0 in"), write the finished length of the short side`},
		{inches, Trapezoid{2 * in, 6 * in, 6 * in}, model.ErrTooSmall,
			`cutout 8: long: too small ("6 in"), write more than the short side, 6 in`},
		{inches, Wedge{2 * in, 0, -in}, model.ErrNotPositive,
			`cutout 9: short: not more than 0 ("-1 in"), write the finished length of the short side, 0 for a triangle` + "\n" +
				`cutout 9: long: not more than 0 ("0 in"), write the finished length of the long side`},
		{inches, Wedge{2 * in, 201 * in, 0}, model.ErrOutOfRange, `cutout 10: long: out of range ("201 in"), write at most 200 in`},
		{inches, Wedge{2 * in, in, 0}, nil, ""},
	} {
		c := Checker{Rules: test.rules}
		test.shape.Check(&c, model.PathOf("cutouts", strconv.Itoa(i)))
		checkFault(t, c, test.kind, test.want)
	}
}
