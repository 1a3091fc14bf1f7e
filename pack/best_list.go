package pack

// The settings of lists of the best layouts, found by trial.
const (
	bestPart    = 4      // part of the work, one in so many, that they may take in vain
	mostBest    = 20_000 // layouts
	firstPart   = 0.1    // of the gap, to begin with
	narrower    = 0.5    // part of it if there are too many
	wider       = 1.5    // or if they are not enough
	bestListing = 8      // part of what a search for a plan may take that a list may
)

// bestBudget is how many steps a search over the best layouts may take now, or none.
func (s *search) bestBudget() int64 {
	part := s.work() / bestPart
	if budget := part - s.lists.sought; budget >= max(leastListing, part/3) {
		return budget
	}
	return 0
}

// overBest looks for a plan over the list of only the best layouts, those that lack
// no more than a part of the gap: the wider, the more of them. Where there are too
// many that a plan can have, most plans there are have only such. It answers yes,
// or nothing (a restricted master heuristic; Joncour and others, Column generation
// based primal heuristics, Electronic Notes in Discrete Mathematics 36, 2010).
func (q *question) overBest(r region, views []view) (verdict, error) {
	s := q.s
	budget := s.bestBudget()
	if budget == 0 {
		return unknown, nil
	}
	before := s.work()
	stop := before + budget
	answer := unknown
	err := s.beyond(budget, func() (err error) {
		for part := max(firstPart, q.part); answer == unknown && s.work() < stop && part < 1; {
			list := &listing{s: s, n: r.most, demand: s.in.whole(), views: narrowed(views, part), most: mostBest, within: budget / bestListing}
			found, complete := list.layouts()
			if !complete {
				if part *= narrower; part <= q.none {
					break
				}
				q.part = part
				continue
			}
			var runs []run
			runs, v, err := s.decideRegion(q, r, found)
			switch {
			case err != nil:
				return err
			case v == yes:
				s.offer(runs)
				answer = yes
			case v == unknown:
				q.part = part * narrower
				return nil
			}
			q.none = part
			part *= wider
			q.part = part
		}
		return nil
	})
	if answer == unknown {
		s.lists.sought += s.work() - before
	}
	return answer, err
}

// narrowed are views with a part of their gaps.
func narrowed(views []view, part float64) []view {
	list := make([]view, len(views))
	for i, v := range views {
		v.gap = int64(part * float64(v.gap))
		list[i] = v
	}
	return list
}
