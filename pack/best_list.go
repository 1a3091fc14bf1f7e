package pack

import (
	"cmp"
	"math"
)

// The settings of lists of the best layouts, found by trial.
const (
	bestListing = 3    // part of what a search for a plan may take that a list may
	firstPart   = 0.1  // of the gap, to begin with
	leastPart   = 0.02 // below which it is not worth while
	narrower    = 0.5  // part of it if there are too many, but not as narrow as was tried
	wider       = 1.5  // or if they are not enough
)

// bestBudget is how many steps a search over the best layouts may take now, or none.
func (s *search) bestBudget() int64 { return s.budgetOf(&s.bestLists, s.h.bestPart) }

// budgetOf is how many steps lists may take now that have one part of the work in so many,
// or none.
func (s *search) budgetOf(l *lists, part int64) int64 {
	if part == 0 {
		return 0
	}
	return l.budget(s.work() / part)
}

// partToTry is the part of the gap that a list of the best layouts is tried with
// next.
func (q *question) partToTry(budget int64) float64 {
	if q.over.gap == 0 {
		return 1
	}
	return min(cmp.Or(q.part, firstPart), q.s.bestLists.widest(budget)/q.over.gap)
}

// overBest looks for a plan over the list of only the best layouts, those that lack
// no more than a part of the gap: the wider, the more of them. Where there are too
// many that a plan can have, most plans there are have only such. It answers yes, or
// nothing unless the part comes to be all (a restricted master heuristic; Joncour
// and others, Column generation based primal heuristics, Electronic Notes in
// Discrete Mathematics 36, 2010).
func (q *question) overBest(r region, views []view) (verdict, error) {
	s := q.s
	budget := s.bestBudget()
	part := q.partToTry(budget)
	if budget == 0 || part < leastPart || part <= q.none {
		return unknown, nil
	}
	return s.tryLists(&s.bestLists, budget, func() (answer verdict, again bool, err error) {
		if part < max(q.none, leastPart) {
			return unknown, false, nil
		}
		before := part
		answer, err = q.overPart(r, views, part, budget)
		part = q.part
		return answer, part != before, err
	})
}

// tryLists tries list after list of one kind until one answers, and takes note of the steps if
// none does.
func (s *search) tryLists(l *lists, budget int64, try func() (answer verdict, again bool, err error)) (answer verdict, err error) {
	before := s.work()
	answer = unknown
	err = s.beyond(budget, func() (err error) {
		for again := true; again && answer == unknown && err == nil && !s.over(); {
			answer, again, err = try()
		}
		return err
	})
	if answer == unknown {
		l.wasted += s.work() - before
	}
	return answer, err
}

// overPart does so with a part of the gap, and sets the part to try next: the same
// if it is at its wits' end. A part that is hard to decide is left for a wider one.
func (q *question) overPart(r region, views []view, part float64, budget int64) (verdict, error) {
	s, b := q.s, &q.s.bestLists
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: narrowed(views, part), within: budget / bestListing}
	found, complete := list.layouts()
	if !complete {
		q.part = max(part*narrower, math.Sqrt(part*q.none))
		b.gap, b.tried = q.part*q.over.gap, budget
		return unknown, nil
	}
	b.gap = max(b.gap, part*q.over.gap)
	answer, err := q.decided(r, found, s.within, max(leastListing, deciding*list.steps), 0)
	switch {
	case err != nil || answer == yes:
		return answer, err
	case part == 1:
		q.part, q.listed = 1, answer == no
		return answer, nil
	}
	q.none, q.part = part, min(1, part*wider)
	return unknown, nil
}

// narrowed are views with a part of their gaps.
func narrowed(views []view, part float64) []view {
	list := make([]view, len(views))
	for i, v := range views {
		if part < 1 {
			v.gap = int64(part * float64(v.gap))
		}
		list[i] = v
	}
	return list
}
