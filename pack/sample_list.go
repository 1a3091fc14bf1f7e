package pack

import (
	"cmp"
	"math/rand/v2"
	"slices"
)

// sample is which of the branches of a list are taken.
type sample struct {
	share float64 // of those near the root
	draw  *rand.Rand
}

// The settings of samples, found by trial.
const (
	samplePart    = 0.1 // of the gap that layouts of samples lack at most, at first
	widerPart     = 1.5
	sampleShare   = 0.5 // of the branches, at first
	lessShare     = 0.67
	moreShare     = 1.2
	tooFewSampled = 50  // layouts: below them a sample is not decided over
	fewSampled    = 300 // below them the next takes a greater share
	mostSampled   = 3000
	sampledStacks = 2      // stacks of a layout that are left out at random
	sampleListing = 20     // part of what samples may take that one may
	sampleEffort  = 30     // times as many steps for deciding as for the sample
	layoutEffort  = 30_000 // or so many for each layout that it decides over, if they are less
	roundAgain    = 4      // times that boxes of samples are rounded again
	brokenOff     = 5      // times that the steps of a sample count which is not complete
)

// drawing is how a sample is drawn.
type drawing struct {
	part  float64 // of the gap that its layouts lack at most
	share float64 // of the branches that it takes
}

// all reports whether nothing is left out that a plan can have.
func (d drawing) all() bool { return d.part == 1 && d.share == 1 }

// after is how the next one is drawn: after too many layouts, or far too many to list, less
// of the branches are taken, after few of them more. All that lack so little would be the
// same again, so some are taken of those that lack more.
func (d drawing) after(layouts int, complete bool) drawing {
	switch {
	case !complete || layouts > mostSampled:
		d.share *= lessShare
	case d.share == 1:
		return drawing{min(1, d.part*widerPart), sampleShare}
	case layouts < fewSampled:
		d.share = min(1, d.share*moreShare)
	}
	return d
}

// leftOut reports whether a branch is left out of a sample.
func (e *listing) leftOut() bool {
	return e.sample != nil && len(e.chosen) < sampledStacks && e.sample.draw.Float64() >= e.sample.share
}

// samplesBudget is how many steps samples may take now, or none: they only find plans, and
// are for the purchase.
func (s *search) samplesBudget() int64 {
	if s.settled() {
		return 0
	}
	return s.budgetOf(&s.samples, s.h.samplesPart)
}

// overSamples looks for a plan over lists of some of the layouts, drawn at random, and of
// those that are known, without which there would hardly be enough room: one such list
// after another. What it finds are roundings of their relaxations, mostly. That there is no
// plan of some layouts says nothing; lists of all see to that. Where most samples are broken
// off, as there are too many stacks, they get less of the work.
func (q *question) overSamples(r region, views []view) (verdict, error) {
	s := q.s
	budget := s.samplesBudget()
	if budget == 0 {
		return unknown, nil
	}
	q.drawn = cmp.Or(q.drawn, drawing{samplePart, sampleShare})
	lost := int64(0)
	answer, err := s.tryLists(&s.samples, budget, func() (answer verdict, again bool, err error) {
		answer, broken, err := q.overSample(r, views, budget)
		lost += broken
		return answer, brokenOff*lost < budget, err
	})
	s.samples.wasted += (brokenOff - 1) * lost
	return answer, err
}

// overSample does so once, and tells how many steps a sample took that was broken off.
func (q *question) overSample(r region, views []view, budget int64) (answer verdict, broken int64, err error) {
	s, before, drawn := q.s, q.s.work(), q.drawn
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: narrowed(views, drawn.part), within: budget / sampleListing}
	list.sample = &sample{drawn.share, s.fill.shake}
	found, complete := list.layouts()
	q.drawn = drawn.after(len(found), complete)
	took := s.work() - before
	switch {
	case !complete:
		return unknown, took, nil
	case len(found) > mostSampled || len(found) < tooFewSampled && !drawn.all():
		return unknown, 0, nil
	}
	found = append(found, q.knownChoices(r)...)
	most := max(leastListing, min(sampleEffort*took, layoutEffort*int64(len(found))))
	answer, err = q.decided(r, found, s.within, most, roundAgain)
	if answer == no {
		answer = unknown
	}
	return answer, 0, err
}

// knownChoices are the layouts that are known, each once.
func (q *question) knownChoices(r region) []choice {
	s := q.s
	var known pool
	for _, c := range s.joint.strips {
		known.add(c.layout)
	}
	for _, c := range slices.Concat(s.known.list, s.m.pool.list) {
		known.add(c)
	}
	var list []choice
	for _, c := range known.list {
		if c.height > 0 && c.height <= q.length {
			list = append(list, choiceOf(c, r.most[0]))
		}
	}
	return list
}
