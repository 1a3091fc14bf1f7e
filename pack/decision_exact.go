package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// place sets the limits of a box.
func (d *decision) place(b box) error {
	for j, l := range b.strips {
		if err := d.lp.SetColumn(d.column[j], float64(l.lo), float64(l.hi)); err != nil {
			return err
		}
	}
	for i := range d.sums {
		least, most := math.Inf(-1), math.Inf(1)
		if i < len(b.sums) {
			least = float64(b.sums[i].lo)
			if b.sums[i].hi != noLimit {
				most = float64(b.sums[i].hi)
			}
		}
		if err := d.lp.SetRow(d.sumRow[i], least, most); err != nil {
			return err
		}
	}
	return nil
}

// relax solves the relaxation in a box. Its verdict is no if whole prices
// prove that the box holds nothing, unknown otherwise.
func (d *decision) relax(b *box) ([]float64, verdict, error) {
	if err := d.place(*b); err != nil {
		return nil, unknown, err
	}
	dual := true
	for {
		sol, err := d.lp.Solve(dual)
		d.s.m.effort += programEffort(d.lp, sol.Iterations)
		switch {
		case err != nil:
			return nil, unknown, err
		case sol.Status == glpk.Infeasible:
			return nil, d.overfull(*b), nil
		case sol.Status != glpk.Optimal:
			return nil, unknown, glpk.ErrNumerical
		}
		x, worth := d.values(sol.X)
		d.worth = worth
		if worth >= 1-wholeEnough/1000 {
			if !d.priced {
				d.narrow(b, sol.RowDual)
			}
			return x, unknown, nil
		}
		v, rest := d.prices(*b, sol.RowDual)
		if !d.priced {
			if d.gains(*b, v, rest).negative() {
				return nil, no, nil
			}
			return x, unknown, nil
		}
		found, most := d.s.pr.price(v.prices, d.demand)
		for k, w := range rising(most) {
			rest.add(w, int64(d.n.single(k)))
		}
		if rest.negative() {
			return nil, no, nil
		}
		if fresh, err := d.learn(found); err != nil || !fresh || d.s.over() {
			return x, unknown, err
		}
		dual = false
	}
}

// narrow narrows the limits of a box to what a plan in it can have: all of its
// layouts together lack no more than there is to spare (fixing by reduced cost).
func (d *decision) narrow(b *box, dual []float64) {
	v, rest := d.prices(*b, dual)
	spare := d.gains(*b, v, rest)
	d.s.m.effort += int64(len(d.list) * 2 * (len(d.demand) + len(d.cuts)))
	if spare.negative() || spare.hi > 0 || spare.lo > 1<<62 {
		return
	}
	b.strips = slices.Clone(b.strips)
	for j := range d.list {
		l := &b.strips[j]
		if l.lo == l.hi {
			continue
		}
		switch lacks := d.lacks(v, j); {
		case lacks > 0:
			l.hi = l.lo + int(min(int64(spare.lo)/lacks, int64(l.hi-l.lo)))
		case lacks < 0:
			l.lo = l.hi - int(min(int64(spare.lo)/-lacks, int64(l.hi-l.lo)))
		}
	}
}

// lacks is what a layout costs more than it is worth.
func (d *decision) lacks(v decisionPrices, j int) int64 {
	c := &d.list[j]
	lacks := v.cost[d.at[j]] + v.perLength*int64(c.height)
	for i, y := range c.yield {
		lacks -= v.worth[i] * int64(y)
	}
	for i, u := range v.cuts {
		if u != 0 {
			lacks -= u * d.cuts[i].at[j]
		}
	}
	for _, e := range v.extra {
		lacks -= e.value * int64(sum{e.from, e.option}.of(c))
	}
	return lacks
}

// learn enters layouts that were priced in, and reports whether one is new.
func (d *decision) learn(found []column) (bool, error) {
	fresh := false
	for _, c := range found {
		key := c.key()
		at, _ := slices.BinarySearch(d.s.pr.heights(), c.height)
		if d.known[key] || d.n[at] == 0 {
			continue
		}
		d.known[key], fresh = true, true
		d.list = append(d.list, choice{c, d.n[at]})
		if err := d.enter(&d.list[len(d.list)-1]); err != nil {
			return false, err
		}
	}
	return fresh, nil
}

// values are the strips of each layout, and what the box is worth.
func (d *decision) values(all []float64) (x []float64, worth float64) {
	x = make([]float64, len(d.list))
	for j := range x {
		x[j] = all[d.column[j]]
	}
	missed := 0.0
	for _, c := range d.missed {
		missed += all[c]
	}
	if d.length > 0 { // what it misses is in its length
		length := (1 - all[0] + missed) * d.missing()
		for j, v := range x {
			length += v * float64(d.list[j].height)
		}
		return x, 2 - length/float64(d.length)
	}
	return x, all[0] - missed*d.missing()
}

// overfull is no if the least strips of a box are more than there are, or more
// than a sum may be. Nothing else makes the program infeasible.
func (d *decision) overfull(b box) verdict {
	for k := range d.n {
		total := 0
		for j, l := range b.strips {
			if d.at[j] >= k {
				total += l.lo
			}
		}
		if total > d.n[k] {
			return no
		}
	}
	for i, l := range b.sums {
		total := 0
		for j, s := range b.strips {
			total += s.lo * d.sums[i].of(&d.list[j])
		}
		if total > l.hi {
			return no
		}
	}
	return unknown
}

// decisionPrices are prices, and those of the length and the cuts.
type decisionPrices struct {
	prices
	perLength int64
	cuts      []int64
}

// prices are the duals as whole prices: of the sizes, of strips, of their length,
// of the sums and of the cuts. Rest is the limits of the length and of the sums at
// their prices and what the demand is worth, less than nothing: if that and what
// the strips hold at most come to less than nothing together, the box holds no plan.
func (d *decision) prices(b box, dual []float64) (v decisionPrices, rest wide) {
	scale := min(1<<36, d.s.m.dearest/int64(1+len(b.sums)+len(d.cuts)))
	top := math.SmallestNonzeroFloat64 // not 0: prices of nothing are nothing
	if d.length > 0 {
		top = 1 // of the length
	}
	for _, u := range dual {
		top = max(top, math.Abs(u))
	}
	price := func(u float64) int64 { return int64(u / top * float64(scale)) }
	v.worth = make([]int64, len(d.demand))
	for i, n := range d.demand {
		v.worth[i] = max(0, price(dual[i]))
		rest.add(-v.worth[i], int64(n))
	}
	v.cost = make([]int64, len(d.n))
	total, next := int64(0), 0
	for k := range d.n {
		if next < len(d.rows) && d.rows[next] == k {
			total += max(0, price(-dual[len(d.demand)+next]))
			next++
		}
		v.cost[k] = total
	}
	if d.length > 0 {
		v.perLength = price(1)
		rest.add(v.perLength, int64(d.length))
	}
	for i, l := range b.sums {
		u := price(dual[d.sumRow[i]])
		switch {
		case u > 0:
			rest.add(-u, int64(l.lo))
		case u < 0 && l.hi != noLimit:
			rest.add(-u, int64(l.hi))
		default:
			continue
		}
		v.extra = append(v.extra, bonus{d.sums[i].height, d.sums[i].option, u})
	}
	for _, c := range d.cuts {
		u := max(0, price(dual[c.row]/c.scale))
		rest.add(-u, c.least)
		v.cuts = append(v.cuts, u)
	}
	if d.priced { // a little more, lest a layout that is known be found again
		for k := range v.cost {
			v.cost[k] += scale >> priceSlack
		}
	}
	return v, rest
}

// gains adds to rest what the strips hold at most over the list: what they
// cost, less what the layouts lack, each cut as seldom as it may be, or as
// often if it is worth more than it costs.
func (d *decision) gains(b box, v decisionPrices, rest wide) wide {
	for k := range d.n {
		rest.add(v.cost[k], int64(d.n.single(k)))
	}
	for j := range d.list {
		lacks := d.lacks(v, j)
		if l := b.strips[j]; lacks > 0 {
			rest.add(-lacks, int64(l.lo))
		} else {
			rest.add(-lacks, int64(l.hi))
		}
	}
	return rest
}
