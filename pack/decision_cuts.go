package pack

import (
	"cmp"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// cut is a cutting plane of a decision over a list: an inequality that the
// numbers x of strips of every plan keep, Σ at·x ≥ least, all whole. It is a
// rounding of rows, which holds since the strips are whole: of 92 pieces, 11 or 2
// to a strip, eight strips of 11 leave 4, and those take one more or two of the
// others.
type cut struct {
	at    []int32 // of each layout of the list
	least int64
	top   int64 // none of at is farther from 0
	row   int   // in the program, where it is divided by scale
	scale float64
}

// cutScale bounds the coefficients of a cut.
const cutScale = 1 << 16

// rounding is the mixed-integer rounding (see plane.rounded) by a divisor of a sum
// of lines, each so many times, as equations with what they have left over as
// whole variables. Layouts that are full are counted by how many strips they have
// less than the most.
type rounding struct {
	times, slack  weights[int64] // of the lines, and of what they have left over
	divisor, rest int64
	least         int64
	full          []int // layouts, in order
}

// rounding has none if it rounds nothing, or comes to more than there is room for.
func (d *decision) rounding(lines []line, times []int64, divisor int64, full []int) (rounding, bool) {
	r := rounding{divisor: divisor, full: full}
	if d.reach(lines, times, divisor, full) > roundingRoom {
		return r, false
	}
	r.times = newWeights[int64](d)
	side := int64(0)
	for i, l := range lines {
		if times[i] != 0 {
			r.times.add(d, l, times[i])
			side += times[i] * l.side
		}
	}
	for _, j := range full {
		side -= r.times.of(d, j) * int64(d.most(j))
	}
	r.rest = side - floorDiv(side, divisor)*divisor
	if r.rest == 0 {
		return r, false
	}
	r.least = r.rest * (floorDiv(side, divisor) + 1)
	for _, j := range full {
		r.least -= r.round(-r.times.of(d, j)) * int64(d.most(j))
	}
	r.slack = newWeights[int64](d)
	for i, l := range lines {
		f := -r.round(-times[i]) // what a line ≥ has left over is at·x − side
		if l.most {
			f = r.round(times[i])
		}
		if f != 0 {
			r.least -= f * l.side
			r.slack.add(d, l, f)
		}
	}
	return r, true
}

func (r *rounding) round(a int64) int64 { return mixedRounding(a, r.divisor, r.rest) }

// of is the coefficient of the j-th layout, unless it is full.
func (r *rounding) of(d *decision, j int) int64 {
	return r.round(r.times.of(d, j)) - r.slack.of(d, j)
}

// ofFull is that of a layout that is full.
func (r *rounding) ofFull(d *decision, j int) int64 {
	return -r.round(-r.times.of(d, j)) - r.slack.of(d, j)
}

// lacks is by how much strips of some of the layouts, and none of the others,
// violate the rounding, as a distance, or 0.
func (r *rounding) lacks(d *decision, some []int, x []float64) float64 {
	sum, square := float64(r.least), 1e-9
	for _, j := range some {
		if x[j] != 0 {
			sum -= float64(r.ofAny(d, j)) * x[j]
		}
	}
	d.s.m.effort += int64(len(some)) * 2
	if sum <= 0 {
		return 0
	}
	for _, j := range some {
		a := float64(r.ofAny(d, j))
		square += a * a
	}
	d.s.m.effort += int64(len(some)) * d.weighing() / 4
	return sum / math.Sqrt(square)
}

// ofAny is the coefficient of a layout.
func (r *rounding) ofAny(d *decision, j int) int64 {
	if _, full := slices.BinarySearch(r.full, j); full {
		return r.ofFull(d, j)
	}
	return r.of(d, j)
}

// reach is what the numbers of a rounding come to at most, in between as well:
// F(a) is no more than a and the divisor.
func (d *decision) reach(lines []line, times []int64, divisor int64, full []int) float64 {
	strips := 1.0
	for _, j := range full {
		strips += float64(d.most(j))
	}
	reach := float64(divisor) * strips
	for i, l := range lines {
		if times[i] == 0 {
			continue
		}
		most := math.Abs(float64(l.side)) + float64(l.top)*strips
		reach += (math.Abs(float64(times[i])) + float64(divisor)) * most
	}
	return reach
}

// most is the most strips of a layout that are of use.
func (d *decision) most(j int) int {
	if d.at[j] == absent {
		return d.list[j].most
	}
	return min(d.list[j].most, d.n[d.at[j]])
}

// cutOf is the cut that a rounding is. Its coefficients are made small: exactly, as
// far as they have a common divisor, then by rounding them up and the least down,
// which weakens it.
func (d *decision) cutOf(r rounding) cut {
	at := make([]int64, len(d.list))
	for j := range at {
		at[j] = r.of(d, j)
	}
	for _, j := range r.full {
		at[j] = r.ofFull(d, j)
	}
	d.s.m.effort += int64(len(at)) * d.weighing()
	by, top := r.least, int64(1)
	for _, a := range at {
		by, top = gcd(by, a), max(top, a, -a)
	}
	if by = max(by, -by, 1); top/by > cutScale {
		by = (top-1)/cutScale + 1
	}
	c := cut{at: make([]int32, len(at)), least: floorDiv(r.least, by), top: 1 + top/by, scale: float64(max(1, top/by))}
	for j, a := range at {
		c.at[j] = int32(-floorDiv(-a, by))
	}
	return c
}

// enterCuts puts cuts into the program. A cut may be missed at a high cost, lest
// there be no solution.
func (d *decision) enterCuts(cuts []cut) error {
	for _, c := range cuts {
		var columns []int32
		var values []float64
		for _, j := range d.active {
			if a := c.at[j]; a != 0 {
				columns, values = append(columns, int32(d.column[j])), append(values, float64(a)/c.scale)
			}
		}
		d.s.m.effort += int64(len(d.active)) * 8
		c.row = d.lp.Rows()
		d.cuts = append(d.cuts, c)
		if err := d.lp.AddRow(float64(c.least)/c.scale, math.Inf(1), columns, values); err != nil {
			return err
		}
		if err := d.mayMiss(c.row); err != nil {
			return err
		}
	}
	return nil
}

// isLoose reports whether the program's last solution has more than a cut asks for.
func (d *decision) isLoose(c cut) bool {
	rows := d.last.Basis.Row
	return c.row < len(rows) && rows[c.row] == glpk.Basic
}

// The settings of cuts, found by trial.
const (
	leastLack  = 1e-4 // violation that counts
	cutsAtOnce = 10
)

// deepest are the cuts of the roundings that strips x of the active layouts violate
// the most.
func (d *decision) deepest(list []rounding, x []float64) []cut {
	lacks := make([]float64, len(list))
	var order []int
	for i := range list {
		if lacks[i] = list[i].lacks(d, d.active, x); lacks[i] >= leastLack {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(lacks[b], lacks[a]) })
	var cuts []cut
	for _, i := range order[:min(len(order), cutsAtOnce)] {
		cuts = append(cuts, d.cutOf(list[i]))
	}
	return cuts
}

// bySize are the roundings of the rows of single sizes by what strips that are
// not whole in x yield.
func (d *decision) bySize(x []float64) []rounding {
	type key struct{ size, divisor int }
	seen := map[key]bool{}
	var list []rounding
	for _, j := range d.active {
		if fraction(x[j]) <= wholeEnough {
			continue
		}
		for i, y := range d.yield(&d.list[j]) {
			if y < 2 || d.demand[i] == 0 || seen[key{i, y}] {
				continue
			}
			seen[key{i, y}] = true
			if r, ok := d.rounding([]line{d.sizeLine(i)}, []int64{1}, int64(y), nil); ok {
				list = append(list, r)
			}
		}
	}
	return list
}
