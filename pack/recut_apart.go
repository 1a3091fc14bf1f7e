package pack

// The settings of recutting apart, found by trial.
const (
	fewApart    = 5    // strips that are taken out, at least
	manyApart   = 22   // and at most
	restApart   = 2    // plans built from what each step of a dive leaves to cut
	passEffort  = 50   // about what a layout takes that does not enter a portion
	enterEffort = 1000 // and one that does
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
	fixed, _ := total(kept)
	length := s.tooLong() - 1 - fixed
	if length < p.in.highest() {
		return nil
	}
	apart := s.apart(p, demand, taken, length)
	apart.latest = []run{} // so that it finds several of a length, and gives the last
	err := apart.planByDive(nil, p.in.whole())
	apart.m.close()
	s.m.effort += apart.work()
	if len(apart.latest) > 0 {
		s.offerBeside(kept, p.leave(apart.latest))
	}
	return err
}

// apart is a search for a plan of a portion that is no longer than so much, from the
// layouts of such strips and those that are known.
func (s *search) apart(p portion, demand []int, taken []run, length int) *search {
	a := p.in.newSearch(s.ctx, p.in.newPricer(s.h.style, length), Options{Work: s.stop - s.work()}, func(Progress, bool) {})
	a.h = s.h
	a.h.restPasses = restApart
	a.fill.shake = s.fill.shake
	a.length = length
	a.m.keepWithin(length)
	entered, tops := 0, a.pr.heights()
	enter := func(c *column) {
		if own, ok := p.enter(c); ok && own.height <= tops[len(tops)-1] {
			a.m.pool.add(own)
			entered++
		}
	}
	for i := range taken {
		enter(&taken[i].col)
	}
	for i := range s.m.pool.list {
		if c := &s.m.pool.list[i]; timesWhole(c, demand) != 0 {
			enter(c)
		}
	}
	s.m.effort += int64(passEffort*len(s.m.pool.list) + enterEffort*entered)
	return a
}
