package pack

import (
	"errors"

	"crossgrain/pack/glpk"
)

// view is one set of prices at given numbers of strips. At them no strip of
// height k is worth more than cost[k], so that all strips together are worth
// at most gap more than the demand: in a plan with just these strips no strip
// is worth gap less than its height could be.
type view struct {
	prices
	gap int64
}

// The settings of views, found by trial.
const (
	mostViews  = 5
	enoughRoom = 1.5 // sizes with so much more room need no view
	viewScale  = 1 << 36
)

// views are sets of prices at numbers of strips, the first those of the sizes
// that the strips hold most barely; each next one takes these as met and asks
// for the scarcest among the rest. One alone says nothing of the sizes that
// it finds worthless.
func (q *question) views(n numbers) (list []view, err error) {
	s := q.s
	met := make([]bool, len(s.in.sizes))
	for len(list) < mostViews {
		f := q.fit
		if len(list) > 0 {
			if f, err = newFit(s, q.fit.pool, met); err != nil {
				return nil, err
			}
		}
		v, r, err := q.view(f, n)
		if len(list) > 0 {
			f.close()
			if errors.Is(err, glpk.ErrNumerical) {
				break // what is met by a hair's breadth is not met in it
			}
		}
		if err != nil {
			return nil, err
		}
		list = append(list, v)
		fresh, rest := false, false
		for i := range met {
			if !met[i] && v.worth[i] > 0 {
				met[i], fresh = true, true
			}
			rest = rest || !met[i]
		}
		if !fresh || !rest || r.theta > enoughRoom {
			break
		}
	}
	return list, nil
}

// view prices the strips of a fit until no layout is worth more than it.
func (q *question) view(f *fit, n numbers) (view, fitted, error) {
	s := q.s
	demand := s.in.whole()
	if err := f.set(n.floats()); err != nil {
		return view{}, fitted{}, err
	}
	for {
		r, err := f.solve()
		if err != nil {
			return view{}, r, err
		}
		v := f.prices(r, viewScale)
		found, most := s.pr.upTo(v, demand, f.used)
		if f.learn(v, found, most) && !s.over() {
			continue
		}
		_, worth := s.pr.price(v, demand)
		v.cost = rising(worth)
		return newView(v, n, demand), r, nil
	}
}

// mostGap is far enough from 2^63 to take prices of strips from.
const mostGap = 1 << 60

// newView is the view of prices whose costs no strip is worth more than. Where
// the gap is too wide to say anything, it is the view in which nothing is worth
// anything.
func newView(v prices, n numbers, demand []int) view {
	var gap wide
	for k, c := range v.cost {
		gap.add(c, int64(n.single(k)))
	}
	for i, d := range demand {
		gap.add(-v.worth[i], int64(d))
	}
	switch {
	case wide{0, mostGap}.less(gap):
		return view{prices: prices{worth: make([]int64, len(v.worth)), cost: make([]int64, len(v.cost))}}
	case gap.less(wide{0, mostGap}.negated()):
		return view{v, -mostGap} // a wider gap than there is
	}
	return view{v, int64(gap.lo)}
}

// rising is the most that a strip of each height or a lower one is worth.
func rising(worth []int64) []int64 {
	list := make([]int64, len(worth))
	most := int64(0)
	for k, w := range worth {
		most = max(most, w)
		list[k] = most
	}
	return list
}

func (n numbers) floats() []float64 {
	list := make([]float64, len(n))
	for k, v := range n {
		list[k] = float64(v)
	}
	return list
}

// single is the number of strips of just the k-th height.
func (n numbers) single(k int) int {
	if k+1 < len(n) {
		return n[k] - n[k+1]
	}
	return n[k]
}
