package model

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// The limits of a quilt. They are far beyond any quilt that is sewn, and keep
// every sum of lengths and areas exact.
const (
	MaxPieces       = 100_000 // in a quilt, before halving
	MaxCuts         = 2000    // different sizes of a quilt
	MaxFabrics      = 500     // of a quilt
	MaxUsableWidths = 8       // of a fabric
	MinUsableWidth  = 1 * Inch
	MaxUsableWidth  = 130 * Inch
	MaxSoldBy       = 5 * Yard
	MaxStraighten   = 36 * Inch
	MaxSide         = 1000 * Inch   // of a piece
	MaxRun          = 10_000 * Inch // of strips that are joined
	MaxRuler        = 12 * Inch
	maxName         = 60  // characters
	maxTitle        = 200 // characters
)

// checkQuilt checks what a quilt says before its fabrics, and that it has cuts.
func (f *Faults) checkQuilt(q Quilt) {
	f.checkHead(q)
	f.checkList(Fault{Part: WholeQuilt, Index: -1}, FieldCuts, len(q.Cuts)+len(q.Strips), MaxCuts)
}

// checkHead checks what a quilt says before its fabrics.
func (f *Faults) checkHead(q Quilt) {
	at := Fault{Part: WholeQuilt, Index: -1}
	f.checkText(at, FieldTitle, q.Title, maxTitle)
	if q.Unit != Inches && q.Unit != Centimetres {
		f.add(at, FieldUnit, &ValueError{Err: ErrNotAUnit, Hint: "write in or cm"})
	}
	ruler := q.Ruler.Exact()
	switch mark := DefaultRuler(q.Unit).Format(q.Unit); {
	case q.Ruler <= 0:
		f.add(at, FieldRuler, &ValueError{Value: ruler, Err: ErrNotPositive, Hint: "write a mark such as " + mark})
	case q.Ruler > MaxRuler:
		f.add(at, FieldRuler, &ValueError{Value: ruler, Err: ErrOutOfRange, Hint: "write a mark such as " + mark})
	case !q.Ruler.writable():
		f.add(at, FieldRuler, &ValueError{Value: ruler, Err: ErrTooFine, Hint: "write a mark such as " + mark})
	}
	f.checkList(at, FieldFabrics, len(q.Fabrics), MaxFabrics)
}

// checkList checks that a list has entries, and not too many.
func (f *Faults) checkList(at Fault, field string, entries, most int) {
	switch {
	case entries == 0:
		f.add(at, field, &ValueError{Err: ErrMissing, Hint: "write at least one"})
	case entries > most:
		f.add(at, field, &ValueError{Err: ErrTooMany, Hint: fmt.Sprintf("write at most %d", most)})
	}
}

// checkText checks a text that may be empty.
func (f *Faults) checkText(at Fault, field, text string, longest int) {
	unprintable := func(r rune) bool { return !unicode.IsGraphic(r) || r == utf8.RuneError }
	switch {
	case !utf8.ValidString(text) || strings.ContainsFunc(text, unprintable):
		f.add(at, field, &ValueError{Value: text, Err: ErrNotPrintable, Hint: "leave out line breaks, tabs and control characters"})
	case strings.TrimSpace(text) != text:
		f.add(at, field, &ValueError{Value: text, Err: ErrNotPrintable, Hint: "leave out the spaces around it"})
	case utf8.RuneCountInString(text) > longest:
		f.add(at, field, &ValueError{Value: text, Err: ErrTooManyChars, Hint: fmt.Sprintf("write at most %d characters", longest)})
	}
}

// checkLabel checks a text that must be there and unique among the labels
// seen.
func (f *Faults) checkLabel(at Fault, field, label string, seen map[string]bool) {
	switch {
	case label == "":
		f.add(at, field, &ValueError{Err: ErrMissing, Hint: "write a label such as A"})
	case seen[label]:
		f.add(at, field, &ValueError{Value: label, Err: ErrDuplicate, Hint: "write another label"})
	default:
		f.checkName(at, field, label, maxName)
	}
	seen[label] = true
}

// checkName checks a text that is a name. Curly quotes around it are a slip:
// YAML takes them for letters.
func (f *Faults) checkName(at Fault, field, name string, longest int) {
	if strings.HasPrefix(name, "“") || strings.HasSuffix(name, "”") {
		f.add(at, field, &ValueError{Value: name, Err: ErrCurlyQuotes, Hint: "write straight ones or none"})
		return
	}
	f.checkText(at, field, name, longest)
}

func (f *Faults) checkFabrics(q Quilt) {
	seen, named := make(map[string]bool, len(q.Fabrics)), make(map[string]bool, len(q.Fabrics))
	for i, fabric := range q.Fabrics {
		at := Fault{Part: FabricPart, Index: i, Name: fabric.ID}
		again := seen[fabric.ID]
		f.checkLabel(at, FieldID, fabric.ID, seen)
		if fabric.Name != "" && named[fabric.Name] && !again {
			f.add(at, FieldName, &ValueError{Value: fabric.Name, Err: ErrDuplicate, Hint: "write another name, or use one fabric"})
		} else {
			f.checkName(at, FieldName, fabric.Name, maxTitle)
		}
		named[fabric.Name] = true
		f.checkWidths(at, fabric.UsableWidths, q.Unit)
		switch step := fabric.SoldBy; {
		case step.Step <= 0:
			f.add(at, FieldSoldBy, &ValueError{Value: step.String(), Err: ErrNotPositive, Hint: "write a step such as 1/8 yd or 10 cm"})
		case step.Step > MaxSoldBy:
			f.add(at, FieldSoldBy, &ValueError{Value: step.String(), Err: ErrOutOfRange, Hint: "write a step of at most " + ShopCut{Unit: step.Unit}.Format(MaxSoldBy)})
		}
		if fabric.Straighten < 0 || fabric.Straighten > MaxStraighten {
			f.add(at, FieldStraighten, &ValueError{
				Value: fabric.Straighten.FormatWithUnit(q.Unit), Err: ErrOutOfRange,
				Hint: "write 0 to " + MaxStraighten.FormatWithUnit(q.Unit),
			})
		}
		if fabric.Shrinkage < 0 || fabric.Shrinkage > MaxPercent {
			f.add(at, FieldShrinkage, &ValueError{Value: fabric.Shrinkage.String(), Err: ErrNotAPercent, Hint: "write it like 2% or 2.5%"})
		}
		if fabric.Price < 0 || fabric.Price > MaxPrice {
			f.add(at, FieldPrice, &ValueError{Value: fabric.Price.String(), Err: ErrNotAPrice, Hint: "write at most " + MaxPrice.String()})
		}
	}
}

// checkWidths checks the usable widths of one fabric, or of all.
func (f *Faults) checkWidths(at Fault, widths []Length, u Unit) {
	if len(widths) == 0 {
		f.add(at, FieldUsableWidths, &ValueError{Err: ErrMissing, Hint: "write at least one width, as in [40, 42]"})
	}
	for i, w := range widths {
		at.Item = i
		switch value := w.FormatWithUnit(u); {
		case i == MaxUsableWidths:
			f.checkList(at, FieldUsableWidths, len(widths), MaxUsableWidths)
			return
		case w < MinUsableWidth || w > MaxUsableWidth:
			f.add(at, FieldUsableWidths, &ValueError{Value: value, Err: ErrOutOfRange, Hint: fmt.Sprintf(
				"write %s to %s", MinUsableWidth.FormatWithUnit(u), MaxUsableWidth.FormatWithUnit(u))})
		case slices.Contains(widths[:i], w):
			f.add(at, FieldUsableWidths, &ValueError{Value: value, Err: ErrDuplicate, Hint: "write each width once"})
		}
	}
}
