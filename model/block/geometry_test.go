package block

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// These tests hold cut sizes against finished shapes, by moving the edges of a
// shape out by the seam allowance and laying it on the cloth: not by the
// formulas that the sizes come from.

// plane is a convex shape in ticks, its corners in order.
type plane [][2]float64

// float is a surd as a float, to about a millionth of a tick.
func float(s geometry.Surd) float64 {
	const fine = 1 << 20
	return float64(s.Times(fine).CeilTo(1)) / fine
}

// planeOf is an outline with its inside on the left of its edges, if y is seen
// to go upwards.
func planeOf(g geometry.Polygon) plane {
	p := make(plane, len(g))
	for i, c := range g {
		p[i] = [2]float64{float(c.X), float(c.Y)}
	}
	if p.area() < 0 {
		slices.Reverse(p)
	}
	return p
}

func (p plane) area() float64 {
	var twice float64
	for i, a := range p {
		b := p[(i+1)%len(p)]
		twice += a[0]*b[1] - a[1]*b[0]
	}
	return twice / 2
}

// outward is the direction across the edge from corner i, of length 1.
func (p plane) outward(i int) [2]float64 {
	a, b := p[i], p[(i+1)%len(p)]
	dx, dy := b[0]-a[0], b[1]-a[1]
	length := math.Hypot(dx, dy)
	return [2]float64{dy / length, -dx / length}
}

// grown is the shape with every edge moved out by d.
func (p plane) grown(d float64) plane {
	grown := make(plane, len(p))
	for i, corner := range p {
		u, v := p.outward((i+len(p)-1)%len(p)), p.outward(i)
		// The point that lies d out from both edges.
		scale := d / (1 + u[0]*v[0] + u[1]*v[1])
		grown[i] = [2]float64{corner[0] + scale*(u[0]+v[0]), corner[1] + scale*(u[1]+v[1])}
	}
	return grown
}

// turned is the shape turned so that the direction from goes to the direction
// to.
func (p plane) turned(from, to [2]float64) plane {
	cos, sin := from[0]*to[0]+from[1]*to[1], from[0]*to[1]-from[1]*to[0]
	turned := make(plane, len(p))
	for i, c := range p {
		turned[i] = [2]float64{cos*c[0] - sin*c[1], sin*c[0] + cos*c[1]}
	}
	return turned
}

// reach is how far the shape goes in a direction.
func (p plane) reach(d [2]float64) float64 {
	most := math.Inf(-1)
	for _, c := range p {
		most = max(most, c[0]*d[0]+c[1]*d[1])
	}
	return most
}

// fits reports whether the shape can be moved, but not turned, into a triangle
// or a rectangle. In a triangle it can if the reaches in the directions across
// the edges, weighted by the edges' lengths, are no more than the triangle's: a
// move changes their sum by nothing.
func (p plane) fits(cloth plane) bool {
	const slack = 1e-6 * float64(model.Inch)
	if len(cloth) == 4 {
		for i := range 2 {
			across := cloth.outward(i)
			back := [2]float64{-across[0], -across[1]}
			if p.reach(across)+p.reach(back) > cloth.reach(across)+cloth.reach(back)+slack {
				return false
			}
		}
		return true
	}
	var over, around float64
	for i, a := range cloth {
		b := cloth[(i+1)%len(cloth)]
		length := math.Hypot(b[0]-a[0], b[1]-a[1])
		across := cloth.outward(i)
		over += length * (p.reach(across) - cloth.reach(across))
		around += length
	}
	return over <= slack*around
}

// holds reports that a cut, halved as it says, has no room for a shape with
// the seam allowance on every side. The shape is laid with any of its edges
// along any edge of the cloth, which may be halved on either diagonal.
func holds(cut model.Cut, shape geometry.Polygon, seam model.Length) error {
	raw := planeOf(shape).grown(float64(seam))
	for _, cloth := range cloths(cut) {
		for i := range raw {
			for j := range cloth {
				if raw.turned(raw.outward(i), cloth.outward(j)).fits(cloth) {
					return nil
				}
			}
		}
	}
	return fmt.Errorf("a piece of %v x %v halved %q has no room for %v", cut.Width, cut.Height, cut.Halve, shape)
}

// cloths are the shapes that a cut gives, of each kind one.
func cloths(cut model.Cut) []plane {
	w, h := float64(cut.Width), float64(cut.Height)
	switch cut.Halve {
	case model.HalvedOnce:
		return []plane{{{0, 0}, {w, 0}, {0, h}}, {{0, 0}, {w, 0}, {w, h}}}
	case model.HalvedTwice:
		return []plane{{{0, 0}, {w, 0}, {w / 2, h / 2}}}
	}
	return []plane{{{0, 0}, {w, 0}, {w, h}, {0, h}}}
}

// The test of the tests: a piece that is a hair too small holds nothing.
func TestHolds(t *testing.T) {
	square := box(2*in, 2*in)
	triangle := square[:3]
	slant := geometry.Polygon{corner(0, 0), corner(3*in, 0), corner(2*in, in), corner(in, in)}
	cut := func(w, h model.Length, halve model.Halving) model.Cut {
		return model.Cut{Width: w, Height: h, Halve: halve}
	}
	exact := inches.HalfSquareCut(geometry.Of(2 * in)).CeilTo(1)
	twice := inches.QuarterSquareCut(geometry.Root2(2 * in)).CeilTo(1)
	// From y - s and two ends moved out by s: 3 + 2s + 2s√2.
	long := geometry.Of(3*in + in/2).Add(geometry.Root2(in / 2)).CeilTo(1)
	for _, test := range []struct {
		cut   model.Cut
		shape geometry.Polygon
		holds bool
	}{
		{cut(5*in/2, 5*in/2, model.NotHalved), square, true},
		{cut(5*in/2, 5*in/2-1, model.NotHalved), square, false},
		{cut(5*in/2, 5*in/2, model.NotHalved), square.OnPoint(), true},
		{cut(exact, exact, model.HalvedOnce), triangle, true},
		{cut(exact, exact, model.HalvedOnce), triangle.OnPoint().Turned(3), true},
		{cut(exact-2, exact-2, model.HalvedOnce), triangle, false},
		{cut(exact, exact, model.HalvedOnce), square, false},
		{cut(twice, twice, model.HalvedTwice), triangle, true},
		{cut(twice-2, twice-2, model.HalvedTwice), triangle, false},
		{cut(long, 3*in/2, model.NotHalved), slant, true},
		{cut(3*in/2, long, model.NotHalved), slant.Turned(2), true},
		{cut(long-2, 3*in/2, model.NotHalved), slant, false},
		{cut(long, 3*in/2-2, model.NotHalved), slant, false},
	} {
		if err := holds(test.cut, test.shape, in/4); (err == nil) != test.holds {
			t.Errorf("%+v for %v: %v", test.cut, test.shape, err)
		}
	}
}

// Every piece that is cut on its own holds its finished shape with the seam
// allowance all round, in inches and in centimetres.
func TestEveryCutHoldsItsShape(t *testing.T) {
	for _, u := range slices.Concat(everyUnit, everyRounds()) {
		for _, rules := range []Rules{inches, {Unit: model.Centimetres, Seam: 3 * model.Centimetre / 4, Ruler: model.Centimetre / 2}} {
			y := u.Make(rules, 1)
			for _, s := range y.Shapes {
				if s.Cut < 0 {
					continue
				}
				if err := holds(y.Cuts[s.Cut], s.Outline, rules.Seam); err != nil {
					t.Errorf("%+v: %v", u, err)
				}
			}
		}
	}
}
