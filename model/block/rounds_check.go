package block

import (
	"fmt"
	"slices"
	"strconv"

	"crossgrain/model"
	"crossgrain/model/geometry"
)

// Check notes what is wrong with the centre and with each round, and rounds
// that do not fill the block. at is the place of the block.
func (r Rounds) Check(c *Checker, at model.Path) {
	before := len(c.Faults)
	known := r.checkCentre(c, at.At(KeyCentre))
	for i, round := range r.Rounds {
		round.checkWidth(c, at.At(KeyRounds).Entry(i))
	}
	r.checkOrder(c, at.At(KeyRounds))
	r = r.within(c.Units)
	if known && r.Centre.Side == 0 && r.open() {
		c.Faults.AddAt(at.At(KeyCentre), &model.ValueError{Err: model.ErrMissing,
			Hint: "write the size of the centre, or the width of every round of logs"})
	}
	if known && len(c.Faults) == before && r.Side > 0 && r.Side <= MaxFinished {
		r.checkLines(c, at)
	}
	if r.Centre.Unit == "" {
		c.Fabric(at.At(KeyCentre, KeyFabric), r.Centre.Fabric)
	}
	for i, round := range r.Rounds {
		round.checkFabrics(c, at.At(KeyRounds).Entry(i))
		c.Ease(at.At(KeyRounds).Entry(i), round.Ease)
	}
}

// checkCentre checks the size or the unit of the centre, and reports whether
// its size can be told, if only from the block.
func (r Rounds) checkCentre(c *Checker, at model.Path) (known bool) {
	if r.Centre.Unit == "" {
		if r.Centre.Side != 0 {
			c.Finished(at.At(KeySize), r.Centre.Side)
		}
		return true
	}
	u, known := c.Units[r.Centre.Unit]
	var kind error
	var hint string
	if !known {
		kind, hint = model.ErrUnknownName, "write the label of a unit, or add it to the units"
	} else {
		hint, kind = r.unitFault(c, u)
	}
	if kind != nil {
		c.Faults.AddAt(at.At(KeyUnit), &model.ValueError{Value: r.Centre.Unit, Err: kind, Hint: hint})
		return false
	}
	width, _ := u.Size()
	return width.Sign() > 0 // else the unit has a fault of its own
}

// unitFault is why a unit cannot be the centre, and what to do.
func (r Rounds) unitFault(c *Checker, u Unit) (hint string, kind error) {
	width, height := u.Size()
	_, composite := u.(Composite)
	_, part := u.(Part)
	_, whole := width.Length()
	switch {
	case r.Centre.Fabric != "" || r.Centre.Side != 0:
		return "write the unit alone, or leave it out", model.ErrNotTogether
	case composite && !part:
		return "write a unit that has no other inside", model.ErrNotTogether
	case !width.Equal(height):
		return fmt.Sprintf("it is %s x %s: write a unit that is as wide as it is high", c.about(width), c.about(height)), model.ErrNotSquareUnit
	case !whole:
		return "write a unit whose size is on a mark", model.ErrOffMark
	}
	return "", nil
}

// checkWidth checks that logs have a width, or leave it out, and that others
// have none.
func (r Round) checkWidth(c *Checker, at model.Path) {
	switch {
	case r.Kind > CornerTriangles:
		c.Faults.AddAt(at.At(KeyKind), &model.ValueError{Value: strconv.Itoa(int(r.Kind)), Err: model.ErrNotAChoice, Hint: "write " + wordList(roundWords)})
	case r.Width == 0:
	case r.Kind.isLogs():
		c.Finished(at.At(KeyWidth), r.Width)
	default:
		c.Faults.AddAt(at.At(KeyWidth), &model.ValueError{Value: r.Width.FormatWithUnit(c.Rules.Unit), Err: model.ErrNotTogether,
			Hint: "leave it out: the width of " + r.Kind.String() + " follows from the round before"})
	}
}

// checkFabrics checks that there is one fabric, or one for each side.
func (r Round) checkFabrics(c *Checker, at model.Path) {
	switch len(r.Fabrics) {
	case 1:
		c.Fabric(at.At(KeyFabric), r.Fabrics[0])
	case 4:
		for i, label := range r.Fabrics {
			c.Fabric(at.At(KeyFabrics).Entry(i), label)
		}
	case 0:
		c.Faults.AddAt(at.At(KeyFabric), &model.ValueError{Err: model.ErrMissing, Hint: "write one fabric, or four: one for each side"})
	default:
		c.Faults.AddAt(at.At(KeyFabrics), &model.ValueError{Value: strconv.Itoa(len(r.Fabrics)), Err: model.ErrFabricCount,
			Hint: "write one fabric, or four: one for each side"})
	}
}

// checkOrder checks that each round can be sewn to the one before: trimmed logs
// leave eight sides until corner triangles make them four again.
func (r Rounds) checkOrder(c *Checker, at model.Path) {
	switch n := len(r.Rounds); {
	case n == 0:
		c.Faults.AddAt(at, &model.ValueError{Err: model.ErrMissing, Hint: "write at least one round"})
		return
	case n > MaxRounds:
		c.Faults.AddAt(at, &model.ValueError{Value: strconv.Itoa(n), Err: model.ErrTooMany, Hint: fmt.Sprintf("write at most %d rounds", MaxRounds)})
		return
	}
	square := true
	for i, round := range r.Rounds {
		if round.Kind > CornerTriangles {
			return // a fault already
		}
		fault := &model.ValueError{Value: round.Kind.String(), Err: model.ErrNotTogether}
		switch {
		case square && round.Kind == CornerTriangles:
			fault.Hint = "they close trimmed logs, and there are none before: write triangles"
		case !square && round.Kind != LogsTrimmed && round.Kind != CornerTriangles:
			fault.Hint = "after trimmed logs write trimmed logs or corner triangles"
		default:
			square = round.Kind != LogsTrimmed
			continue
		}
		c.Faults.AddAt(at.Entry(i).At(KeyKind), fault)
		return
	}
	if !square {
		c.Faults.AddAt(at, &model.ValueError{Err: model.ErrOffSum, Hint: "trimmed logs leave the corners open: add a round of corner triangles"})
	}
}

// checkLines checks that the rounds are as large as the block, and that there
// is something of each.
func (r Rounds) checkLines(c *Checker, at model.Path) {
	l := r.lines()
	rounds := at.At(KeyRounds)
	mark := geometry.Of(c.Rules.Ruler)
	switch block := r.Side.FormatWithUnit(c.Rules.Unit); {
	case l.half.Times(2).Less(mark):
		c.Faults.AddAt(at.At(KeyCentre), &model.ValueError{Err: model.ErrTooSmall,
			Hint: fmt.Sprintf("the rounds leave nothing for it in a block of %s: make them narrower, or leave some out", block)})
		return
	case l.loose:
		i := slices.IndexFunc(r.Rounds, func(round Round) bool { return round.Kind.isLogs() && round.Width == 0 })
		c.Faults.AddAt(rounds.Entry(i).At(KeyWidth), &model.ValueError{Err: model.ErrMissing,
			Hint: "the block is of one size whatever it is: write it"})
		return
	case r.open() && l.width.Less(mark):
		c.Faults.AddAt(rounds, &model.ValueError{Err: model.ErrTooSmall,
			Hint: fmt.Sprintf("nothing is left for the logs in a block of %s: make the centre smaller, or leave rounds out", block)})
		return
	case l.centre == diagonal && r.Centre.Unit != "":
		c.Faults.AddAt(at.At(KeyCentre, KeyUnit), &model.ValueError{Value: r.Centre.Unit, Err: model.ErrNotTogether,
			Hint: "with these rounds it would stand on point: add a round of triangles"})
		return
	}
	for i, s := range l.stages {
		if !r.checkStage(c, rounds.Entry(i), r.Rounds[i], s) {
			return
		}
	}
	if sum := l.end.line[l.end.side].Times(2); !sum.Equal(geometry.Of(r.Side)) {
		c.sum(rounds, sum, r.Side, "wide; "+r.closing(c.Rules))
	}
}

// checkStage checks one round; it is not ok if a fault was noted.
func (r Rounds) checkStage(c *Checker, at model.Path, round Round, s stage) (ok bool) {
	limit := geometry.Of(r.Side).Half()
	if s.along == diagonal {
		limit = limit.TimesRoot2() // the line through the corners
	}
	width := s.to.Sub(s.from)
	switch {
	case s.kind == LogsTrimmed && !width.Less(s.half):
		hint := "write less than " + c.about(s.half)
		if round.Width == 0 {
			hint = "make the centre larger, or add rounds"
		}
		c.Faults.AddAt(at.At(KeyWidth), &model.ValueError{Value: c.about(width), Err: model.ErrTooLarge,
			Hint: "the logs would come to a point and end: " + hint})
	case limit.Less(s.edge):
		key := KeyKind
		if round.Width > 0 {
			key = KeyWidth
		}
		c.Faults.AddAt(at.At(key), &model.ValueError{Err: model.ErrTooLarge, Hint: fmt.Sprintf(
			"with it the rounds are larger than the block of %s: %s", r.Side.FormatWithUnit(c.Rules.Unit), r.closing(c.Rules))})
	default:
		return true
	}
	return false
}

// closing is how the rounds could be made to fill the block.
func (r Rounds) closing(rules Rules) string {
	if width, ok := r.widthToClose(rules); ok {
		return fmt.Sprintf("with logs of %s they would fill it", width.FormatWithUnit(rules.Unit))
	}
	for _, round := range r.Rounds {
		if round.Kind.isLogs() {
			return "leave out the width of some logs, to have it worked out"
		}
	}
	return "leave out the size of the centre, to have it worked out"
}
