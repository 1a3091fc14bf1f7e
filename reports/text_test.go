package reports

import (
	"bytes"
	"strings"
	"testing"

	"github.com/jedib0t/go-pretty/v6/text"

	"crossgrain/yardage"
)

func textOf(t *testing.T, q yardage.Quilt, o TextOptions) string {
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
