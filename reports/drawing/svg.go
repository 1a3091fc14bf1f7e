package drawing

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"crossgrain/model"
)

// WriteSVG writes a sheet as an SVG file. Each drawing is an svg element of its
// own, whose viewBox counts in the drawing's units: what is drawn has its exact
// coordinates.
func WriteSVG(w io.Writer, s Sheet) error {
	out := &svgWriter{out: bufio.NewWriter(w)}
	out.put(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	out.put(`<svg xmlns="http://www.w3.org/2000/svg" width="%dpt" height="%dpt" viewBox="0 0 %d %d">`+"\n",
		s.Width, s.Height, s.Width, s.Height)
	out.put("<title>%s</title>\n", escaped(s.Title))
	out.put(`<rect width="%d" height="%d" fill="#fff"/>`+"\n", s.Width, s.Height)
	for _, p := range s.Parts {
		width, height := p.Drawing.Size()
		out.drawing(p.Drawing, fmt.Sprintf(`x="%d" y="%d" width="%d" height="%d"`, p.X, p.Y, width, height))
	}
	out.put("</svg>\n")
	return out.out.Flush()
}

// SVG is a drawing as an element to put into a page, as wide as there is room,
// up to its own size.
func SVG(d Drawing) string {
	var text strings.Builder
	out := &svgWriter{out: bufio.NewWriter(&text)}
	width, height := d.Size()
	out.drawing(d, fmt.Sprintf(`class="drawing" role="img" aria-label="%s" width="%d" height="%d"`,
		escaped(d.Title), width*4/3, height*4/3))
	_ = out.out.Flush() // a strings.Builder takes everything
	return text.String()
}

type svgWriter struct{ out *bufio.Writer }

// put writes; bufio keeps the first error for Flush.
func (w *svgWriter) put(format string, args ...any) { _, _ = fmt.Fprintf(w.out, format, args...) }

func (w *svgWriter) drawing(d Drawing, attributes string) {
	size := Point{d.To.X - d.From.X, d.To.Y - d.From.Y}
	width, height := d.Size()
	// The size in whole points is rounded up, and so is what is seen.
	size.X, size.Y = model.Length(width)*d.Scale, model.Length(height)*d.Scale
	w.put(`<svg %s viewBox="%d %d %d %d" font-family="Arial, Helvetica, 'Liberation Sans', sans-serif">`+"\n",
		attributes, d.From.X, d.From.Y, size.X, size.Y)
	w.put("<title>%s</title>\n", escaped(d.Title))
	for _, item := range d.Items {
		switch item := item.(type) {
		case Shape:
			w.shape(item)
		case Line:
			w.put(`<polyline points="%s" fill="none"%s/>`+"\n", points(item.Points), stroke(item.Stroke))
		case Text:
			w.text(item, d.Scale)
		}
	}
	w.put("</svg>\n")
}

func (w *svgWriter) shape(s Shape) {
	attributes := ""
	if s.Class != "" {
		attributes = fmt.Sprintf(` class="%s"`, s.Class)
	}
	if s.Name != "" {
		attributes += fmt.Sprintf(` data-name="%s"`, escaped(s.Name))
	}
	fill := "none"
	if !s.Hollow {
		fill = s.Fill.hex()
	}
	lines := s.Hatch.segments(s.Outline)
	paint := fmt.Sprintf(` fill="%s"%s`, fill, stroke(s.Stroke))
	if from, to, ok := isBox(s.Outline); ok {
		w.put(`<rect%s x="%d" y="%d" width="%d" height="%d"%s/>`+"\n", attributes, from.X, from.Y, to.X-from.X, to.Y-from.Y, paint)
	} else {
		w.put(`<polygon%s points="%s"%s/>`+"\n", attributes, points(s.Outline), paint)
	}
	if len(lines) > 0 {
		var path strings.Builder
		for _, l := range lines {
			fmt.Fprintf(&path, "M%d %dL%d %d", l[0].X, l[0].Y, l[1].X, l[1].Y)
		}
		w.put(`<path d="%s" fill="none"%s/>`+"\n", path.String(), stroke(s.Hatch.Stroke))
	}
}

// text writes in points, scaled up to the drawing's units: browsers do not draw
// fonts of thousands of units.
func (w *svgWriter) text(t Text, scale model.Length) {
	attributes := ""
	if t.Upward {
		attributes = " rotate(-90)"
	}
	attributes += fmt.Sprintf(` scale(%d)" font-size="%s" fill="%s"`, scale, ratio(t.Size, scale), t.Tone.hex())
	if t.Bold {
		attributes += ` font-weight="bold"`
	}
	if t.Anchor != Start {
		attributes += fmt.Sprintf(` text-anchor="%s"`, []string{"", "middle", "end"}[t.Anchor])
	}
	w.put(`<text transform="translate(%d %d)%s>%s</text>`+"\n", t.At.X, t.At.Y, attributes, escaped(t.Text))
}

func (t Tone) hex() string { return fmt.Sprintf("#%02x%02x%02x", t, t, t) }

func stroke(s Stroke) string {
	if s.Width == 0 {
		return ""
	}
	text := fmt.Sprintf(` stroke="%s" stroke-width="%d"`, s.Tone.hex(), s.Width)
	if s.Dash > 0 {
		text += fmt.Sprintf(` stroke-dasharray="%d %d"`, s.Dash, s.Gap)
	}
	return text
}

func points(g []Point) string {
	var text strings.Builder
	for i, p := range g {
		if i > 0 {
			text.WriteByte(' ')
		}
		fmt.Fprintf(&text, "%d,%d", p.X, p.Y)
	}
	return text.String()
}

// ratio is a/b with two places at most.
func ratio(a, b model.Length) string {
	return strconv.FormatFloat(float64(a*100/b)/100, 'f', -1, 64)
}

func escaped(s string) string {
	var text strings.Builder
	_ = xml.EscapeText(&text, []byte(s)) // a strings.Builder takes everything
	return text.String()
}
