package drawing

import (
	"bytes"
	"encoding/xml"
	"image"
	"image/png"
	"io"
	"strings"
	"testing"

	"crossgrain/model"
)

// sample has an item of each kind.
func sample() Drawing {
	d := Drawing{From: Point{-500, -250}, To: Point{10_000, 5_000}, Scale: 100, Title: `A <sample> & "more"`}
	pen := Stroke{Width: 60, Tone: Ink}
	d.Add(
		Shape{Outline: Box(Point{0, 0}, Point{4_000, 3_000}), Fill: White, Stroke: pen, Class: "piece", Name: "A&B"},
		Shape{Outline: []Point{{5_000, 0}, {9_000, 0}, {7_000, 3_000}}, Fill: Mist, Stroke: pen,
			Hatch: Hatch{Kind: Crossed, Gap: 300, Stroke: Stroke{Width: 30, Tone: Grey}}},
		Shape{Outline: Box(Point{0, 3_500}, Point{4_000, 4_500}), Hollow: true,
			Hatch: Hatch{Kind: Dots, Gap: 300, Stroke: Stroke{Width: 90, Tone: Grey}}},
		Line{Points: []Point{{0, 0}, {4_000, 3_000}, {9_000, 4_000}}, Stroke: Stroke{Width: 50, Tone: Grey, Dash: 300, Gap: 200}},
		Text{At: Point{2_000, 1_500}, Size: 800, Text: "2⅛ Ærø", Anchor: Middle, Bold: true},
		Text{At: Point{9_500, 2_000}, Size: 700, Text: "布 upward", Anchor: End, Upward: true},
	)
	return d
}

func outputs(t *testing.T, s Sheet) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	for name, write := range map[string]func(w io.Writer) error{
		"svg": func(w io.Writer) error { return WriteSVG(w, s) },
		"png": func(w io.Writer) error { return WritePNG(w, s, 144) },
		"pdf": func(w io.Writer) error { return WritePDF(w, s) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		all[name] = b.Bytes()
	}
	return all
}

func TestSameBytes(t *testing.T) {
	s := Alone(sample())
	first := outputs(t, s)
	for name, again := range outputs(t, s) {
		if !bytes.Equal(first[name], again) {
			t.Errorf("%s: other bytes the second time", name)
		}
	}
}

// The SVG is well-formed, and has the exact coordinates.
func TestSVG(t *testing.T) {
	text := string(outputs(t, Alone(sample()))["svg"])
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
	for _, want := range []string{
		`viewBox="-500 -250 10500 5300"`,
		`<rect class="piece" data-name="A&amp;B" x="0" y="0" width="4000" height="3000" fill="#ffffff" stroke="#1c1c1c" stroke-width="60"/>`,
		`<polygon points="5000,0 9000,0 7000,3000"`,
		`<text transform="translate(9500 2000) rotate(-90) scale(100)" font-size="7" fill="#000000" text-anchor="end">布 upward</text>`,
		`<title>A &lt;sample&gt; &amp; &#34;more&#34;</title>`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s in\n%s", want, text)
		}
	}
}

// Each kind of item leaves its mark on the picture where it lies, and nothing
// beside it.
func TestPNG(t *testing.T) {
	im, err := png.Decode(bytes.NewReader(outputs(t, Alone(sample()))["png"]))
	if err != nil {
		t.Fatal(err)
	}
	at := func(x, y model.Length) image.Point { return image.Pt(int((x+500)*2/100), int((y+250)*2/100)) }
	for what, box := range map[string][2]image.Point{
		"edge":      {at(-40, 1_000), at(60, 1_100)},
		"hatch":     {at(6_800, 300), at(7_200, 900)},
		"dots":      {at(200, 3_800), at(1_200, 4_300)},
		"line":      {at(5_000, 3_100), at(8_000, 3_900)},
		"text":      {at(1_000, 900), at(3_000, 1_500)},
		"upward":    {at(9_000, 2_000), at(9_600, 3_000)},
		"no margin": {at(-400, 500), at(-100, 2_500)},
		"no inside": {at(4_100, 200), at(4_900, 2_500)},
	} {
		dark := 0
		for y := box[0].Y; y < box[1].Y; y++ {
			for x := box[0].X; x < box[1].X; x++ {
				if level, _, _, _ := im.At(x, y).RGBA(); level < 0xa000 {
					dark++
				}
			}
		}
		if nothing := strings.HasPrefix(what, "no "); nothing != (dark == 0) {
			t.Errorf("%s: %d dark pixels", what, dark)
		}
	}
}

// A picture is never larger than its bound.
func TestPNGIsBounded(t *testing.T) {
	var b bytes.Buffer
	if err := WritePNG(&b, Sheet{Width: 100_000, Height: 10_000}, 300); err != nil {
		t.Fatal(err)
	}
	config, err := png.DecodeConfig(&b)
	if err != nil || config.Width*config.Height > maxPixels || config.Width < 9*config.Height {
		t.Errorf("%d x %d, %v", config.Width, config.Height, err)
	}
}

// Lines of a hatch lie inside their shape, as far apart as they should.
func TestHatch(t *testing.T) {
	triangle := []Point{{100, 200}, {90_100, 200}, {45_100, 60_200}}
	for kind := Rising; kind <= Dots; kind++ {
		h := Hatch{Kind: kind, Gap: 3_000, Stroke: Stroke{Width: 400}}
		lines := h.segments(triangle)
		if len(lines) < 20 {
			t.Errorf("hatch %d has only %d lines", kind, len(lines))
		}
		for _, l := range lines {
			for _, p := range l {
				// Within a few units: crossings are rounded.
				left := (p.X-100)*60_000 - (p.Y-200)*45_000
				right := (90_100-p.X)*60_000 - (p.Y-200)*45_000
				if p.Y < 200 || left < -300_000 || right < -300_000 {
					t.Errorf("hatch %d goes to %v", kind, p)
				}
			}
		}
	}
	box := Box(Point{0, 0}, Point{30_000, 9_000})
	if got := (Hatch{Kind: Level, Gap: 3_000}).segments(box); len(got) != 2 || got[0] != [2]Point{{0, 3_000}, {30_000, 3_000}} {
		t.Errorf("level lines in a box are %v", got)
	}
	if got := (Hatch{}).segments(box); got != nil {
		t.Errorf("no hatch has lines: %v", got)
	}
}

func TestFractions(t *testing.T) {
	for text, want := range map[string]string{
		"2 1/2 x 4 1/2 in":            "2½ x 4½ in",
		"1/2":                         "½",
		"3/8 yd":                      "⅜ yd",
		"2\u00a07/8":                  "2⅞",
		"1 3/16":                      "1 3/16",
		"2 1/3, 11/2, 1/24, 5/8/9":    "2 1/3, 11/2, 1/24, 5/8/9",
		"round 3 1/4 beyond the seam": "round 3¼ beyond the seam",
		"A 1/2":                       "A ½",
		"4.50 1/2":                    "4.50 ½",
		"":                            "",
	} {
		if got := Fractions(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}

func TestPrintable(t *testing.T) {
	for text, want := range map[string]string{
		"Ærø, Čapek, Ωmega, Привет": "Ærø, Čapek, Ωmega, Привет",
		"e\u0301tude":               "étude",
		"布 and 🧵":                   "? and ?",
		"bad \xff":                  "bad ?",
		"½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ …":           "½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ …",
	} {
		if got := Printable(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}

func TestTextWidth(t *testing.T) {
	if a, b := TextWidth("mm", 1_000, false), TextWidth("m", 1_000, false); a > 2*b || a < 2*b-2 || b < 500 || b > 1_200 {
		t.Errorf("two are %d wide, one %d", a, b)
	}
	if TextWidth("heavy", 1_000, true) <= TextWidth("heavy", 1_000, false) {
		t.Error("bold is no wider")
	}
}
