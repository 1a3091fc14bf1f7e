package yardage_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// heavy are two fabrics that take long.
func heavy() model.CutList {
	list := model.CutList{Unit: model.Inches}
	for f := range 2 {
		cuts := model.FabricCuts{Fabric: model.DefaultFabric(model.Inches)}
		cuts.Fabric.ID = fmt.Sprintf("f%d", f)
		cuts.Fabric.UsableWidths = cuts.Fabric.UsableWidths[:1]
		for s := range model.Length(40) {
			cuts.Pieces = append(cuts.Pieces, model.Piece{
				Name:   fmt.Sprint(s),
				Along:  model.Inch + model.Inch/16*(s*s*7%131),
				Across: model.Inch + model.Inch/16*(s*s*11%149),
				Count:  17 + int(s*29%60),
			})
		}
		list.Fabrics = append(list.Fabrics, cuts)
	}
	return list
}

// Progress is told of every fabric and width, by one search at a time.
func TestProgress(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Second)
	defer cancel()
	told := map[int]string{} // a map, so that the race detector sees two calls at once
	_, err := yardage.Require(ctx, heavy(), yardage.Options{
		Style: pack.Nested,
		Work:  1 << 60,
		Progress: func(p yardage.Progress) {
			told[p.Number] = p.Fabric
			if p.Total != 2 || p.Width != 40*model.Inch || p.Search.Best < p.Search.Bound || p.Search.Bound < 0 {
				t.Errorf("%+v", p)
			}
			if len(told) == 2 {
				cancel()
			}
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(told) == 0 || told[1] != "f0" && told[2] != "f1" {
		t.Errorf("told of %v", told)
	}
}
