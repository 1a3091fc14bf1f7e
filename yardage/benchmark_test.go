package yardage_test

import (
	"context"
	"path/filepath"
	"testing"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// BenchmarkWorkedQuilts plans every fabric of the worked quilts, nested, one
// at a time on one core. It reports how many there are, of how many what to
// buy is proven and of how many the length, and the longest time that one
// took.
func BenchmarkWorkedQuilts(b *testing.B) {
	fabrics := workedFabrics(b)
	var worst, buys, lengths float64
	for b.Loop() {
		worst, buys, lengths = 0, 0, 0
		for _, list := range fabrics {
			q, err := yardage.Require(context.Background(), list, yardage.Options{Style: pack.Nested})
			if err != nil {
				b.Fatal(err)
			}
			for _, r := range q.Fabrics[0].Widths {
				worst = max(worst, r.Result.Elapsed.Seconds())
				if r.BuyProven {
					buys++
				}
				if r.Result.LengthProven() {
					lengths++
				}
			}
		}
	}
	b.ReportMetric(float64(len(fabrics)), "fabrics")
	b.ReportMetric(buys, "buys-proven")
	b.ReportMetric(lengths, "lengths-proven")
	b.ReportMetric(worst, "s-longest")
}

// workedFabrics are the cut lists of the worked quilts, one fabric at one
// width in each.
func workedFabrics(b *testing.B) []model.CutList {
	b.Helper()
	files, err := filepath.Glob(filepath.Join(published, "quilts", "*.yaml"))
	if err != nil || len(files) == 0 {
		b.Fatal("no worked quilts", err)
	}
	var lists []model.CutList
	for _, file := range files {
		quilt, err := quiltfile.Read(file)
		if err != nil {
			b.Fatal(err)
		}
		list, err := quilt.CutList()
		if err != nil {
			b.Fatal(err)
		}
		for _, f := range list.Fabrics {
			for _, w := range f.Fabric.UsableWidths {
				one := list
				f.Fabric.UsableWidths = []model.Length{w}
				one.Fabrics = []model.FabricCuts{f}
				lists = append(lists, one)
			}
		}
	}
	return lists
}
