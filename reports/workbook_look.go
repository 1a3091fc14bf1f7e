package reports

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

const (
	fontFamily = "Arial"
	fontSize   = 10
	columnSize = 11   // the workbook's own, whose digits columns are measured in
	lineHeight = 1.22 // of the font's size
	rowPadding = 6    // in points

	inkColour  = "1F2A44"
	paleColour = "6B7488"
	ruleColour = "B8BFCC"
	headFill   = "1F2A44"
	bandFill   = "E4E9F2"
	inputFill  = "FFF4CC"
)

// Number formats. Fractions are shown in lowest terms, those over more than 9
// with the finer format; a decimal shows as many places as it has. Each ends
// with a little room before the border, which LibreOffice does not always
// leave for an indent.
const (
	fractions = `# ?/?_)`
	finer     = `# ??/??_)`
	decimals  = `General_)`
	wholes    = `0_)`
	shares    = `0.0%_)`
	percents  = `0.##%_)`
	money     = `0.00_)`
)

// look is how a cell looks; each different one becomes one style of the
// workbook.
type look struct {
	size         float64
	bold, italic bool
	colour, fill string
	align        string
	format       string
	boxed, wrap  bool
}

var (
	titleLook   = look{size: 18, bold: true, colour: inkColour, align: "left", wrap: true}
	aboutLook   = look{size: fontSize, italic: true, colour: paleColour, align: "left", wrap: true}
	noteLook    = look{size: fontSize, bold: true, colour: inkColour, align: "left", wrap: true}
	headingLook = look{size: fontSize, bold: true, colour: "FFFFFF", fill: headFill, boxed: true, wrap: true, align: "left"}
	bandLook    = look{size: fontSize + 1, bold: true, colour: inkColour, fill: bandFill, boxed: true, wrap: true, align: "left"}
	bandNote    = look{size: fontSize, italic: true, colour: inkColour, fill: bandFill, boxed: true, wrap: true, align: "left"}
	textLook    = look{size: fontSize, boxed: true, wrap: true, align: "left"}
	strongLook  = look{size: fontSize, bold: true, boxed: true, wrap: true, align: "left"}
	middleLook  = look{size: fontSize, boxed: true, align: "center"}
	countLook   = look{size: fontSize, boxed: true, align: "right", format: wholes}
	lengthLook  = look{size: fontSize, boxed: true, align: "right"}
	boughtLook  = look{size: fontSize, bold: true, boxed: true, align: "right"}
	inputLook   = look{size: fontSize, boxed: true, align: "right", fill: inputFill}
	totalLook   = look{size: fontSize, bold: true, colour: inkColour, fill: bandFill, boxed: true, align: "right"}
	tickLook    = look{size: fontSize + 3, boxed: true, align: "center"}
)

func (l look) aligned(align string) look {
	l.align = align
	return l
}

func (l look) formatted(format string) look {
	l.format = format
	return l
}

// style is the workbook's number for a look.
func (b *book) style(l look) int {
	if id, ok := b.styles[l]; ok {
		return id
	}
	indent := 0
	if l.boxed && l.format == "" && l.align != "center" {
		indent = 1
	}
	s := &excelize.Style{
		Font:      &excelize.Font{Family: fontFamily, Size: l.size, Bold: l.bold, Italic: l.italic, Color: l.colour},
		Alignment: &excelize.Alignment{Horizontal: l.align, Vertical: "center", WrapText: l.wrap, Indent: indent},
	}
	if l.fill != "" {
		s.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{l.fill}}
	}
	if l.format != "" {
		s.CustomNumFmt = &l.format
	}
	if l.boxed {
		for _, side := range []string{"left", "top", "right", "bottom"} {
			s.Border = append(s.Border, excelize.Border{Type: side, Color: ruleColour, Style: 1})
		}
	}
	id, err := b.file.NewStyle(s)
	b.do(err)
	b.styles[l] = id
	return id
}

// page sets how a sheet is printed: upright, as wide as the page.
func (s *sheet) page() {
	upright, one, any := "portrait", 1, 0
	s.do(s.file.SetPageLayout(s.name, &excelize.PageLayoutOptions{
		Size: &s.paper.code, Orientation: &upright, FitToWidth: &one, FitToHeight: &any,
	}))
	fit := true
	s.do(s.file.SetSheetProps(s.name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	side, ends, edge := sideMargin, endMargin, 0.35
	s.do(s.file.SetPageMargins(s.name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &ends, Bottom: &ends, Header: &edge, Footer: &edge,
	}))
	s.do(s.file.SetHeaderFooter(s.name, &excelize.HeaderFooterOptions{
		OddFooter: "&L" + footerText(s.first().heading()) + ", &A&RPage &P of &N",
	}))
	noGrid := false
	s.do(s.file.SetSheetView(s.name, 0, &excelize.ViewOptions{ShowGridLines: &noGrid}))
}

// footerText is a text as a footer has it, in which & begins a code; the rest
// of one that is too long is left out.
func footerText(text string) string {
	return strings.ReplaceAll(shortened(text, 100), "&", "&&")
}

// sideways prints the sheet across the page.
func (s *sheet) sideways() {
	s.paper = s.paper.sideways()
	across := "landscape"
	s.do(s.file.SetPageLayout(s.name, &excelize.PageLayoutOptions{Orientation: &across}))
}

// keepHeadings freezes the rows down to the headings and prints these on every
// page.
func (s *sheet) keepHeadings() {
	s.do(s.file.SetPanes(s.name, &excelize.Panes{
		Freeze: true, YSplit: headingRow, TopLeftCell: fmt.Sprintf("A%d", firstRow), ActivePane: "bottomLeft",
	}))
	s.do(s.file.SetDefinedName(&excelize.DefinedName{
		Name:     "_xlnm.Print_Titles",
		RefersTo: fmt.Sprintf("%s!$%d:$%d", quoted(s.name), headingRow, headingRow),
		Scope:    s.name,
	}))
}

// tenthsOfDigit is about how wide a text is in the workbook's font, in tenths
// of the width of a digit, in which columns are measured.
func tenthsOfDigit(s string) int {
	sum := 0
	for _, r := range s {
		switch {
		case strings.ContainsRune(" \u00a0ijltfrI.,;:'!|/()[]-", r):
			sum += 6
		case strings.ContainsRune("mwMW%@", r):
			sum += 16
		case unicode.IsUpper(r):
			sum += 13
		case r > 0x2e80: // East Asian letters and pictures
			sum += 20
		default:
			sum += 10
		}
	}
	return sum
}

// height is what a text needs in a column of the given width, in points. It
// is an estimate on the safe side.
func (l look) height(s string, width float64) float64 {
	if !l.wrap {
		return l.size * lineHeight
	}
	room := (width - 2) * 10 * columnSize / l.size
	if l.bold {
		room *= 0.93
	}
	lines := 0
	for _, paragraph := range strings.Split(s, "\n") {
		lines += len(wrapBy(paragraph, int(max(room, 1)), tenthsOfDigit))
	}
	return float64(lines)*l.size*lineHeight + rowPadding
}

// lengthIn is a length as a number in the quilt's unit, and its format.
func lengthIn(l model.Length, u model.Unit) (float64, string) {
	if u == model.Centimetres {
		return multiple(l, model.Centimetre), decimals
	}
	return multiple(l, model.Inch), fractionFormat(model.Inch, l)
}

// soldIn is a length of cloth as a number in its unit of sale, and its format.
func soldIn(l model.Length, u model.CutUnit) (float64, string) {
	switch u {
	case model.Metres:
		return multiple(l, model.Metre), decimals
	case model.CentimetresOfCloth:
		return multiple(l, model.Centimetre), decimals
	case model.InchesOfCloth:
		return multiple(l, model.Inch), fractionFormat(model.Inch, l)
	}
	return multiple(l, model.Yard), fractionFormat(model.Yard, l)
}

func multiple(l, unit model.Length) float64 { return float64(l) / float64(unit) }

// fractionFormat is the format that shows lengths in multiples of the unit
// without rounding, where fractions over 99 or less can, and any sum of them.
func fractionFormat(unit model.Length, lengths ...model.Length) string {
	whole := func(over model.Length) bool {
		return !slices.ContainsFunc(lengths, func(l model.Length) bool { return !(l * over).OnMark(unit) })
	}
	if whole(1) {
		return wholes
	}
	for over := model.Length(2); over <= 9; over++ {
		if whole(over) {
			return fractions
		}
	}
	return finer
}

// sumFormat is the format of sums of lengths in the quilt's unit. Whole numbers
// stand where they would stand before a fraction.
func sumFormat(u model.Unit, lengths ...model.Length) string {
	if u == model.Centimetres {
		return decimals
	}
	if format := fractionFormat(model.Inch, lengths...); format != wholes {
		return format
	}
	return fractions
}
