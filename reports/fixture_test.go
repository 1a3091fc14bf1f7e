package reports

import (
	"strings"
	"testing"
	"time"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// The quilts here are laid out by hand, so that a better search does not
// change what the writers are tested on. TestFixturesHold puts every plan
// through the verifier.

func in(t testing.TB, s string) model.Length { return length(t, s, model.Inches) }

func length(t testing.TB, s string, u model.Unit) model.Length {
	t.Helper()
	l, err := model.ParseLength(s, u)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// piece reads "A 2 1/2 x 4 1/2" and the rest of a piece.
func piece(t testing.TB, u model.Unit, text string, count int) model.Piece {
	t.Helper()
	name, size, _ := strings.Cut(text, ": ")
	along, across, err := model.ParseSize(size, u)
	if err != nil {
		t.Fatal(err)
	}
	return model.Piece{Name: name, Along: along, Across: across, Count: count}
}

// layout is a strip in the making: its segments are added one after another
// and the offcut is what they leave.
type layout struct {
	fabric model.FabricCuts
	strip  pack.Strip
}

func strip(f model.FabricCuts, width, height model.Length, repeat int) *layout {
	return &layout{f, pack.Strip{Height: height, Repeat: repeat, Offcut: width}}
}

// add puts in repeat stretches, each a stack of the pieces; a minus before a
// name turns the piece.
func (l *layout) add(repeat int, names ...string) *layout {
	g := pack.Segment{Repeat: repeat}
	for _, name := range names {
		name, turned := strings.CutPrefix(name, "-")
		for i, p := range l.fabric.Pieces {
			if p.Name != name {
				continue
			}
			at := pack.Placement{Item: i, Along: p.Along, Across: p.Across, Turned: turned}
			if turned {
				at.Along, at.Across = p.Across, p.Along
			}
			g.Stack = append(g.Stack, at)
			g.Along = max(g.Along, at.Along)
		}
	}
	l.strip.Segments = append(l.strip.Segments, g)
	l.strip.Offcut -= g.Along * model.Length(repeat)
	return l
}

func plan(style pack.Style, width model.Length, layouts ...*layout) pack.Plan {
	p := pack.Plan{Style: style, Width: width}
	for _, l := range layouts {
		p.Strips = append(p.Strips, l.strip)
	}
	return p
}

// requirement does for a plan made by hand what yardage does for a solved one.
func requirement(f model.FabricCuts, p, plain pack.Plan, bound model.Length) yardage.Requirement {
	need := func(l model.Length) model.Length {
		if l == 0 {
			return 0
		}
		return f.Fabric.Shrinkage.Grow(l) + f.Fabric.Straighten
	}
	buy := func(l model.Length) yardage.Purchase {
		l = f.Fabric.SoldBy.Ceil(need(l))
		return yardage.Purchase{Length: l, Text: f.Fabric.SoldBy.Format(l)}
	}
	r := yardage.Requirement{
		Width:    p.Width,
		Result:   pack.Result{Plan: p, Bound: bound, BoundBy: pack.BySearch, PurchaseBy: pack.ByRelaxation, Elapsed: 5 * time.Millisecond},
		Need:     need(p.Length()),
		Buy:      buy(p.Length()),
		AtLeast:  buy(bound),
		Plain:    plain,
		PlainBuy: buy(plain.Length()),
		CutArea:  model.Area(p.Length()) * model.Area(p.Width),
	}
	for _, c := range f.PiecesAt(p.Width) {
		r.UsedArea += model.Area(c.Along) * model.Area(c.Across) * model.Area(c.Count)
	}
	saved := r.PlainBuy.Length - r.Buy.Length
	r.Saved = yardage.Purchase{Length: saved, Text: f.Fabric.SoldBy.Format(saved)}
	r.BuyProven = r.Buy == r.AtLeast
	r.Cost = f.Fabric.SoldBy.Cost(f.Fabric.Price, r.Buy.Length)
	if bound < p.Length() {
		r.Result.Stop = pack.TimeLimit
	}
	return r
}

// harbour is in inches, with nested plans: stacks, a turned piece, trimmed
// ones, halved squares, a purchase that is not proven, a fabric with a long
// name and one that nothing is cut from.
func harbour(t testing.TB) Quilt {
	eighth, quarter := model.Yard/8, model.Yard/4
	ink := model.FabricCuts{
		Fabric: model.Fabric{
			ID: "ink", Name: "Ink solid", UsableWidths: []model.Length{in(t, "40"), in(t, "42")},
			SoldBy: model.ShopCut{Step: eighth}, Straighten: in(t, "1/2"), Price: 1199,
		},
		Pieces: []model.Piece{
			piece(t, model.Inches, "A: 2 1/2 x 4 1/2", 17),
			piece(t, model.Inches, "B: 2 7/8", 10),
			piece(t, model.Inches, "C: 6 1/2 x 3", 4),
			piece(t, model.Inches, "D: 5 x 1 1/2", 4),
		},
	}
	for i, use := range []string{"star points", "corners", "steps", "steps"} {
		ink.Pieces[i].Use = use
		ink.Pieces[i].Turnable = ink.Pieces[i].Along != ink.Pieces[i].Across
	}
	ink.Pieces[1].Halve = model.HalvedOnce

	oat := model.FabricCuts{
		Fabric: model.Fabric{
			ID: "oat", Name: "Oat print with little boats, all the same way up, for the long borders",
			OneWay: true, UsableWidths: []model.Length{in(t, "42"), in(t, "44 1/2")},
			SoldBy: model.ShopCut{Step: quarter}, Shrinkage: 300, Price: 1350,
		},
		Pieces: []model.Piece{
			piece(t, model.Inches, "E: 6 1/2 x 60 1/2", 2),
			piece(t, model.Inches, "setting triangles: 5 1/4", 9),
		},
	}
	oat.Pieces[0].Grain = model.Lengthwise
	oat.Pieces[1].Halve = model.HalvedTwice

	cloud := model.FabricCuts{Fabric: model.Fabric{
		ID: "cloud", UsableWidths: []model.Length{in(t, "42")}, SoldBy: model.ShopCut{Step: quarter},
	}}
	return Quilt{Quilt: yardage.Quilt{
		Title: "Harbour steps", Unit: model.Inches, Ruler: model.Inch / 8, Style: pack.Nested,
		Fabrics: []yardage.FabricRequirement{
			{FabricCuts: ink, Widths: []yardage.Requirement{ink40(t, ink), ink42(t, ink)}},
			{FabricCuts: oat, Widths: []yardage.Requirement{
				oatAt(t, oat, in(t, "42"), in(t, "52")), oatAt(t, oat, in(t, "44 1/2"), in(t, "60 1/2")),
			}},
			{FabricCuts: cloud, Widths: []yardage.Requirement{
				requirement(cloud, plan(pack.Nested, in(t, "42")), plan(pack.Plain, in(t, "42")), 0),
			}},
		},
	}}
}

func ink40(t testing.TB, ink model.FabricCuts) yardage.Requirement {
	w := in(t, "40")
	p := plan(pack.Nested, w,
		strip(ink, w, in(t, "4 1/2"), 1).add(10, "A").add(2, "C", "D"),
		strip(ink, w, in(t, "4 1/2"), 1).add(6, "A").add(2, "C", "D").add(4, "B"),
		strip(ink, w, in(t, "2 7/8"), 1).add(6, "B").add(1, "-A"),
	)
	return requirement(ink, p, inkPlain(t, ink, w), in(t, "11 1/2"))
}

func ink42(t testing.TB, ink model.FabricCuts) yardage.Requirement {
	w := in(t, "42")
	p := plan(pack.Nested, w,
		strip(ink, w, in(t, "4 1/2"), 2).add(8, "A").add(2, "C", "D").add(2, "B"),
		strip(ink, w, in(t, "2 7/8"), 1).add(6, "B").add(1, "-A"),
	)
	return requirement(ink, p, inkPlain(t, ink, w), p.Length())
}

func inkPlain(t testing.TB, ink model.FabricCuts, w model.Length) pack.Plan {
	return plan(pack.Plain, w,
		strip(ink, w, in(t, "4 1/2"), 1).add(16, "A"),
		strip(ink, w, in(t, "4 1/2"), 1).add(1, "A"),
		strip(ink, w, in(t, "3"), 1).add(4, "C"),
		strip(ink, w, in(t, "2 7/8"), 1).add(10, "B"),
		strip(ink, w, in(t, "1 1/2"), 1).add(4, "D"),
	)
}

func oatAt(t testing.TB, oat model.FabricCuts, w, bound model.Length) yardage.Requirement {
	const s = "setting triangles"
	p := plan(pack.Nested, w,
		strip(oat, w, in(t, "60 1/2"), 1).add(2, "E").add(1, s, s, s, s, s, s, s, s, s))
	plain := plan(pack.Plain, w,
		strip(oat, w, in(t, "60 1/2"), 1).add(2, "E"),
		strip(oat, w, in(t, "5 1/4"), 1).add(8, s),
		strip(oat, w, in(t, "5 1/4"), 1).add(1, s))
	return requirement(oat, p, plain, bound)
}

// dunes is in centimetres, with shared plans.
func dunes(t testing.TB) Quilt {
	cm := func(s string) model.Length { return length(t, s, model.Centimetres) }
	w := cm("106.5")
	sand := model.FabricCuts{
		Fabric: model.Fabric{
			ID: "sand", Name: "Sand", UsableWidths: []model.Length{w},
			SoldBy: model.ShopCut{Step: 10 * model.Centimetre, Unit: model.CentimetresOfCloth},
		},
		Pieces: []model.Piece{
			piece(t, model.Centimetres, "A: 6.5 x 11.5", 16),
			piece(t, model.Centimetres, "B: 12.25 x 7.5", 9),
		},
	}
	p := plan(pack.Shared, w,
		strip(sand, w, cm("11.5"), 1).add(16, "A"),
		strip(sand, w, cm("7.5"), 1).add(8, "B"),
		strip(sand, w, cm("7.5"), 1).add(1, "B"))
	plain := p
	plain.Style = pack.Plain
	return Quilt{Quilt: yardage.Quilt{
		Title: "Dünen", Unit: model.Centimetres, Ruler: model.Centimetre / 4, Style: pack.Shared,
		Fabrics: []yardage.FabricRequirement{
			{FabricCuts: sand, Widths: []yardage.Requirement{requirement(sand, p, plain, p.Length())}},
		},
	}}
}

func TestFixturesHold(t *testing.T) {
	for _, q := range []Quilt{harbour(t), dunes(t), lagoon(t, 1)} {
		for _, f := range q.Fabrics {
			for _, w := range f.Widths {
				var items []pack.Item
				for _, p := range f.PiecesAt(w.Width) {
					items = append(items, pack.Item{Along: p.Along, Across: p.Across, Count: p.Count, Turnable: p.Turnable})
				}
				problem, err := pack.NewProblem(w.Width, items)
				if err != nil {
					t.Fatal(err)
				}
				for _, p := range []pack.Plan{w.Result.Plan, w.Plain} {
					if err := pack.Verify(problem, p); err != nil {
						t.Errorf("%s, %s at %v, %v: %v", q.Title, f.Fabric.ID, w.Width, p.Style, err)
					}
				}
			}
		}
	}
}
