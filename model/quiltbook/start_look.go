package quiltbook

import (
	"fmt"
	"math"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"crossgrain/model"
)

const (
	fontFamily = "Arial"
	fontSize   = 10.0

	inkColour  = "1F2A44"
	paleColour = "6B7488"
	ruleColour = "B8BFCC"
	headFill   = "1F2A44"
	bandFill   = "E4E9F2"
	inputFill  = "FFF8E1" // of the boxes to write in
)

// The formats of cells to write in. What is typed into a text cell stays as it
// is typed: 1/2 is no date there.
const (
	textFormat  = "@"
	wholeFormat = "0_)" // with a little room before the border
)

// look is how a cell looks; each different one becomes one style.
type look struct {
	size         float64
	bold, italic bool
	colour, fill string
	align        string
	format       string
	boxed        bool
	flush        bool // without room at its side
}

var (
	titleLook   = look{size: 18, bold: true, colour: inkColour, flush: true}
	aboutLook   = look{size: fontSize, italic: true, colour: paleColour, flush: true}
	headingLook = look{size: fontSize, bold: true, colour: "FFFFFF", fill: headFill, boxed: true}
	bandLook    = look{size: fontSize + 1, bold: true, colour: inkColour, fill: bandFill, boxed: true}
	hintLook    = look{size: fontSize - 1, italic: true, colour: paleColour}
	textLook    = look{size: fontSize, boxed: true}
	strongLook  = look{size: fontSize, bold: true, boxed: true}
	paleLook    = look{size: fontSize, italic: true, colour: paleColour, boxed: true}
	inputLook   = look{size: fontSize, boxed: true, format: textFormat, align: "left", fill: inputFill}

	textCellLook = look{size: fontSize, format: textFormat}
)

// lookOf is the look of the cells of a column.
func lookOf(name string) look {
	l := inputLook
	switch name {
	case model.FieldCount:
		l.align, l.format, l.flush = "right", wholeFormat, true
	case fieldWidth, fieldHeight, model.FieldStraighten, model.FieldShrinkage, model.FieldPrice:
		l.align = "right"
	}
	return l
}

// style is the workbook's number for a look.
func (s *starter) style(l look) int {
	if id, ok := s.styles[l]; ok {
		return id
	}
	align := l.align
	if align == "" {
		align = "left"
	}
	style := &excelize.Style{
		Font:      &excelize.Font{Family: fontFamily, Size: l.size, Bold: l.bold, Italic: l.italic, Color: l.colour},
		Alignment: &excelize.Alignment{Horizontal: align, Vertical: "center", WrapText: l.format == ""},
	}
	if !l.flush {
		style.Alignment.Indent = 1
	}
	if l.fill != "" {
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{l.fill}}
	}
	switch l.format {
	case textFormat:
		style.NumFmt = 49
	case wholeFormat:
		style.CustomNumFmt = &l.format
	}
	if l.boxed {
		for _, side := range []string{"left", "top", "right", "bottom"} {
			style.Border = append(style.Border, excelize.Border{Type: side, Color: ruleColour, Style: 1})
		}
	}
	id, err := s.file.NewStyle(style)
	s.do(err)
	s.styles[l] = id
	return id
}

// heightOf is what a text needs in a column of the given width, in points; an
// estimate on the safe side.
func heightOf(text string, width float64) float64 {
	const lineHeight, padding, least = 13.0, 7.0, 22.0
	lines := math.Ceil(float64(utf8.RuneCountInString(text)) / (width - 3))
	return max(lines*lineHeight+padding, least)
}

// page sets how a sheet is printed: as wide as the page, with its headings on
// every page, which also stay in view.
func (s *starter) page(sheet, way string, headings int) {
	one, any, fit := 1, 0, true
	s.do(s.file.SetPageLayout(sheet, &excelize.PageLayoutOptions{Orientation: &way, FitToWidth: &one, FitToHeight: &any}))
	s.do(s.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit}))
	side, foot, edge := 0.6, 0.8, 0.35
	s.do(s.file.SetPageMargins(sheet, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &side, Bottom: &foot, Header: &edge, Footer: &edge}))
	s.do(s.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}))
	noGrid := false
	s.do(s.file.SetSheetView(sheet, 0, &excelize.ViewOptions{ShowGridLines: &noGrid}))
	if headings == 0 {
		return
	}
	s.do(s.file.SetPanes(sheet, &excelize.Panes{
		Freeze: true, YSplit: headings, TopLeftCell: at{headings + 1, 1}.String(), ActivePane: "bottomLeft"}))
	s.do(s.file.SetDefinedName(&excelize.DefinedName{
		Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("'%s'!$%d:$%[2]d", sheet, headings), Scope: sheet}))
}
