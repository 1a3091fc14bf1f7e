package pack

// line is a row of a decision: Σ a·x ≥ side over the strips x of each layout or,
// if most is set, ≤ side, all in whole numbers.
type line struct {
	kind lineKind
	at   int // of which size, height (as an index), cut or sum
	side int64
	most bool
	top  int64 // no a is farther from 0
}

type lineKind uint8

const (
	ofSize   lineKind = iota // pieces
	ofHeight                 // strips from a height up
	ofLength                 // the length of all strips
	ofCut
	ofSum
)

// lines are the rows of the sizes, of the heights, of the length, of the cuts so
// far and of the sums that a box limits.
func (d *decision) lines(b box) []line {
	var list []line
	for i, n := range d.demand {
		if n > 0 {
			list = append(list, d.sizeLine(i))
		}
	}
	for _, k := range d.rows {
		list = append(list, line{kind: ofHeight, at: k, side: int64(d.n[k]), most: true, top: 1})
	}
	if d.length > 0 {
		heights := d.s.pr.heights()
		list = append(list, line{kind: ofLength, side: int64(d.length), most: true, top: int64(heights[len(heights)-1])})
	}
	for i, c := range d.cuts {
		list = append(list, line{kind: ofCut, at: i, side: c.least, top: c.top})
	}
	for i, l := range b.sums {
		row := line{kind: ofSum, at: i, top: 1}
		if o := d.sums[i].option; o != absent {
			row.top = d.mostLaid[d.s.in.options[o].size]
		}
		if l.lo > 0 {
			row.side = int64(l.lo)
			list = append(list, row)
		}
		if l.hi != noLimit {
			row.side, row.most = int64(l.hi), true
			list = append(list, row)
		}
	}
	return list
}

func (d *decision) sizeLine(i int) line {
	return line{kind: ofSize, at: i, side: int64(d.demand[i]), top: d.mostLaid[i]}
}

// weights are a sum of rows, each so many times: what a layout has in it depends
// on its height, the pieces in it and the cuts.
type weights[T int64 | float64] struct {
	strip []T   // of a strip of each height
	size  []T   // of a piece of each size, beside the sums
	piece [][]T // of a piece laid by each option in a strip of each height
	cuts  []T
	some  []int // the cuts of which there are any
}

// newWeights are no rows yet.
func newWeights[T int64 | float64](d *decision) weights[T] {
	w := weights[T]{strip: make([]T, len(d.n)), size: make([]T, len(d.demand)), piece: make([][]T, len(d.n)), cuts: make([]T, len(d.cuts))}
	base := make([]T, len(d.s.in.options))
	for k := range w.piece {
		w.piece[k] = base // of all heights, until a sum says otherwise
	}
	return w
}

// addSize adds the row of a size so many times. Those of sums come after it.
func (w *weights[T]) addSize(d *decision, size int, times T) {
	w.size[size] += times
	for o := range d.s.in.options {
		if d.s.in.options[o].size == size {
			w.piece[0][o] += times
		}
	}
}

// addStrips adds the strips from a height up.
func (w *weights[T]) addStrips(from int, times T) {
	for k := from; k < len(w.strip); k++ {
		w.strip[k] += times
	}
}

// addLength adds the length of the strips.
func (w *weights[T]) addLength(d *decision, times T) {
	for k, h := range d.s.pr.heights() {
		w.strip[k] += times * T(h)
	}
}

// addSum adds a sum.
func (w *weights[T]) addSum(d *decision, u sum, times T) {
	for k, h := range d.s.pr.heights() {
		switch {
		case h < u.height:
		case u.option == absent:
			w.strip[k] += times
		default:
			w.piece[k] = append([]T(nil), w.piece[k]...)
			w.piece[k][u.option] += times
		}
	}
}

// addCut adds a cut. Each is added once.
func (w *weights[T]) addCut(i int, times T) {
	if times != 0 {
		w.some = append(w.some, i)
	}
	w.cuts[i] = times
}

// add adds a line.
func (w *weights[T]) add(d *decision, l line, times T) {
	switch l.kind {
	case ofSize:
		w.addSize(d, l.at, times)
	case ofHeight:
		w.addStrips(l.at, times)
	case ofLength:
		w.addLength(d, times)
	case ofCut:
		w.addCut(l.at, times)
	case ofSum:
		w.addSum(d, d.sums[l.at], times)
	}
}

// of is what the j-th layout has in the sum.
func (w *weights[T]) of(d *decision, j int) T {
	var v T
	if k := d.at[j]; k == absent {
		u := d.list[j].cut
		v = -w.size[u.large]
		for _, i := range u.small {
			v += w.size[i]
		}
	} else {
		v = w.strip[k]
		for _, l := range d.list[j].laid {
			v += w.piece[k][l.option] * T(l.count)
		}
	}
	for _, i := range w.some {
		v += w.cuts[i] * T(d.cuts[i].at[j])
	}
	return v
}

// weighing is about how many steps it takes to weigh a layout.
func (d *decision) weighing() int64 { return int64(10 + len(d.cuts)) }
