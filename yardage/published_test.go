package yardage_test

import (
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// This file holds the program to what published patterns, tables and lessons
// print. The figures and their sources are in the folder published.
const published = "../testdata/published"

// sharing are the styles whose plans must be no longer than published ones.
var sharing = []pack.Style{pack.Shared, pack.Nested}

// statedQuilt is what a source states about one of the worked quilts.
type statedQuilt struct {
	File, Source, URL, Trust string
	Fabrics                  []statedFabric
}

type statedFabric struct {
	Fabric      string
	Complete    bool // all its pieces are in the quilt file
	Yards       inches
	Cloth       inches // length of a fat quarter or fat eighth
	Strips      []statedStrips
	StripsCover string     `json:"strips_cover"` // all, part or none of its pieces
	ExactInches inches     `json:"exact_inches"`
	PerStrip    []perStrip `json:"per_strip"`
}

type statedStrips struct {
	Height inches
	Count  int
}

// perStrip is how many of a piece lie across the width.
type perStrip struct {
	Piece string
	Count int
}

// inches is a length written as a mixed number of inches, "2 7/8"; as the
// Yards of a fabric, of yards.
type inches model.Length

func (l *inches) UnmarshalText(text []byte) error {
	sum := new(big.Rat)
	for _, word := range strings.Fields(string(text)) {
		r, ok := new(big.Rat).SetString(word)
		if !ok {
			return fmt.Errorf("not a mixed number: %q", text)
		}
		sum.Add(sum, r)
	}
	sum.Mul(sum, new(big.Rat).SetInt64(int64(model.Inch)))
	if !sum.IsInt() || !sum.Num().IsInt64() {
		return fmt.Errorf("not a whole number of ticks: %q", text)
	}
	*l = inches(sum.Num().Int64())
	return nil
}

// readPublished reads a JSON file of the folder.
func readPublished(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(published, name))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
}

func readStated(t *testing.T) []statedQuilt {
	t.Helper()
	var all struct{ Quilts []statedQuilt }
	readPublished(t, "stated.json", &all)
	files, err := filepath.Glob(filepath.Join(published, "quilts", "*.yaml"))
	if err != nil || len(files) != len(all.Quilts) {
		t.Fatalf("%d quilt files for %d quilts in stated.json: %v", len(files), len(all.Quilts), err)
	}
	return all.Quilts
}

// cutList reads the quilt file and checks that the source says something of
// each of its fabrics.
func (q statedQuilt) cutList(t *testing.T) model.CutList {
	t.Helper()
	quilt, err := quiltfile.Read(filepath.Join(published, "quilts", q.File))
	if err != nil {
		t.Fatal(err)
	}
	list, err := quilt.CutList()
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Fabrics) != len(q.Fabrics) {
		t.Fatalf("%s has %d fabrics, stated.json %d", q.File, len(list.Fabrics), len(q.Fabrics))
	}
	for i, f := range list.Fabrics {
		if f.Fabric.ID != q.Fabrics[i].Fabric {
			t.Fatalf("%s: fabric %q where stated.json has %q", q.File, f.Fabric.ID, q.Fabrics[i].Fabric)
		}
	}
	return list
}

// require plans a quilt; each fabric has one usable width.
func (q statedQuilt) require(t *testing.T, style pack.Style) []yardage.Requirement {
	t.Helper()
	plan, err := yardage.Require(t.Context(), q.cutList(t), yardage.Options{Style: style})
	if err != nil {
		t.Fatal(err)
	}
	var all []yardage.Requirement
	for i, f := range plan.Fabrics {
		if len(f.Widths) != 1 {
			t.Fatalf("%s: fabric %q has %d usable widths", q.File, q.Fabrics[i].Fabric, len(f.Widths))
		}
		all = append(all, f.Widths[0])
	}
	return all
}

// eachStated runs a test for every complete fabric of every worked quilt.
func eachStated(t *testing.T, style pack.Style, f func(t *testing.T, name string, s statedFabric, r yardage.Requirement)) {
	for _, q := range readStated(t) {
		needs := q.require(t, style)
		for i, s := range q.Fabrics {
			if !s.Complete {
				continue
			}
			name := strings.TrimSuffix(q.File, ".yaml") + "/" + s.Fabric
			t.Run(name, func(t *testing.T) {
				f(t, name, s, needs[i])
				if t.Failed() {
					t.Logf("source (%s): %s, %s", q.Trust, q.Source, q.URL)
				}
			})
		}
	}
}

// stated is the sum of the stated strips, and their number.
func (s statedFabric) stated() (length model.Length, strips int) {
	for _, st := range s.Strips {
		length += model.Length(st.Height) * model.Length(st.Count)
		strips += st.Count
	}
	return length, strips
}

// No published pattern cuts or buys less than the program's plan, and what to
// buy is proven.
func TestPublishedQuilts(t *testing.T) {
	for _, style := range sharing {
		t.Run(style.String(), func(t *testing.T) {
			eachStated(t, style, func(t *testing.T, _ string, s statedFabric, r yardage.Requirement) {
				if !r.BuyProven {
					t.Errorf("buy %s, at least %s: not proven", r.Buy.Text, r.AtLeast.Text)
				}
				atMost(t, "need", r.Need, model.Length(s.Yards)*36, "stated yards")
				atMost(t, "buy", r.Buy.Length, model.Length(s.Yards)*36, "stated yards")
				atMost(t, "need", r.Need, model.Length(s.Cloth), "stated piece of cloth")
				atMost(t, "length", r.Result.Plan.Length(), model.Length(s.ExactInches), "stated inches")
				if length, strips := s.stated(); s.StripsCover == "all" {
					atMost(t, "length", r.Result.Plan.Length(), length, "stated strips")
					if got := r.Result.Plan.StripCount(); got > strips {
						t.Errorf("%d strips, stated are %d", got, strips)
					}
				}
			})
		})
	}
}

// atMost fails where a length is more than a stated one. Zero is not stated.
func atMost(t *testing.T, what string, got, limit model.Length, of string) {
	t.Helper()
	if limit > 0 && got > limit {
		t.Errorf("%s %s, %s are %s", what, got, of, limit)
	}
}

// The log cabin's third orange fabric: two logs of each size fill 40 in
// exactly, which is the only way to its published 21 strips of 1 1/2 in. Each
// size on strips of its own takes 14 and 11 (our arithmetic). A nested plan is
// as long, in fewer, taller strips.
func TestPublishedLogCabin(t *testing.T) {
	for _, style := range sharing {
		t.Run(style.String(), func(t *testing.T) {
			r := statedRequirement(t, "log-cabin-60x70", "orange-3", style)
			plan := r.Result.Plan
			if plan.Length() != 63*model.Inch/2 || !r.Result.LengthProven() {
				t.Errorf("length %s with the bound %s, want 31 1/2 in, proven", plan.Length(), r.Result.Bound)
			}
			if n := plan.StripCount(); style == pack.Shared && n != 21 || n > 21 {
				t.Errorf("%d strips, want 21", n)
			}
			if n := r.Plain.StripCount(); n != 25 || r.Plain.Length() != 75*model.Inch/2 {
				t.Errorf("by hand: %d strips, %s, want 25 strips, 37 1/2 in", n, r.Plain.Length())
			}
		})
	}
}

// statedRequirement plans one fabric of one worked quilt.
func statedRequirement(t *testing.T, quilt, fabric string, style pack.Style) yardage.Requirement {
	t.Helper()
	for _, q := range readStated(t) {
		if q.File != quilt+".yaml" {
			continue
		}
		for i, r := range q.require(t, style) {
			if q.Fabrics[i].Fabric == fabric {
				return r
			}
		}
	}
	t.Fatalf("there is no %s/%s", quilt, fabric)
	return yardage.Requirement{}
}

// tooLittleByHand are the only fabrics whose published figures are less than
// each size takes on strips of its own, with what it takes to meet them.
var tooLittleByHand = map[string]string{
	"log-cabin-60x70/orange-3":              "two logs of each size on every strip",
	"hst-wall-quilt-48/blue-white":          "the small squares beside the large one",
	"pieced-strips-exact-inches-69x83/dark": "ten strips of 2 1/2 in shared by four sizes, where each size alone takes eleven",
}

// Published yards and strips otherwise cover the way by hand, so a plain plan
// that needs more is wrong.
func TestPublishedQuiltsByHand(t *testing.T) {
	eachStated(t, pack.Plain, func(t *testing.T, name string, s statedFabric, r yardage.Requirement) {
		length, _ := s.stated()
		over := s.Yards > 0 && r.Need > model.Length(s.Yards)*36 ||
			s.Cloth > 0 && r.Need > model.Length(s.Cloth) ||
			s.StripsCover == "all" && r.Plain.Length() > length
		switch why := tooLittleByHand[name]; {
		case over && why == "":
			t.Errorf("by hand %s, more than is stated", r.Need)
		case !over && why != "":
			t.Errorf("by hand %s, no more than is stated, yet it should take %s", r.Need, why)
		}
	})
}

// What a lesson counts across one width fits one strip, and a piece more does
// not.
func TestPublishedPerStrip(t *testing.T) {
	checked := 0
	for _, q := range readStated(t) {
		for i, f := range q.cutList(t).Fabrics {
			for _, want := range q.Fabrics[i].PerStrip {
				for _, p := range f.Pieces {
					if p.Name != want.Piece {
						continue
					}
					checked++
					item := pack.Item{Along: p.Along, Across: p.Across}
					fillsExactly(t, f.Fabric.UsableWidths[0], p.Across, item, want.Count, q.Source)
				}
			}
		}
	}
	if checked == 0 {
		t.Error("no counts were checked")
	}
}

// fillsExactly fails unless count pieces fit a piece of cloth, and one more
// does not, in every style.
func fillsExactly(t *testing.T, width, length model.Length, item pack.Item, count int, source string) {
	t.Helper()
	for _, style := range []pack.Style{pack.Plain, pack.Shared, pack.Nested} {
		for extra := range 2 {
			item.Count = count + extra
			r := solve(t, width, []pack.Item{item}, pack.Options{Style: style})
			got := r.Plan.Length()
			if !r.LengthProven() || extra == 0 && got > length || extra == 1 && got <= length {
				t.Errorf("%v: %d of %s x %s take %s with the bound %s of a cloth %s x %s, which holds %d (%s)",
					style, item.Count, item.Along, item.Across, got, r.Bound,
					width, length, count, source)
			}
		}
	}
}

func solve(t *testing.T, width model.Length, items []pack.Item, o pack.Options) pack.Result {
	t.Helper()
	p, err := pack.NewProblem(width, items)
	if err != nil {
		t.Fatal(err)
	}
	r, err := pack.Solve(t.Context(), p, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// squaresTable is a published table of squares cut from a piece of cloth.
type squaresTable struct {
	Name, Source, Trust string
	Width, Length       inches
	Rows                []struct {
		Size  inches
		Count int
	}
	// Misprints are rows that the cloth cannot yield, with what it does.
	Misprints []struct {
		Size          inches
		Printed, Fits int
		Why           string
	}
}

func TestPublishedSquares(t *testing.T) {
	var all struct{ Tables []squaresTable }
	readPublished(t, "squares-per-yard.json", &all)
	for _, table := range all.Tables {
		t.Run(table.Name, func(t *testing.T) {
			source := table.Source + "; " + table.Trust
			for _, row := range table.Rows {
				item := pack.Item{Along: model.Length(row.Size), Across: model.Length(row.Size)}
				fillsExactly(t, model.Length(table.Width), model.Length(table.Length), item, row.Count, source)
			}
			for _, m := range table.Misprints {
				item := pack.Item{Along: model.Length(m.Size), Across: model.Length(m.Size)}
				fillsExactly(t, model.Length(table.Width), model.Length(table.Length), item, m.Fits, source+"; "+m.Why)
				if m.Printed <= m.Fits {
					t.Errorf("%s: %d are printed and %d fit: no misprint", item.Along, m.Printed, m.Fits)
				}
			}
		})
	}
}

// Lessons that work out a yardage step by step cut each size on strips of its
// own, without turning it: a plain plan. The others are no longer.
func TestPublishedLessons(t *testing.T) {
	var all struct {
		Examples []struct {
			Name, Source, Trust string
			Width, Length       inches
			Strips              int
			Pieces              []struct {
				Along, Across inches
				Count         int
			}
		}
	}
	readPublished(t, "worked.json", &all)
	for _, e := range all.Examples {
		t.Run(e.Name, func(t *testing.T) {
			var items []pack.Item
			for _, p := range e.Pieces {
				items = append(items, pack.Item{Along: model.Length(p.Along), Across: model.Length(p.Across), Count: p.Count})
			}
			plan := solve(t, model.Length(e.Width), items, pack.Options{Style: pack.Plain}).Plan
			if plan.Length() != model.Length(e.Length) || plan.StripCount() != e.Strips {
				t.Errorf("by hand %d strips, %s, want %d, %s (%s; %s)", plan.StripCount(), plan.Length(),
					e.Strips, model.Length(e.Length), e.Source, e.Trust)
			}
			for _, style := range sharing {
				// The question is how long the plan is, not whether any is shorter.
				o := pack.Options{Style: style, Work: pack.DefaultWork / 50}
				if r := solve(t, model.Length(e.Width), items, o); r.Plan.Length() > model.Length(e.Length) {
					t.Errorf("%v: %s, want no more than %s (%s; %s)", style,
						r.Plan.Length(), model.Length(e.Length), e.Source, e.Trust)
				}
			}
		})
	}
}
