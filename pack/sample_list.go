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
	sampleGap     = 0.1 // of the gap that layouts of samples lack at most
	sampleShare   = 0.5 // of the branches, at first
	lessShare     = 0.67
	moreShare     = 1.2
	fewSampled    = 300 // layouts: below them a sample takes a greater share
	mostSampled   = 3000
	sampledStacks = 2  // stacks of a layout that are left out at random
	sampleListing = 20 // part of what samples may take that one may
	sampleEffort  = 30 // times as many steps for deciding as for the sample
	roundAgain    = 4  // times that boxes of samples are rounded again
	brokenOff     = 5  // times that the steps of a sample count which is not complete
)

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
// plan of some layouts says nothing. Where most samples are broken off, as there are too
// many stacks, they get less of the work.
func (q *question) overSamples(r region, views []view) (verdict, error) {
	s := q.s
	budget := s.samplesBudget()
	if budget == 0 {
		return unknown, nil
	}
	q.share = cmp.Or(q.share, sampleShare)
	lost := int64(0)
	answer, err := s.tryLists(&s.samples, budget, func() (answer verdict, again bool, err error) {
		answer, broken, err := q.overSample(r, views, budget)
		if answer == no {
			answer = unknown
		}
		lost += broken
		return answer, brokenOff*lost < budget, err
	})
	s.samples.wasted += (brokenOff - 1) * lost
	return answer, err
}

// overSample does so once, and tells how many steps a sample took that was broken off. One
// of too many layouts, or too few, sets the share of the next.
func (q *question) overSample(r region, views []view, budget int64) (answer verdict, broken int64, err error) {
	s, before := q.s, q.s.work()
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: narrowed(views, sampleGap), within: budget / sampleListing}
	list.sample = &sample{q.share, s.fill.shake}
	found, complete := list.layouts()
	switch took := s.work() - before; {
	case !complete:
		q.share *= lessShare
		return unknown, took, nil
	case len(found) > mostSampled:
		q.share *= lessShare
		return unknown, 0, nil
	case len(found) < fewSampled:
		q.share = min(1, q.share*moreShare)
	}
	found = append(found, q.knownChoices(r)...)
	answer, err = q.decided(r, found, s.within, max(leastListing, sampleEffort*(s.work()-before)), roundAgain)
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
