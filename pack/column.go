package pack

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// part is count pieces laid one way, one above another in a stack.
type part struct {
	option int // index into instance.options
	count  int
}

// stretch is count equal stacks side by side, each as long as its longest
// part.
type stretch struct {
	along int
	count int
	parts []part
}

// column is one strip layout: a variable of the master problem. In a shared
// layout every stretch holds one piece.
type column struct {
	height    int
	stretches []stretch
	yield     []int // pieces of each size
	laid      []int // pieces laid by each option
}

// newColumn puts a layout in its canonical order and counts what it yields.
// Its height is what its highest stack needs.
func (in *instance) newColumn(stretches []stretch) column {
	sizes, counts := len(in.sizes), make([]int, len(in.sizes)+len(in.options))
	c := column{stretches: stretches, yield: counts[:sizes:sizes], laid: counts[sizes:]}
	for i := range c.stretches {
		s := &c.stretches[i]
		slices.SortFunc(s.parts, func(a, b part) int { return cmp.Compare(b.option, a.option) })
		s.along = 0
		tall := 0
		for _, p := range s.parts {
			o := in.options[p.option]
			tall += p.count * o.across
			s.along = max(s.along, o.along)
			c.yield[o.size] += s.count * p.count
			c.laid[p.option] += s.count * p.count
		}
		c.height = max(c.height, tall)
	}
	slices.SortFunc(c.stretches, compareStretches)
	return c
}

// yields are the sizes that a layout yields and how many of each, as the
// entries of a column of a linear program whose first rows are the sizes.
func (c *column) yields() (sizes []int32, pieces []float64) {
	for i, y := range c.yield {
		if y > 0 {
			sizes, pieces = append(sizes, int32(i)), append(pieces, float64(y))
		}
	}
	return sizes, pieces
}

// compareStretches puts the highest pieces first.
func compareStretches(a, b stretch) int {
	return cmp.Or(
		slices.CompareFunc(a.parts, b.parts, func(p, q part) int {
			return cmp.Or(cmp.Compare(q.option, p.option), cmp.Compare(q.count, p.count))
		}),
		cmp.Compare(b.count, a.count),
	)
}

// key tells layouts apart by height and by how the pieces in them are laid:
// of two layouts with the same key one is enough.
func (c *column) key() string {
	return string(appendCounts(binary.AppendUvarint(nil, uint64(c.height)), c.laid))
}

// appendCounts adds counts to a key.
func appendCounts(key []byte, counts []int) []byte {
	for _, n := range counts {
		key = binary.AppendUvarint(key, uint64(n))
	}
	return key
}

// run is a layout and how many strips of it to cut.
type run struct {
	col   column
	count int
}

// total is the sum of the heights of all strips, and their number.
func total(runs []run) (length, strips int) {
	for _, r := range runs {
		length += r.col.height * r.count
		strips += r.count
	}
	return length, strips
}
