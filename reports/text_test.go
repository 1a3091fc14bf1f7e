package reports

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/model"
	"crossgrain/pack"
)

func textOf(t *testing.T, q Quilt, o TextOptions) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteText(&b, q, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestTextGolden(t *testing.T) {
	golden(t, "harbour.txt", []byte(textOf(t, harbour(t), TextOptions{})))
	golden(t, "dunes.txt", []byte(textOf(t, dunes(t), TextOptions{})))
}

// A hostile quilt: endless words, wide characters, escape codes.
func TestTextFitsItsWidth(t *testing.T) {
	names := []string{
		strings.Repeat("endless", 40),
		strings.Repeat("a word or two ", 40),
		strings.Repeat("布", 90),
		"red \x1b[31m and\nnew line\tand \u200b more",
	}
	for _, name := range names {
		q := harbour(t)
		q.Title = name
		for i := range q.Fabrics {
			q.Fabrics[i].Fabric.Name = name
			for j := range q.Fabrics[i].Pieces {
				q.Fabrics[i].Pieces[j].Name = name
			}
		}
		for _, width := range []int{0, 60, 80, 132} {
			out := textOf(t, q, TextOptions{Width: width})
			if strings.ContainsAny(out, "\x1b\t\u00a0\u200b") {
				t.Errorf("%.20q: the text holds a character that does not print", name)
			}
			if width == 0 {
				width = 80
			}
			for line := range strings.Lines(out) {
				line = strings.TrimSuffix(line, "\n")
				if n := text.StringWidth(line); n > width {
					t.Errorf("%.20q at width %d: a line of %d columns: %q", name, width, n, line)
				}
				if strings.HasSuffix(line, " ") {
					t.Errorf("a line ends in a space: %q", line)
				}
			}
		}
	}
}

func TestTextColour(t *testing.T) {
	plain := textOf(t, harbour(t), TextOptions{})
	if strings.Contains(plain, "\x1b") {
		t.Error("colour that nobody asked for")
	}
	colour := textOf(t, harbour(t), TextOptions{Colour: true})
	if !strings.Contains(colour, "\x1b[1m") {
		t.Error("no colour, though asked for")
	}
	if got := text.StripEscape(colour); got != plain {
		t.Error("colour changes more than the colour")
	}
}

// The sentences fit the numbers in them.
func TestWordsAgreeWithCounts(t *testing.T) {
	lone := pieceRow{Piece: model.Piece{Count: 1, Halve: model.HalvedTwice}, label: "A", triangles: 4}
	many := pieceRow{Piece: model.Piece{Count: 3, Halve: model.HalvedOnce}, label: "B", triangles: 6}
	c := stackRow{count: 1, label: "C", along: in(t, "4"), across: in(t, "2")}
	d := stackRow{count: 2, label: "D", along: in(t, "3"), across: in(t, "1")}
	trimmed := d
	trimmed.trimAlong = true
	tall := lone
	tall.Halve, tall.Across, tall.triangles = model.HalvedOnce, 1, 2
	two := strip(dunes(t).Fabrics[0].FabricCuts, in(t, "40"), in(t, "2"), 2)
	step := stripRow{Strip: two.add(16, "A").strip, cuts: []cutRow{{along: in(t, "4"), repeat: 16, stack: []stackRow{c}}}}
	step.Offcut = in(t, "1")
	step.part = &pack.Strip{Repeat: 1, Offcut: in(t, "30"), Segments: []pack.Segment{{Repeat: 4}}}
	for _, s := range []struct{ got, want string }{
		{halve(tall), "Halve 1 A once on the diagonal: 2 triangles. Cut all on the same diagonal, right side up and " +
			"in single layers: the other diagonal gives mirror images."},
		{cutStrips(step, model.Inches) + " " + fromEach(step) + " " + subcutAll(step, model.Inches),
			"Cut 3 strips 2 in high. From them subcut 36 C, 4 x 2 in, 16 from a whole strip"},
		{offcut(step, model.Inches), "Offcuts: 1 x 2 in at the end of each whole one, 30 x 2 in at the end of the last."},
		{halve(lone), "Halve 1 A twice, on both diagonals: 4 triangles."},
		{halve(many), "Halve all 3 B once on the diagonal: 6 triangles."},
		{subcut(cutRow{along: in(t, "4"), repeat: 5, stack: []stackRow{c}}, model.Inches), "subcut 5 C, 4 x 2 in"},
		{subcut(cutRow{along: in(t, "4"), repeat: 1, stack: []stackRow{c, trimmed}}, model.Inches),
			"cut off 1 stretch 4 in long and cut it into 1 C, 4 x 2 in; and 2 D, 3 x 1 in, trimmed to 3 in long"},
		{subcut(cutRow{along: in(t, "3"), repeat: 2, stack: []stackRow{d}}, model.Inches),
			"cut off 2 stretches 3 in long and cut each into 2 D, 3 x 1 in"},
	} {
		if got := unglued(s.got); got != s.want {
			t.Errorf("got %q, want %q", got, s.want)
		}
	}
}

// A note says where the plain plan would do as well; a plain plan is not
// compared with itself.
func TestTextOfPlainPlans(t *testing.T) {
	const note = "The plain plan buys the same and is simpler to cut (--style plain)."
	q := harbour(t)
	w := &q.Fabrics[0].Widths[0]
	w.PlainBuy = w.Buy
	if out := strings.Join(strings.Fields(textOf(t, q, TextOptions{})), " "); strings.Count(out, note) != 1 {
		t.Errorf("the note stands %d times, want once, in\n%s", strings.Count(out, note), out)
	}
	q = dunes(t)
	if out := textOf(t, q, TextOptions{}); strings.Contains(out, "simpler") {
		t.Errorf("a note about a plan that is plain itself in\n%s", out)
	}
	q.Style = pack.Plain
	if out := strings.ToLower(textOf(t, q, TextOptions{})); strings.Contains(out, "by hand") || strings.Contains(out, "saved") {
		t.Errorf("a plain plan is compared with itself in\n%s", out)
	}
}

// Every word that a report explains, and every heading of what to buy, is
// explained in the README too.
func TestReadmeHasWords(t *testing.T) {
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	words := []string{"buy", "saved", "at least", "halve", "together"}
	for _, q := range []Quilt{harbour(t), lagoon(t, 1)} {
		for _, term := range terms(newRows(q)) {
			words = append(words, term.word)
		}
	}
	for _, style := range []pack.Style{pack.Plain, pack.Shared, pack.Nested} {
		words = append(words, style.String())
	}
	for _, word := range words {
		row, bold := "\n| "+word+" | ", "**"+word+"** plan"
		if !strings.Contains(string(readme), row) && !strings.Contains(string(readme), bold) {
			t.Errorf("README.md does not explain %q", word)
		}
	}
}
