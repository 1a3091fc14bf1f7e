package quiltbook

import (
	"encoding/xml"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// workbook is what of a workbook all its sheets share.
type workbook struct {
	*archive
	sheets  []sheetPart
	strings []string
	// formats are how numbers are shown, by the style of a cell.
	formats []format
	// since1904 says that days are counted from 1904.
	since1904 bool
}

// sheetPart is a sheet, and the part that it is in.
type sheetPart struct{ name, part string }

// format is what the look of a number says of it.
type format uint8

const (
	plainFormat format = iota
	dateFormat
	percentFormat
)

// openWorkbook reads what comes before the sheets.
func openWorkbook(data []byte) (*workbook, error) {
	a, err := openArchive(data)
	if err != nil {
		return nil, err
	}
	_, byKind, err := a.relationsOf("")
	if err != nil {
		return nil, err
	}
	main := byKind["officeDocument"]
	if main == "" {
		main = "xl/workbook.xml"
	}
	if !a.has(main) {
		return nil, not("an archive of other files")
	}
	b := &workbook{archive: a}
	var root struct {
		XMLName xml.Name
		Setup   struct {
			Date1904 string `xml:"date1904,attr"`
		} `xml:"workbookPr"`
		Sheets []struct {
			Name string     `xml:"name,attr"`
			Attr []xml.Attr `xml:",any,attr"`
		} `xml:"sheets>sheet"`
	}
	if err := a.decode(main, &root); err != nil {
		return nil, err
	}
	if root.XMLName.Local != "workbook" {
		return nil, not("a document of another kind")
	}
	b.since1904 = root.Setup.Date1904 == "1" || root.Setup.Date1904 == "true"
	byID, byKind, err := a.relationsOf(main)
	if err != nil {
		return nil, err
	}
	for _, s := range root.Sheets {
		for _, attr := range s.Attr {
			if attr.Name.Local == "id" {
				b.sheets = append(b.sheets, sheetPart{strings.TrimSpace(s.Name), byID[attr.Value]})
			}
		}
	}
	return b, b.readShared(byKind["sharedStrings"], byKind["styles"])
}

// readShared reads the texts and styles that cells point to.
func (b *workbook) readShared(texts, styles string) error {
	if texts != "" {
		if err := b.read(texts, b.readStrings); err != nil {
			return err
		}
	}
	if styles == "" {
		return nil
	}
	var sheet struct {
		Formats []struct {
			ID   int    `xml:"numFmtId,attr"`
			Code string `xml:"formatCode,attr"`
		} `xml:"numFmts>numFmt"`
		Styles []struct {
			Format int `xml:"numFmtId,attr"`
		} `xml:"cellXfs>xf"`
	}
	if err := b.decode(styles, &sheet); err != nil {
		return err
	}
	kinds := make(map[int]format)
	for _, f := range sheet.Formats {
		kinds[f.ID] = formatOf(f.Code)
	}
	for _, s := range sheet.Styles {
		kind, ours := kinds[s.Format]
		if !ours {
			kind = builtIn(s.Format)
		}
		b.formats = append(b.formats, kind)
	}
	return nil
}

// builtIn is the kind of a format that a workbook need not spell out
// (ECMA-376, part 1, 18.8.30, with those of the languages of East Asia).
func builtIn(id int) format {
	switch {
	case id == 9 || id == 10:
		return percentFormat
	case id >= 14 && id <= 22, id >= 27 && id <= 36, id >= 45 && id <= 47, id >= 50 && id <= 58:
		return dateFormat
	}
	return plainFormat
}

// inFormat finds what a format has between quotes, behind a backslash, or in
// brackets: texts, colours, conditions, languages.
var inFormat = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^\]]*\]`)

// formatOf is the kind of a spelled-out format.
func formatOf(code string) format {
	code = strings.ToLower(inFormat.ReplaceAllString(code, ""))
	switch {
	case strings.Contains(code, "general"):
		return plainFormat
	case strings.ContainsAny(code, "dmyhs"):
		return dateFormat
	case strings.Contains(code, "%"):
		return percentFormat
	}
	return plainFormat
}

// readStrings reads the shared texts.
func (b *workbook) readStrings(d *xml.Decoder) error {
	return each(d, func(e xml.StartElement) error {
		if e.Name.Local != "si" {
			return nil
		}
		text, err := richText(d)
		b.strings = append(b.strings, text)
		return err
	})
}

// richText is the text of an open element, up to its end. It may be in several pieces, without
// the marks that tell how a word is spoken.
func richText(d *xml.Decoder) (string, error) {
	var text strings.Builder
	for depth, inText, spoken := 1, false, 0; depth > 0; {
		token, err := d.Token()
		if err != nil {
			return "", err
		}
		switch t := token.(type) {
		case xml.StartElement:
			depth++
			inText = t.Name.Local == "t"
			if t.Name.Local == "rPh" && spoken == 0 {
				spoken = depth
			}
		case xml.EndElement:
			if depth == spoken {
				spoken = 0
			}
			depth, inText = depth-1, false
		case xml.CharData:
			if inText && spoken == 0 {
				text.Write(t)
			}
		}
	}
	return unescaped(text.String()), nil
}

// escaped is how a workbook writes a control character.
var escaped = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

func unescaped(s string) string {
	return escaped.ReplaceAllStringFunc(s, func(code string) string {
		n, err := strconv.ParseUint(code[2:6], 16, 16)
		if err != nil {
			return code
		}
		return string(rune(n))
	})
}

// sheet finds a sheet by its name, whatever the case.
func (b *workbook) sheet(name string) (sheetPart, error) {
	var names, low []string
	for _, s := range b.sheets {
		if strings.EqualFold(s.name, name) {
			return s, nil
		}
		names, low = append(names, s.name), append(low, strings.ToLower(s.name))
	}
	hint := "take the one that crossgrain start writes"
	if near := quiltfile.Nearest(strings.ToLower(name), low); near != "" {
		for i, l := range low {
			if l == near {
				hint = fmt.Sprintf("did you mean the sheet %q? call it %s", names[i], name)
			}
		}
	}
	return sheetPart{}, &model.ValueError{Value: name, Err: ErrNoSheet, Hint: hint}
}
