package quiltfile

import (
	"path/filepath"
	"testing"

	"crossgrain/model"
)

const quilts = "../../testdata/quilts"

// The demo quilts keep every rule, and their pieces make up the quilt that
// they describe: finished sizes are cut sizes less the seams, and their areas
// sum to that of the quilt. Binding is not part of the area.
func TestDemoQuilts(t *testing.T) {
	const in, cm = model.Inch, model.Centimetre
	for _, test := range []struct {
		file string
		// seams is what a side loses; a square halved once loses once more
		// than a half-square triangle of its finished size, likewise twice.
		seams, once, twice model.Length
		width, height      model.Length
	}{
		{"harbour-steps.yaml", in / 2, in * 7 / 8, in * 5 / 4, 60 * in, 72 * in},
		{"tide-pool-cm.yaml", cm * 3 / 2, 3 * cm, 0, 136 * cm, 166 * cm},
	} {
		q, err := Read(filepath.Join(quilts, test.file))
		if err != nil {
			t.Error(err)
			continue
		}
		var area model.Area
		for _, c := range q.Cuts {
			less := map[model.Halving]model.Length{
				model.NotHalved: test.seams, model.HalvedOnce: test.once, model.HalvedTwice: test.twice,
			}[c.Halve]
			if c.Use != "binding" {
				area += model.Area(c.Count) * model.AreaOf(c.Width-less, c.Height-less)
			}
		}
		if want := model.AreaOf(test.width, test.height); area != want {
			t.Errorf("%s: the finished pieces have %d square ticks, the quilt %d", test.file, area, want)
		}
	}
}

// What the joined binding must reach: round the quilt and a tail, each join on
// the slant losing the strip's width.
func TestDemoBindings(t *testing.T) {
	for _, test := range []struct {
		file string
		need model.Length
	}{
		{"harbour-steps.yaml", (264 + 12) * model.Inch},
		{"tide-pool-cm.yaml", (604 + 30) * model.Centimetre},
	} {
		q, err := Read(filepath.Join(quilts, test.file))
		if err != nil {
			t.Error(err)
			continue
		}
		for _, c := range q.Cuts {
			if c.Use != "binding" {
				continue
			}
			reach := func(n int) model.Length { return model.Length(n) * (c.Width - c.Height) }
			if reach(c.Count) < test.need || reach(c.Count-1) >= test.need {
				t.Errorf("%s: %d pieces reach %v, for %v", test.file, c.Count, reach(c.Count), test.need)
			}
		}
	}
}
