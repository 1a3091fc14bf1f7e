package reports

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/reports/drawing"
)

// sheetFile is a printed sheet as a file.
func sheetFile(t *testing.T, quilts ...Quilt) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, writtenBy(t, func(w io.Writer) error { return WriteSheet(w, quilts) }), 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

// tool runs a program of the PDF tools; the test is skipped where it is not.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Skipf("%s is not there", name)
	}
	out, err := exec.CommandContext(t.Context(), name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

// A sheet is a good PDF, and the same each time.
func TestSheetIsSound(t *testing.T) {
	for _, quilts := range [][]Quilt{{harbour(t)}, {dunes(t)}, {lagoon(t, 1), lagoon(t, 2)}, {plainly(t, "weir.yaml", "")}} {
		file := sheetFile(t, quilts...)
		if out := tool(t, "qpdf", "--check", file); strings.Contains(out, "WARNING") {
			t.Errorf("%s: %s", quilts[0].Title, out)
		}
		one, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(one, writtenBy(t, func(w io.Writer) error { return WriteSheet(w, quilts) })) {
			t.Errorf("%s: other bytes the second time", quilts[0].Title)
		}
		want := "612 x 792 pts (letter)"
		if quilts[0].Unit == model.Centimetres {
			want = "595 x 842 pts"
		}
		if info := tool(t, "pdfinfo", file); !strings.Contains(info, want) || !strings.Contains(info, "2000") {
			t.Errorf("%s: not %s, or another date:\n%s", quilts[0].Title, want, info)
		}
	}
}

// The text of a sheet, read back, has every purchase, every piece and every step
// of every fabric, with fractions as one sign.
func TestSheetSaysAll(t *testing.T) {
	for _, q := range drawnQuilts(t) {
		text := tool(t, "pdftotext", "-raw", sheetFile(t, q), "-")
		text = strings.Join(strings.Fields(regexp.MustCompile(`(?m)^.*Page \d+ of \d+$|\f`).ReplaceAllString(text, "")), " ")
		says := func(what string) {
			t.Helper()
			what = strings.Join(strings.Fields(drawing.Printable(words(what))), " ")
			if !strings.Contains(text, what) {
				t.Errorf("%s: the sheet does not say %q", q.Title, what)
			}
		}
		rows := newRows(q)
		for _, f := range rows.fabrics {
			for _, p := range f.pieces {
				says(strings.TrimSpace(p.label + " " + strconv.Itoa(p.Count) + " " + size(p.Along, p.Across, q.Unit) + " " + p.Halve.String()))
			}
			for _, w := range f.widths {
				row := measure(w.Width, q.Unit) + " " + w.Buy.Text + " " + costOf(w, f)
				if q.Style != pack.Plain {
					row += " " + w.PlainBuy.Text + " " + w.Saved.Text
				}
				says(row)
				if f.nothing() {
					continue
				}
				says(f.label + ", usable width " + measure(w.Width, q.Unit) + ": buy " + w.Buy.Text)
				says(about(w, f.fabric, rows))
				says(together(w))
				for _, s := range w.strips {
					says(strconv.Itoa(s.number) + " " + cutStrips(s, q.Unit))
				}
			}
		}
		for _, u := range rows.design.units {
			says(trimTo(u.trim, q.Unit))
		}
		for _, g := range rows.design.grown {
			for _, s := range g.steps {
				says(s.how(q.Unit))
			}
		}
		for _, c := range cautions {
			says(c)
		}
	}
}

// Of several sizes the sheet has what to buy for each beside the others, and all
// of each.
func TestSheetOfSizes(t *testing.T) {
	one, two := lagoon(t, 1), lagoon(t, 2)
	text := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", sheetFile(t, one, two), "-")), " ")
	buy := func(q Quilt) string { return words(q.Fabrics[0].Widths[0].Buy.Text) }
	for _, want := range []string{"Fabric Usable width wall lap", "40 in " + buy(one) + " " + buy(two), "Size wall", "Size lap", "Page 1 of "} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in the sheet", want)
		}
	}
	if strings.Count(text, "Page ") < 3 || strings.Count(text, "Words usable width") != 1 {
		t.Errorf("pages or words are wrong in %s", text)
	}
}

// The test square is 300 dots wide and high at 300 dots to the inch.
func TestSquareIsAnInch(t *testing.T) {
	for _, q := range []Quilt{harbour(t), dunes(t)} {
		file := sheetFile(t, q)
		tool(t, "pdftoppm", "-r", "300", "-gray", "-png", "-singlefile", "-f", "1", "-l", "1", file, strings.TrimSuffix(file, ".pdf"))
		data, err := os.ReadFile(strings.TrimSuffix(file, ".pdf") + ".png")
		if err != nil {
			t.Fatal(err)
		}
		im, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		grey := image.NewGray(im.Bounds())
		draw.Draw(grey, grey.Bounds(), im, im.Bounds().Min, draw.Src)
		wide, high := runs(grey, false), runs(grey, true)
		for _, n := range []int{wide[300], high[300]} {
			if n != 4 { // two lines, each two dots thick
				t.Errorf("%s: runs of dark dots: %v across, %v down", q.Title, wide, high)
			}
		}
	}
}

// runs counts the runs of 280 to 320 dark dots along or down a picture.
func runs(im *image.Gray, down bool) map[int]int {
	b := im.Bounds()
	outer, inner := b.Dy(), b.Dx()
	if down {
		outer, inner = inner, outer
	}
	found := map[int]int{}
	for i := range outer {
		n := 0
		for j := range inner + 1 {
			x, y := j, i
			if down {
				x, y = i, j
			}
			if j < inner && im.GrayAt(x, y).Y < 0x40 {
				n++
				continue
			}
			if n >= 280 && n <= 320 {
				found[n]++
			}
			n = 0
		}
	}
	return found
}

// No word goes beyond the margins, however long names are.
func TestSheetFitsItsPages(t *testing.T) {
	word := regexp.MustCompile(`xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>`)
	for _, name := range []string{"Reef", strings.Repeat("endless", 40), strings.Repeat("a word or two ", 14)} {
		one, two := lagoon(t, 1), lagoon(t, 2)
		for _, q := range []*Quilt{&one, &two} {
			q.Title, q.Whole.Size, q.Whole.Blocks[0].Block, q.Whole.Notes[0] = name, name, name, name
			q.Whole.Charts[0].Name, q.Whole.Charts[1].Trims[0].Step = name, name
			q.Fabrics[0].Fabric.Name, q.Fabrics[0].Pieces[0].Use = name, name
			q.Fabrics[0].Pieces[0].Name = name[:min(len(name), 40)]
		}
		for _, quilts := range [][]Quilt{{one}, {one, two}, {harbour(t)}, {plainly(t, "lamp-row.yaml", "")}} {
			out := tool(t, "pdftotext", "-bbox", sheetFile(t, quilts...), "-")
			for _, m := range word.FindAllStringSubmatch(out, -1) {
				var at [4]float64
				for i := range at {
					var err error
					if at[i], err = strconv.ParseFloat(m[i+1], 64); err != nil {
						t.Fatal(err)
					}
				}
				if at[0] < sheetSide-1 || at[2] > 612-sheetSide+1 || at[1] < sheetTop-8 || at[3] > 792-20 {
					t.Errorf("%s: %.40q is at %v", quilts[0].Title, m[5], at)
				}
			}
		}
	}
}
