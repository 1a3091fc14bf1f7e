package pack

import "slices"

// The settings of lists over regions, found by trial.
const (
	regionLeast = 2_000_000 // steps for a region, at least
	regionPart  = 8         // and a part of the work so far, one in so many
	regionsPart = 3         // all regions together get one in so many
)

// overRegion decides a region that is to be split over the list of every layout
// that a plan in it can have, if there are few.
func (q *question) overRegion(r region, a joined) (verdict, error) {
	s := q.s
	work := max(regionLeast, s.work()/regionPart)
	if work > 2*s.regionWork {
		s.regionWork, s.regionGap = work, 1
	}
	return q.overRegionWithin(r, a, work)
}

func (q *question) overWhole() (verdict, error) {
	s := q.s
	r := q.whole()
	if !r.tighten() {
		return no, nil
	}
	a, err := s.joint.solve(r, q.length)
	if err != nil {
		return unknown, err
	}
	gap := s.regionGap
	s.regionGap = 1
	defer func() { s.regionGap = gap }()
	return q.overRegionWithin(r, a, (s.stop-s.work())/2)
}

func (q *question) overRegionWithin(r region, a joined, work int64) (verdict, error) {
	s := q.s
	start := s.work()
	gapRel := 0.0
	defer func() { s.regionSteps += s.work() - start; _ = gapRel }()
	v, ok := a.view(s.in, q.strips.heights, r, q.length)
	if !ok {
		return unknown, nil
	}
	worth := 0.0
	for i, d := range s.in.whole() {
		worth += float64(v.worth[i]) * float64(d)
	}
	gapRel = float64(v.gap) / worth
	if gapRel > s.regionGap || s.regionSteps > s.work()/regionsPart {
		return unknown, nil
	}
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: []view{v}, most: mostListed, within: work / 4}
	found, complete := list.layouts()
	if !complete {
		s.regionGap = min(s.regionGap, gapRel) * 0.9
		return unknown, nil
	}
	var runs []run
	answer := unknown
	err := s.within(work, func() (err error) {
		runs, answer, err = s.decideRegion(q, r, a, found)
		return err
	})
	if answer == unknown {
		s.regionGap = min(s.regionGap, gapRel) * 0.9
	} else {
		s.regionGap = max(s.regionGap, gapRel*1.2)
	}
	if answer == yes {
		s.offer(runs)
	}
	return answer, err
}

// decideRegion answers over a list of all layouts that could matter whether there
// is a plan in the region no longer than asked for.
func (s *search) decideRegion(q *question, r region, a joined, list []choice) ([]run, verdict, error) {
	d := &decision{s: s, n: r.most, demand: s.in.whole(), list: list, length: q.length}
	heights := q.strips.heights
	for j := range list {
		list[j].most = min(list[j].most, q.length/list[j].height)
	}
	at := make([]int, len(list))
	for j := range list {
		at[j] = indexOf(heights, list[j].height)
	}
	for k := range heights {
		if r.least[k] > 0 && (k+1 == len(heights) || r.least[k+1] < r.least[k]) {
			c := cut{at: make([]int64, len(list)), least: int64(r.least[k]), scale: 1}
			for j := range list {
				if at[j] >= k {
					c.at[j] = 1
				}
			}
			d.given = append(d.given, c)
		}
	}
	for _, p := range a.proof.planes {
		sums := make([]int64, len(heights))
		sum := int64(0)
		for k, step := range p.plane.step {
			sum += step
			sums[k] = sum
		}
		c := cut{at: make([]int64, len(list)), least: p.plane.least}
		for j := range list {
			c.at[j] = sums[at[j]]
		}
		d.given = append(d.given, c.reduced())
	}
	return d.decide()
}

func indexOf(heights []int, h int) int {
	at, _ := slices.BinarySearch(heights, h)
	return at
}
