package pack

import (
	"context"
	"testing"

	"crossgrain/model"
)

// How a bound is known, by problems that a page of arithmetic settles: strips
// of width 10 in the grid's unit.
func TestProofs(t *testing.T) {
	for _, c := range []struct {
		name  string
		style Style
		items []Item
		bound model.Length
		by    Proof
	}{
		{"each size alone", Plain, []Item{{6, 2, 3, false}, {4, 1, 3, false}}, 8, ByCount},
		{"no gaps", Shared, []Item{{6, 2, 3, false}, {4, 2, 3, false}}, 6, ByArea},
		{"one high piece", Shared, []Item{{6, 9, 1, false}, {4, 2, 1, false}}, 9, ByArea},
		// One wide piece to a strip, so that the price of one is a whole strip.
		{"half empty", Shared, []Item{{6, 2, 3, false}, {4, 1, 2, false}}, 6, ByRelaxation},
	} {
		p, err := NewProblem(10, c.items)
		if err != nil {
			t.Fatal(err)
		}
		r, err := Solve(context.Background(), p, Options{Style: c.style})
		if err != nil {
			t.Fatal(err)
		}
		if r.Bound != c.bound || r.BoundBy != c.by || r.PurchaseBy != c.by || !r.LengthProven() {
			t.Errorf("%s: a bound of %d by %v, of the purchase by %v, want %d by %v",
				c.name, r.Bound, r.BoundBy, r.PurchaseBy, c.bound, c.by)
		}
	}
}

// Where a shop cuts no less than the cloth that nothing takes, that is known as
// the bound is.
func TestProofOfTheLeastPurchase(t *testing.T) {
	p, err := NewProblem(10, []Item{{6, 2, 3, false}, {4, 2, 3, false}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := Solve(context.Background(), p, Options{Style: Shared, Purchase: func(model.Length) model.Length { return 9 }})
	if err != nil || r.PurchaseBy != ByArea {
		t.Errorf("%v, %v", r.PurchaseBy, err)
	}
}
