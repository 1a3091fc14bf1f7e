package block

import (
	"math/big"

	"crossgrain/model"
)

// root is the least whole number that is at least factor·√(x²+y²).
func root(factor, x, y model.Length) *big.Int {
	square := func(l model.Length) *big.Int { n := big.NewInt(int64(l)); return n.Mul(n, n) }
	n := square(x)
	n.Add(n, square(y)).Mul(n, square(factor))
	r := new(big.Int).Sqrt(n) // rounded down
	if new(big.Int).Mul(r, r).Cmp(n) < 0 {
		r.Add(r, big.NewInt(1))
	}
	return r
}

// over is the least length that is at least (x·y + r)/d; d is more than 0. If r
// is a root that was rounded up, it is exact: (x·y + √n)/d is at most a whole
// number just where √n is.
func over(x, y model.Length, r *big.Int, d model.Length) model.Length {
	n := new(big.Int).Mul(big.NewInt(int64(x)), big.NewInt(int64(y)))
	n.Add(n, r)
	whole, rest := new(big.Int).QuoRem(n, big.NewInt(int64(d)), new(big.Int))
	if rest.Sign() > 0 {
		whole.Add(whole, big.NewInt(1))
	}
	return model.Length(whole.Int64())
}
