package reports

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"crossgrain/model"
	"crossgrain/pack"
)

// glue is a space at which a line is not broken, so that a measure such as
// 2 1/2 x 4 1/2 in stays in one piece.
const glue = "\u00a0"

// clean makes a text safe to print: what is not a printable character, an
// escape code, say, becomes a space.
func clean(s string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, " ")))
}

// measure is a length with its unit: "4 1/2 in".
func measure(l model.Length, u model.Unit) string {
	return glued(l.FormatWithUnit(u))
}

// size is a piece's size as it lies, along the strip first: "2 1/2 x 4 1/2 in",
// "2 7/8 in square".
func size(along, across model.Length, u model.Unit) string {
	if along == across {
		return measure(along, u) + glue + "square"
	}
	return strings.ReplaceAll(along.Format(u)+" x ", " ", glue) + measure(across, u)
}

// counted is a number of things: "1 strip", "3 strips".
func counted(n int, thing, things string) string {
	if n == 1 {
		return "1" + glue + thing
	}
	return fmt.Sprint(n) + glue + things
}

// cutStrips says which strips to cut: "Cut 3 strips 4 1/2 in high."
func cutStrips(s stripRow, u model.Unit) string {
	return fmt.Sprintf("Cut %s %s high.", counted(s.count(), "strip", "strips"), measure(s.Height, u))
}

// fromEach starts the sentence about what a step's strips are subcut into.
func fromEach(s stripRow) string {
	switch {
	case s.part != nil:
		return "From them"
	case s.Repeat == 1:
		return "From it"
	}
	return "From each"
}

// subcutAll says what is cut from all strips of a step that holds one piece:
// "subcut 20 F, 2 1/2 x 4 1/2 in, 16 from a whole strip".
func subcutAll(s stripRow, u model.Unit) string {
	if s.part == nil {
		return subcut(s.cuts[0], u)
	}
	c := s.cuts[0]
	each := c.repeat
	c.repeat = each*s.Repeat + s.part.Segments[0].Repeat
	return fmt.Sprintf("%s, %d from a whole strip", subcut(c, u), each)
}

// subcut says what is cut from a strip in one go, without a capital and
// without a full stop.
func subcut(c cutRow, u model.Unit) string {
	if c.single() {
		return fmt.Sprintf("subcut %d%s%s", c.repeat, glue, stacked(c.stack[0], u))
	}
	var runs []string
	for _, s := range c.stack {
		runs = append(runs, fmt.Sprintf("%d%s%s", s.count, glue, stacked(s, u)))
	}
	if last := len(runs) - 1; last > 0 {
		runs[last] = "and " + runs[last]
	}
	which := "it"
	if c.repeat > 1 {
		which = "each"
	}
	return fmt.Sprintf("cut off %s %s long and cut %s into %s",
		counted(c.repeat, "stretch", "stretches"), measure(c.along, u), which, strings.Join(runs, "; "))
}

// stacked is a piece as it lies, and what is still to be trimmed from it.
func stacked(s stackRow, u model.Unit) string {
	text := s.label + ", " + size(s.along, s.across, u)
	if s.turned {
		text += ", turned"
	}
	switch {
	case s.trimAlong && s.trimAcross:
		text += ", trimmed to size"
	case s.trimAlong:
		text += ", trimmed to " + measure(s.along, u) + " long"
	case s.trimAcross:
		text += ", trimmed to " + measure(s.across, u) + " high"
	}
	return text
}

// stepWords are the words of a step: a sentence, which is all where one piece is
// cut, or else the cuts that follow it and what is left.
func stepWords(s stripRow, u model.Unit) (first string, cuts []string, left string) {
	first, left = cutStrips(s, u)+" "+fromEach(s), offcut(s, u)
	if len(s.cuts) == 1 {
		return strings.TrimSpace(first + " " + subcutAll(s, u) + ". " + left), nil, ""
	}
	for _, c := range s.cuts {
		cuts = append(cuts, subcut(c, u))
	}
	return first + ":", cuts, left
}

// offcut says what is left at the end of a strip; nothing where nothing is.
func offcut(s stripRow, u model.Unit) string {
	if s.part != nil {
		return offcuts(s, u)
	}
	if s.Offcut == 0 {
		return ""
	}
	of := "at the end"
	if s.Repeat > 1 {
		of = "at the end of each"
	}
	return fmt.Sprintf("Offcut:"+glue+"%s %s.", size(s.Offcut, s.Height, u), of)
}

// offcuts says what is left of whole strips and of the last one.
func offcuts(s stripRow, u model.Unit) string {
	last := size(s.part.Offcut, s.Height, u)
	switch {
	case s.Offcut == 0:
		return fmt.Sprintf("Offcut:"+glue+"%s at the end of the last.", last)
	case s.Repeat == 1:
		return fmt.Sprintf("Offcuts:"+glue+"%s at the end of the whole one, %s at the end of the other.",
			size(s.Offcut, s.Height, u), last)
	}
	return fmt.Sprintf("Offcuts:"+glue+"%s at the end of each whole one, %s at the end of the last.",
		size(s.Offcut, s.Height, u), last)
}

// together lists how many of each piece a fabric gives.
func together(w widthRows) string {
	var runs []string
	for _, p := range w.pieces {
		runs = append(runs, fmt.Sprintf("%d%s%s", p.Count, glue, p.label))
	}
	return "Together: " + strings.Join(runs, ", ") + "."
}

// stripSize is the size of full-width strips: "strip, 2 1/2 in", and where
// they are more or fewer at other widths: "strip, 2 1/2 in, at 40 in".
func stripSize(s needRow, u model.Unit) string {
	text := "strip," + glue + measure(s.Height, u)
	if s.at == nil {
		return text
	}
	widths := make([]string, len(s.at))
	for i, w := range s.at {
		widths[i] = w.Format(u)
	}
	return text + ", at" + glue + glued(strings.Join(widths, ", ")) + glue + u.String()
}

// known says what is known of a purchase that is not proven to be the least.
func known(w widthRows, f model.Fabric) string {
	less := glued(w.AtLeast.Text)
	if w.AtLeast.Length+f.SoldBy.Step < w.Buy.Length {
		less = "less, down to " + less + ","
	}
	return fmt.Sprintf("%s is enough; whether %s would do is not settled", glued(w.Buy.Text), less)
}

// simpler says that the plain plan would do as well; nothing where it is the
// plan, or buys more.
func simpler(w widthRows) string {
	if !w.simpler {
		return ""
	}
	return "The plain plan buys the same and is simpler to cut (--style" + glue + "plain)."
}

// taken says what a plan's strips take of the cloth, and what is known of it.
func taken(w widthRows, u model.Unit) string {
	text := fmt.Sprintf("%s in %s take %s",
		counted(w.stripCount, "strip", "strips"),
		counted(w.layoutCount, "layout", "layouts"), measure(w.length, u))
	if w.stripCount == 1 {
		text = fmt.Sprintf("1%sstrip takes %s", glue, measure(w.length, u))
	}
	if w.Result.LengthProven() {
		text += fmt.Sprintf(", and no %v plan takes less", w.Result.Plan.Style)
		if w.Result.FewestStrips && w.stripCount > 1 {
			text += ", or as little in fewer strips"
		}
		text += "."
	} else {
		text += fmt.Sprintf("; at least %s is needed.", measure(w.Result.Bound, u))
	}
	return text
}

// about is what is said of a plan before its strips.
func about(w widthRows, f model.Fabric, q quiltRows) string {
	var said []string
	for _, s := range []string{taken(w, q.unit), grown(w, f, q), simpler(w)} {
		if s != "" {
			said = append(said, s)
		}
	}
	return strings.Join(said, " ")
}

// grown says what shrinkage and straightening make of a plan's length, rounded
// up to the ruler's mark; nothing where they change nothing.
func grown(w widthRows, f model.Fabric, q quiltRows) string {
	if w.Need == w.length {
		return ""
	}
	var with []string
	if f.Shrinkage > 0 {
		with = append(with, "shrinkage")
	}
	if f.Straighten > 0 {
		with = append(with, "straightening")
	}
	return fmt.Sprintf("With %s it is %s.", strings.Join(with, " and "), measure(w.Need.CeilTo(q.ruler), q.unit))
}

// unitWords are the units in full.
var unitWords = map[model.Unit]string{model.Inches: "inches", model.Centimetres: "centimetres"}

func glued(s string) string { return strings.ReplaceAll(s, " ", glue) }

func unglued(s string) string { return strings.ReplaceAll(s, glue, " ") }

// sentence gives a text its capital and its full stop.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	return capital(s) + "."
}

// capital gives a text its capital.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// styleWords tells what strips each style may use.
var styleWords = map[pack.Style]string{
	pack.Plain:  "each cut size is cut from strips of its own",
	pack.Shared: "sizes may share a strip; a piece lower than its strip is trimmed",
	pack.Nested: "sizes may share a strip, and a stretch of a strip may be cut into a stack of lower pieces",
}

// byHand and proven explain two columns of what to buy.
const byHand = "the plain plan: what to buy when each cut size is cut from strips of its own"

func proven(s pack.Style) string {
	return fmt.Sprintf("yes says that no %v plan buys less (%s)", s, styleWords[s])
}

// term is a word of the report and what it means.
type term struct{ word, meaning string }

// terms explains the words that a quilt's rows use, and no others.
func terms(q quiltRows) []term {
	var has struct{ layout, offcut, part, stretch, turned, trimmed bool }
	for _, f := range q.fabrics {
		for _, w := range f.widths {
			has.part = has.part || f.hasPart(w)
			// A plan of one strip does not speak of its layout.
			has.layout = has.layout || w.stripCount > 1
			for _, s := range w.strips {
				has.offcut = has.offcut || s.Offcut > 0
				for _, c := range s.cuts {
					has.stretch = has.stretch || !c.single()
					for _, p := range c.stack {
						has.turned = has.turned || p.turned
						has.trimmed = has.trimmed || p.trimAlong || p.trimAcross
					}
				}
			}
		}
	}
	list := []term{{"usable width", "what is left of the cloth's width between the selvages"}}
	if q.compares() {
		list = append(list, term{"by hand", byHand})
	}
	list = append(list,
		term{"proven", proven(q.style)},
		term{"strip", "a cut across the whole usable width; its height is measured along the selvage"},
		term{"subcut", "cut the strip across into pieces; sizes are given along the strip first"},
	)
	for _, t := range []struct {
		used bool
		term
	}{
		{has.layout, term{"layout", "a way to subcut a strip; strips of one layout are cut alike"}},
		{has.part, term{"part", "the last of a number of strips, of which only this length is used"}},
		{has.stretch, term{"stretch", "a part of a strip, cut off across it and then cut into pieces one below the other"}},
		{has.turned, term{"turned", "the piece lies a quarter turn from the way the cut list gives it"}},
		{has.trimmed, term{"trimmed", "the cut leaves the piece too big; cut it down to its size"}},
		{has.offcut, term{"offcut", "what is left of a strip"}},
	} {
		if t.used {
			list = append(list, t.term)
		}
	}
	return list
}

// cautions are printed with every cutting list. Common practice, no source.
var cautions = []string{
	"A rotary cutter's blade is very sharp: cut away from yourself, keep your fingers back from the " +
		"ruler's edge, and close the blade every time you put the cutter down.",
	"Measure the usable width of your own cloth first. If it is narrower than planned for, plan again.",
	"Cut and sew one test block before you cut everything.",
	"Follow the directions of your fabric's and your tools' makers; they go before these.",
}

// assumed lists what a quilt's figures rest on: of the whole, then of each
// fabric.
func assumed(q quiltRows) []term {
	list := []term{
		{"Plans", q.style.String() + ": " + styleWords[q.style]},
		{"Unit", q.unit.String()},
	}
	if q.ruler > 0 {
		list = append(list, term{"Ruler", "cut sizes are on marks of " + measure(q.ruler, q.unit)})
	}
	for _, f := range q.fabrics {
		list = append(list, term{f.label, assumedOf(f.fabric, q.unit)})
	}
	return list
}

func assumedOf(f model.Fabric, u model.Unit) string {
	var widths []string
	for _, w := range f.UsableWidths {
		widths = append(widths, w.Format(u))
	}
	parts := []string{
		fmt.Sprintf("usable width %s %v", strings.Join(widths, " or "), u),
		"sold by " + f.SoldBy.String(),
		lost("straightening", f.Straighten == 0, measure(f.Straighten, u)),
		lost("shrinkage", f.Shrinkage == 0, f.Shrinkage.String()),
	}
	if f.OneWay {
		parts = append(parts, "one-way: pieces are not turned")
	}
	return strings.Join(parts, "; ")
}

func lost(what string, nothing bool, amount string) string {
	if nothing {
		return "nothing for " + what
	}
	return amount + " for " + what
}
