package pack

import (
	"cmp"
	"math"
	"slices"
)

// cut is a cutting plane of a decision over a list: an inequality that the
// numbers x of strips of every plan keep, Σ at·x ≥ least, all whole. It is a
// mixed-integer rounding (see plane.rounded) of a sum of rows, which holds since
// the strips are whole: of 92 pieces, 11 or 2 to a strip, eight strips of 11
// leave 4, and those take one more or two of the others.
type cut struct {
	at    []int64 // of each layout of the list
	least int64
	row   int // in the program, where it is divided by scale
	scale float64
}

// cutScale bounds the coefficients of a cut.
const cutScale = 1 << 16

// line is a row of a decision in whole numbers: Σ at·x ≥ side or, if most is
// set, ≤ side.
type line struct {
	at   []int64
	side int64
	most bool
}

// lines are the rows of the sizes, of the heights, of the cuts so far and of the
// sums that a box limits.
func (d *decision) lines(b box) []line {
	var list []line
	for i, n := range d.demand {
		if n > 0 {
			list = append(list, d.sizes[i])
		}
	}
	for _, k := range d.rows {
		l := line{at: make([]int64, len(d.list)), side: int64(d.n[k]), most: true}
		for j, at := range d.at {
			if at >= k {
				l.at[j] = 1
			}
		}
		list = append(list, l)
	}
	if d.length > 0 {
		l := line{at: make([]int64, len(d.list)), side: int64(d.length), most: true}
		for j := range d.list {
			l.at[j] = int64(d.list[j].height)
		}
		list = append(list, l)
	}
	for _, c := range d.cuts {
		list = append(list, line{at: c.at, side: c.least})
	}
	for i, l := range b.sums {
		at := make([]int64, len(d.list))
		for j := range d.list {
			at[j] = int64(d.sums[i].of(&d.list[j]))
		}
		if l.lo > 0 {
			list = append(list, line{at: at, side: int64(l.lo)})
		}
		if l.hi != noLimit {
			list = append(list, line{at: at, side: int64(l.hi), most: true})
		}
	}
	return list
}

// sizeLines are the rows of all sizes.
func (d *decision) sizeLines() []line {
	list := make([]line, len(d.demand))
	for i, n := range d.demand {
		list[i] = line{at: make([]int64, len(d.list)), side: int64(n)}
		for j := range d.list {
			list[i].at[j] = int64(d.list[j].yield[i])
		}
	}
	return list
}

// rounding is the mixed-integer rounding by a divisor of the sum of lines, each
// so many times, as equations with what they have left over as whole variables.
// Layouts that are full are counted by how many strips they have less than the
// most. There is none if it rounds nothing, or comes to more than there is room
// for.
func (d *decision) rounding(lines []line, times []int64, divisor int64, full []bool) (cut, bool) {
	if d.reach(lines, times, divisor, full) > roundingRoom {
		return cut{}, false
	}
	sum, side := make([]int64, len(d.list)), int64(0)
	for i, l := range lines {
		if times[i] == 0 {
			continue
		}
		side += times[i] * l.side
		for j, a := range l.at {
			sum[j] += times[i] * a
		}
	}
	for j, f := range full {
		if f {
			side -= sum[j] * int64(d.most(j))
		}
	}
	rest := side - floorDiv(side, divisor)*divisor
	if rest == 0 {
		return cut{}, false
	}
	round := func(a int64) int64 { return mixedRounding(a, divisor, rest) }
	c := cut{at: make([]int64, len(d.list)), least: rest * (floorDiv(side, divisor) + 1)}
	for j, a := range sum {
		if j < len(full) && full[j] {
			f := round(-a)
			c.at[j], c.least = -f, c.least-f*int64(d.most(j))
		} else {
			c.at[j] = round(a)
		}
	}
	for i, l := range lines {
		f := -round(-times[i]) // what a line ≥ has left over is at·x − side
		if l.most {
			f = round(times[i])
		}
		if f == 0 {
			continue
		}
		c.least -= f * l.side
		for j, a := range l.at {
			c.at[j] -= f * a
		}
	}
	return c.reduced(), true
}

// reach is what the numbers of a rounding come to at most, in between as well:
// F(a) is no more than a and the divisor.
func (d *decision) reach(lines []line, times []int64, divisor int64, full []bool) float64 {
	strips := 1.0
	for j, f := range full {
		if f {
			strips += float64(d.most(j))
		}
	}
	reach := float64(divisor) * strips
	for i, l := range lines {
		if times[i] == 0 {
			continue
		}
		top := int64(0)
		for _, a := range l.at {
			top = max(top, a, -a)
		}
		most := math.Abs(float64(l.side)) + float64(top)*strips
		reach += (math.Abs(float64(times[i])) + float64(divisor)) * most
	}
	return reach
}

// most is the most strips of a layout that are of use.
func (d *decision) most(j int) int { return min(d.list[j].most, d.n[d.at[j]]) }

// reduced makes the coefficients small: exactly, as far as they have a common
// divisor, then by rounding them up and the least down, which weakens it.
func (c cut) reduced() cut {
	by, top := c.least, int64(1)
	for _, a := range c.at {
		by, top = gcd(by, a), max(top, a, -a)
	}
	if by = max(by, -by, 1); top/by > cutScale {
		by = (top-1)/cutScale + 1
	}
	for j, a := range c.at {
		c.at[j] = -floorDiv(-a, by)
	}
	c.least = floorDiv(c.least, by)
	c.scale = float64(max(1, top/by))
	return c
}

// lacks is by how much x violates the cut, as a distance.
func (c *cut) lacks(x []float64) float64 {
	sum, square := float64(c.least), 1e-9
	for j, a := range c.at {
		sum -= float64(a) * x[j]
		square += float64(a) * float64(a)
	}
	return sum / math.Sqrt(square)
}

// enterCuts puts cuts into the program. A cut may be missed at a high cost, lest
// there be no solution.
func (d *decision) enterCuts(cuts []cut) error {
	for _, c := range cuts {
		var columns []int32
		var values []float64
		for j, a := range c.at {
			if a != 0 {
				columns, values = append(columns, int32(d.column[j])), append(values, float64(a)/c.scale)
			}
		}
		c.row = d.lp.Rows()
		d.cuts = append(d.cuts, c)
		if err := d.lp.AddRow(float64(c.least)/c.scale, math.Inf(1), columns, values); err != nil {
			return err
		}
		d.missed = append(d.missed, d.lp.Columns())
		if err := d.lp.AddColumn(d.missing(), 0, math.Inf(1), []int32{int32(c.row)}, []float64{1}); err != nil {
			return err
		}
	}
	return nil
}

// The settings of cuts, found by trial.
const (
	leastLack  = 1e-4 // violation that counts
	cutsAtOnce = 10
)

// deepest are the cuts that x violates the most.
func deepest(cuts []cut, x []float64) []cut {
	lacks := make([]float64, len(cuts))
	var order []int
	for i := range cuts {
		if lacks[i] = cuts[i].lacks(x); lacks[i] >= leastLack {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(lacks[b], lacks[a]) })
	var list []cut
	for _, i := range order[:min(len(order), cutsAtOnce)] {
		list = append(list, cuts[i])
	}
	return list
}

// bySize are the roundings of the rows of single sizes by what strips that are
// not whole in x yield.
func (d *decision) bySize(x []float64) []cut {
	type key struct{ size, divisor int }
	seen := map[key]bool{}
	var cuts []cut
	for j, v := range x {
		if fraction(v) <= wholeEnough {
			continue
		}
		for i, y := range d.list[j].yield {
			if y < 2 || d.demand[i] == 0 || seen[key{i, y}] {
				continue
			}
			seen[key{i, y}] = true
			if c, ok := d.rounding(d.sizes[i:i+1], []int64{1}, int64(y), nil); ok {
				cuts = append(cuts, c)
			}
		}
	}
	d.s.m.effort += 4 * int64(len(seen)*len(d.list))
	return cuts
}
