package pack

import (
	"cmp"
	"fmt"
	"slices"
)

// leaf is whole numbers of strips that hold the demand as far as the
// relaxation can tell. Questions that come upon the same numbers share it.
type leaf struct {
	n      numbers
	theta  float64 // how many times the demand they hold, at most
	level  int     // how hard it was tried
	tries  int     // packings tried
	packed verdict // whether there is a plan
}

// trying is how hard a leaf is tried.
type trying struct {
	layouts  int // most layouts to list
	branches int // most branches to decide over them
	packings int // tries to pack
}

// levels are the tries of a leaf, one harder than the other; found by trial.
var levels = []trying{
	{400, 100, 1}, {400, 100, 3}, {2000, 1000, 4}, {10_000, 5000, 8}, {30_000, 50_000, 16}, {100_000, 1_000_000, 32},
}

// leaf tries a leaf of a region for the first time, and opens what it leaves
// of the region.
func (q *question) leaf(r region, n numbers) (verdict, error) {
	q.open = append(q.open, r.without(n)...)
	l := q.s.leafAt(n)
	if l.packed == unknown && l.level == 0 {
		if err := q.try(l); err != nil {
			return unknown, err
		}
	}
	if l.packed == unknown {
		q.waiting = append(q.waiting, l)
	}
	return l.packed, nil
}

// leafAt is the leaf of such numbers.
func (s *search) leafAt(n numbers) *leaf {
	key := fmt.Sprint(n)
	l := s.leaves[key]
	if l == nil {
		l = &leaf{n: n, packed: unknown}
		s.leaves[key] = l
	}
	return l
}

// decideWaiting tries the undecided leaves harder and harder, so many times.
func (q *question) decideWaiting(times int) (verdict, error) {
	for ; times > 0; times-- {
		q.waiting = slices.DeleteFunc(q.waiting, func(l *leaf) bool { return l.packed == no })
		if len(q.waiting) == 0 {
			return no, nil
		}
		l := slices.MinFunc(q.waiting, func(a, b *leaf) int {
			return cmp.Or(cmp.Compare(a.level, b.level), cmp.Compare(b.theta, a.theta))
		})
		if q.s.over() || l.level == len(levels) {
			return unknown, nil
		}
		if err := q.try(l); err != nil || l.packed == yes {
			return l.packed, err
		}
	}
	return unknown, nil
}

// try tries a leaf on its next level: it packs it, or shows over the list of
// all layouts that could matter that no packing exists.
func (q *question) try(l *leaf) error {
	by := levels[l.level]
	l.level++
	defer func() {
		if l.packed == unknown && q.s.over() {
			l.level-- // it was not tried to the end
		}
	}()
	views, theta, err := q.views(l.n)
	if err != nil {
		return err
	}
	l.theta = theta
	if l.packed, err = q.overLists(l.n, views, by); err != nil || l.packed != unknown {
		return err
	}
	for range by.packings {
		if q.s.over() {
			return nil
		}
		runs, err := q.pack(l.n, l.tries)
		if err != nil {
			return err
		}
		l.tries++
		if runs != nil {
			q.s.offer(runs)
			l.packed = yes
			return nil
		}
	}
	if l.level == 1 {
		return nil
	}
	runs, v, err := q.s.decidePriced(l.n, q.fit.pool, by.branches)
	q.s.offer(runs)
	l.packed = v
	return err
}

// overLists decides a leaf over lists of all layouts that could matter: first
// of the scarcest sizes alone, for if these cannot be packed nothing can, then
// of those of more and more views.
func (q *question) overLists(n numbers, views []view, by trying) (verdict, error) {
	whole := q.s.in.whole()
	demand := make([]int, len(whole))
	for m := range views {
		for i := range demand {
			if views[m].worth[i] > 0 || m == len(views)-1 {
				demand[i] = whole[i]
			}
		}
		list := &listing{s: q.s, n: n, demand: demand, views: views[:m+1], most: by.layouts}
		layouts, complete := list.layouts()
		if !complete {
			return unknown, nil
		}
		runs, v, err := q.s.decide(n, demand, layouts, by.branches)
		if err != nil || v == no || v == unknown {
			return v, err
		}
		if m == len(views)-1 {
			q.s.offer(runs)
			return yes, nil
		}
	}
	return unknown, nil
}
