package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// place sets the limits of a box, where the program has others.
func (d *decision) place(b box) error {
	for j, l := range b.strips {
		if l.lo > 0 && d.column[j] == absent {
			if err := d.enter(j); err != nil {
				return err
			}
		}
	}
	for i, j := range d.active {
		if d.priced {
			break // they have no limits of their own
		}
		if err := d.limitStrips(i, b.strips[j]); err != nil {
			return err
		}
	}
	for i := range d.sums {
		l := limits{0, noLimit}
		if i < len(b.sums) {
			l = b.sums[i]
		}
		if l == d.sumHas[i] {
			continue
		}
		d.sumHas[i] = l
		least, most := math.Inf(-1), math.Inf(1)
		if l.lo > 0 {
			least = float64(l.lo)
		}
		if l.hi != noLimit {
			most = float64(l.hi)
		}
		if err := d.lp.SetRow(d.sumRow[i], least, most); err != nil {
			return err
		}
	}
	return nil
}

// limitStrips limits the strips of the i-th active layout.
func (d *decision) limitStrips(i int, l limits) error {
	if l == d.has[i] {
		return nil
	}
	d.has[i] = l
	return d.lp.SetColumn(d.column[d.active[i]], float64(l.lo), float64(l.hi))
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
		d.s.m.effort += d.relaxEffort(sol.Iterations)
		switch {
		case err != nil:
			return nil, unknown, err
		case sol.Status == glpk.Infeasible:
			return nil, d.overfull(*b), nil
		case sol.Status != glpk.Optimal:
			return nil, unknown, glpk.ErrNumerical
		}
		if called, err := d.call(*b, sol.RowDual); err != nil {
			return nil, unknown, err
		} else if called {
			dual = false
			continue
		}
		x, worth := d.values(sol.X)
		d.worth, d.last = worth, sol
		if worth >= 1-wholeEnough/1000 {
			if !d.priced {
				d.narrow(b, sol.RowDual)
			}
			return x, unknown, nil
		}
		v, rest := d.prices(*b, sol.RowDual)
		if !d.priced {
			if d.gains(*b, v, rest, d.lacks(v)).negative() {
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

// relaxEffort is about the nanoseconds that a solve takes in which so many iterations
// are made: cuts are full rows.
func (d *decision) relaxEffort(iterations int) int64 {
	columns := int64(d.lp.Columns())
	return programEffort(d.lp, iterations) + int64(len(d.active))*60 + int64(iterations)*int64(len(d.cuts))*columns/5
}

// narrow narrows the limits of a box to what a plan in it can have: all of its
// layouts together lack no more than there is to spare (fixing by reduced cost).
func (d *decision) narrow(b *box, dual []float64) {
	v, rest := d.prices(*b, dual)
	lacks := d.lacks(v)
	spare := d.gains(*b, v, rest, lacks)
	if spare.negative() || spare.hi > 0 || spare.lo > 1<<62 {
		return
	}
	b.strips = slices.Clone(b.strips)
	for j, a := range lacks {
		l := &b.strips[j]
		switch {
		case l.lo == l.hi:
		case a > 0:
			l.hi = l.lo + int(min(int64(spare.lo)/a, int64(l.hi-l.lo)))
		case a < 0:
			l.lo = l.hi - int(min(int64(spare.lo)/-a, int64(l.hi-l.lo)))
		}
	}
}

// lacks is what each layout costs more than it is worth, and slightly more.
func (d *decision) lacks(v decisionPrices) []int64 {
	d.s.m.effort += int64(len(d.list)) * d.weighing()
	w := d.weights(v)
	list := make([]int64, len(d.list))
	for j := range list {
		if list[j] = -w.of(d, j); d.at[j] != absent {
			list[j] += v.slight
		}
	}
	return list
}

// weights are what a layout is worth more than it costs.
func (d *decision) weights(v decisionPrices) weights[int64] {
	w := newWeights[int64](d)
	for i, worth := range v.worth {
		w.addSize(d, i, worth)
	}
	for k, cost := range v.cost {
		w.strip[k] -= cost
	}
	w.addLength(d, -v.perLength)
	for i, u := range v.cuts {
		w.addCut(i, u)
	}
	for _, e := range v.extra {
		w.addSum(d, sum{e.from, e.option}, e.value)
	}
	return w
}

// values are the strips of each layout, and what the box is worth.
func (d *decision) values(all []float64) (x []float64, worth float64) {
	x = make([]float64, len(d.list))
	for _, j := range d.active {
		x[j] = all[d.column[j]]
	}
	missed := 0.0
	for _, c := range d.missed {
		missed += all[c]
	}
	if d.length > 0 { // what it misses is in its length
		length := (1 - all[0] + missed) * d.missing()
		for _, j := range d.active {
			length += x[j] * float64(d.list[j].height)
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
	slight    int64 // more than any layout that was not called gains
}

// prices are the duals as whole prices: of the sizes, of strips, of their length,
// of the sums and of the cuts. Rest is the limits of the length and of the sums at
// their prices and what the demand is worth, less than nothing: if that and what
// the strips hold at most come to less than nothing together, the box holds no plan.
func (d *decision) prices(b box, dual []float64) (v decisionPrices, rest wide) {
	fine := int64(1 << 36)
	if !d.priced { // cuts have large coefficients
		heights := d.s.pr.heights()
		fine = min(1<<50, priceSum/int64(heights[len(heights)-1]))
	}
	scale := min(fine, d.s.m.dearest/int64(1+len(b.sums)+len(d.cuts)))
	top := math.SmallestNonzeroFloat64 // not 0: prices of nothing are nothing
	if d.length > 0 {
		top = 1 // of the length
	}
	for _, u := range dual {
		top = max(top, math.Abs(u))
	}
	price := func(u float64) int64 { return int64(u / top * float64(scale)) }
	if len(d.active) < len(d.list) {
		v.slight = price(2*d.leastGain()) + slightly
	}
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
// often if it is worth more than it costs. A strip costs slightly more than it
// does, as the layouts may be very many that are worth more by a hair.
func (d *decision) gains(b box, v decisionPrices, rest wide, lacks []int64) wide {
	for k := range d.n {
		rest.add(v.cost[k], int64(d.n.single(k)))
	}
	rest.add(v.slight, int64(d.n[0]))
	for j, a := range lacks {
		if l := b.strips[j]; a > 0 {
			rest.add(-a, int64(l.lo))
		} else {
			rest.add(-a, int64(l.hi))
		}
	}
	return rest
}
