package pack

import (
	"cmp"
	"slices"
)

// The settings of recutting apart, found by trial.
const (
	fewApart    = 7   // strips that are taken out, at least
	manyApart   = 20  // and at most
	evenlyApart = 0.5 // by so many mean losses every strip loses more
	restApart   = 2   // plans built from what each step of a dive leaves to cut
	enterEffort = 100 // about what a layout takes to enter a portion
)

// recutApart takes a few strips out of the latest plan, those that lose the
// most likelier, and dives for a shorter plan of their pieces as of a problem of
// its own: it has few sizes and few layouts, so that a try takes a fraction of
// what one beside all others does. At the prices of the first relaxation most
// strips of a good plan lose nothing, and those that do share all that there is to
// gain; the others taken out give them room.
func (s *search) recutApart() error {
	kept, taken := s.takeLosers(fewApart + s.fill.shake.IntN(manyApart-fewApart+1))
	demand := leftBeside(s.in.whole(), kept)
	if !anyLeft(demand) {
		s.offer(kept)
		return nil
	}
	length, _ := total(taken)
	p := s.in.portion(demand)
	apart := s.apart(p, taken, demand)
	err := apart.planByDive(nil, p.in.whole())
	apart.m.close()
	s.m.effort += apart.work()
	if apart.length < length {
		s.offerBeside(kept, p.leave(apart.best))
	}
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

// takeLosers takes so many strips out of the latest plan, those that lose more
// likelier: by a weighted draw without putting back (Efraimidis and Spirakis,
// Weighted random sampling with a reservoir, Information Processing Letters 97,
// 2006). Of the keys of equal strips only the least are drawn, in order.
func (s *search) takeLosers(most int) (kept, taken []run) {
	type key struct {
		run int
		at  float64
	}
	sum, losses := 0.0, make([]float64, len(s.latest))
	for i, r := range s.latest {
		// What a strip loses to no piece, at the beam's values.
		losses[i] = max(0, -r.col.gain(s.beam.value))
		sum += losses[i] * float64(r.count)
	}
	evenly := evenlyApart*sum/float64(s.count) + wholeEnough
	var keys []key
	for i, r := range s.latest {
		weight, at := losses[i]+evenly, 0.0
		for n := range min(r.count, most) {
			at += s.fill.shake.ExpFloat64() / (weight * float64(r.count-n))
			keys = append(keys, key{i, at})
		}
	}
	slices.SortStableFunc(keys, func(a, b key) int { return cmp.Compare(a.at, b.at) })
	out := make([]int, len(s.latest))
	for _, k := range keys[:min(most, len(keys))] {
		out[k.run]++
	}
	for i, r := range s.latest {
		if n := r.count - out[i]; n > 0 {
			kept = append(kept, run{r.col, n})
		}
		if out[i] > 0 {
			taken = append(taken, run{r.col, out[i]})
		}
	}
	return kept, taken
}
