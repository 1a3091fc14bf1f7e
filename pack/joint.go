package pack

import (
	"fmt"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// joint is the program that looks at once for numbers of strips and for what
// they hold, as far as a relaxation knows:
//
//	maximise    θ, then Σ share(i)·y(i)
//	subject to  Σ yield(i) x ≥ (θ + y(i))·demand(i)    every size i
//	            Σ height x ≤ T                         T the longest length
//	            Σ unit x ≥ θ                           every plane in it
//	            least ≤ Σ x ≤ most                     strips from a height up
//	            θ ≤ 1, y ≤ mostSurplus, x, y ≥ 0
//
// over the strips x of layouts, each cut in strips of its own height or of a
// greater one; where a region asks for strips they may also be empty. No plan
// in the region is as short as T if θ cannot be 1. That takes a few pricings
// from one region to the next, and needs planes only for what rounding adds.
//
// Many regions hold the demand, so it matters which numbers have room to spare:
// these are branched on, gone to first, and most likely hold a plan. What the
// strips hold beyond the demand tells, a little of every size, by their shares of
// the cloth. A single factor for all sizes would not: it is 1 as soon as one size
// fills its strips exactly, or a plane is kept exactly. With θ fixed at 1 and no
// surplus the program looks for the least length instead.
type joint struct {
	s       *search
	heights []int
	lp      *glpk.Program
	region  region
	length  int // T, as the program has it
	aim     aim // as the program has it
	moved   bool
	rows    []jointRow // those of the planes and the heights
	rowAt   []int      // row of each height, or absent
	strips  []jointStrip
	known   map[string]bool // keys of strips
	rota    rota            // of the strips
	share   []float64       // of the demand's area, by size
	// scale is what all of the demand counts: about as many as it takes strips, lest
	// what a strip is worth, a small share of a large demand, be within the tolerance
	// of the program.
	scale float64
	unit  float64 // so much length counts as much as all of the demand
}

// jointStrip is a layout in strips of the k-th height.
type jointStrip struct {
	layout column
	k      int
}

// aim is what the program looks for: the least θ, the most surplus of each size, and
// the most length that is spared.
type aim struct{ theta, surplus, spared float64 }

// jointRow is a row that counts strips by their height.
type jointRow struct {
	plane *plane // or nil:
	from  int    // strips from this height up
	each  []float64
	free  bool // its limits are implied at present
	idle  int  // programs in a row in which it did not matter
}

// A strip comes back if it gains more than worthCall, as a share of the demand,
// and may leave below worthRest. Found by trial.
const (
	worthCall = 1e-9
	worthRest = -1e-6
)

// The columns before those of the strips are θ, the length that is spared, and the
// surplus of each size.
const (
	thetaColumn = iota
	sparedColumn
	surplusColumn
)

// The settings of what the program looks for, found by trial.
const (
	thetaFirst  = 10     // times as much as surplus θ counts
	mostSurplus = 0.01   // of each size, as a share of its demand
	roomEnough  = 1.0005 // from which it may stop pricing
)

// newJoint makes the program from the layouts that are known. Close it.
func newJoint(s *search) (*joint, error) {
	lp, err := glpk.Open()
	if err != nil {
		return nil, err
	}
	j := &joint{s: s, heights: s.pr.heights(), lp: lp, length: -1, known: map[string]bool{}, share: s.in.shares(), scale: float64(s.count)}
	j.rota.first = surplusColumn + len(s.in.sizes)
	var rows []int32
	var values []float64
	for i, d := range s.in.whole() {
		rows, values = append(rows, int32(i)), append(values, -float64(d))
		err = orElse(err, func() error { return lp.AddRow(0, math.Inf(1), nil, nil) })
	}
	err = orElse(err, func() error { return lp.AddRow(math.Inf(-1), 0, nil, nil) })
	err = orElse(err, func() error { return lp.AddColumn(-j.scale*thetaFirst, 0, 1, rows, values) })
	j.unit = float64(s.length)
	reward := -j.scale / j.unit
	err = orElse(err, func() error { return lp.AddColumn(reward, 0, 0, []int32{int32(j.lengthRow())}, []float64{1}) })
	for i, row := range rows {
		err = orElse(err, func() error {
			return lp.AddColumn(-j.scale*j.share[i], 0, mostSurplus, []int32{row}, values[i:i+1])
		})
	}
	j.rowAt = slices.Repeat([]int{absent}, len(j.heights))
	for _, c := range s.known.list {
		k, _ := slices.BinarySearch(j.heights, c.height)
		err = orElse(err, func() error { return j.add(jointStrip{c, k}) })
	}
	if err != nil {
		j.close()
	}
	return j, err
}

func (j *joint) close() { j.lp.Close() }

func (j *joint) lengthRow() int { return len(j.s.in.sizes) }
func (j *joint) row(r int) int  { return j.lengthRow() + 1 + r }

// key tells strips apart.
func (t jointStrip) key() string { return fmt.Sprint(t.k, t.layout.key()) }

// empty reports whether the strip holds nothing.
func (t jointStrip) empty() bool { return len(t.layout.yield) == 0 }

// add takes up a strip that is not known yet and enters it.
func (j *joint) add(t jointStrip) error {
	j.known[t.key()] = true
	j.strips = append(j.strips, t)
	return j.enter(j.rota.add(t.layout.yield))
}

// enter puts a strip into the program.
func (j *joint) enter(i int) error {
	t := &j.strips[i]
	rows, values := t.layout.yields()
	rows, values = append(rows, int32(j.lengthRow())), append(values, float64(j.heights[t.k]))
	for r := range j.rows {
		if v := j.rows[r].each[t.k]; v != 0 {
			rows, values = append(rows, int32(j.row(r))), append(values, v)
		}
	}
	j.rota.enter(i)
	return j.lp.AddColumn(0, 0, math.Inf(1), rows, values)
}

// addRow puts a row into the program.
func (j *joint) addRow(row jointRow, lower, upper float64) error {
	var columns []int32
	var values []float64
	if row.plane != nil {
		columns, values = append(columns, thetaColumn), append(values, -j.scale)
	}
	for _, i := range j.rota.active {
		if v := row.each[j.strips[i].k]; v != 0 {
			columns, values = append(columns, int32(j.rota.column(i))), append(values, v)
		}
	}
	j.rows = append(j.rows, row)
	j.moved = true
	return j.lp.AddRow(lower, upper, columns, values)
}

// planeRow is the row of a plane, scaled.
func (j *joint) planeRow(p *plane) jointRow {
	each, sum := make([]float64, len(p.unit)), 0.0
	for k, u := range p.unit {
		sum += u * j.scale
		each[k] = sum
	}
	return jointRow{plane: p, each: each}
}

// heightRow counts the strips from the k-th height up.
func (j *joint) heightRow(k int) jointRow {
	each := make([]float64, len(j.heights))
	for i := k; i < len(each); i++ {
		each[i] = 1
	}
	return jointRow{from: k, each: each}
}

// setRegion sets the region and the length. Limits that another height's imply
// have no row, nor do the most strips that the length allows, until they matter.
func (j *joint) setRegion(r region, length int) error {
	j.moved, j.region = true, r
	var err error
	if j.length != length {
		j.length = length
		err = j.lp.SetRow(j.lengthRow(), math.Inf(-1), float64(length))
	}
	for k := range j.heights {
		if j.rowAt[k] != absent || !j.free(k) {
			err = orElse(err, func() error { return j.limit(k) })
		}
	}
	return err
}

// free reports whether the length and the limits of other heights imply those
// of the strips from the k-th height up, whole as they are.
func (j *joint) free(k int) bool {
	r := j.region
	return j.lower(k) == 0 && (r.most[k] >= j.length/j.heights[k] || k > 0 && r.most[k] >= r.most[k-1])
}

// lower is the least strips from the k-th height up, or 0 if those from the next
// height up are as many.
func (j *joint) lower(k int) float64 {
	if k+1 < len(j.heights) && j.region.least[k+1] == j.region.least[k] {
		return 0
	}
	return float64(j.region.least[k])
}

// limit sets the limits of the strips from the k-th height up.
func (j *joint) limit(k int) error {
	lower, upper := j.lower(k), float64(j.region.most[k])
	if r := j.rowAt[k]; r != absent {
		j.rows[r].free = j.free(k)
		return j.lp.SetRow(j.row(r), lower, upper)
	}
	j.rowAt[k] = len(j.rows)
	err := j.addRow(j.heightRow(k), lower, upper)
	if empty := (jointStrip{k: k}); err == nil && !j.known[empty.key()] {
		empty.layout.height = j.heights[k]
		err = j.add(empty)
	}
	return err
}

// confine gives rows to the most strips that the numbers exceed by most, and
// reports whether there are any.
func (j *joint) confine(n []float64) (bool, error) {
	var list []gaining
	for k, v := range n {
		if over := v - float64(j.region.most[k]); over > wholeEnough && j.rowAt[k] == absent {
			list = append(list, gaining{k, over})
		}
	}
	for _, g := range best(list, comeBack) {
		if err := j.limit(g.index); err != nil {
			return false, err
		}
	}
	return len(list) > 0, nil
}
