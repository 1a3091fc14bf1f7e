package reports

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/design"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/reports/drawing"
	"crossgrain/yardage"
)

// plainly plans a demo quilt by hand's way, which needs no search.
func plainly(t testing.TB, file, size string) Quilt {
	t.Helper()
	d, err := quiltfile.ReadDesign(filepath.Join("../testdata/quilts", file))
	if err != nil {
		t.Fatal(err)
	}
	return plannedPlainly(t, d, size)
}

// plannedPlainly plans a size of a design by hand's way.
func plannedPlainly(t testing.TB, d design.Design, size string) Quilt {
	t.Helper()
	w, err := d.Work(size)
	if err != nil {
		t.Fatal(err)
	}
	list, err := w.Quilt.CutList()
	if err != nil {
		t.Fatal(err)
	}
	q, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Plain})
	if err != nil {
		t.Fatal(err)
	}
	return Quilt{Quilt: q, Whole: w}
}

// drawnQuilts are quilts with everything that drawings show.
func drawnQuilts(t testing.TB) []Quilt {
	return []Quilt{harbour(t), dunes(t), lagoon(t, 1),
		plainly(t, "weir.yaml", ""), plainly(t, "lamp-row.yaml", ""), plainly(t, "skerry-cm.yaml", "cot")}
}

// drawnRect is a rectangle read back from an SVG.
type drawnRect struct {
	class, name string
	area
}

// rectsOf reads the rectangles of an SVG.
func rectsOf(t *testing.T, svg []byte) []drawnRect {
	t.Helper()
	var rects []drawnRect
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return rects
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "rect" {
			continue
		}
		var r drawnRect
		var n [4]model.Length
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "class":
				r.class = a.Value
			case "data-name":
				r.name = a.Value
			case "x", "y", "width", "height":
				value, err := strconv.ParseInt(a.Value, 10, 64)
				if err != nil {
					t.Fatal(err)
				}
				n[strings.Index("xywh", a.Name.Local[:1])] = model.Length(value)
			}
		}
		r.area = areaAt(n[0], n[1], n[2], n[3])
		rects = append(rects, r)
	}
}

func writtenBy(t *testing.T, write func(w io.Writer) error) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// every fabric at every width of the quilts, with its drawing.
func eachCloth(t *testing.T, quilts []Quilt, check func(t *testing.T, f fabricRows, w widthRows, d drawing.Drawing)) {
	t.Helper()
	for _, q := range quilts {
		rows := newRows(q)
		for _, f := range rows.fabrics {
			for _, w := range f.widths {
				t.Run(fmt.Sprintf("%s, %s at %v", q.Title, f.fabric.ID, w.Width), func(t *testing.T) {
					check(t, f, w, clothDrawing(f, w, rows, room{width: 500}))
				})
			}
		}
	}
}

// The rectangles of the SVG are the plan: every piece is there in its size, none
// overlaps another, none is outside the strips, and with the offcuts they fill
// them.
func TestClothHoldsThePlan(t *testing.T) {
	eachCloth(t, drawnQuilts(t), func(t *testing.T, _ fabricRows, w widthRows, d drawing.Drawing) {
		var pieces, strips, left []drawnRect
		for _, r := range rectsOf(t, writtenBy(t, func(out io.Writer) error { return drawing.WriteSVG(out, drawing.Alone(d)) })) {
			switch r.class {
			case pieceClass:
				pieces = append(pieces, r)
			case stripClass:
				strips = append(strips, r)
			case offcutClass:
				left = append(left, r)
			}
		}
		counts := map[string]int{}
		for _, p := range w.pieces {
			counts[p.label+" "+sorted(p.Along, p.Across)] += p.Count
		}
		for _, p := range pieces {
			counts[p.name+" "+sorted(p.width(), p.height())]--
		}
		for what, n := range counts {
			if n != 0 {
				t.Errorf("%s: %d not drawn", what, n)
			}
		}
		if len(strips) != w.stripCount {
			t.Errorf("%d strips drawn of %d", len(strips), w.stripCount)
		}
		var cut, filled model.Area
		y := model.Length(0)
		for _, s := range strips {
			if s.from != (drawing.Point{Y: y}) || s.to.X != w.Width {
				t.Errorf("a strip lies at %v to %v, not at %v", s.from, s.to, y)
			}
			y, cut = s.to.Y, cut+model.AreaOf(s.width(), s.height())
		}
		all := append(pieces, left...)
		for i, p := range all {
			filled += model.AreaOf(p.width(), p.height())
			inside := 0
			for _, s := range strips {
				if p.from.X >= s.from.X && p.to.X <= s.to.X && p.from.Y >= s.from.Y && p.to.Y <= s.to.Y {
					inside++
				}
			}
			if inside != 1 {
				t.Errorf("%q is in %d strips", p.name, inside)
			}
			for _, other := range all[:i] {
				if p.from.X < other.to.X && other.from.X < p.to.X && p.from.Y < other.to.Y && other.from.Y < p.to.Y {
					t.Errorf("%q at %v overlaps %q at %v", p.name, p.area, other.name, other.area)
				}
			}
		}
		if cut != filled || y != w.length {
			t.Errorf("pieces and offcuts take %d of %d, strips %v of %v", filled, cut, y, w.length)
		}
	})
}

func sorted(a, b model.Length) string { return fmt.Sprint(max(a, b), min(a, b)) }

// The PDF has the same pieces as the SVG, to a hundredth of a point.
func TestPDFAgreesWithSVG(t *testing.T) {
	if _, err := exec.LookPath("qpdf"); err != nil {
		t.Fatalf("%v; make test installs it (qpdf)", err)
	}
	corner := regexp.MustCompile(`(?m)^(-?[\d.]+) (-?[\d.]+) m\s+(-?[\d.]+) (-?[\d.]+) l\s+(-?[\d.]+) (-?[\d.]+) l\s+(-?[\d.]+) (-?[\d.]+) l`)
	eachCloth(t, []Quilt{harbour(t), plainly(t, "skerry-cm.yaml", "cot")}, func(t *testing.T, _ fabricRows, _ widthRows, d drawing.Drawing) {
		sheet := drawing.Alone(d)
		file := filepath.Join(t.TempDir(), "cloth.pdf")
		if err := os.WriteFile(file, writtenBy(t, func(w io.Writer) error { return drawing.WritePDF(w, sheet) }), 0o666); err != nil {
			t.Fatal(err)
		}
		plain, err := exec.CommandContext(t.Context(), "qpdf", "--qdf", "--object-streams=disable", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		have := map[[4]int]bool{}
		for _, m := range corner.FindAllStringSubmatch(string(plain), -1) {
			var at [4]int // left, top, right, bottom, in hundredths
			for i, place := range []int{1, 2, 5, 6} {
				value, err := strconv.ParseFloat(m[place], 64)
				if err != nil {
					t.Fatal(err)
				}
				at[i] = int(math.Round(value * 100))
			}
			at[1], at[3] = sheet.Height*100-at[1], sheet.Height*100-at[3]
			have[at] = true
		}
		for _, r := range rectsOf(t, writtenBy(t, func(w io.Writer) error { return drawing.WriteSVG(w, sheet) })) {
			if r.class != pieceClass {
				continue
			}
			place := func(l, from model.Length) int { return int(math.Round(float64(l-from) * 100 / float64(d.Scale))) }
			want := [4]int{place(r.from.X, d.From.X), place(r.from.Y, d.From.Y), place(r.to.X, d.From.X), place(r.to.Y, d.From.Y)}
			if !near(have, want) {
				t.Errorf("the PDF has no %q at %v", r.name, want)
			}
		}
	})
}

// near reports whether a place is there, give or take a rounding.
func near(have map[[4]int]bool, want [4]int) bool {
	if have[want] {
		return true
	}
	for h := range have {
		off := 0
		for i := range h {
			off = max(off, h[i]-want[i], want[i]-h[i])
		}
		if off <= 1 {
			return true
		}
	}
	return false
}

// The picture has a dark line along each edge of each piece, and none beside it.
func TestPNGAgreesWithSVG(t *testing.T) {
	const dpi = 216
	eachCloth(t, []Quilt{harbour(t), plainly(t, "lamp-row.yaml", "")}, func(t *testing.T, _ fabricRows, _ widthRows, d drawing.Drawing) {
		sheet := drawing.Alone(d)
		im, err := png.Decode(bytes.NewReader(writtenBy(t, func(w io.Writer) error { return drawing.WritePNG(w, sheet, dpi) })))
		if err != nil {
			t.Fatal(err)
		}
		level := func(x, y model.Length) uint8 {
			at := image.Pt(int((x-d.From.X)*dpi/72/d.Scale), int((y-d.From.Y)*dpi/72/d.Scale))
			return im.(*image.Gray).GrayAt(at.X, at.Y).Y
		}
		point := d.Scale
		for _, r := range rectsOf(t, writtenBy(t, func(w io.Writer) error { return drawing.WriteSVG(w, sheet) })) {
			if r.class != pieceClass || min(r.width(), r.height()) < 14*point {
				continue
			}
			x, y := r.from.X+r.width()/4, r.from.Y+r.height()/4
			for _, edge := range [][2]model.Length{{x, r.from.Y}, {x, r.to.Y}, {r.from.X, y}, {r.to.X, y}} {
				if got := level(edge[0], edge[1]); got > 0x80 {
					t.Errorf("the edge of %q at %v is %d", r.name, edge, got)
				}
			}
			for _, in := range [][2]model.Length{{x, r.to.Y - 3*point/2}, {r.from.X + 3*point/2, y}} {
				if got := level(in[0], in[1]); got < 0xf0 {
					t.Errorf("inside %q at %v is %d", r.name, in, got)
				}
			}
		}
	})
}

// The drawing of the quilt fills its finished size, and has all fabrics.
func TestSettingIsDrawnWhole(t *testing.T) {
	for _, q := range drawnQuilts(t)[3:] {
		d := settingDrawing(q.Whole, q.Whole.Shapes(), room{400, 400})
		var sum float64
		for _, item := range d.Items {
			if s, ok := item.(drawing.Shape); ok && s.Class == patchClass {
				sum += areaOf(s.Outline)
			}
		}
		width, height := q.Whole.Width.CeilTo(1), q.Whole.Height.CeilTo(1)
		if whole := float64(width) * float64(height); math.Abs(sum-whole) > whole/100_000 {
			t.Errorf("%s: the patches take %v of %v", q.Title, sum, whole)
		}
	}
}

func areaOf(g []drawing.Point) float64 {
	var twice float64
	for i, p := range g {
		q := g[(i+1)%len(g)]
		twice += float64(p.X)*float64(q.Y) - float64(p.Y)*float64(q.X)
	}
	return math.Abs(twice) / 2
}

// The pieces of a round, as they are cut, cover what it adds to the block; the
// line they are trimmed to lies within them where the round is closed.
func TestRoundsAreDrawn(t *testing.T) {
	q := plainly(t, "weir.yaml", "")
	chart := q.Whole.Charts[0]
	steps := roundDrawings(chart, q.Whole, room{200, 200})
	if len(steps) != 10 {
		t.Fatalf("%d steps drawn", len(steps))
	}
	for i, d := range steps {
		var pieces, trims int
		var texts []string
		for _, item := range d.Items {
			switch item := item.(type) {
			case drawing.Shape:
				if item.Class == pieceClass {
					pieces++
				}
				if item.Class == trimClass {
					trims++
					want := chart.Trims[i].Width
					if got := math.Sqrt(areaOf(item.Outline)); math.Abs(got-float64(want)) > float64(want)/10_000 {
						t.Errorf("round %d is trimmed to %v, not %v", i+1, got, want)
					}
				}
			case drawing.Text:
				texts = append(texts, item.Text)
			}
		}
		want := words(fmt.Sprintf("%d: trim to %s", i+1, measure(chart.Trims[i].Width, q.Unit)))
		if all := strings.Join(texts, "\n"); pieces != 4 || trims != 1 || !strings.Contains(all, want) {
			t.Errorf("round %d: %d pieces, %d trim lines, texts %s", i+1, pieces, trims, all)
		}
	}
}

// The same quilts give the same sheet, in every format.
func TestDiagramsAreTheSame(t *testing.T) {
	for _, write := range []func(w io.Writer, quilts []Quilt) error{WriteSVG, WritePNG} {
		one := writtenBy(t, func(w io.Writer) error { return write(w, []Quilt{harbour(t), plainly(t, "weir.yaml", "")}) })
		two := writtenBy(t, func(w io.Writer) error { return write(w, []Quilt{harbour(t), plainly(t, "weir.yaml", "")}) })
		if !bytes.Equal(one, two) {
			t.Error("other bytes the second time")
		}
	}
}

// A plan of very many pieces is drawn in brief.
func TestManyPieces(t *testing.T) {
	q := dunes(t)
	f := newRows(q).fabrics[0]
	w := f.widths[0]
	w.strips[0].Repeat, w.pieces[0].Count = 3000, 16*3000
	d := clothDrawing(f, w, newRows(q), room{width: 500})
	if n := len(d.Items); n > 20_000 {
		t.Errorf("%d items", n)
	}
}

// The legend is seen whole beside cloth that is long and drawn small.
func TestClothLegendIsWhole(t *testing.T) {
	q := newRows(harbour(t))
	oat := q.fabrics[1]
	d := clothDrawing(oat, oat.widths[0], q, room{width: 340, height: 200})
	c := newCanvas("", 1, 1)
	c.Drawing = d
	for _, item := range d.Items {
		if text, ok := item.(drawing.Text); ok && text.Anchor == drawing.Start && !text.Upward {
			size := int(text.Size * 10 / d.Scale)
			if end := text.At.X + c.textWidth(text.Text, size, text.Bold); end > d.To.X {
				t.Errorf("%q ends at %v of %v", text.Text, end, d.To.X)
			}
		}
	}
}
