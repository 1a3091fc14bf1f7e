package geometry

import (
	"math/big"
	"strings"

	"crossgrain/model"
)

// Surd is an exact number a + b√2 + c√3 + d√6 with rational a, b, c and d. As
// a length it is in ticks (see [model.Length]), as an area in square ticks.
// Sums, differences, products and quotients of surds are surds: √2 comes from
// shapes set on point, √3 from shapes of 60°, and √6 = √2√3 from a 60° shape
// on point. The zero value is 0. Compare with [Surd.Cmp] or [Surd.Equal], not
// with ==.
type Surd struct {
	coefs [4]*big.Rat // of 1, √2, √3, √6; nil is 0; never changed once made
}

// The places of the roots among the coefficients.
const (
	ones = iota
	root2s
	root3s
	root6s
)

// Of is a length as a surd.
func Of(l model.Length) Surd { return single(ones, int64(l)) }

// OfArea is an area as a surd.
func OfArea(a model.Area) Surd { return single(ones, int64(a)) }

// Root2 is n√2.
func Root2(n model.Length) Surd { return single(root2s, int64(n)) }

// Root3 is n√3.
func Root3(n model.Length) Surd { return single(root3s, int64(n)) }

func single(place int, n int64) (s Surd) {
	if n != 0 {
		s.coefs[place] = new(big.Rat).SetInt64(n)
	}
	return s
}

// coef is one coefficient, which must not be changed.
func (s Surd) coef(place int) *big.Rat {
	if c := s.coefs[place]; c != nil {
		return c
	}
	return new(big.Rat)
}

// newSurd keeps no coefficients of 0, so that equal surds are equal in depth.
func newSurd(coefs [4]*big.Rat) Surd {
	for i, c := range coefs {
		if c != nil && c.Sign() == 0 {
			coefs[i] = nil
		}
	}
	return Surd{coefs}
}

// Add is s + t.
func (s Surd) Add(t Surd) Surd {
	var sum [4]*big.Rat
	for i := range sum {
		sum[i] = new(big.Rat).Add(s.coef(i), t.coef(i))
	}
	return newSurd(sum)
}

// Sub is s - t.
func (s Surd) Sub(t Surd) Surd { return s.Add(t.Neg()) }

// Neg is -s.
func (s Surd) Neg() Surd { return s.Times(-1) }

// Times is s·n, for a count n.
func (s Surd) Times(n int) Surd { return s.Mul(single(ones, int64(n))) }

// Over is s/n, for a count n that is not 0.
func (s Surd) Over(n int) Surd {
	part := new(big.Rat).SetFrac64(1, int64(n))
	return s.Mul(Surd{[4]*big.Rat{part}})
}

// Half is s/2.
func (s Surd) Half() Surd { return s.Over(2) }

// TimesRoot2 is s√2: the diagonal of a square of side s.
func (s Surd) TimesRoot2() Surd { return s.Mul(Root2(1)) }

// OverRoot2 is s/√2: the side of a square of diagonal s.
func (s Surd) OverRoot2() Surd { return s.TimesRoot2().Half() }

// TimesRoot3 is s√3: twice the height of a 60° triangle of side s.
func (s Surd) TimesRoot3() Surd { return s.Mul(Root3(1)) }

// OverRoot3 is s/√3: half the side of a 60° triangle of height s.
func (s Surd) OverRoot3() Surd { return s.TimesRoot3().Over(3) }

// Mul is s·t.
func (s Surd) Mul(t Surd) Surd {
	// The root that two roots make, and what stands before it: √2√6 = 2√3.
	place := [4][4]int{
		{ones, root2s, root3s, root6s}, {root2s, ones, root6s, root3s},
		{root3s, root6s, ones, root2s}, {root6s, root3s, root2s, ones}}
	factor := [4][4]int64{{1, 1, 1, 1}, {1, 2, 1, 2}, {1, 1, 3, 3}, {1, 2, 3, 6}}
	var product [4]*big.Rat
	for i := range product {
		product[i] = new(big.Rat)
	}
	for i, a := range s.coefs {
		for j, b := range t.coefs {
			if a == nil || b == nil {
				continue
			}
			term := new(big.Rat).Mul(a, b)
			term.Mul(term, new(big.Rat).SetInt64(factor[i][j]))
			sum := product[place[i][j]]
			sum.Add(sum, term)
		}
	}
	return newSurd(product)
}

// Quo is s/t, for a t that is not 0.
func (s Surd) Quo(t Surd) Surd {
	// t = u + v√3 with u and v of the form a + b√2. Times u - v√3 it has no √3
	// left, and times a - b√2 then no root at all.
	a, b, c, d := t.coef(ones), t.coef(root2s), t.coef(root3s), t.coef(root6s)
	turned := newSurd([4]*big.Rat{a, b, new(big.Rat).Neg(c), new(big.Rat).Neg(d)})
	s, t = s.Mul(turned), t.Mul(turned)
	turned = newSurd([4]*big.Rat{t.coef(ones), new(big.Rat).Neg(t.coef(root2s))})
	s, t = s.Mul(turned), t.Mul(turned)
	return s.Mul(newSurd([4]*big.Rat{new(big.Rat).Inv(t.coef(ones))}))
}

// Sign is -1, 0 or 1, exactly.
func (s Surd) Sign() int {
	// s = (a + b√2) + (c + d√2)√3. If the two parts differ in sign, the one of
	// the larger square decides; 3(c + d√2)² is of the form a + b√2 too.
	a, b, c, d := s.coef(ones), s.coef(root2s), s.coef(root3s), s.coef(root6s)
	left, right := sign2(a, b), sign2(c, d)
	if left == right || right == 0 {
		return left
	}
	if left == 0 {
		return right
	}
	part, other := Surd{[4]*big.Rat{a, b}}, Surd{[4]*big.Rat{c, d}}
	more := part.Mul(part).Sub(other.Mul(other).Times(3))
	return left * sign2(more.coef(ones), more.coef(root2s))
}

// sign2 is the sign of a + b√2.
func sign2(a, b *big.Rat) int {
	if a.Sign() == b.Sign() || b.Sign() == 0 {
		return a.Sign()
	}
	if a.Sign() == 0 {
		return b.Sign()
	}
	squares := new(big.Rat).Mul(b, b)
	squares.Mul(squares, big.NewRat(2, 1))
	// a² = 2b² has no rational solution, so one of them is larger.
	return a.Sign() * new(big.Rat).Mul(a, a).Cmp(squares)
}

// Cmp is -1, 0 or 1 as s is less than, equal to or more than t.
func (s Surd) Cmp(t Surd) int { return s.Sub(t).Sign() }

// Equal reports whether s is t.
func (s Surd) Equal(t Surd) bool { return s.Cmp(t) == 0 }

// Less reports whether s is less than t.
func (s Surd) Less(t Surd) bool { return s.Cmp(t) < 0 }

// Length is s as a length, if it is a whole number of ticks.
func (s Surd) Length() (l model.Length, whole bool) {
	for _, c := range s.coefs[root2s:] {
		if c != nil {
			return 0, false
		}
	}
	c := s.coef(ones)
	if !c.IsInt() || !c.Num().IsInt64() {
		return 0, false
	}
	return model.Length(c.Num().Int64()), true
}

// CeilTo is the least multiple of step that is at least s. The step must be
// more than 0, and s in the range of a length.
func (s Surd) CeilTo(step model.Length) model.Length {
	return s.ceilTicks().CeilTo(step)
}

// ceilTicks is the least length that is at least s.
func (s Surd) ceilTicks() model.Length {
	if l, whole := s.Length(); whole {
		return l
	}
	// Between low, which is too little, and high, which is enough. The size of
	// s is at most the sum of its coefficients' sizes times 3, as √6 < 3.
	bound := new(big.Rat)
	for _, c := range s.coefs {
		if c != nil {
			bound.Add(bound, new(big.Rat).Abs(c))
		}
	}
	bound.Mul(bound, big.NewRat(3, 1))
	whole := new(big.Int).Quo(bound.Num(), bound.Denom())
	high := model.Length(whole.Int64()) + 1
	low := -high - 1
	for low+1 < high {
		if middle := low + (high-low)/2; Of(middle).Less(s) {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// String writes s in ticks, as in 24384 + 12192√2.
func (s Surd) String() string {
	var terms []string
	for i, c := range s.coefs {
		if c != nil {
			terms = append(terms, c.RatString()+[]string{"", "√2", "√3", "√6"}[i])
		}
	}
	if len(terms) == 0 {
		return "0"
	}
	return strings.Join(terms, " + ")
}

// Max is the larger of s and t.
func Max(s, t Surd) Surd {
	if s.Less(t) {
		return t
	}
	return s
}

// Min is the smaller of s and t.
func Min(s, t Surd) Surd {
	if t.Less(s) {
		return t
	}
	return s
}
