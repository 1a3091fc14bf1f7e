package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// gain is what one more of a strip is worth beyond what it takes, where the demand
// is worth scale.
func (j *joint) gain(i int, worth, cost []float64) float64 {
	return j.rota.gain(i, cost[j.strips[i].k], worth)
}

// recall enters the absent strips that gain most, and reports whether there
// are any.
func (j *joint) recall(worth, cost []float64) (bool, error) {
	j.s.m.effort += int64(len(j.rota.place)-len(j.rota.active)) * int64(len(worth)) / 2
	list := j.rota.called(func(i int) float64 { return j.gain(i, worth, cost) }, worthCall*j.scale)
	for _, g := range list {
		if err := j.enter(g.index); err != nil {
			return false, err
		}
	}
	return len(list) > 0, nil
}

// learn enters new strips that are worth more than they cost, the best of them
// first, and reports whether there are any.
func (j *joint) learn(a joined, layouts []column) (bool, error) {
	var list []gaining
	for k, w := range a.most {
		if w > a.cost[k] {
			list = append(list, gaining{k, float64(w - a.cost[k])})
		}
	}
	fresh := false
	for _, g := range best(list, enteredAtOnce) {
		t := jointStrip{layouts[g.index], g.index}
		if j.known[t.key()] {
			continue
		}
		if err := j.add(t); err != nil {
			return fresh, err
		}
		fresh = true
	}
	return fresh, nil
}

// wake enters the planes that the numbers violate most, and reports whether
// there are any.
func (j *joint) wake(a joined) (bool, error) {
	st := j.s.strips
	planes := append(slices.Clone(st.inUse), st.resting...)
	j.s.m.effort += int64(len(planes)*len(a.n)) / 2
	var list []gaining
	for i, p := range planes {
		if at := p.at(a.n); at < min(a.room, 1)-violated/j.scale && !j.has(p) {
			list = append(list, gaining{i, -at})
		}
	}
	for _, g := range best(list, comeBack) {
		if err := j.addRow(j.planeRow(planes[g.index]), 0, math.Inf(1)); err != nil {
			return false, err
		}
	}
	return len(list) > 0, nil
}

// has reports whether a plane is in the program.
func (j *joint) has(p *plane) bool {
	return slices.ContainsFunc(j.rows, func(r jointRow) bool { return r.plane == p })
}

// rest takes out rows that have not mattered for a while and, if there are too
// many strips, those that gain least.
func (j *joint) rest(basis []glpk.VariableStatus, worth, cost []float64) error {
	if err := j.restStrips(worth, cost); err != nil {
		return err
	}
	var drop []int32
	kept := j.rows[:0]
	for r, row := range j.rows {
		if row.idle++; basis[j.row(r)] != glpk.Basic || row.plane == nil && !row.free {
			row.idle = 0
		}
		if row.idle > idlePrograms {
			drop = append(drop, int32(j.row(r)))
			if row.plane == nil {
				j.rowAt[row.from] = absent
			}
			continue
		}
		if row.plane == nil {
			j.rowAt[row.from] = len(kept)
		}
		kept = append(kept, row)
	}
	j.rows = kept
	return j.lp.DeleteRows(drop)
}

// restStrips takes out the strips that gain least if there are too many. Empty
// ones stay: a region may not be without them.
func (j *joint) restStrips(worth, cost []float64) error {
	gain := func(i int) float64 {
		if j.strips[i].empty() {
			return 0
		}
		return j.gain(i, worth, cost)
	}
	return j.rota.rest(j.lp, gain, worthRest*j.scale)
}
