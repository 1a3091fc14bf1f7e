package pack

import (
	"math"
	"math/rand/v2"
)

// pathsByHeight is the number of random paths for each height that an estimate
// takes. With 100 of them estimates of 34 lists of shared strips were off by a factor
// of 2 (root mean square). For nested strips, of which there are many ways to make the
// same pieces, they are too high, as they take no account of what is made already.
const pathsByHeight = 200

// estimate is about how many steps it would take to list all layouts, and how many
// these are, or it gives up and returns false. Random paths go down the search tree,
// and each counts for as many as it stands for (Knuth, Estimating the efficiency of
// backtrack programs, Mathematics of Computation 29, 1975).
func (e *listing) estimate() (steps, layouts float64, ok bool) {
	draw := rand.New(rand.NewPCG(1975, 29))
	ok = e.eachHeight(func() {
		for range pathsByHeight {
			s, l := e.path(draw)
			steps, layouts = steps+s/pathsByHeight, layouts+l/pathsByHeight
			if e.tired() {
				return
			}
		}
	})
	return steps * listingSteps, layouts, ok
}

// path goes down once and back, and returns the steps and the layouts that it stands
// for. It rather goes on with later offers, as all before them may follow these.
func (e *listing) path(draw *rand.Rand) (steps, layouts float64) {
	stands, j, left, closed := 1.0, len(e.list), e.s.in.width, false
	limit := e.limit
	defer func() { e.limit = limit }()
	for {
		before := e.limit
		next, looked, dead := e.branches(j, left, closed)
		looked += nodeSteps
		e.steps += looked
		if !dead && closed && !e.poor() {
			looked += knownSteps
			if left < e.limit && !e.roomy(left) && !e.outdone(left) {
				looked += keepSteps
				layouts += stands
			}
		}
		steps += stands * float64(looked)
		if len(next) == 0 {
			break
		}
		i, likely := drawLate(next, draw)
		stands /= likely
		e.limit = before
		for j--; j > i; j-- {
			e.settle(j)
		}
		e.limit = e.limitWith(i)
		e.chosen = append(e.chosen, i)
		e.take(i, 1)
		j, left, closed = i+1, left-e.list[i].along, closed || e.list[i].tall == e.top
	}
	for _, i := range e.chosen {
		e.take(i, -1)
	}
	e.chosen = e.chosen[:0]
	return steps, layouts
}

// branches are the offers that descend would go on with, about the steps to find them,
// and whether nothing comes of those that are left. All that it looks at is settled.
func (e *listing) branches(j, left int, closed bool) (next []int, looked int64, dead bool) {
	for j--; j >= 0; j-- {
		o := &e.list[j]
		if e.begins(j) {
			if e.hopeless(j, left, closed) {
				return next, looked, true
			}
		}
		looked += lookSteps
		last := j
		switch {
		case o.along > left || e.lacks(0, j, left-o.along):
			j = e.ends[j]
		case e.allows(j) && !e.lacking(j, left-o.along) && !e.isBarred(j) && e.limitWith(j) > 0:
			next = append(next, j)
		}
		for ; last >= j; last-- {
			e.settle(last)
		}
	}
	return next, looked, false
}

// drawLate draws one of some offers, by the square of its place among all, and tells how
// likely that was.
func drawLate(offers []int, draw *rand.Rand) (offer int, likely float64) {
	weight := func(j int) int { return (j + 1) * (j + 1) }
	sum := 0
	for _, j := range offers {
		sum += weight(j)
	}
	at := draw.IntN(sum)
	for _, offer = range offers {
		if at -= weight(offer); at < 0 {
			break
		}
	}
	return offer, float64(weight(offer)) / float64(sum)
}

// The settings of lists that an estimate allows, found by trial.
const (
	estimateFrom    = 50_000_000 // steps of the search
	estimatePart    = 20         // one in so many steps of the work so far may go into an estimate
	estimatedPart   = 1          // and into the list
	leastLengthPart = 4          // or, where the purchase is proven, into that of the least length
	estimateAgain   = 0.95       // of the gap: then the list is so much shorter
	listAgain       = 2          // times as much work, and a list may be tried again
	farTooMany      = 10         // times as many layouts as a list may have: none is tried
	nestedTooMany   = 3          // times as many as there are may be expected of nested strips
)

// tooMany is how many layouts of an estimate are too many for a list.
func (s *search) tooMany() float64 {
	if s.h.style == Nested {
		return nestedTooMany * mostLayouts
	}
	return mostLayouts
}

// estimated is what is known of the list over the whole of a question.
type estimated struct {
	steps, layouts float64 // infinite, if it could not be estimated
	gap            float64 // of the whole at the time
	work           int64   // of the search then
	tried          int64   // and when a list was tried last
}

// farTooMany reports whether the list of the whole has far too many layouts, by an estimate,
// be it one that gave up.
func (o *overall) farTooMany() bool {
	e := &o.estimated
	return e.layouts > farTooMany*mostLayouts && o.gap >= estimateAgain*e.gap
}

// overEstimated decides the question of a purchase, or of the least length, over the list
// of the whole where by an estimate that takes no longer than a part of the work so far,
// which may be more than lists get that are tried without one: these are mostly in vain.
// It need not keep within the share that the question has.
func (q *question) overEstimated(r region, views []view) (verdict, error) {
	s, o, now := q.s, q.over, q.s.work()
	if !s.bought || s.in.many() || now < max(estimateFrom, tryAgain*o.deciding) {
		return unknown, nil
	}
	part := int64(estimatedPart)
	if s.settled() {
		if part = leastLengthPart; q.length > s.lower {
			return unknown, nil
		}
	}
	if err := q.estimateWhole(r, views); err != nil {
		return unknown, err
	}
	e, left := &o.estimated, s.outermost()-now
	if e.steps > float64(min(now/part, left)) || e.layouts > s.tooMany() || now < listAgain*e.tried {
		return unknown, nil
	}
	answer := unknown
	err := s.beyond(2*now, func() (err error) {
		answer, err = q.listedBy(r, views, o, now, func() int64 { return now })
		return err
	})
	e.tried = s.work()
	return answer, err
}

// estimateWhole estimates the list of the whole, unless it would be the same as before.
func (q *question) estimateWhole(r region, views []view) error {
	s, e, now := q.s, &q.over.estimated, q.s.work()
	again := math.IsInf(e.steps, 1) && now >= listAgain*e.work && !q.over.farTooMany()
	if e.work > 0 && q.over.gap >= estimateAgain*e.gap && !again {
		return nil
	}
	return s.beyond(now, func() error {
		list := &listing{s: s, n: r.most, demand: s.in.whole(), views: views, within: now / estimatePart}
		ok := false
		if e.steps, e.layouts, ok = list.estimate(); !ok {
			e.steps = math.Inf(1)
		}
		e.gap, e.work = q.over.gap, now
		return nil
	})
}
