package pack

import "slices"

// The settings of calling layouts into the program, found by trial.
const (
	calledAtOnce = 20
	leastGain    = 1e-9 // of what a box that holds a plan is worth
	slightly     = 1000 // whole prices, for their rounding
)

// call puts layouts of the list that gain by the duals into the program, those that
// gain most, and reports whether there are any. It looks at those first that gained the
// last time that it looked at all (partial pricing).
func (d *decision) call(b box, dual []float64) (bool, error) {
	if d.priced || len(d.active) == len(d.list) {
		return false, nil
	}
	w := d.dualWeights(dual)
	list := d.gaining(b, w, d.calling)
	if len(list) == 0 {
		list = d.gaining(b, w, d.left(b))
		d.calling = d.calling[:0]
		for _, g := range list {
			d.calling = append(d.calling, g.index)
		}
	}
	for _, g := range best(list, calledAtOnce) {
		if err := d.enter(g.index); err != nil {
			return false, err
		}
		if err := d.limitStrips(len(d.active)-1, b.strips[g.index]); err != nil {
			return false, err
		}
	}
	return len(list) > 0, nil
}

// gaining are those of some layouts that a box leaves, are not in the program, and gain.
func (d *decision) gaining(b box, w weights[float64], among []int) []gaining {
	least := d.leastGain()
	var list []gaining
	for _, j := range among {
		if b.strips[j].hi > 0 && d.column[j] == absent {
			if v := w.of(d, j); v > least {
				list = append(list, gaining{j, v})
			}
		}
	}
	d.s.m.effort += int64(len(among)) * d.weighing()
	return list
}

// leastGain is the least that a layout gains that is called.
func (d *decision) leastGain() float64 { return leastGain * float64(max(1, d.length)) }

// dualWeights are what a layout gains by the duals.
func (d *decision) dualWeights(dual []float64) weights[float64] {
	w := newWeights[float64](d)
	for i := range d.demand {
		w.addSize(d, i, dual[i])
	}
	for r, k := range d.rows {
		w.addStrips(k, dual[len(d.demand)+r])
	}
	if d.length > 0 {
		w.addLength(d, -1)
	}
	for i, c := range d.cuts {
		w.addCut(i, dual[c.row]/c.scale)
	}
	for i, u := range d.sums {
		if v := dual[d.sumRow[i]]; v != 0 {
			w.addSum(d, u, v)
		}
	}
	return w
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
		d.list = append(d.list, choiceOf(c, d.n[at]))
		d.note(&d.list[len(d.list)-1])
		if err := d.enter(len(d.list) - 1); err != nil {
			return false, err
		}
	}
	return fresh, nil
}
