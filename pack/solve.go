package pack

import (
	"context"
	"fmt"
	"time"

	"crossgrain/model"
	"crossgrain/pack/glpk"
)

// Options say what to plan and how long to search. The zero value plans
// plain strips.
type Options struct {
	Style Style
	// TimeLimit ends the search with the best plan found; zero is none. A
	// search that it ends may differ from run to run; one that ends by itself
	// does not.
	TimeLimit time.Duration
	// Purchase gives what must be bought for a length of strips. It never
	// falls as the length grows. The search proves the purchase before the
	// length. Nil stands for the length itself.
	Purchase func(model.Length) model.Length
	// Progress, if set, is told how the search stands, at most ten times a
	// second and when the purchase is proven, from the goroutine that called
	// Solve. It has no influence on the search.
	Progress func(Progress)
	// Work bounds the search in steps; zero is WorkPerSecond for each second
	// of the time limit, or DefaultWork without one. The same work gives the
	// same plan on every machine.
	Work int64
	// LengthWork bounds what of it may go into the length and the number of
	// strips once the purchase is proven; zero is a small part of the work.
	LengthWork int64
	// More, if set, is asked for more work when a search has used up what it
	// had and the purchase is open. Zero ends the search. It may take its time.
	More func() int64
}

// Progress is how a search stands. The lengths are those of the style being
// searched, which for a nested plan is first the shared one.
type Progress struct {
	Style       Style
	Bound, Best model.Length
	Elapsed     time.Duration
}

// progressEvery is the least time between two reports of progress.
const progressEvery = 100 * time.Millisecond

// WorkPerSecond is the number of steps that a search may take for each second
// of its time limit, a nested one as many again for the shared plan that it
// starts from. A step is about a nanosecond, so that the work, which is the same
// every time, ends the search before the clock does.
const WorkPerSecond = 750_000_000

// DefaultWork is the number of steps that a search may take while the purchase
// is open.
const DefaultWork = 2_000_000_000

// lengthPart is the part of the work, one in so many, that may go into the
// length and the strips once the purchase is proven.
const lengthPart = 64

// keptPart is the part of the work, one in so many, that is kept for the length
// of a purchase that is not proven: it narrows down how short a plan can be.
const keptPart = 8

// teller is told how a search stands, at every step or when a report is due.
type teller func(p Progress, due bool)

// paced passes reports on at most once every progressEvery, or at once if they
// are due, with the time since start.
func paced(report func(Progress), start time.Time) teller {
	if report == nil {
		return func(Progress, bool) {}
	}
	last := start
	return func(p Progress, due bool) {
		if now := time.Now(); due || now.Sub(last) >= progressEvery {
			last = now
			p.Elapsed = now.Sub(start)
			report(p)
		}
	}
}

func (o Options) work() int64 {
	switch {
	case o.Work > 0:
		return o.Work
	case o.TimeLimit > 0:
		return max(1, int64(o.TimeLimit.Seconds()*WorkPerSecond))
	}
	return DefaultWork
}

// Result is a verified plan and what is known about it.
type Result struct {
	Plan Plan
	// Bound is a proven lower bound on the length of any plan of the style.
	Bound model.Length
	// BoundBy is how the bound is known, and PurchaseBy how it is known of the
	// purchase of the bound that none is less.
	BoundBy, PurchaseBy Proof
	// FewestStrips says that the length is proven, and that no plan of the
	// style as short has fewer strips.
	FewestStrips bool
	// Stop says why the search ended.
	Stop Stop
	// Nodes and Columns are how many subproblems were solved and how many
	// strip layouts were priced in the search of the plan's style.
	Nodes, Columns int
	// Work is the number of steps taken, those for the shared plan that a
	// nested one starts from included.
	Work int64
	// Elapsed is for messages only: it differs from run to run.
	Elapsed time.Duration
}

// Stop is why a search ended.
type Stop uint8

const (
	// Proven: the plan's length equals its bound.
	Proven Stop = iota
	// WorkLimit: the search gave all the work that it allows one problem.
	WorkLimit
	// TimeLimit: the time limit passed.
	TimeLimit
	// Cancelled: the context was cancelled.
	Cancelled
)

// LengthProven reports whether no plan of the style is shorter.
func (r Result) LengthProven() bool { return r.Plan.Length() == r.Bound }

// Solve finds a plan of least purchase, then least length, then fewest strips,
// then few layouts. The plan has passed Verify. An error is a fault of the
// program or, for shared and nested plans, glpk.ErrUnavailable in a build
// without the solver; a time limit or a cancelled context is a Result with
// its bound.
func Solve(ctx context.Context, p *Problem, o Options) (Result, error) {
	start := time.Now()
	inner := ctx
	if o.TimeLimit > 0 {
		var cancel context.CancelFunc
		inner, cancel = context.WithTimeout(ctx, o.TimeLimit)
		defer cancel()
	}
	in := newInstance(p)
	s, err := in.solve(inner, o, paced(o.Progress, start))
	if err != nil {
		return Result{}, err
	}
	r := Result{Plan: in.plan(o.Style, s.best), Nodes: s.nodes, Columns: s.columns(), FewestStrips: s.fewest}
	r.Work = s.before + s.work()
	r.BoundBy, r.PurchaseBy = s.lowerBy, s.buyBy
	r.Bound = model.Length(s.lower) * in.acrossUnit
	if r.Bound > r.Plan.Length() {
		return Result{}, fmt.Errorf("%w: it is %d long, below its bound of %d", ErrBadPlan, r.Plan.Length(), r.Bound)
	}
	if err := Verify(p, r.Plan); err != nil {
		return Result{}, err
	}
	switch {
	case r.LengthProven():
		r.Stop = Proven
	case ctx.Err() != nil:
		r.Stop = Cancelled
	case inner.Err() != nil:
		r.Stop = TimeLimit
	default:
		r.Stop = WorkLimit
	}
	r.Elapsed = time.Since(start)
	return r, nil
}

// solve searches for a plan of the style, each search from the plan of the
// style before it, which has been searched for as if it were asked for: so a
// nested plan is never longer than the shared one, nor that than the plain
// one, however early a search ends.
func (in *instance) solve(ctx context.Context, o Options, tell teller) (*search, error) {
	plain := in.newSearch(ctx, in.newPricer(Shared, 0), o, tell)
	plain.seed(in.plain())
	if o.Style == Plain || len(in.sizes) == 0 {
		plain.lower = plain.length
		return plain, nil
	}
	if !glpk.Available() {
		return nil, glpk.ErrUnavailable
	}
	shared := plain // its seed is the plain plan
	shared.h = sharedHeuristics
	if o.Style == Shared {
		shared.more = o.More
	}
	if err := shared.run(); err != nil || o.Style == Shared {
		return shared, err
	}
	nested := in.newSearch(ctx, in.newPricer(Nested, shared.length), o, tell)
	nested.h, nested.more, nested.before = nestedHeuristics, o.More, shared.work()
	nested.seed(shared.best)
	return nested, nested.run()
}

// newPricer prices strips of a style for plans no longer than length.
func (in *instance) newPricer(style Style, length int) pricer {
	if style == Nested {
		return newNestedPricer(in, in.tallest(length))
	}
	return newSharedPricer(in)
}

func (in *instance) newSearch(ctx context.Context, pr pricer, o Options, tell teller) *search {
	s := &search{ctx: ctx, in: in, pr: pr, m: newMaster(in, pr), fill: newFiller(in, pr), share: firstShare}
	s.purchase = func(length int) model.Length {
		l := model.Length(length) * in.acrossUnit
		if o.Purchase == nil {
			return l
		}
		return o.Purchase(l)
	}
	s.bought = o.Purchase != nil
	s.stop = o.work()
	s.kept = s.stop / keptPart
	s.report = func(due bool) {
		unit := in.acrossUnit
		tell(Progress{Style: s.h.style, Bound: model.Length(s.lower) * unit, Best: model.Length(s.length) * unit}, due)
	}
	if s.afterPurchase = o.LengthWork; s.afterPurchase == 0 {
		s.afterPurchase = s.stop / lengthPart
	}
	s.fill.over = s.over
	return s
}

// seed starts the search from a plan.
func (s *search) seed(runs []run) {
	s.offer(runs)
	s.seeded = s.length
	s.m.pool.addRuns(runs)
}

// tallest is the highest strip of a nested plan: TallestStrip, or as high as a
// piece can stand, and never higher than a whole plan.
func (in *instance) tallest(length int) int {
	top := int(TallestStrip / in.acrossUnit)
	for _, o := range in.options {
		top = max(top, o.across)
	}
	return min(top, length)
}

var stopNames = [...]string{"proven", "work limit", "time limit", "cancelled"}

// String is the reason in words.
func (s Stop) String() string { return stopNames[s] }
