package quiltbook

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"reflect"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// gibibyte is XML of a gibibyte, mostly of blanks, as an archive keeps it. What
// a mebibyte is packed into, after one like it, is packed once and repeated.
var gibibyte = sync.OnceValues(func() (zip.FileHeader, []byte) {
	const times = 1 << 10
	blanks := bytes.Repeat([]byte(" "), 1<<20)
	var b bytes.Buffer
	sum := crc32.NewIEEE()
	out, err := flate.NewWriter(&b, flate.BestSpeed)
	pack := func(data []byte) []byte {
		before := b.Len()
		_, err1 := out.Write(data)
		err = errors.Join(err, err1, out.Flush())
		return bytes.Clone(b.Bytes()[before:])
	}
	pack([]byte("<a>"))
	pack(blanks)
	packed := pack(blanks)
	sum.Write([]byte("<a>"))
	for n := range times {
		sum.Write(blanks)
		if n >= 2 {
			b.Write(packed)
		}
	}
	if err = errors.Join(err, out.Close()); err != nil {
		panic(err)
	}
	return zip.FileHeader{Method: zip.Deflate, CRC32: sum.Sum32(), UncompressedSize64: uint64(3 + len(blanks)*times),
		CompressedSize64: uint64(b.Len())}, b.Bytes()
})

// bomb is a workbook with a part of a gibibyte, which says that it is small if
// it lies.
func bomb(t testing.TB, part string, lies bool) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, text := range parts(t, smallFile(t)) {
		if name != part {
			f, err := w.Create(name)
			must(t, err)
			_, err = io.WriteString(f, text)
			must(t, err)
			continue
		}
		header, packed := gibibyte()
		header.Name = name
		if lies {
			header.UncompressedSize64 = 1000
		}
		f, err := w.CreateRaw(&header)
		must(t, err)
		_, err = f.Write(packed)
		must(t, err)
	}
	must(t, w.Close())
	return b.Bytes()
}

// rowsOf is a sheet of so many rows.
func rowsOf(rows int, row func(n int) string) string {
	var b strings.Builder
	b.WriteString(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>`)
	for n := 1; n <= rows; n++ {
		b.WriteString(row(n))
	}
	return b.String() + `</sheetData></worksheet>`
}

// sheetPartOf is the name of the part of a sheet.
func sheetPartOf(t testing.TB, sheet string) string {
	t.Helper()
	b, err := openWorkbook(smallFile(t))
	must(t, err)
	part, err := b.sheet(sheet)
	must(t, err)
	return part.part
}

// with is a small workbook with another sheet of cuts.
func with(t testing.TB, sheet string) []byte {
	return rewritten(t, smallFile(t), cutsSheet, func(string) string { return sheet })
}

const (
	inHeadings = `<row r="1"><c r="A1" t="inlineStr"><is><t>Piece</t></is></c><c r="B1" t="inlineStr"><is><t>Fabric</t></is></c>` +
		`<c r="C1" t="inlineStr"><is><t>Width</t></is></c><c r="D1" t="inlineStr"><is><t>Count</t></is></c></row>`
	outsize = "too large a file, its sheets hold far more than a quilt"
	damaged = "a damaged workbook: "
)

// hostile are files that are no workbook to fill in, or made to cost time or
// memory, and what is said of each.
func hostile(t testing.TB) map[string]struct {
	data []byte
	want string
} {
	t.Helper()
	good := smallFile(t)
	cuts := sheetPartOf(t, cutsSheet)
	without := func(part string) []byte {
		all := parts(t, good)
		delete(all, part)
		return archived(t, all)
	}
	instead := func(part, text string) []byte {
		all := parts(t, good)
		all[part] = text
		return archived(t, all)
	}
	return map[string]struct {
		data []byte
		want string
	}{
		"bomb":             {bomb(t, cuts, false), outsize},
		"bomb that lies":   {bomb(t, cuts, true), damaged},
		"bomb of texts":    {bomb(t, "xl/sharedStrings.xml", false), outsize},
		"bomb of styles":   {bomb(t, "xl/styles.xml", false), outsize},
		"bomb of links":    {bomb(t, "xl/_rels/workbook.xml.rels", false), outsize},
		"20,000 wide rows": {with(t, rowsOf(20_000, func(n int) string { return fmt.Sprintf(`<row r="%d"><c r="XFD%[1]d"><v>1</v></c></row>`, n) })), "Cuts!XFD1: too far"},
		"wide blank rows":  {with(t, rowsOf(20_000, func(n int) string { return fmt.Sprintf(`<row r="%d"><c r="XFD%[1]d" s="1"/></row>`, n) })), "Cuts: no such heading"},
		"many empty rows":  {with(t, rowsOf(1<<19, func(n int) string { return `<row/>` })), "Cuts: no such heading"},
		"many cells":       {with(t, rowsOf(4000, func(n int) string { return "<row>" + strings.Repeat(`<c><v>1</v></c>`, 50) + "</row>" })), "Cuts: no such heading"},
		"more cells":       {with(t, rowsOf(9000, func(n int) string { return "<row>" + strings.Repeat(`<c s="1"><v>123456</v></c>`, 50) + "</row>" })), outsize},
		"many faults": {with(t, rowsOf(9000, func(n int) string {
			return map[bool]string{true: inHeadings, false: `<row><c><v>1</v></c><c><v>2</v></c><c><v>-3</v></c><c><v>0.5</v></c></row>`}[n == 1]
		})), "and "},
		"rows from the end":  {with(t, rowsOf(9000, func(n int) string { return fmt.Sprintf(`<row r="%d"><c><v>1</v></c></row>`, 9001-n) })), "Cuts: no such heading"},
		"row of no number":   {with(t, rowsOf(1, func(int) string { return `<row r="-5"><c r="A-5"><v>1</v></c></row>` })), "Cuts: no such heading"},
		"huge numbers":       {with(t, rowsOf(1, func(int) string { return `<row r="99999999999999999999"><c r="ZZZZ9"><v>1e999</v></c></row>` })), "Cuts: no such heading"},
		"deep":               {with(t, strings.Repeat("<a>", 1<<20)), damaged},
		"deep text":          {with(t, rowsOf(1, func(int) string { return `<row><c t="inlineStr"><is>` + strings.Repeat("<r>", 1<<20) })), damaged},
		"long attribute":     {with(t, `<worksheet a="`+strings.Repeat("x", 3<<20)+`"/>`), "Cuts: no such heading"},
		"entities":           {with(t, `<!DOCTYPE a [<!ENTITY b "`+strings.Repeat("b", 1000)+`">]><worksheet>`+strings.Repeat("&b;", 1000)+`</worksheet>`), damaged},
		"a sheet that ends":  {with(t, rowsOf(1, func(int) string { return inHeadings + "<row><c><v>" })), damaged},
		"another coding":     {with(t, `<?xml version="1.0" encoding="UTF-16"?><worksheet/>`), damaged},
		"empty":              {nil, "empty file, make a new workbook with crossgrain start"},
		"too large":          {append(bytes.Clone(good), make([]byte, MaxFile)...), "too large a file, a workbook has at most 16 MB: take pictures out of it"},
		"truncated":          {good[:len(good)*2/3], "a damaged workbook: it breaks off, or is no archive, open it"},
		"only the beginning": {good[:4], damaged},
		"many entries":       {manyEntries(t), "not an .xlsx workbook: an archive of other files, open it"},
		"locked":             {locked(), "locked with a password, save it without one"},
		"old form":           {append(bytes.Clone(compoundMagic), make([]byte, 5000)...), "not an .xlsx workbook: a file in the older .xls form, open it in your spreadsheet program and save it as .xlsx"},
		"locked archive":     {encryptedPart(t, good, cuts), "locked with a password, save it without one"},
		"csv":                {[]byte("Piece,Fabric,Width\nA,ink,2 1/2\n"), "not an .xlsx workbook: plain text, or something else, open it in your spreadsheet program and save it as .xlsx"},
		"ods":                {archived(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<a/>"}), "not an .xlsx workbook: an OpenDocument file, .ods, open it"},
		"binary workbook":    {archived(t, map[string]string{"[Content_Types].xml": "<a/>", "xl/workbook.bin": ""}), "not an .xlsx workbook: a binary workbook, .xlsb, open it"},
		"other archive":      {archived(t, map[string]string{"photo.jpg": "x"}), "not an .xlsx workbook: an archive of other files, open it"},
		"a letter":           {archived(t, map[string]string{"[Content_Types].xml": "<a/>", "word/document.xml": "<document/>"}), "not an .xlsx workbook: an archive of other files, open it"},
		"a presentation":     {instead("xl/workbook.xml", "<presentation/>"), "not an .xlsx workbook: a document of another kind"},
		"no sheet's part":    {without(cuts), "Cuts: a damaged workbook: " + cuts + " is not in it"},
		"no links":           {without("xl/_rels/workbook.xml.rels"), "Cuts: a damaged workbook: the sheet is not in it"},
		"styles of letters":  {instead("xl/styles.xml", `<styleSheet><cellXfs><xf numFmtId="x"/></cellXfs></styleSheet>`), "a damaged workbook: xl/styles.xml cannot be read"},
	}
}

// manyEntries is an archive of as many empty files as fit.
func manyEntries(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for n := 0; b.Len() < MaxFile*35/100; n++ {
		_, err := w.CreateHeader(&zip.FileHeader{Name: fmt.Sprintf("%x", n)})
		must(t, err)
	}
	must(t, w.Close())
	if b.Len() > MaxFile {
		t.Fatalf("%d bytes", b.Len())
	}
	return b.Bytes()
}

// locked is a workbook with a password, as far as it can be told from others.
func locked() []byte {
	data := append(bytes.Clone(compoundMagic), make([]byte, 2000)...)
	return append(data, utf16Text("EncryptedPackage")...)
}

// encryptedPart marks a part of a workbook as encrypted.
func encryptedPart(t testing.TB, data []byte, part string) []byte {
	t.Helper()
	data = bytes.Clone(data)
	directory := bytes.LastIndex(data, []byte(part))
	const beforeName, flags = 46, 8
	data[directory-beforeName+flags] |= 1
	return data
}

// Hostile files are refused soon, in little memory, and in few words.
func TestHostileFiles(t *testing.T) {
	// The limits that count are 2 s and 200 MB; the time leaves room for a busy
	// machine and the race detector.
	const longest, largest, longestMessage = 10 * time.Second, 200 << 20, 64 << 10
	for name, test := range hostile(t) {
		t.Run(name, func(t *testing.T) {
			runtime.GC()
			peak := watchHeap(t)
			start := time.Now()
			_, err := Parse("q.xlsx", test.data)
			elapsed := time.Since(start)
			used := peak()
			t.Logf("%v, %d MB: %.200v", elapsed.Round(time.Millisecond), used>>20, err)
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("got %.2000v, want %s", err, test.want)
			}
			if elapsed > longest {
				t.Errorf("it took %v", elapsed)
			}
			if used > largest {
				t.Errorf("it took %d MB", used>>20)
			}
			if err != nil && (len(err.Error()) > longestMessage || strings.Contains(err.Error(), "xml:") || strings.Contains(err.Error(), "zip:")) {
				t.Errorf("%d bytes of message: %.2000s", len(err.Error()), err)
			}
		})
	}
}

// watchHeap watches how far the heap grows until it is asked.
func watchHeap(t testing.TB) func() uint64 {
	t.Helper()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	done, most := make(chan struct{}), make(chan uint64)
	go func() {
		var highest uint64
		for {
			var now runtime.MemStats
			runtime.ReadMemStats(&now)
			highest = max(highest, now.HeapAlloc)
			select {
			case <-done:
				most <- highest
				return
			case <-time.After(5 * time.Millisecond):
			}
		}
	}()
	return func() uint64 {
		close(done)
		if highest := <-most; highest > before.HeapAlloc {
			return highest - before.HeapAlloc
		}
		return 0
	}
}

// The bomb is one: there is more in it than may be.
func TestBombIsOne(t *testing.T) {
	data := bomb(t, "xl/styles.xml", false)
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	must(t, err)
	part, err := r.Open("xl/styles.xml")
	must(t, err)
	if _, err := io.CopyN(io.Discard, part, 10*maxXML); err != nil {
		t.Error(err)
	}
}

// A bomb in a part that is not read does no harm.
func TestBombBeside(t *testing.T) {
	want := parsed(t, small(t))
	got, err := Parse("q.xlsx", bomb(t, sheetPartOf(t, exampleSheet), false))
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, %v", got, err)
	}
}

// Whatever is in a workbook, it gives a quilt that keeps the rules, or faults.
func check(t *testing.T, data []byte) {
	q, err := Parse("q.xlsx", data)
	if err == nil {
		if _, err := q.CutList(); err != nil {
			t.Fatal(err)
		}
		return
	}
	var errs quiltfile.Errors
	if !errors.As(err, &errs) || len(errs) == 0 || !reflect.DeepEqual(q, model.Quilt{}) || err.Error() == "" {
		t.Fatalf("%+v and the error %v", q, err)
	}
}
