package pack

import "math"

// The settings of lists over regions, found by trial.
const (
	lengthListing = 16        // so small a part if the purchase is proven
	leastListing  = 1_000_000 // steps for a list, at least
	deciding      = 10        // times as many steps for deciding over a list
	tooWide       = 0.8       // of a gap that was too wide, the next one to try
	notTooWide    = 1.25      // of a gap that was not
)

// lists is what is known of lists over regions.
type lists struct {
	wasted int64   // steps that they took in vain
	vain   int64   // lists in vain, in a row
	tried  int64   // steps that the last one in vain might take
	gap    float64 // that is not too wide, as a share of the demand's worth
}

// listBudget is how many steps a list may take now, or none. It is a part of the
// work so far less what they have taken in vain, and worth while only if it is
// not too small a part.
func (s *search) listBudget() int64 {
	parts := s.h.listingPart
	if s.purchase(s.lower) == s.purchase(s.length) {
		parts = max(parts, lengthListing)
	}
	part := s.work() / (parts + parts*s.lists.vain/s.h.vainLists)
	if budget := part - s.lists.wasted; budget >= max(leastListing, part/3) {
		return budget
	}
	return 0
}

// overWhole decides a question over a list of all layouts that its plan can have,
// if there are few enough.
func (q *question) overWhole() (verdict, error) {
	r := q.whole()
	if !r.tighten() {
		return no, nil
	}
	if q.s.listBudget() == 0 {
		return unknown, nil
	}
	a, err := q.s.joint.solve(r, q.length)
	if err != nil {
		return unknown, err
	}
	return q.overRegion(r, a)
}

// overRegion decides a region over the list of every layout that a plan in it can
// have, if there are few enough.
func (q *question) overRegion(r region, a joined) (verdict, error) {
	s := q.s
	budget := s.listBudget()
	if budget == 0 {
		return unknown, nil
	}
	v, ok := a.view(s.in, q.strips.heights, r, q.length)
	switch {
	case !ok:
		return unknown, nil
	case v.gap < 0:
		return no, nil
	}
	gap, most := v.relative(s.in.whole()), s.lists.gap
	if s.lists.tried > 0 { // with more steps a wider gap may do
		most *= max(1, math.Sqrt(float64(budget)/float64(s.lists.tried)))
		if gap > most {
			return unknown, nil
		}
	}
	before := s.work()
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: []view{v}, most: mostLayouts, within: budget * 2 / 3}
	found, complete := list.layouts()
	var runs []run
	answer := unknown
	if complete {
		err := s.within(max(4*budget, deciding*(s.work()-before)), func() (err error) {
			runs, answer, err = s.decideRegion(q, r, found)
			return err
		})
		if err != nil {
			return unknown, err
		}
	}
	switch answer {
	case unknown:
		s.lists.wasted += s.work() - before
		s.lists.vain++
		s.lists.gap, s.lists.tried = gap*tooWide, budget
	case yes:
		s.offer(runs)
		fallthrough
	case no:
		q.listed = true
		s.lists.vain = 0
		s.lists.gap = max(s.lists.gap, gap*notTooWide)
	}
	return answer, nil
}

// relative is the gap as a share of what a demand is worth.
func (v *view) relative(demand []int) float64 {
	worth := 0.0
	for i, n := range demand {
		worth += float64(v.worth[i]) * float64(n)
	}
	return float64(v.gap) / worth
}

// decideRegion answers over a list of all layouts that could matter whether there
// is a plan in a region no longer than asked for.
func (s *search) decideRegion(q *question, r region, list []choice) ([]run, verdict, error) {
	heights := q.strips.heights
	for j := range list {
		list[j].most = min(list[j].most, q.length/list[j].height)
	}
	d := &decision{s: s, n: r.most, demand: s.in.whole(), list: list, length: q.length}
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
