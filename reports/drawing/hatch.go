package drawing

import (
	"slices"

	"crossgrain/model"
)

// HatchKind is a pattern of lines or dots.
type HatchKind uint8

// The patterns.
const (
	NoHatch HatchKind = iota
	Rising            // from the lower left to the upper right
	Falling
	Level
	Upright
	Crossed // rising and falling
	Grid    // level and upright
	Dots
)

// Hatch is a pattern in a shape: its lines, and how far they are apart.
type Hatch struct {
	Kind   HatchKind
	Gap    model.Length
	Stroke Stroke
}

// family is all lines a·x + b·y = k·gap.
type family struct {
	a, b model.Length
	gap  model.Length
}

func (h Hatch) families() []family {
	// The distance of slanted lines is measured across them: √2 of it is the
	// step along x.
	slant := h.Gap * 1414 / 1000
	rising, falling := family{1, 1, slant}, family{1, -1, slant}
	level, upright := family{0, 1, h.Gap}, family{1, 0, h.Gap}
	switch h.Kind {
	case Rising:
		return []family{rising}
	case Falling:
		return []family{falling}
	case Level, Dots:
		return []family{level}
	case Upright:
		return []family{upright}
	case Crossed:
		return []family{rising, falling}
	case Grid:
		return []family{level, upright}
	}
	return nil
}

// segments are the lines of the pattern inside an outline. Patterns do not
// begin anew in each shape, so that they run on across the shapes of a fabric.
func (h Hatch) segments(outline []Point) [][2]Point {
	if h.Gap <= 0 {
		return nil
	}
	var all [][2]Point
	for _, f := range h.families() {
		if f.gap > 0 {
			all = append(all, f.inside(outline)...)
		}
	}
	if h.Kind == Dots {
		return h.dots(all)
	}
	return all
}

// at is where a point lies across the lines.
func (f family) at(p Point) model.Length { return f.a*p.X + f.b*p.Y }

// inside are the lines of a family clipped to an outline.
func (f family) inside(outline []Point) [][2]Point {
	low, high := f.at(outline[0]), f.at(outline[0])
	for _, p := range outline[1:] {
		low, high = min(low, f.at(p)), max(high, f.at(p))
	}
	var lines [][2]Point
	for c := low.CeilTo(f.gap); c < high; c += f.gap {
		var cuts []Point
		for i, p := range outline {
			q := outline[(i+1)%len(outline)]
			if (f.at(p) < c) != (f.at(q) < c) {
				cuts = append(cuts, f.crossing(p, q, c))
			}
		}
		slices.SortFunc(cuts, func(p, q Point) int {
			if p.X != q.X {
				return compare(p.X, q.X)
			}
			return compare(p.Y, q.Y)
		})
		for ; len(cuts) > 1; cuts = cuts[2:] {
			if cuts[0] != cuts[1] {
				lines = append(lines, [2]Point{cuts[0], cuts[1]})
			}
		}
	}
	return lines
}

// crossing is where the edge from p to q meets a line, to the nearest unit.
func (f family) crossing(p, q Point, c model.Length) Point {
	part, of := c-f.at(p), f.at(q)-f.at(p)
	return Point{p.X + scaled(q.X-p.X, part, of), p.Y + scaled(q.Y-p.Y, part, of)}
}

// scaled is l·part/of, rounded towards 0; the products stay far below the
// largest integer, since no drawing is longer than 2³¹ units.
func scaled(l, part, of model.Length) model.Length { return l * part / of }

func compare(a, b model.Length) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// dots are short lines, as long as they are wide, on level lines; those of
// every second line are moved by half a gap.
func (h Hatch) dots(lines [][2]Point) [][2]Point {
	var dots [][2]Point
	half := h.Stroke.Width / 2
	for _, l := range lines {
		y := l[0].Y
		var moved model.Length
		if !y.OnMark(2 * h.Gap) {
			moved = h.Gap / 2
		}
		for x := (l[0].X + half - moved).CeilTo(h.Gap) + moved; x+half <= l[1].X; x += h.Gap {
			dots = append(dots, [2]Point{{x - half, y}, {x + half, y}})
		}
	}
	return dots
}
