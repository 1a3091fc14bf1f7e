package yardage_test

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// threeFabrics has an order, widths and counts that differ from fabric to
// fabric, and one fabric that nothing is cut from.
func threeFabrics() model.CutList {
	const half = model.Inch / 2
	fabric := func(id string, widths ...model.Length) model.Fabric {
		return model.Fabric{ID: id, UsableWidths: widths, SoldBy: model.ShopCut{Step: model.Yard / 8}}
	}
	return model.CutList{
		Title: "Three", Unit: model.Inches, Ruler: model.Inch / 8,
		Fabrics: []model.FabricCuts{
			{Fabric: fabric("plum", 40*model.Inch, 42*model.Inch, 44*model.Inch), Pieces: []model.Piece{
				{Name: "A", Along: 5 * half, Across: 9 * half, Count: 24, Turnable: true},
				{Name: "B", Along: 13 * half, Across: 13 * half, Count: 5},
				{Name: "C", Along: 7 * half, Across: 3 * half, Count: 11, Turnable: true},
			}},
			{Fabric: fabric("empty", 42*model.Inch)},
			{Fabric: fabric("ash", 42*model.Inch), Pieces: []model.Piece{
				{Name: "D", Along: 21 * half, Across: 3 * half, Count: 42},
				{Name: "E", Along: 19 * half, Across: 3 * half, Count: 42},
			}},
		},
	}
}

func require(t testing.TB, ctx context.Context, list model.CutList, o yardage.Options) yardage.Quilt {
	t.Helper()
	q, err := yardage.Require(ctx, list, o)
	if err != nil {
		t.Fatal(err)
	}
	for i := range q.Fabrics {
		for j := range q.Fabrics[i].Widths {
			q.Fabrics[i].Widths[j].Result.Elapsed = 0 // the one thing that may differ
		}
	}
	return q
}

func TestRequireCosts(t *testing.T) {
	list := threeFabrics()
	list.Fabrics[0].Fabric.Price = 1250
	q := require(t, t.Context(), list, yardage.Options{Style: pack.Plain})
	for _, w := range q.Fabrics[0].Widths {
		// By hand: eighths of a yard at 12.50 / 8 = 1.5625 each.
		eighths := int64(w.Buy.Length / (model.Yard / 8))
		if want := model.Money((eighths*15625 + 50) / 100); w.Cost != want || want == 0 {
			t.Errorf("%s cost %v, want %v", w.Buy.Text, w.Cost, want)
		}
	}
	for _, f := range q.Fabrics[1:] {
		if f.Widths[0].Cost != 0 {
			t.Errorf("%s costs %v without a price", f.Fabric.ID, f.Widths[0].Cost)
		}
	}
}

// Searches that share work by need make the same plans, however many run at
// once.
func TestRequireSharesWorkOnAnyNumberOfCores(t *testing.T) {
	list := heavy()
	list.Fabrics = append(list.Fabrics, threeFabrics().Fabrics...)
	var first yardage.Quilt
	for _, cores := range []int{1, 2, 5} {
		before := runtime.GOMAXPROCS(cores)
		q := require(t, t.Context(), list, yardage.Options{Style: pack.Shared, Work: 1.6e8})
		runtime.GOMAXPROCS(before)
		if cores == 1 {
			first = q
		} else if diff := cmp.Diff(first, q); diff != "" {
			t.Errorf("on %d cores (-one +more):\n%s", cores, diff)
		}
	}
	for _, f := range first.Fabrics[:2] {
		if r := f.Widths[0].Result; f.Widths[0].BuyProven || r.Work < 4e7 || r.Stop != pack.WorkLimit {
			t.Errorf("%s took %d steps, %v: it should have used up its shares", f.Fabric.ID, r.Work, r.Stop)
		}
	}
}

func TestRequireKeepsOrderOnAnyNumberOfCores(t *testing.T) {
	list := threeFabrics()
	var first yardage.Quilt
	for _, cores := range []int{1, 2, 7} {
		before := runtime.GOMAXPROCS(cores)
		q := require(t, t.Context(), list, yardage.Options{Style: pack.Nested})
		runtime.GOMAXPROCS(before)
		if cores == 1 {
			first = q
		} else if diff := cmp.Diff(first, q); diff != "" {
			t.Errorf("on %d cores (-one +more):\n%s", cores, diff)
		}
	}
	var got []string
	for _, f := range first.Fabrics {
		for _, w := range f.Widths {
			got = append(got, fmt.Sprint(f.Fabric.ID, " ", w.Width.Format(first.Unit)))
		}
	}
	want := "plum 40, plum 42, plum 44, empty 42, ash 42"
	if s := strings.Join(got, ", "); s != want {
		t.Errorf("got %s, want %s", s, want)
	}
}

// Every figure of a requirement follows from its two plans.
func TestRequireFigures(t *testing.T) {
	for _, style := range []pack.Style{pack.Plain, pack.Shared, pack.Nested} {
		q := require(t, t.Context(), threeFabrics(), yardage.Options{Style: style})
		for _, f := range q.Fabrics {
			for _, w := range f.Widths {
				at := fmt.Sprintf("%v, %s at %v", style, f.Fabric.ID, w.Width)
				length, step := w.Result.Plan.Length(), f.Fabric.SoldBy.Step
				if w.Result.Plan.Style != style || w.Plain.Style != pack.Plain {
					t.Errorf("%s: styles %v and %v", at, w.Result.Plan.Style, w.Plain.Style)
				}
				if w.Need != length || w.Buy.Length != length.CeilTo(step) || w.PlainBuy.Length != w.Plain.Length().CeilTo(step) {
					t.Errorf("%s: length %v, need %v, buy %v, by hand %v", at, length, w.Need, w.Buy, w.PlainBuy)
				}
				if w.Saved.Length != w.PlainBuy.Length-w.Buy.Length || w.Saved.Length < 0 {
					t.Errorf("%s: saved %v of %v", at, w.Saved, w.PlainBuy)
				}
				if w.AtLeast.Length > w.Buy.Length || w.BuyProven != (w.AtLeast == w.Buy) {
					t.Errorf("%s: buy %v, at least %v, proven %v", at, w.Buy, w.AtLeast, w.BuyProven)
				}
				if w.UsedArea > w.CutArea || w.CutArea != model.AreaOf(w.Width, length) {
					t.Errorf("%s: %d used of %d", at, w.UsedArea, w.CutArea)
				}
			}
		}
		if e := q.Fabrics[1].Widths[0]; e.Buy.Length != 0 || len(e.Result.Plan.Strips) != 0 || !e.BuyProven {
			t.Errorf("%v: a fabric that nothing is cut from buys %v", style, e.Buy)
		}
	}
}

func TestRequireNamesWhatDoesNotFit(t *testing.T) {
	list := threeFabrics()
	list.Fabrics[0].Pieces[1].Along = 43 * model.Inch
	list.Fabrics[2].Pieces[0].Along = 50 * model.Inch
	_, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Nested})
	if !errors.Is(err, pack.ErrTooWide) {
		t.Fatalf("got %v, want %v", err, pack.ErrTooWide)
	}
	want := []string{
		`fabric "plum" at a usable width of 40 in: piece "B"`,
		`fabric "plum" at a usable width of 42 in: piece "B"`,
		`fabric "ash" at a usable width of 42 in: piece "D"`,
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != len(want) {
		t.Fatalf("got %d lines, want %d:\n%v", len(lines), len(want), err)
	}
	for i, line := range lines {
		if !strings.HasPrefix(line, want[i]) {
			t.Errorf("got %q, want %q", line, want[i])
		}
	}
}

// A search that is ended gives plans all the same, with true bounds.
func TestRequireEnded(t *testing.T) {
	best := require(t, t.Context(), threeFabrics(), yardage.Options{Style: pack.Nested})
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	for name, q := range map[string]yardage.Quilt{
		"cancelled": require(t, ended, threeFabrics(), yardage.Options{Style: pack.Nested}),
		"no time":   require(t, t.Context(), threeFabrics(), yardage.Options{Style: pack.Nested, TimeLimit: time.Nanosecond}),
	} {
		for i, f := range q.Fabrics {
			for j, w := range f.Widths {
				b := best.Fabrics[i].Widths[j]
				if w.Result.Bound > b.Result.Plan.Length() || w.AtLeast.Length > b.Buy.Length {
					t.Errorf("%s: %s at %v: the bound %v is above the plan %v", name, f.Fabric.ID, w.Width, w.Result.Bound, b.Result.Plan.Length())
				}
				if w.Saved.Length < 0 {
					t.Errorf("%s: %s at %v: worse than by hand: %v", name, f.Fabric.ID, w.Width, w.Saved)
				}
			}
		}
	}
}

// Needs of full-width strips are counted at each usable width, and other pieces
// may use what a part strip leaves: with 272 in of binding, 6 strips of 42 in
// (6 x 42 - 5 x 2 1/2 = 239 1/2) and one of 35; 7 of 40 (265) and one of 9 1/2.
func TestRequireCountsStripsAtEachWidth(t *testing.T) {
	const half = model.Inch / 2
	list := model.CutList{Ruler: model.Inch / 8, Fabrics: []model.FabricCuts{{
		Fabric: model.Fabric{ID: "ink", UsableWidths: []model.Length{40 * model.Inch, 42 * model.Inch}, SoldBy: model.ShopCut{Step: model.Yard / 8}},
		Pieces: []model.Piece{{Name: "A", Along: 7 * model.Inch, Across: 5 * half, Count: 1}},
		Strips: []model.Strip{{Name: "B", Height: 5 * half, Run: 272 * model.Inch, Join: 5 * half}},
	}}}
	q := require(t, t.Context(), list, yardage.Options{Style: pack.Shared})
	for i, want := range []struct {
		strips int
		pieces string
	}{{8, "1 A 7, 7 B 40, 1 B part 9 1/2"}, {7, "1 A 7, 6 B 42, 1 B part 35"}} {
		r := q.Fabrics[0].Widths[i]
		var got []string
		for _, p := range q.Fabrics[0].PiecesAt(r.Width) {
			got = append(got, fmt.Sprint(p.Count, " ", p.Name, " ", p.Along.Format(model.Inches)))
		}
		if text := strings.Join(got, ", "); text != want.pieces || r.Result.Plan.StripCount() != want.strips {
			t.Errorf("at %v: %s in %d strips, want %s in %d", r.Width, text, r.Result.Plan.StripCount(), want.pieces, want.strips)
		}
		if r.UsedArea > r.CutArea || r.UsedArea <= 0 {
			t.Errorf("at %v: %d of %d is used", r.Width, r.UsedArea, r.CutArea)
		}
	}
}

// Strips of many needs may come to more pieces than a plan can have.
func TestRequireRefusesTooManyStrips(t *testing.T) {
	list := model.CutList{Fabrics: []model.FabricCuts{{
		Fabric: model.Fabric{ID: "ink", UsableWidths: []model.Length{model.Inch}, SoldBy: model.ShopCut{Step: model.Yard / 8}},
		Strips: []model.Strip{
			{Name: "B", Height: model.Inch, Count: 60_000, First: model.Inch, Each: model.Inch},
			{Name: "C", Height: model.Inch, Count: 60_000, First: model.Inch, Each: model.Inch},
		},
	}}}
	if _, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Plain}); !errors.Is(err, model.ErrTooMany) {
		t.Errorf("got %v", err)
	}
}

func ExampleRequire() {
	logs := []model.Piece{
		{Name: "log N", Along: 21 * model.Inch / 2, Across: 3 * model.Inch / 2, Count: 42},
		{Name: "log M", Along: 19 * model.Inch / 2, Across: 3 * model.Inch / 2, Count: 42},
	}
	list := model.CutList{Fabrics: []model.FabricCuts{{
		Fabric: model.Fabric{
			ID: "orange", UsableWidths: []model.Length{40 * model.Inch},
			SoldBy: model.ShopCut{Step: model.Yard / 8},
		},
		Pieces: logs,
	}}}
	q, err := yardage.Require(context.Background(), list, yardage.Options{Style: pack.Shared})
	if err != nil {
		fmt.Println(err)
		return
	}
	r := q.Fabrics[0].Widths[0]
	fmt.Println(r.Result.Plan.StripCount(), "strips, by hand", r.Plain.StripCount())
	fmt.Println("buy", r.Buy.Text, "proven", r.BuyProven)
	// Output:
	// 21 strips, by hand 25
	// buy 7/8 yd proven true
}
