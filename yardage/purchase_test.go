package yardage

import (
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
)

func drawFabric(t *rapid.T) model.Fabric {
	return model.Fabric{
		SoldBy: rapid.SampledFrom([]model.ShopCut{
			{Step: model.Yard / 8}, {Step: model.Yard / 3}, {Step: model.Inch, Unit: model.InchesOfCloth},
			{Step: 10 * model.Centimetre, Unit: model.CentimetresOfCloth}, {Step: model.Metre / 4, Unit: model.Metres},
		}).Draw(t, "sold by"),
		Straighten: model.Length(rapid.Int64Range(0, int64(model.MaxStraighten)).Draw(t, "straighten")),
		Shrinkage:  model.Percent(rapid.Int64Range(0, int64(model.MaxPercent)).Draw(t, "shrinkage")),
	}
}

// The search relies on a purchase that never falls as the length grows; a
// maker relies on cloth that is enough, and not a whole cut too much.
func TestPurchaseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := drawFabric(t)
		lengths := rapid.Int64Range(1, int64(100*model.Yard))
		a, b := model.Length(lengths.Draw(t, "a")), model.Length(lengths.Draw(t, "b"))
		if a > b {
			a, b = b, a
		}
		bought := purchase(f, a).Length
		if bought > purchase(f, b).Length {
			t.Fatalf("%v buys more than %v", a, b)
		}
		if bought%f.SoldBy.Step != 0 {
			t.Fatalf("the shop does not cut %v by %v", bought, f.SoldBy)
		}
		left := bought - f.Straighten
		const whole = 100_00
		if held := left * model.Length(whole-f.Shrinkage); held < a*whole {
			t.Fatalf("%v bought, and %v does not come out of it", bought, a)
		}
		if less := left - f.SoldBy.Step; less*model.Length(whole-f.Shrinkage) >= a*whole {
			t.Fatalf("%v bought, where a cut less would do", bought)
		}
	})
}

func TestNothingNeedsNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		if p := purchase(drawFabric(t), 0); p.Length != 0 {
			t.Fatalf("no strips buy %v", p)
		}
	})
}
