package pack

import (
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// region is a box of numbers of strips.
type region struct {
	least, most numbers
	// room is how many times the demand it has room for, as far as is known: that
	// of the region that it was split from.
	room float64
	// The number that it was split at, or -1, on which side it is, and by how
	// much that moved the number.
	branched, side int
	moved          float64
}

// wholeRegion is the region of all numbers of strips that fit a length, and are no
// more than most.
func wholeRegion(heights []int, length, most int) region {
	r := region{least: make(numbers, len(heights)), most: make(numbers, len(heights)), room: mostTheta, branched: -1}
	for k, h := range heights {
		r.most[k] = min(most, length/h)
	}
	return r
}

func (r region) clone() region {
	r.least, r.most, r.branched = slices.Clone(r.least), slices.Clone(r.most), -1
	return r
}

// tighten narrows the box to numbers that never rise, and reports whether
// there are any.
func (r region) tighten() bool {
	n := len(r.least)
	for k := n - 2; k >= 0; k-- {
		r.least[k] = max(r.least[k], r.least[k+1])
	}
	for k := 1; k < n; k++ {
		r.most[k] = min(r.most[k], r.most[k-1])
	}
	for k := range r.least {
		if r.least[k] > r.most[k] {
			return false
		}
	}
	return true
}

// split halves the box at a fractional number.
func (r region) split(k int, at float64) (down, up region) {
	down, up = r.clone(), r.clone()
	down.most[k] = int(math.Floor(at))
	up.least[k] = down.most[k] + 1
	down.branched, down.side, down.moved = k, downward, at-math.Floor(at)
	up.branched, up.side, up.moved = k, upward, 1-down.moved
	return down, up
}

// nearest is n, which may be out of the box by a hair, in the box.
func (r region) nearest(n []float64) []float64 {
	n = slices.Clone(n)
	for k := range n {
		n[k] = min(max(n[k], float64(r.least[k])), float64(r.most[k]))
	}
	return n
}

// lower covers the box if n in it is longer than asked for by a hair, which the
// program does not feel: it is split where there is less than n, or is empty.
func (r region) lower(n numbers) []region {
	for k := range n {
		if r.least[k] < n[k] {
			down, up := r.split(k, float64(n[k])-0.5)
			return []region{down, up}
		}
	}
	return nil
}

// without covers the box less the numbers that are nowhere above n.
func (r region) without(n numbers) []region {
	var list []region
	r = r.clone()
	for k := range n {
		if n[k] < r.most[k] {
			above := r.clone()
			above.least[k] = max(above.least[k], n[k]+1)
			list = append(list, above)
			r.most[k] = n[k]
		}
	}
	return list
}

// strips is the program that looks for numbers of strips which keep all known
// planes as well as they can:
//
//	maximise    t
//	subject to  Σ unit[k] n[k] ≥ t                  every plane in use
//	            n[k] ≥ n[k+1], Σ Δheight n ≤ T      T the longest length
//	            least ≤ n ≤ most                    a region
//
// No plan within the region is as short as T if t cannot be 1. Planes that do
// not matter for a while leave the program, and come back when they are
// violated.
type strips struct {
	s       *search
	heights []int
	lp      *glpk.Program
	inUse   []*plane
	resting []*plane
	length  int // T, as the program has it
	costs   splitCosts
}

// The settings of strips, found by trial.
const (
	idlePrograms = 12   // a plane rests after so many in which it did not matter
	mostResting  = 1500 // the oldest resting planes are forgotten beyond these
	comeBack     = 4    // planes that come back at once
	mostSlack    = 2    // of t
)

// violated is how far, relatively, a plane must be violated to count: GLPK
// keeps limits to 1e-7.
const violated = 2e-7

func newStrips(s *search) (*strips, error) {
	lp, err := glpk.Open()
	if err != nil {
		return nil, err
	}
	st := &strips{s: s, heights: s.pr.heights(), lp: lp, length: -1, costs: make(splitCosts, len(s.pr.heights()))}
	for range st.heights {
		err = orElse(err, func() error { return lp.AddColumn(0, 0, 1, nil, nil) })
	}
	err = orElse(err, func() error { return lp.AddColumn(-1, math.Inf(-1), mostSlack, nil, nil) })
	var columns []int32
	var rise []float64
	below := 0
	for k, h := range st.heights {
		columns, rise = append(columns, int32(k)), append(rise, float64(h-below))
		below = h
	}
	err = orElse(err, func() error { return lp.AddRow(math.Inf(-1), 0, columns, rise) })
	for k := range len(st.heights) - 1 {
		pair := []int32{int32(k), int32(k + 1)}
		err = orElse(err, func() error { return lp.AddRow(0, math.Inf(1), pair, []float64{1, -1}) })
	}
	if err != nil {
		st.close()
	}
	return st, err
}

func (st *strips) close() { st.lp.Close() }

// fixedRows are the rows before those of the planes: the length, then one
// between each pair of heights.
func (st *strips) fixedRows() int { return len(st.heights) }

// use puts a plane into the program.
func (st *strips) use(p *plane) error {
	var columns []int32
	var values []float64
	for k, u := range p.unit {
		if u != 0 {
			columns, values = append(columns, int32(k)), append(values, u)
		}
	}
	p.idle = 0
	st.inUse = append(st.inUse, p)
	columns, values = append(columns, int32(len(st.heights))), append(values, -1)
	return st.lp.AddRow(0, math.Inf(1), columns, values)
}

// refute reports whether no numbers in a region, no longer in all than length,
// keep the planes: a proof in whole numbers.
func (st *strips) refute(r region, length int) (bool, error) {
	if err := st.place(r, length); err != nil {
		return false, err
	}
	for {
		sol, err := st.lp.Solve(true)
		st.s.m.effort += fullEffort(st.lp, sol.Iterations)
		switch {
		case err != nil:
			return false, err
		case sol.Status == glpk.Infeasible:
			if r.least.length(st.heights) > length {
				return true, nil
			}
			return false, glpk.ErrNumerical // it has a solution: the least of all
		case sol.Status != glpk.Optimal:
			return false, glpk.ErrNumerical
		}
		slack := sol.X[len(st.heights)]
		none := slack < 1-violated && st.refuted(r, length, sol.RowDual)
		n := r.nearest(sol.X[:len(st.heights)])
		if err := st.rest(sol.Basis.Row); err != nil || none {
			return none, err
		}
		if back, err := st.wake(n, slack); err != nil || !back {
			return false, err
		}
	}
}

// place sets the limits of a region and the length.
func (st *strips) place(r region, length int) error {
	for k := range st.heights {
		if err := st.lp.SetColumn(k, float64(r.least[k]), float64(r.most[k])); err != nil {
			return err
		}
	}
	if st.length == length {
		return nil
	}
	st.length = length
	return st.lp.SetRow(0, math.Inf(-1), float64(length))
}

// rest takes planes out of the program that have not mattered for a while.
func (st *strips) rest(rows []glpk.VariableStatus) error {
	first := st.fixedRows()
	var drop []int32
	kept := st.inUse[:0]
	for i, p := range st.inUse {
		if rows[first+i] != glpk.Basic {
			p.idle = 0
		} else if p.idle++; p.idle > idlePrograms {
			st.resting = append(st.resting, p)
			drop = append(drop, int32(first+i))
			continue
		}
		kept = append(kept, p)
	}
	st.inUse = kept
	if over := len(st.resting) - mostResting; over > 0 {
		st.resting = slices.Delete(st.resting, 0, over)
	}
	return st.lp.DeleteRows(drop)
}

// wake brings back the resting planes that n violates most, and reports
// whether there are any.
func (st *strips) wake(n []float64, slack float64) (bool, error) {
	var list []gaining
	for i, p := range st.resting {
		if at := p.at(n); at < min(slack, 1)-violated {
			list = append(list, gaining{i, -at})
		}
	}
	st.s.m.effort += int64(len(st.resting)*len(n)) / 2
	list = best(list, comeBack)
	slices.SortFunc(list, func(a, b gaining) int { return b.index - a.index })
	for _, w := range list {
		if err := st.use(st.resting[w.index]); err != nil {
			return false, err
		}
		st.resting = slices.Delete(st.resting, w.index, w.index+1)
	}
	return len(list) > 0, nil
}

// refuted proves in whole numbers that none in a region keep the planes and
// the length. The duals suggest by how much to multiply each row; the sum of
// the rows, g·n ≥ right, holds for any such multipliers of the right sign,
// and is false in the whole box if it is at the corner where g·n is most.
func (st *strips) refuted(r region, length int, dual []float64) bool {
	g := make([]wide, len(st.heights))
	var right wide
	if by := multiplier(-dual[0], 1); by > 0 {
		below := 0
		for k, h := range st.heights {
			g[k].add(-by, int64(h-below))
			below = h
		}
		right.add(-by, int64(length))
	}
	for k := range len(st.heights) - 1 {
		if by := multiplier(dual[1+k], 1); by > 0 {
			g[k].add(by, 1)
			g[k+1].add(-by, 1)
		}
	}
	for i, p := range st.inUse {
		if by := multiplier(dual[st.fixedRows()+i], p.least); by > 0 {
			for k, a := range p.step {
				g[k].add(by, a)
			}
			right.add(by, p.least)
		}
	}
	var most wide
	for k := range g {
		if g[k].negative() {
			most.plus(g[k].times(r.least[k]))
		} else {
			most.plus(g[k].times(r.most[k]))
		}
	}
	return most.less(right)
}

// multiplier is a dual as a whole number, for a row that was divided by least.
func multiplier(dual float64, least int64) int64 {
	const scale = 1 << 60
	return int64(min(max(0, dual*scale/float64(least)), scale))
}
