package pack

import "math/bits"

// wide is a whole number of 128 bits in two's complement, for sums of products
// that 64 bits do not hold.
type wide struct{ hi, lo uint64 }

// add adds a × b.
func (w *wide) add(a, b int64) {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	p := wide{hi, lo}
	if (a < 0) != (b < 0) {
		p = p.negated()
	}
	w.plus(p)
}

func magnitude(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

func (w *wide) plus(p wide) {
	var carry uint64
	w.lo, carry = bits.Add64(w.lo, p.lo, 0)
	w.hi, _ = bits.Add64(w.hi, p.hi, carry)
}

func (w wide) negated() wide {
	lo, carry := bits.Add64(^w.lo, 1, 0)
	return wide{^w.hi + carry, lo}
}

func (w wide) negative() bool { return int64(w.hi) < 0 }

// times multiplies by a count; the product must have room.
func (w wide) times(n int) wide {
	negative := w.negative()
	if negative {
		w = w.negated()
	}
	hi, lo := bits.Mul64(w.lo, uint64(n))
	p := wide{hi + w.hi*uint64(n), lo}
	if negative {
		p = p.negated()
	}
	return p
}

func (w wide) less(v wide) bool {
	if w.hi != v.hi {
		return int64(w.hi) < int64(v.hi)
	}
	return w.lo < v.lo
}
