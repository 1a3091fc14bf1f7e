package pack_test

import (
	"testing"

	"crossgrain/model"
	"crossgrain/pack"
)

// Large numbers must not overflow the sums of prices into a false proof: the
// bound stays at or below a plan that a formula gives.
func TestLargeDemands(t *testing.T) {
	const half = pack.MaxPieces / 2
	side, other := 3*model.Inch, 5*model.Inch/2
	cases := []struct {
		name  string
		items []pack.Item
		want  model.Length // of the plain plan
	}{
		{"one size", []pack.Item{{Along: side, Across: side, Count: 2 * half}}, (2*half + 12) / 13 * side},
		{"two sizes", []pack.Item{
			{Along: side, Across: side, Count: half},
			{Along: other, Across: other, Count: half, Turnable: true},
		}, (half+12)/13*side + (half+15)/16*other},
		{"tall and flat", []pack.Item{
			{Along: model.Inch / 64, Across: 100 * model.Inch, Count: half},
			{Along: 40 * model.Inch, Across: model.Inch / 64, Count: half},
		}, (half+2559)/2560*100*model.Inch + half*model.Inch/64},
	}
	for _, c := range cases {
		for _, style := range []pack.Style{pack.Plain, pack.Shared} {
			t.Run(c.name+"/"+style.String(), func(t *testing.T) {
				p, err := pack.NewProblem(40*model.Inch, c.items)
				if err != nil {
					t.Fatal(err)
				}
				r := solve(t, p, pack.Options{Style: style, Work: pack.DefaultWork / 10})
				area := model.Length(0)
				for _, it := range c.items {
					area += it.Along / 381 * (it.Across / 381) * model.Length(it.Count)
				}
				least := area / (40 * 64) * 381
				if r.Plan.Length() > c.want || r.Bound > r.Plan.Length() || r.Plan.Length() < least {
					t.Errorf("length %d, bound %d, want at most %d and at least %d", r.Plan.Length(), r.Bound, c.want, least)
				}
				if style == pack.Plain && r.Plan.Length() != c.want {
					t.Errorf("the plain plan is %d long, want %d", r.Plan.Length(), c.want)
				}
			})
		}
	}
}
