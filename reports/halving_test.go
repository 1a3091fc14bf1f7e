package reports

import (
	"slices"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/reports/drawing"
)

// twoSlants are half-rectangles of both slants, and rectangles and squares of
// the file's own cuts.
const twoSlants = `
title: Two slants
unit: in
fabrics: {ink: {}, foam: {}}
units:
  r: {half_rectangle: 2 x 4, fabrics: [ink, foam]}
  l: {half_rectangle: 2 x 4, fabrics: [ink, foam], seam_from: upper left}
blocks:
  pair: {finished: 4, rows: [[r, l]]}
setting: {rows: 3, columns: 4, layout: [[pair]]}
cuts:
  - {name: Y, fabric: ink, size: 3 x 5, count: 4, halve: once}
  - {name: Z, fabric: ink, size: 3, count: 4, halve: once}
`

// slantOf is the diagonal that a dashed line in a piece lies on, if it is one.
func slantOf(line drawing.Line, a area) model.Diagonal {
	if line.Stroke.Dash == 0 || len(line.Points) != 2 {
		return model.EitherDiagonal
	}
	from, to := line.Points[0], line.Points[1]
	switch {
	case from == a.from && to == a.to:
		return model.Falling
	case from == drawing.Point{X: a.from.X, Y: a.to.Y} && to == drawing.Point{X: a.to.X, Y: a.from.Y}:
		return model.Rising
	}
	return model.EitherDiagonal
}

// Every piece that lies on the cloth shows the diagonal that its half-rectangle
// has: a turned one the other, a rectangle of the file's own cuts none.
func TestHalvedOnTheRightDiagonal(t *testing.T) {
	d, err := quiltfile.ParseDesign("slants.yaml", []byte(twoSlants))
	if err != nil {
		t.Fatal(err)
	}
	rows := newRows(plannedPlainly(t, d, ""))
	drawn := make(map[bool]map[model.Diagonal]int) // by turned, by diagonal of the piece
	f := rows.fabrics[0]
	for _, strip := range f.widths[0].strips {
		lying, _ := lay(strip.Strip, f.widths[0].pieces, 0, f.widths[0].Width)
		for _, turned := range []bool{false, true} {
			for _, p := range lying {
				p.turned = turned
				c := newCanvas("", 40*model.Inch, 500)
				c.piece(p, false, model.Inches)
				var slants []model.Diagonal
				for _, e := range c.Items {
					if line, is := e.(drawing.Line); is {
						slants = append(slants, slantOf(line, p.area))
					}
				}
				want := []model.Diagonal{p.piece.Diagonal}
				switch {
				case p.piece.label == "Y":
					want = nil
				case p.piece.label == "Z":
					want = []model.Diagonal{model.Rising}
				case turned:
					want = []model.Diagonal{p.piece.Diagonal.Turned()}
				}
				if !slices.Equal(slants, want) {
					t.Errorf("%s, turned %v: drawn on %v, want %v", p.piece.label, turned, slants, want)
				}
				if drawn[turned] == nil {
					drawn[turned] = make(map[model.Diagonal]int)
				}
				drawn[turned][p.piece.Diagonal]++
			}
		}
	}
	for _, slant := range []model.Diagonal{model.EitherDiagonal, model.Rising, model.Falling} {
		if drawn[false][slant] == 0 || drawn[true][slant] == 0 {
			t.Errorf("no piece halved %q is tested", slant)
		}
	}
	for _, p := range f.pieces {
		want := p.Diagonal.String()
		if p.label == "Y" {
			want = "Cut all on the same diagonal"
		}
		if got := halve(p); !strings.Contains(got, want) {
			t.Errorf("%s: %q does not say %q", p.label, got, want)
		}
	}
}
