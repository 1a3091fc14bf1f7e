package pack

import (
	"errors"
	"math"
	"slices"

	"crossgrain/pack/glpk"
)

// The settings of lists over regions, found by trial.
const (
	lengthListing = 8         // so small a part if the purchase is proven
	leastListing  = 1_000_000 // steps for a list, at least
	deciding      = 20        // times as many steps for deciding over a list
	tooWide       = 0.8       // of a gap that was too wide, the next one to try
	notTooWide    = 1.25      // of a gap that was not
	tryAgain      = 2         // times as many steps for the same list again
)

// lists is what is known of lists of one kind.
type lists struct {
	wasted int64   // steps that they took in vain
	vain   int64   // lists in vain, in a row
	tried  int64   // steps that the last one in vain might take
	gap    float64 // that is not too wide, as a share of the demand's worth
}

// budget is how many steps a list may take now, or none: a part of the work less
// what they have taken in vain, worth while only if it is not too small a part.
func (l *lists) budget(part int64) int64 {
	if budget := part - l.wasted; budget >= max(leastListing, part/3) {
		return budget
	}
	return 0
}

// widest is the widest gap that a list is tried with: with more steps than the
// last one in vain had a wider one may do.
func (l *lists) widest(budget int64) float64 {
	if l.tried == 0 {
		return math.MaxFloat64
	}
	return l.gap * max(1, math.Sqrt(float64(budget)/float64(l.tried)))
}

// listBudget is how many steps a list over a region may take now, or none.
func (s *search) listBudget() int64 {
	parts := s.h.listingPart
	if s.settled() {
		parts = max(parts, lengthListing)
	}
	return s.lists.budget(s.work() / (parts + parts*s.lists.vain/s.h.vainLists))
}

// overall is what is known of the list over the whole of a target.
type overall struct {
	gap       float64 // as a share of the demand's worth, once known
	tried     int64   // steps that the last list in vain might take
	listed    int64   // steps that the list took that could not be decided over
	deciding  int64   // and those that there were for deciding
	estimated estimated
}

// overWhole decides a question over a list of all layouts that its plan can have,
// if there are few enough.
func (q *question) overWhole() (verdict, error) {
	r := q.whole()
	if !r.tighten() {
		return no, nil
	}
	if q.s.listBudget() == 0 && q.s.bestBudget() == 0 && q.s.samplesBudget() == 0 {
		return unknown, nil
	}
	a, err := q.s.joint.solve(r, q.length)
	if err != nil {
		return unknown, err
	}
	views, err := q.regionViews(r, a)
	if err != nil {
		return unknown, err
	}
	if closed(views) {
		return no, nil
	}
	if q.over.gap = q.s.gapOf(views); q.mayList() {
		budget := q.s.listBudget()
		if v, err := q.overList(r, views, q.over); err != nil || v != unknown {
			return v, err
		}
		q.over.tried = budget
	}
	if v, err := q.overEstimated(r, views); err != nil || v != unknown {
		return v, err
	}
	if v, err := q.overBest(r, views); err != nil || v != unknown {
		return v, err
	}
	return q.overSamples(r, views)
}

// mayList reports whether the whole may be listed: with so much more work than the
// last time, unless there are far too many layouts.
func (q *question) mayList() bool {
	budget, o := q.s.listBudget(), q.over
	more := budget >= tryAgain*o.tried && toDecide(budget, o.listed) >= tryAgain*o.deciding
	return budget > 0 && more && o.gap <= q.s.lists.widest(budget) && !o.farTooMany()
}

// toDecide is how many steps there are for deciding over a list that took so many of its
// budget.
func toDecide(budget, listed int64) int64 { return max(4*budget, deciding*listed) }

// overRegion decides a region over the list of every layout that a plan in it can
// have, if there are few enough; or the whole question, if that can be done.
func (q *question) overRegion(r region, a joined) (verdict, error) {
	if q.s.listBudget() == 0 {
		return unknown, nil
	}
	if q.over.gap > 0 && q.mayList() {
		v, err := q.overWhole()
		if v == no {
			q.open, q.waiting = nil, nil
		}
		if err != nil || v != unknown {
			return v, err
		}
	}
	views, err := q.regionViews(r, a)
	switch {
	case err != nil:
		return unknown, err
	case closed(views):
		return no, nil
	case q.s.gapOf(views) > q.s.lists.widest(q.s.listBudget()):
		return unknown, nil
	}
	return q.overList(r, views, &overall{})
}

// closes reports whether the view shows that there is no plan.
func (v view) closes() bool { return v.gap < 0 }

// closed reports whether one of the views does.
func closed(views []view) bool { return slices.ContainsFunc(views, view.closes) }

// gapOf is the gap of the first of some views as a share of what the demand is
// worth in it.
func (s *search) gapOf(views []view) float64 {
	if len(views) == 0 {
		return math.Inf(1)
	}
	return views[0].relative(s.in.whole())
}

// overList decides a region over a list that keeps within the budget, and takes note of
// how wide a gap may be for that.
func (q *question) overList(r region, views []view, o *overall) (verdict, error) {
	s := q.s
	gap, budget, before := s.gapOf(views), s.listBudget(), s.work()
	answer, err := q.listedBy(r, views, o, budget, func() int64 { return toDecide(budget, o.listed) })
	if err != nil {
		return unknown, err
	}
	if answer == unknown {
		s.lists.wasted += s.work() - before
		s.lists.vain++
		s.lists.gap, s.lists.tried = gap*tooWide, budget
	} else {
		s.lists.vain = 0
		s.lists.gap = max(s.lists.gap, gap*notTooWide)
	}
	return answer, nil
}

// listedBy decides a region over the list of what is worth enough in all views, for which
// there are so many steps, and so many for deciding. It takes note of what they were.
func (q *question) listedBy(r region, views []view, o *overall, budget int64, most func() int64) (answer verdict, err error) {
	s, before := q.s, q.s.work()
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: views, within: budget * 2 / 3}
	found, complete := list.layouts()
	if !complete {
		return unknown, nil
	}
	o.listed = s.work() - before
	o.deciding = most()
	answer, err = q.decided(r, found, s.beyond, o.deciding, 0)
	q.listed = q.listed || answer != unknown
	return answer, err
}

// decided decides a region over a list of all layouts that could matter in so many steps,
// which bound sees to, and offers the plan if there is one. Each box is rounded once, and
// so many times again.
func (q *question) decided(r region, list []choice, bound func(int64, func() error) error, most int64, again int) (verdict, error) {
	var runs []run
	answer := unknown
	err := bound(most, func() (err error) {
		runs, answer, err = q.s.decideRegion(q, r, list, again)
		return err
	})
	if err != nil {
		return unknown, err
	}
	if answer == yes {
		q.s.offer(runs)
	}
	return answer, nil
}

// regionViews are the views of a region: at the prices of the least length that it
// takes, of the most that it has room for, and by area.
func (q *question) regionViews(r region, a joined) ([]view, error) {
	s := q.s
	var views []view
	shortest, err := s.joint.leastLength(r, q.length)
	switch {
	case errors.Is(err, glpk.ErrNumerical): // then there may be no room by a hair
	case err != nil:
		return nil, err
	default:
		if v, ok := shortest.view(s.in, q.strips.heights, r, q.length); ok {
			views = append(views, v)
		}
	}
	if v, ok := a.view(s.in, q.strips.heights, r, q.length); ok {
		views = append(views, v)
	}
	if v, ok := s.in.areaView(q.strips.heights, q.length); ok {
		views = append(views, v)
	}
	return views, nil
}

// areaView is the view in which pieces are worth their area: all strips together
// waste no more than what the length has more than the pieces. There is none if
// that is too much.
func (in *instance) areaView(heights []int, length int) (view, bool) {
	v := prices{worth: make([]int64, len(in.sizes)), cost: make([]int64, len(heights))}
	for i, z := range in.sizes {
		if z.across > costly/z.along {
			return view{}, false
		}
		v.worth[i] = int64(z.along) * int64(z.across)
	}
	for k, h := range heights {
		if h > costly/in.width {
			return view{}, false
		}
		v.cost[k] = int64(h) * int64(in.width)
	}
	var side wide
	side.add(int64(in.width), int64(length))
	return in.viewWithin(v, side)
}

// relative is the gap as a share of what a demand is worth.
func (v *view) relative(demand []int) float64 {
	if v.closes() {
		return 0
	}
	worth := 1.0
	for i, n := range demand {
		worth += float64(v.worth[i]) * float64(n)
	}
	return float64(v.gap) / worth
}

// decideRegion answers over a list of all layouts that could matter whether there
// is a plan in a region no longer than asked for. Each box is rounded so many times again.
func (s *search) decideRegion(q *question, r region, list []choice, again int) ([]run, verdict, error) {
	heights := q.strips.heights
	for j := range list {
		list[j].most = min(list[j].most, q.length/list[j].height)
	}
	list = s.withCutDowns(list)
	d := &decision{s: s, n: r.most, demand: s.in.whole(), list: list, length: q.length, again: again}
	if err := d.open(); err != nil {
		return nil, unknown, err
	}
	defer d.lp.Close()
	b := d.whole()
	for k, n := range r.least {
		if n > 0 && (k+1 == len(heights) || r.least[k+1] < n) {
			if err := d.limit(&b, sum{heights[k], absent}, limits{n, noLimit}); err != nil {
				return nil, unknown, err
			}
		}
	}
	return d.decideBox(b)
}
