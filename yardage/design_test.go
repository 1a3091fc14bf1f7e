package yardage_test

import (
	"testing"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// A design in centimetres is bought by 10 cm: enough for its strips, and no
// step more. Its strips are on the mark of 0.5 cm, and what to buy at each
// width covers the pieces counted at that width.
func TestDesignInCentimetres(t *testing.T) {
	d, err := quiltfile.ReadDesign("../testdata/quilts/skerry-cm.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, size := range d.SizeNames() {
		whole, err := d.Work(size)
		if err != nil {
			t.Fatal(err)
		}
		list, err := whole.Quilt.CutList()
		if err != nil {
			t.Fatal(err)
		}
		q := require(t, t.Context(), list, yardage.Options{Style: pack.Plain})
		for _, f := range q.Fabrics {
			for _, r := range f.Widths {
				const step = 10 * model.Centimetre
				length := r.Result.Plan.Length()
				if !r.Buy.Length.OnMark(step) || r.Buy.Length < length || r.Buy.Length >= length+step {
					t.Errorf("%s, %s at %v: buy %s for %s", size, f.Fabric.ID, r.Width, r.Buy.Text, length.FormatWithUnit(model.Centimetres))
				}
				var pieces, placed int
				for _, p := range f.PiecesAt(r.Width) {
					pieces += p.Count
				}
				for _, s := range r.Result.Plan.Strips {
					if !s.Height.OnMark(model.Centimetre / 2) {
						t.Errorf("%s, %s: a strip of %s", size, f.Fabric.ID, s.Height.FormatWithUnit(model.Centimetres))
					}
					for _, g := range s.Segments {
						placed += s.Repeat * g.Repeat * len(g.Stack)
					}
				}
				if placed != pieces {
					t.Errorf("%s, %s at %v: %d pieces are cut of %d", size, f.Fabric.ID, r.Width, placed, pieces)
				}
			}
		}
	}
}
