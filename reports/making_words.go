package reports

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
)

// about says in a line what the quilt is; nothing of a cutting list.
func (d designRows) about() string {
	var parts []string
	if d.size != "" {
		parts = append(parts, "Size "+d.size)
	}
	if d.finished != "" {
		parts = append(parts, "finished "+d.finished)
	}
	if len(d.blocks) > 0 {
		parts = append(parts, "blocks: "+strings.Join(d.blocks, ", "))
	}
	if d.batting != "" {
		parts = append(parts, "batting "+d.batting)
	}
	return sentence(strings.Join(parts, "; "))
}

// trimTo is what a unit is trimmed to.
func trimTo(t block.Trim, u model.Unit) string { return size(t.Width, t.Height, u) }

// others says that the cuts make more than are wanted; nothing where they do
// not.
func (r unitRow) others() string {
	if r.made <= r.count {
		return ""
	}
	return fmt.Sprintf("%d over", r.made-r.count)
}

// how is how a step is carried out with the right hand.
func (s stepRow) how(u model.Unit) string {
	text := sentence(s.step)
	if s.sewn != "" {
		text += " Sew on " + s.sewn + "."
	}
	return text + " " + glueMeasures(s.trim.Words(block.RightHand, u), u)
}

// fraction is a whole number with a fraction behind it.
var fraction = regexp.MustCompile(`(\d) (\d+/\d)`)

// glueMeasures keeps measures in a sentence in one piece.
func glueMeasures(s string, u model.Unit) string {
	s = fraction.ReplaceAllString(s, "$1"+glue+"$2")
	s = strings.ReplaceAll(s, " x ", glue+"x"+glue)
	return strings.ReplaceAll(s, " "+u.String(), glue+u.String())
}

// leftHand tells those who cut with the left hand; nothing where no step is
// trimmed all round.
func (g grownRow) leftHand() string {
	if !slices.ContainsFunc(g.steps, func(s stepRow) bool { return s.trim.AllRound }) {
		return ""
	}
	first := block.FirstSides(block.LeftHand)
	return fmt.Sprintf("If you cut with the left hand, begin each time with the %v and the %v side.", first[0], first[1])
}

// testBlock is the caution of a unit that is made in steps.
const testBlock = "Make one and measure it at each step before you cut the rest."

// sew says how a strip set is sewn and cut.
func (s setRow) sew(u model.Unit) string {
	var times []string
	for _, t := range s.times {
		times = append(times, fmt.Sprintf("%s at%s%s", counted(t.count, "set", "sets"), glue, measure(t.width, u)))
	}
	return fmt.Sprintf("%s: sew strips of %s side by side; cut %s %s wide across: %s.",
		s.label, s.strips, counted(s.Count, "section", "sections"), measure(s.Section, u), strings.Join(times, ", "))
}

// sizesNotProven explains the mark behind a purchase.
const sizesNotProven = "is enough; whether less would do is not settled."

// oneSize says where the rest is.
func oneSize(names []string) string {
	return fmt.Sprintf("For the pieces, the cutting list and the steps of one size, add --size and its name: %s.", strings.Join(names, ", "))
}
