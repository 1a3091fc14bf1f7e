package pack

import (
	"errors"
	"fmt"

	"crossgrain/model"
)

// ErrBadPlan is wrapped by every error of Verify.
var ErrBadPlan = errors.New("the plan does not hold")

// Verify checks a plan against its problem in whole numbers, from the plan
// alone: every strip is as wide as the fabric, its segments and its offcut
// fill that width, no stack outgrows its segment or its strip, no piece is
// turned that must not be, each style keeps its own rule, and exactly the
// pieces asked for are cut. It shares no code with the search.
func Verify(p *Problem, plan Plan) error {
	if plan.Width != p.width {
		return badPlan("it is for a usable width of %d, not %d", plan.Width, p.width)
	}
	cut := make([]int, len(p.items))
	for i, s := range plan.Strips {
		if err := verifyStrip(p, plan.Style, s, cut); err != nil {
			return fmt.Errorf("strip %d: %w", i+1, err)
		}
	}
	for i, it := range p.items {
		if cut[i] != it.Count {
			return badPlan("item %d is cut %d times, not %d", i, cut[i], it.Count)
		}
	}
	return nil
}

func verifyStrip(p *Problem, style Style, s Strip, cut []int) error {
	if s.Height <= 0 || s.Repeat <= 0 || len(s.Segments) == 0 || s.Offcut < 0 {
		return badPlan("height %d, repeat %d, %d segments, offcut %d",
			s.Height, s.Repeat, len(s.Segments), s.Offcut)
	}
	used := s.Offcut
	for _, g := range s.Segments {
		if g.Along <= 0 || g.Repeat <= 0 || len(g.Stack) == 0 || g.Along > p.width {
			return badPlan("a segment of %d, repeat %d, with %d pieces", g.Along, g.Repeat, len(g.Stack))
		}
		if model.Length(g.Repeat) > p.width/g.Along {
			return badPlan("%d segments of %d do not fit the width", g.Repeat, g.Along)
		}
		used += g.Along * model.Length(g.Repeat)
		if err := verifyStack(p, s.Height, g, cut, s.Repeat*g.Repeat); err != nil {
			return err
		}
	}
	if used != p.width {
		return badPlan("segments and offcut add up to %d of %d", used, p.width)
	}
	return verifyStyle(style, s)
}

// verifyStack checks the pieces of one segment and counts them times times.
func verifyStack(p *Problem, height model.Length, g Segment, cut []int, times int) error {
	var filled model.Length
	for _, pl := range g.Stack {
		if pl.Item < 0 || pl.Item >= len(p.items) {
			return badPlan("there is no item %d", pl.Item)
		}
		it := p.items[pl.Item]
		along, across := it.Along, it.Across
		if pl.Turned {
			if !it.Turnable {
				return badPlan("item %d must not be turned", pl.Item)
			}
			along, across = across, along
		}
		if pl.Along != along || pl.Across != across {
			return badPlan("item %d lies as %d by %d", pl.Item, pl.Along, pl.Across)
		}
		if along > g.Along || across > height-filled {
			return badPlan("item %d does not fit its segment", pl.Item)
		}
		filled += across
		cut[pl.Item] += times
	}
	return nil
}

// verifyStyle checks what plain and shared strips leave out.
func verifyStyle(style Style, s Strip) error {
	if style == Nested {
		return nil
	}
	first := s.Segments[0].Stack[0]
	for _, g := range s.Segments {
		if len(g.Stack) != 1 {
			return badPlan("a %v strip with a stack of %d pieces", style, len(g.Stack))
		}
		pl := g.Stack[0]
		if style == Plain && (pl.Along != first.Along || pl.Across != s.Height) {
			return badPlan("a plain strip with two sizes")
		}
	}
	return nil
}

func badPlan(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrBadPlan, fmt.Sprintf(format, args...))
}
