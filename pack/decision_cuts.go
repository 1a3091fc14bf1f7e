package pack

import "math"

// cut is a cutting plane of a decision over a list: the mixed-integer rounding
// of the row of a size by a divisor (see plane.rounded),
//
//	Σ F(yield)·x ≥ r·⌈demand/q⌉,   r = demand mod q,
//	F(y) = r·⌊y/q⌋ + min(r, y mod q),
//
// which holds since strips are whole: of 92 pieces, 11 or 2 to a strip, eight
// strips of 11 leave 4, and those take one more or two of the others.
type cut struct {
	size, divisor int
	rest          int // r
	least         int
	row           int // in the program
}

func (c *cut) of(l *choice) int {
	y := l.yield[c.size]
	return c.rest*(y/c.divisor) + min(c.rest, y%c.divisor)
}

// newCut is the rounding of the row of a size, or false if there is none.
func (d *decision) newCut(size, divisor int) (cut, bool) {
	c := cut{size: size, divisor: divisor, rest: d.demand[size] % divisor}
	c.least = c.rest * (d.demand[size]/divisor + 1)
	return c, c.rest > 0
}

// cutOff adds the cuts that x violates, and reports whether there are any. The
// divisors that it tries are what the strips in x yield of a size.
func (d *decision) cutOff(x []float64) (bool, error) {
	type key struct{ size, divisor int }
	seen := map[key]bool{}
	added := false
	for j, v := range x {
		if fraction(v) <= wholeEnough {
			continue
		}
		for i, y := range d.list[j].yield {
			if y < 2 || d.demand[i] == 0 || seen[key{i, y}] {
				continue
			}
			seen[key{i, y}] = true
			c, ok := d.newCut(i, y)
			if !ok || d.activity(&c, x) >= float64(c.least)*(1-wholeEnough) {
				continue
			}
			if err := d.enterCut(c); err != nil {
				return added, err
			}
			added = true
		}
	}
	d.s.m.effort += int64(len(seen) * len(d.list))
	return added, nil
}

// activity is the left side of a cut.
func (d *decision) activity(c *cut, x []float64) float64 {
	sum := 0.0
	for j, v := range x {
		if v > 0 {
			sum += v * float64(c.of(&d.list[j]))
		}
	}
	return sum
}

// enterCut puts a cut into the program: what it asks for scales with theta, as
// the demand does.
func (d *decision) enterCut(c cut) error {
	columns, values := []int32{0}, []float64{-float64(c.least)}
	for j := range d.list {
		if f := c.of(&d.list[j]); f > 0 {
			columns, values = append(columns, int32(d.column[j])), append(values, float64(f))
		}
	}
	c.row = d.lp.Rows()
	d.cuts = append(d.cuts, c)
	return d.lp.AddRow(0, math.Inf(1), columns, values)
}
