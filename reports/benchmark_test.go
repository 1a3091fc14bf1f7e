package reports

import (
	"io"
	"path/filepath"
	"testing"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// BenchmarkTwelveFabrics plans twelve fabrics of published quilts, nested, as one
// quilt at two usable widths, and writes it in every format.
func BenchmarkTwelveFabrics(b *testing.B) {
	list := twelveFabrics(b)
	for b.Loop() {
		y, err := yardage.Require(b.Context(), list, yardage.Options{Style: pack.Nested})
		if err != nil {
			b.Fatal(err)
		}
		quilts := []Quilt{{Quilt: y}}
		for _, write := range []func(io.Writer, []Quilt) error{
			WriteWorkbook, WriteSheet, WritePage, WriteSVG, WritePNG,
		} {
			if err := write(io.Discard, quilts); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// twelveFabrics are the first twelve fabrics of the published quilts in inches
// from which at least two sizes are cut.
func twelveFabrics(b *testing.B) model.CutList {
	b.Helper()
	files, err := filepath.Glob("../testdata/published/quilts/*.yaml")
	if err != nil {
		b.Fatal(err)
	}
	list := model.CutList{Title: "Twelve fabrics", Unit: model.Inches, Ruler: model.Inch / 16}
	for _, file := range files {
		q, err := quiltfile.Read(file)
		if err != nil {
			b.Fatal(err)
		}
		cuts, err := q.CutList()
		if err != nil {
			b.Fatal(err)
		}
		for _, f := range cuts.Fabrics {
			if len(list.Fabrics) < 12 && cuts.Unit == model.Inches && len(f.Pieces) > 1 {
				f.Fabric.ID += filepath.Base(file)
				f.Fabric.UsableWidths = model.DefaultFabric(model.Inches).UsableWidths
				list.Fabrics = append(list.Fabrics, f)
			}
		}
	}
	if len(list.Fabrics) != 12 {
		b.Fatalf("%d fabrics", len(list.Fabrics))
	}
	return list
}
