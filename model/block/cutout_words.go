package block

import (
	"fmt"

	"crossgrain/model"
)

// Words are what cutouts of a shape are called, and how a strip is cut into
// them, a clause without a full stop.
type Words struct{ Name, Cut string }

// Words are those of triangles of 60°.
func (u SixtyTriangle) Words(Rules) Words {
	return Words{"triangles of 60°", "cut across at 60°, leaning to one side and to the other by turns"}
}

// Words are those of hexagons.
func (u Hexagon) Words(r Rules) Words {
	return Words{"hexagons", fmt.Sprintf("point to point, with two cuts at 60° at each end, so that all opposite sides are %s apart",
		r.Unfinished(u.Height).FormatWithUnit(r.Unit))}
}

// Words are those of diamonds.
func (u Diamond) Words(r Rules) Words {
	angle := "45°"
	if u.Angle == Degrees60 {
		angle = "60°"
	}
	return Words{"diamonds of " + angle, fmt.Sprintf("cut across at %s, %s from cut to cut, measured square to the cuts",
		angle, r.Unfinished(u.Height).FormatWithUnit(r.Unit))}
}

// Words are those of trapezoids. The cut sides are on no mark as a rule.
func (u Trapezoid) Words(r Rules) Words { return u.words(r, "trapezoids") }

// Words are those of wedges.
func (u Wedge) Words(r Rules) Words { return Trapezoid(u).words(r, "wedges") }

func (u Trapezoid) words(r Rules, name string) Words {
	lie := u.Lie(r)
	side := func(l model.Length) string {
		if l.OnMark(r.Ruler) {
			return l.FormatWithUnit(r.Unit)
		}
		return "just under " + l.CeilTo(r.Ruler).FormatWithUnit(r.Unit)
	}
	return Words{name, fmt.Sprintf("head to foot, with parallel sides of %s and %s as cut", side(lie.First), side(2*lie.Each-lie.First))}
}
