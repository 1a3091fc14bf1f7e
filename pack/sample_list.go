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
	samplePart    = 0.1 // of the gap that layouts of samples lack at most
	sampleShare   = 0.5 // of the branches, at first
	lessShare     = 0.67
	moreShare     = 1.2
	fewSampled    = 300 // layouts: below them a sample takes a greater share
	mostSampled   = 3000
	sampledStacks = 2  // stacks of a layout that are left out at random
	sampleEffort  = 10 // times as many steps for deciding as for the sample
)

// leftOut reports whether a branch is left out of a sample.
func (e *listing) leftOut() bool {
	return e.sample != nil && len(e.chosen) < sampledStacks && e.sample.draw.Float64() >= e.sample.share
}

// overSamples looks for a plan over lists of some of the layouts, drawn at random, and of
// those that are known, without which there would hardly be enough room: one such list
// after another. What it finds are roundings of their relaxations, mostly. That there is no
// plan of some layouts says nothing.
func (q *question) overSamples(r region, views []view, budget int64) (verdict, error) {
	q.share = cmp.Or(q.share, sampleShare)
	return q.s.tryBest(budget, func() (answer verdict, again bool, err error) {
		if answer, err = q.overSample(r, views, budget); answer == no {
			answer = unknown
		}
		return answer, true, err
	})
}

// overSample does so once. A sample of too many layouts, or too few, sets the share of the
// next.
func (q *question) overSample(r region, views []view, budget int64) (verdict, error) {
	s, before := q.s, q.s.work()
	list := &listing{s: s, n: r.most, demand: s.in.whole(), views: narrowed(views, samplePart), within: budget / bestListing}
	list.sample = &sample{q.share, s.fill.shake}
	found, complete := list.layouts()
	switch {
	case !complete || len(found) > mostSampled:
		q.share *= lessShare
		return unknown, nil
	case len(found) < fewSampled:
		q.share = min(1, q.share*moreShare)
	}
	found = append(found, q.knownChoices(r)...)
	return q.decided(r, found, s.within, max(leastListing, sampleEffort*(s.work()-before)))
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
