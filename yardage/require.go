package yardage

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
	"time"

	"crossgrain/model"
	"crossgrain/pack"
)

// job is one fabric at one usable width, and what becomes of it.
type job struct {
	cuts    model.FabricCuts
	problem *pack.Problem
	plan    planned
	err     error
}

// planned is the plan in the style asked for and the one by hand.
type planned struct {
	result pack.Result
	plain  pack.Plan
}

// Require plans every fabric of a cut list at every usable width. The plans
// are made on all cores and come out in the order of the list, the same on
// any number of cores. Every plan is checked again here, apart from the
// search, before a figure is drawn from it.
//
// An error names the fabric and the width: a piece that cannot lie on the
// cloth (it wraps pack.ErrTooWide), or a fault of the program. A time limit
// or a cancelled context is no error: each plan comes with what is known of it.
func Require(ctx context.Context, list model.CutList, o Options) (Quilt, error) {
	jobs, err := newJobs(list)
	if err != nil {
		return Quilt{}, err
	}
	if err := runJobs(ctx, jobs, o); err != nil {
		return Quilt{}, err
	}
	return gather(list, jobs, o.Style), nil
}

// newJobs states every problem before any is solved, so that a piece that
// does not fit is told at once, with all the others like it.
func newJobs(list model.CutList) ([]*job, error) {
	var jobs []*job
	var errs []error
	for _, cuts := range list.Fabrics {
		for _, width := range cuts.Fabric.UsableWidths {
			p, err := newProblem(cuts, width)
			if err != nil {
				errs = append(errs, fmt.Errorf("fabric %q at a usable width of %s: %w",
					cuts.Fabric.ID, width.FormatWithUnit(list.Unit), err))
				continue
			}
			jobs = append(jobs, &job{cuts: cuts, problem: p})
		}
	}
	return jobs, errors.Join(errs...)
}

// newProblem is what is cut of one fabric at one usable width: its pieces, and
// the whole and part strips that its strips come to there.
func newProblem(cuts model.FabricCuts, width model.Length) (*pack.Problem, error) {
	pieces := cuts.PiecesAt(width)
	items := make([]pack.Item, len(pieces))
	count := 0
	for i, c := range pieces {
		if count += c.Count; count > model.MaxPieces {
			return nil, fmt.Errorf("piece %q: %w: a fabric is cut into at most %d pieces", c.Name, model.ErrTooMany, model.MaxPieces)
		}
		items[i] = pack.Item{Along: c.Along, Across: c.Across, Count: c.Count, Turnable: c.Turnable}
		// One at a time, so that an error can name the piece.
		if _, err := pack.NewProblem(width, items[i:i+1]); err != nil {
			return nil, fmt.Errorf("piece %q: %w", c.Name, err)
		}
	}
	return pack.NewProblem(width, items)
}

// runJobs solves on all cores. Its error is the first in the list's order.
func runJobs(ctx context.Context, jobs []*job, o Options) error {
	r := runner{
		options: o,
		budget:  newBudget(o.work(len(jobs)), len(jobs)),
		cores:   make(chan struct{}, runtime.GOMAXPROCS(0)),
		start:   time.Now(),
	}
	var wg sync.WaitGroup
	var told sync.Mutex
	for i, j := range jobs {
		var report func(pack.Progress)
		if o.Progress != nil {
			report = func(p pack.Progress) {
				told.Lock()
				defer told.Unlock()
				o.Progress(Progress{j.cuts.Fabric.ID, j.problem.Width(), i + 1, len(jobs), p})
			}
		}
		r.cores <- struct{}{}
		wg.Go(func() {
			defer func() { <-r.cores }()
			j.plan, j.err = r.solve(ctx, j, report)
		})
	}
	wg.Wait()
	var errs []error
	for _, j := range jobs {
		if j.err != nil {
			errs = append(errs, fmt.Errorf("fabric %q: %w", j.cuts.Fabric.ID, j.err))
		}
	}
	return errors.Join(errs...)
}

// runner is what the searches of a quilt have in common.
type runner struct {
	options Options
	budget  *budget
	cores   chan struct{} // holds one for every search that is at work
	start   time.Time
}

// work is what so many searches may take together.
func (o Options) work(searches int) int64 {
	switch {
	case o.Work > 0:
		return o.Work
	case o.TimeLimit > 0:
		return int64(o.TimeLimit.Seconds() * pack.WorkPerSecond)
	}
	return pack.DefaultWork * int64(searches)
}

// lengthWork is the work that may go into the length of a plan once its purchase
// is proven: enough for nearly all fabrics of a quilt, or a small part of the
// share of a search where that is more, and never all of it.
func lengthWork(share int64) int64 {
	return min(max(pack.WorkPerSecond/6, share/64), share/2+1)
}

// solve plans one fabric at one width, in the style asked for and by hand.
func (r *runner) solve(ctx context.Context, j *job, report func(pack.Progress)) (planned, error) {
	got, used := r.budget.first, int64(0)
	defer func() { r.budget.done(got - used) }()
	buy := func(length model.Length) model.Length { return purchase(j.cuts.Fabric, length).Length }
	plain, err := checked(ctx, j.problem, pack.Options{Style: pack.Plain, Purchase: buy})
	if err != nil || r.options.Style == pack.Plain {
		return planned{plain, plain.Plan}, err
	}
	o := pack.Options{
		Style: r.options.Style, Purchase: buy, Progress: report,
		Work: got, LengthWork: lengthWork(got),
		More: func() int64 {
			more := r.budget.more(r.cores)
			got += more
			return more
		},
	}
	if r.options.TimeLimit > 0 {
		o.TimeLimit = max(1, r.options.TimeLimit-time.Since(r.start))
	}
	result, err := checked(ctx, j.problem, o)
	used = result.Work
	return planned{result, plain.Plan}, err
}

// checked is pack.Solve with its plan and its bound put to the test.
func checked(ctx context.Context, p *pack.Problem, o pack.Options) (pack.Result, error) {
	r, err := pack.Solve(ctx, p, o)
	if err != nil {
		return pack.Result{}, err
	}
	if err := pack.Verify(p, r.Plan); err != nil {
		return pack.Result{}, fmt.Errorf("the %v plan failed its check: %w", o.Style, err)
	}
	if r.Bound > r.Plan.Length() {
		return pack.Result{}, fmt.Errorf("the %v plan is shorter than its own bound", o.Style)
	}
	return r, nil
}

// gather puts the jobs' plans back under their fabrics, in order.
func gather(list model.CutList, jobs []*job, style pack.Style) Quilt {
	q := Quilt{Title: list.Title, Unit: list.Unit, Ruler: list.Ruler, Style: style}
	for _, cuts := range list.Fabrics {
		f := FabricRequirement{FabricCuts: cuts}
		for range cuts.Fabric.UsableWidths {
			f.Widths = append(f.Widths, newRequirement(cuts, jobs[0].plan))
			jobs = jobs[1:]
		}
		q.Fabrics = append(q.Fabrics, f)
	}
	return q
}

func newRequirement(cuts model.FabricCuts, p planned) Requirement {
	f, plan := cuts.Fabric, p.result.Plan
	r := Requirement{
		Width:    plan.Width,
		Result:   p.result,
		Need:     need(f, plan.Length()),
		Buy:      purchase(f, plan.Length()),
		AtLeast:  purchase(f, p.result.Bound),
		Plain:    p.plain,
		PlainBuy: purchase(f, p.plain.Length()),
		UsedArea: areaOf(cuts.PiecesAt(plan.Width)),
		CutArea:  model.AreaOf(plan.Width, plan.Length()),
	}
	r.BuyProven = r.Buy == r.AtLeast
	r.Cost = f.SoldBy.Cost(f.Price, r.Buy.Length)
	r.Saved = purchaseOf(f, r.PlainBuy.Length-r.Buy.Length)
	return r
}

// areaOf is what pieces take of the fabric.
func areaOf(pieces []model.Piece) (sum model.Area) {
	for _, p := range pieces {
		sum += p.Area()
	}
	return sum
}
