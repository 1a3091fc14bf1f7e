package main

import (
	"context"
	"fmt"
	"slices"
	"time"

	"crossgrain/model"
	"crossgrain/yardage"
)

// The set twelve is one quilt: the first twelve fabrics by name with no more
// sizes than a quilt has of one fabric, all of which fit the narrower width.
// They are planned together, at both widths, as the program plans a quilt.
const (
	quiltSize      = 12
	mostQuiltTypes = 12
)

var quiltWidths = []model.Length{40 * model.Inch, 42 * model.Inch}

// quiltFabrics picks the fabrics of the quilt.
func quiltFabrics(all []instance) []instance {
	narrow := int(slices.Min(quiltWidths) / sixteenth)
	var some []instance
	for _, in := range all {
		sizes := in.sizes()
		fits := !slices.ContainsFunc(sizes, func(s size) bool {
			return s.along > narrow && (!s.turnable || s.across > narrow)
		})
		if fits && len(sizes) <= mostQuiltTypes && len(some) < quiltSize {
			some = append(some, in)
		}
	}
	return some
}

// measureQuilt plans all instances as the fabrics of one quilt. There is a row
// for each fabric at each width, with the time that its plan took while others
// were made beside it; the last row has the time of the whole.
func measureQuilt(ctx context.Context, fabrics []instance, o order, p printer) ([]row, error) {
	list := model.CutList{Title: "twelve", Unit: model.Inches, Ruler: sixteenth}
	for _, in := range fabrics {
		list.Fabrics = append(list.Fabrics, in.fabric())
	}
	watchMemory()
	start := time.Now()
	quilt, err := yardage.Require(ctx, list, yardage.Options{Style: o.style, TimeLimit: o.limit})
	if err != nil || ctx.Err() != nil {
		return nil, err
	}
	elapsed := time.Since(start).Seconds()
	var rows []row
	whole := row{Name: "the whole quilt", Whole: true, Proven: true, Seconds: elapsed, Megabytes: peakMemory()}
	allBuys := true
	for i, f := range quilt.Fabrics {
		for _, requirement := range f.Widths {
			r := newRow(fabrics[i], requirement.Result)
			r.Name += " at " + requirement.Width.FormatWithUnit(model.Inches)
			r.Recorded = nil // known for another width
			r.Seconds = requirement.Result.Elapsed.Seconds()
			// When what was proven is not known: at the end, at the latest.
			if requirement.BuyProven {
				r.BuySeconds = r.Seconds
			}
			if r.Proven {
				r.LengthSeconds = r.Seconds
			}
			rows = append(rows, r)
			p.row(r)
			whole.add(r)
			allBuys = allBuys && requirement.BuyProven
		}
	}
	whole.BuyProven = &allBuys
	p.row(whole)
	return append(rows, whole), nil
}

// add sums up what can be.
func (r *row) add(other row) {
	r.Types += other.Types
	r.Pieces += other.Pieces
	r.Bound += other.Bound
	r.Length += other.Length
	r.Strips += other.Strips
	r.Columns += other.Columns
	r.Nodes += other.Nodes
	r.Proven = r.Proven && other.Proven
}

// fabric is the instance as a fabric of a quilt.
func (in instance) fabric() model.FabricCuts {
	f := model.DefaultFabric(model.Inches)
	f.ID, f.UsableWidths, f.SoldBy = in.Name, quiltWidths, model.ShopCut{Step: in.step, Unit: model.Yards}
	cuts := model.FabricCuts{Fabric: f}
	for i, s := range in.sizes() {
		cuts.Pieces = append(cuts.Pieces, model.Piece{
			Name:     fmt.Sprintf("size %d", i+1),
			Along:    model.Length(s.along) * in.unit,
			Across:   model.Length(s.across) * in.unit,
			Count:    s.count,
			Turnable: s.turnable,
		})
	}
	return cuts
}
