package drawing

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"crossgrain/model"
)

// face is a font and the buffer that reading it needs.
type face struct {
	mu     sync.Mutex
	font   *sfnt.Font
	units  model.Length // in the font's size
	buffer sfnt.Buffer
	known  map[rune]glyph
}

// glyph is one letter, in the font's own units.
type glyph struct {
	index   sfnt.GlyphIndex
	advance model.Length
}

var (
	regular = sync.OnceValue(func() *face { return newFace(goregular.TTF) })
	bold    = sync.OnceValue(func() *face { return newFace(gobold.TTF) })
)

// newFace reads a font of the program's own, which is known to be good.
func newFace(data []byte) *face {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("the font in the program cannot be read: " + err.Error())
	}
	return &face{font: f, units: model.Length(f.UnitsPerEm()), known: map[rune]glyph{}}
}

func faceOf(isBold bool) *face {
	if isBold {
		return bold()
	}
	return regular()
}

// glyph is the letter of a rune; ok says that the font has it.
func (f *face) glyph(r rune) (g glyph, ok bool) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if g, ok := f.known[r]; ok {
		return g, g.index != 0
	}
	index, err := f.font.GlyphIndex(&f.buffer, r)
	if err != nil {
		index = 0
	}
	advance, err := f.font.GlyphAdvance(&f.buffer, index, fixed.I(int(f.units)), font.HintingNone)
	if err != nil {
		advance = fixed.I(int(f.units) / 2)
	}
	g = glyph{index, model.Length(advance.Round())}
	f.known[r] = g
	return g, g.index != 0
}

// outline are the curves of a letter, in the font's own units.
func (f *face) outline(g glyph) sfnt.Segments {
	f.mu.Lock()
	defer f.mu.Unlock()
	segments, err := f.font.LoadGlyph(&f.buffer, g.index, fixed.I(int(f.units)), nil)
	if err != nil {
		return nil
	}
	return append(sfnt.Segments(nil), segments...)
}

// Printable is a text in letters that the fonts of PNG and PDF have; others
// become a question mark. An accent is put on the letter before it.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\u00a0' || r == '\u202f' {
			return r
		}
		if _, ok := regular().glyph(r); !ok {
			return '?'
		}
		return r
	}, norm.NFC.String(strings.ToValidUTF8(s, "?")))
}

// TextWidth is how wide a text is in a font of a size, as PNG and PDF have it.
func TextWidth(s string, size model.Length, isBold bool) model.Length {
	f := faceOf(isBold)
	var sum model.Length
	for _, r := range Printable(s) {
		g, _ := f.glyph(r)
		sum += g.advance
	}
	return (sum*size + f.units - 1) / f.units
}

// start is where a text begins on its base line.
func (t Text) start() Point {
	var back model.Length
	switch t.Anchor {
	case Middle:
		back = TextWidth(t.Text, t.Size, t.Bold) / 2
	case End:
		back = TextWidth(t.Text, t.Size, t.Bold)
	}
	if t.Upward {
		return Point{t.At.X, t.At.Y + back}
	}
	return Point{t.At.X - back, t.At.Y}
}

// vulgar are the fractions that have a sign of their own in the fonts.
var vulgar = map[string]string{
	"1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜", "5/8": "⅝", "7/8": "⅞",
}

// Fractions writes halves, quarters and eighths as one sign: 2 1/2 becomes 2½.
// Others stay as they are.
func Fractions(s string) string {
	var out strings.Builder
	for i := 0; i < len(s); {
		if sign, ok := fractionAt(s, i); ok {
			text := out.String()
			trimmed := strings.TrimSuffix(strings.TrimSuffix(text, " "), "\u00a0")
			if len(trimmed) < len(text) && isWhole(trimmed) {
				out.Reset()
				out.WriteString(trimmed)
			}
			out.WriteString(sign)
			i += 3
			continue
		}
		out.WriteByte(s[i])
		i++
	}
	return out.String()
}

// fractionAt is the sign for the fraction that stands at a place by itself.
func fractionAt(s string, i int) (string, bool) {
	if i+3 > len(s) {
		return "", false
	}
	sign, ok := vulgar[s[i:i+3]]
	if !ok || i > 0 && (isDigit(s[i-1]) || s[i-1] == '/') || i+3 < len(s) && (isDigit(s[i+3]) || s[i+3] == '/') {
		return "", false
	}
	return sign, true
}

// isWhole reports whether a text ends in a whole number.
func isWhole(s string) bool {
	before := strings.TrimRight(s, "0123456789")
	return len(before) < len(s) && !strings.HasSuffix(before, ".") && !strings.HasSuffix(before, "/")
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }
