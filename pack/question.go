package pack

import "math"

// question asks whether there is a plan no longer than length, of no more than
// strips strips: a branch and bound over the numbers of strips from each
// height up. It can be put aside and taken up again.
//
// The regions left are explored newest first until that comes to a leaf, then
// the one that holds the most, so that leaves with room to spare come early;
// that one now and then in between, too. A region is closed if the planes or the
// joint program refute it. Otherwise this suggests numbers: if a plane cuts these
// off, it is solved again; then fractional numbers are branched on, and whole ones
// are a leaf, which packing or listing decides. Strips that hold a plan still do
// if some are higher or more are added, so a leaf decides all numbers nowhere
// above its own.
type question struct {
	s       *search
	strips  *strips // shared by all questions
	fit     *fit
	length  int
	most    int // strips
	open    []region
	waiting []*leaf // undecided
	begun   bool
	turns   int
	plunged bool     // the last region was a leaf
	listed  bool     // a list has closed a region
	part    float64  // of the gap, that a list of the best layouts is tried with next
	none    float64  // and the widest that was tried
	drawn   drawing  // the next sample
	over    *overall // of the list of the whole
}

// The settings of a question, found by trial.
const (
	bestEvery    = 4  // turns for each height until the best region is taken instead of the newest
	waitingEvery = 64 // turns until a waiting leaf is tried again in between
)

// ask goes on with the question until it is answered or the search must end.
func (q *question) ask() (verdict, error) {
	if !q.begun {
		q.begun = true
		q.open = []region{q.whole()}
	}
	for len(q.open) > 0 {
		if q.s.over() {
			return unknown, nil
		}
		v, err := q.explore(q.next())
		if err == nil && v != yes && q.turns%waitingEvery == 0 {
			v, err = q.decideWaiting(1)
		}
		if err != nil || v == yes {
			return v, err
		}
	}
	return q.decideWaiting(math.MaxInt)
}

// whole is the region of all numbers of strips that fit the length.
func (q *question) whole() region { return wholeRegion(q.strips.heights, q.length, q.most) }

// next takes a region from the open ones.
func (q *question) next() region {
	at := len(q.open) - 1
	if q.turns++; q.plunged || q.turns%(bestEvery*len(q.strips.heights)) == 0 {
		q.plunged = false
		for i := range q.open {
			if q.open[i].room > q.open[at].room {
				at = i
			}
		}
	}
	r := q.open[at]
	q.open[at] = q.open[len(q.open)-1]
	q.open = q.open[:len(q.open)-1]
	return r
}

// explore closes a region, splits it, or finds a plan in it.
func (q *question) explore(r region) (verdict, error) {
	s := q.s
	s.nodes++
	if !r.tighten() {
		return no, nil
	}
	for cuts := 0; ; cuts++ {
		none, err := q.strips.refute(r, q.length)
		if err != nil || none {
			return no, err
		}
		a, err := s.joint.solve(r, q.length)
		if err != nil {
			return unknown, err
		}
		if cuts == 0 {
			q.strips.costs.learn(r, r.room-a.room)
		}
		r.room = a.room
		n := r.nearest(a.n)
		cut, err := q.strips.offer(planeOf(a.prices, a.most, s.in.whole()), n)
		if err != nil {
			return unknown, err
		}
		// Only now, for the plane may refute other regions.
		if a.refutes(s.in, q.strips.heights, r, q.length) {
			return no, nil
		}
		k, side := q.strips.branchOn(n)
		switch {
		case cut && !s.over() && (cuts < fewCuts || cuts < mostCuts && (k < 0 || a.room < 1)):
		case k >= 0:
			if v, err := q.overRegion(r, a); err != nil || v != unknown {
				return v, err
			}
			down, up := r.split(k, n[k])
			if side == downward {
				down, up = up, down
			}
			q.open = append(q.open, down, up)
			return unknown, nil
		default:
			q.plunged = true
			return q.leaf(r, nearest(n), a.room)
		}
	}
}

// Fractional numbers are cut off a few times before they are branched on; it
// takes less than to cut them off to the end. Whole ones must be, though not
// forever: at the limit of what floating point can tell it might go in circles.
const (
	fewCuts  = 5
	mostCuts = 200
)

// planeOf is the plane that prices make: what all strips are worth is at least
// what the demand is.
func planeOf(v prices, worth []int64, demand []int) *plane {
	step := make([]int64, len(worth))
	last, least := int64(0), int64(0)
	for k, w := range worth {
		step[k], last = w-last, w
	}
	for i, d := range demand {
		least += v.worth[i] * int64(d)
	}
	if least <= 0 {
		return nil
	}
	return newPlane(step, least)
}

// planesAtOnce is the most planes that one set of prices gives.
const planesAtOnce = 3

// offer takes up the plane and its roundings that cut off n the most, and
// reports whether any does.
func (st *strips) offer(p *plane, n []float64) (bool, error) {
	if p == nil {
		return false, nil
	}
	list := append(p.roundings(n), p)
	st.s.m.effort += int64(len(list)*len(n)) * 12
	for taken := 0; ; taken++ {
		best, at := -1, 1-violated
		for i, c := range list {
			if v := c.at(n); v < at {
				best, at = i, v
			}
		}
		if best < 0 || taken == planesAtOnce {
			return taken > 0, nil
		}
		if err := st.use(list[best]); err != nil {
			return false, err
		}
		list = append(list[:best], list[best+1:]...)
	}
}

func nearest(n []float64) numbers {
	list := make(numbers, len(n))
	for k, v := range n {
		list[k] = int(v + 0.5)
	}
	return list
}
