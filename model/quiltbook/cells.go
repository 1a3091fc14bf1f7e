package quiltbook

import (
	"encoding/xml"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"crossgrain/model"
)

// How far from the first cell anything may stand. A quilt has at most 2000
// cuts; the rest is room for blank rows and for notes beside the table.
const (
	maxRow    = 10_000
	maxColumn = 50
)

// kind is what a cell holds.
type kind uint8

const (
	blank kind = iota
	text
	number
	truth    // TRUE or FALSE
	date     // a day that is written out
	mistake  // an error of the spreadsheet, such as #REF!
	noResult // a formula that was never worked out
)

// cell is what a cell holds, as the workbook keeps it.
type cell struct {
	kind   kind
	value  string
	format format
}

// at is a place on a sheet. Row and column count from 1.
type at struct{ row, column int }

// String is the place as a spreadsheet calls it: C7.
func (a at) String() string { return columnName(a.column) + strconv.Itoa(a.row) }

func columnName(column int) string {
	name := ""
	for ; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

// grid is the cells of a sheet that are not blank, row by row.
type grid struct {
	name string
	rows map[int]map[int]cell
}

func (g grid) cell(a at) cell { return g.rows[a.row][a.column] }

// rowNumbers are the rows that hold anything, from the top.
func (g grid) rowNumbers() []int { return slices.Sorted(maps.Keys(g.rows)) }

// fault is an error at a cell of a sheet.
type fault struct {
	at  at
	err error
}

// grid reads the cells of a sheet. Something far from the table ends the
// reading, and is told as a fault.
func (b *workbook) grid(part sheetPart) (grid, *fault, error) {
	g := grid{part.name, make(map[int]map[int]cell)}
	var far *fault
	var place at
	err := b.read(part.part, func(d *xml.Decoder) error {
		return each(d, func(e xml.StartElement) error {
			switch e.Name.Local {
			case "row":
				place = at{row: place.row + 1}
				if n := numberOr(attribute(e, "r"), 0); n > 0 {
					place.row = n
				}
			case "c":
				place.column++
				if ref, ok := parsePlace(attribute(e, "r")); ok {
					place = ref
				}
				c, err := b.cell(d, e)
				if err != nil || c.kind == blank {
					return err
				}
				if place.row > maxRow || place.column > maxColumn {
					far = &fault{place, tooFar(c)}
					return errStop
				}
				if g.rows[place.row] == nil {
					g.rows[place.row] = make(map[int]cell)
				}
				g.rows[place.row][place.column] = c
			}
			return nil
		})
	})
	return g, far, err
}

func tooFar(c cell) error {
	return &model.ValueError{Value: c.value, Err: ErrFarAway, Hint: fmt.Sprintf(
		"delete this cell and what else stands right of column %s or below row %d, or move it to another sheet",
		columnName(maxColumn), maxRow)}
}

func numberOr(s string, otherwise int) int {
	if n, err := strconv.Atoi(s); err == nil {
		return n
	}
	return otherwise
}

// parsePlace reads a place such as C7.
func parsePlace(s string) (at, bool) {
	letters := strings.TrimRight(s, "0123456789")
	row, err := strconv.Atoi(s[len(letters):])
	if err != nil || letters == "" || len(letters) > 3 {
		return at{}, false
	}
	column := 0
	for _, r := range letters {
		if r < 'A' || r > 'Z' {
			return at{}, false
		}
		column = column*26 + int(r-'A') + 1
	}
	return at{row, column}, true
}

// cell reads one cell. Texts of blanks alone are blank.
func (b *workbook) cell(d *xml.Decoder, start xml.StartElement) (cell, error) {
	held, err := contents(d)
	if err != nil {
		return cell{}, err
	}
	c := cell{value: strings.TrimSpace(held.value)}
	if style := numberOr(attribute(start, "s"), 0); style >= 0 && style < len(b.formats) {
		c.format = b.formats[style]
	}
	switch attribute(start, "t") {
	case "s":
		i := numberOr(c.value, -1)
		if i < 0 || i >= len(b.strings) {
			return cell{}, nil
		}
		c.kind, c.value = text, oneLine(b.strings[i])
	case "inlineStr":
		c.kind, c.value = text, oneLine(held.inline)
	case "str":
		c.kind, c.value = text, oneLine(unescaped(held.value))
	case "b":
		c.kind = truth
	case "e":
		c.kind = mistake
	case "d":
		c.kind = date
	default:
		c.kind = number
	}
	switch {
	case held.formula && !held.result:
		c.kind = noResult
	case c.value == "":
		c.kind = blank
	}
	return c, nil
}

// oneLine is a text without the line breaks, tabs and hard spaces that slip
// into cells, and without blanks around it.
func oneLine(s string) string {
	s = strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ", "\t", " ", "\u00a0", " ", "\u202f", " ", "\u200b", "", "\ufeff", "").Replace(s)
	return strings.TrimSpace(s)
}

// held is what stands in a cell: a value, or a text of its own; and whether it
// is a formula, with a result.
type held struct {
	value, inline   string
	formula, result bool
}

// contents are what an open cell holds, up to its end.
func contents(d *xml.Decoder) (h held, err error) {
	for {
		token, err := d.Token()
		if err != nil {
			return h, err
		}
		switch t := token.(type) {
		case xml.StartElement:
			switch t.Name.Local {
			case "v":
				h.result = true
				h.value, err = plainText(d)
			case "is":
				h.inline, err = richText(d)
			case "f":
				h.formula = true
				err = d.Skip()
			default:
				err = d.Skip()
			}
			if err != nil {
				return h, err
			}
		case xml.EndElement:
			return h, nil
		}
	}
}

// plainText is the text of an open element, up to its end.
func plainText(d *xml.Decoder) (string, error) {
	var b strings.Builder
	for {
		token, err := d.Token()
		if err != nil {
			return "", err
		}
		switch t := token.(type) {
		case xml.CharData:
			b.Write(t)
		case xml.StartElement:
			if err := d.Skip(); err != nil {
				return "", err
			}
		case xml.EndElement:
			return b.String(), nil
		}
	}
}
