package quiltbook

import (
	"encoding/xml"
	"fmt"
	"maps"
	"strings"
	"testing"
)

// The parts of a workbook with nothing in it that is not read. Small inputs are
// tried faster.
const (
	tinyLinks = `<Relationships><Relationship Id="a" Type="x/worksheet" Target="q.xml"/><Relationship Id="b" Type="x/worksheet" Target="f.xml"/>` +
		`<Relationship Id="c" Type="x/worksheet" Target="c.xml"/><Relationship Id="d" Type="x/sharedStrings" Target="s.xml"/><Relationship Id="e" Type="x/styles" Target="t.xml"/></Relationships>`
	tinyBook    = `<workbook><sheets><sheet name="Quilt" id="a"/><sheet name="Fabrics" id="b"/><sheet name="Cuts" id="c"/></sheets></workbook>`
	tinyStrings = `<sst><si><t>Unit</t></si><si><t>in</t></si><si><r><t>La</t></r><r><t>bel</t></r></si><si><t>ink</t></si></sst>`
	tinyStyles  = `<styleSheet><numFmts><numFmt numFmtId="164" formatCode="d-mmm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="10"/></cellXfs></styleSheet>`
	tinyQuilt   = `<worksheet><sheetData><row><c t="s"><v>0</v></c><c t="s"><v>1</v></c></row></sheetData></worksheet>`
	tinyFabrics = `<worksheet><sheetData><row><c t="s"><v>2</v></c><c t="str"><v>Name</v></c></row><row><c t="s"><v>3</v></c></row></sheetData></worksheet>`
	tinyCuts    = `<worksheet><sheetData><row r="4"><c r="A4" t="str"><v>Piece</v></c><c t="str"><v>Fabric</v></c><c t="str"><v>Width</v></c><c t="str"><v>Height</v></c><c t="str"><v>Count</v></c></row>` +
		`<row><c t="str"><v>A</v></c><c t="str"><v>ink</v></c><c t="str"><v>2 1/2</v></c><c/><c><v>3</v></c></row></sheetData></worksheet>`
)

var tinyParts = map[string]string{
	"[Content_Types].xml": "<Types/>", "xl/workbook.xml": tinyBook, "xl/_rels/workbook.xml.rels": tinyLinks, "xl/s.xml": tinyStrings, "xl/t.xml": tinyStyles,
	"xl/q.xml": tinyQuilt, "xl/f.xml": tinyFabrics, "xl/c.xml": tinyCuts,
}

// tiny is the smallest workbook, with other parts in the place of some.
func tiny(t testing.TB, instead map[string]string) []byte {
	all := maps.Clone(tinyParts)
	maps.Copy(all, instead)
	return archived(t, all)
}

func TestTiny(t *testing.T) {
	q, err := Parse("q.xlsx", tiny(t, nil))
	if err != nil || len(q.Cuts) != 1 || len(q.Fabrics) != 1 {
		t.Errorf("%+v, %v", q, err)
	}
}

// FuzzFile changes the bytes of a file.
func FuzzFile(f *testing.F) {
	good := tiny(f, nil)
	f.Add(good)
	f.Add(good[:len(good)/2])
	f.Add(locked())
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(check)
}

// FuzzParts changes the parts of a sound archive.
func FuzzParts(f *testing.F) {
	f.Add(tinyBook, tinyLinks, tinyStrings, tinyStyles, tinyQuilt, tinyFabrics, tinyCuts)
	f.Add("", "<a", "<si/>", `<cellXfs><xf numFmtId="-1"/></cellXfs>`, "<row/>", `<c t="e"><v>#REF!</v></c>`, `<row r="5"><c r="C7" t="d"><v>2026-01-02</v></c><c t="str"><f/><v/></c><c t="b"><v>2</v></c></row>`)
	f.Fuzz(func(t *testing.T, book, links, texts, styles, quilt, fabrics, cuts string) {
		check(t, tiny(t, map[string]string{"xl/workbook.xml": book, "xl/_rels/workbook.xml.rels": links, "xl/s.xml": texts, "xl/t.xml": styles,
			"xl/q.xml": quilt, "xl/f.xml": fabrics, "xl/c.xml": cuts}))
	})
}

// FuzzCell changes one cell on each sheet: a text, a number, or what else there
// is.
func FuzzCell(f *testing.F) {
	for _, text := range []string{"2 1/2", "46024", "1e300", "-0", "NaN", "½", "=A1", "'", "x", "5 x", "40, 42,,", "#REF!", "_x000D_", "2026-01-02", "$", "99999999999999999999"} {
		f.Add("C5", "n", text)
		f.Add("E5", "str", text)
		f.Add("D5", "d", text)
		f.Add("B1", "b", text)
	}
	f.Fuzz(func(t *testing.T, place, kind, text string) {
		var at, of, value strings.Builder
		must(t, xml.EscapeText(&at, []byte(place)))
		must(t, xml.EscapeText(&of, []byte(kind)))
		must(t, xml.EscapeText(&value, []byte(text)))
		cell := fmt.Sprintf(`<c r="%s" t="%s" s="%d"><v>%s</v></c></row></sheetData>`, at.String(), of.String(), len(text)%3, value.String())
		with := func(s string) string { return strings.Replace(s, "</row></sheetData>", cell, 1) }
		check(t, tiny(t, map[string]string{"xl/q.xml": with(tinyQuilt), "xl/f.xml": with(tinyFabrics), "xl/c.xml": with(tinyCuts)}))
	})
}
