package pack

// The settings of recutting apart, found by trial.
const (
	fewApart    = 5   // strips that are taken out, at least
	manyApart   = 22  // and at most
	restApart   = 2   // plans built from what each step of a dive leaves to cut
	enterEffort = 100 // about what a layout takes to enter a portion
)

// recutApart takes a few strips out of the latest plan, those that lose the
// most likelier, and dives for a shorter plan of their pieces as of a problem of
// its own: it has few sizes and few layouts, so that a try takes a fraction of
// what one beside all others does. At the prices of the first relaxation most
// strips of a good plan lose nothing, and those that do share all that there is to
// gain; the others taken out give them room. It goes on with other strips that are
// as long together, too: what is lost moves among the strips until some of it meets.
func (s *search) recutApart() error {
	kept, taken := s.takeLosers(fewApart + s.fill.shake.IntN(manyApart-fewApart+1))
	demand := leftBeside(s.in.whole(), kept)
	if !anyLeft(demand) {
		s.offer(kept)
		return nil
	}
	p := s.in.portion(demand)
	apart := s.apart(p, taken, demand)
	apart.latest = apart.best // so that it finds those as long, too
	err := apart.planByDive(nil, p.in.whole())
	apart.m.close()
	s.m.effort += apart.work()
	s.offerBeside(kept, p.leave(apart.latest))
	return err
}

// apart is a search for a plan of a portion, from such strips and the layouts
// that are known.
func (s *search) apart(p portion, taken []run, demand []int) *search {
	var seed []run
	for _, r := range taken {
		if c, ok := p.enter(&r.col); ok {
			seed = append(seed, run{c, r.count})
		}
	}
	length, _ := total(taken)
	a := p.in.newSearch(s.ctx, p.in.newPricer(s.h.style, length), Options{Work: s.stop - s.work()}, func(Progress, bool) {})
	a.h = s.h
	a.h.restPasses = restApart
	a.fill.shake = s.fill.shake
	a.seed(seed)
	a.m.keepWithin(a.length)
	tops := a.pr.heights()
	entered := 0
	for i := range s.m.pool.list {
		c := &s.m.pool.list[i]
		if c.height > tops[len(tops)-1] || timesWhole(c, demand) == 0 {
			continue
		}
		if own, ok := p.enter(c); ok {
			a.m.pool.add(own)
			entered++
		}
	}
	s.m.effort += int64(len(s.m.pool.list)*len(demand)/2 + enterEffort*entered)
	return a
}
