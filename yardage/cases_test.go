package yardage_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// The files testdata/*.txt hold cases that a quilter can check:
//
//	case: squares of two sizes
//	source: where the figures are from
//	fabric: 44 in, sold by 1/8 yd, straighten 1 in, shrinkage 2%
//	cut: 52 of 4
//	cut: 20 of 3 x 5
//	want: strips 7, length 26 in, buy 3/4 yd
//
// The plan is the plain one, which a quilter works out by hand. A bare number
// is in inches. What to buy may also be wanted at most or more than something.
type buyCase struct {
	name, source string
	cuts         model.FabricCuts
	wants        []string
}

func readCases(t *testing.T, path string) []*buyCase {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var cases []*buyCase
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		key, value, _ := strings.Cut(line, ": ")
		if key == "case" {
			cases = append(cases, &buyCase{name: value})
			continue
		}
		if err := cases[len(cases)-1].read(key, value); err != nil {
			t.Fatalf("%s:%d: %q: %v", path, i+1, line, err)
		}
	}
	return cases
}

func (c *buyCase) read(key, value string) (err error) {
	switch key {
	case "source":
		c.source = value
	case "fabric":
		return c.readFabric(value)
	case "cut":
		count, size, _ := strings.Cut(value, " of ")
		p := model.Piece{Name: fmt.Sprintf("P%d", len(c.cuts.Pieces)+1)}
		if p.Count, err = strconv.Atoi(count); err != nil {
			return err
		}
		p.Along, p.Across, err = model.ParseSize(size, model.Inches)
		c.cuts.Pieces = append(c.cuts.Pieces, p)
	case "want":
		c.wants = append(c.wants, strings.Split(value, ", ")...)
	default:
		return fmt.Errorf("unknown key %q", key)
	}
	return err
}

func (c *buyCase) readFabric(value string) (err error) {
	f := model.Fabric{ID: "fabric"}
	for i, part := range strings.Split(value, ", ") {
		var l model.Length
		switch {
		case i == 0:
			l, err = model.ParseLength(part, model.Inches)
			f.UsableWidths = []model.Length{l}
		case strings.HasPrefix(part, "sold by "):
			f.SoldBy, err = model.ParseShopCut(part[len("sold by "):])
		case strings.HasPrefix(part, "straighten "):
			f.Straighten, err = model.ParseLength(part[len("straighten "):], model.Inches)
		case strings.HasPrefix(part, "shrinkage "):
			f.Shrinkage, err = model.ParsePercent(part[len("shrinkage "):])
		default:
			err = fmt.Errorf("unknown part %q", part)
		}
		if err != nil {
			return err
		}
	}
	c.cuts.Fabric = f
	return nil
}

func TestCases(t *testing.T) {
	paths, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	for _, path := range paths {
		for _, c := range readCases(t, path) {
			t.Run(filepath.Base(path)+"/"+c.name, func(t *testing.T) {
				if c.source == "" || len(c.wants) == 0 {
					t.Fatal("a case needs a source and something wanted")
				}
				list := model.CutList{Fabrics: []model.FabricCuts{c.cuts}}
				q, err := yardage.Require(t.Context(), list, yardage.Options{Style: pack.Plain})
				if err != nil {
					t.Fatal(err)
				}
				for _, want := range c.wants {
					checkWant(t, want, c.cuts.Fabric, q.Fabrics[0].Widths[0])
				}
			})
		}
	}
}

func checkWant(t *testing.T, want string, f model.Fabric, r yardage.Requirement) {
	t.Helper()
	what, value, _ := strings.Cut(want, " ")
	limit := func(text string) model.Length {
		cut, err := model.ParseShopCut(text)
		if err != nil {
			t.Fatal(err)
		}
		return cut.Step
	}
	ok, got := false, r.Buy.Text
	switch what {
	case "strips":
		got = fmt.Sprint(r.Result.Plan.StripCount())
		ok = got == value
	case "length":
		l, err := model.ParseLength(value, model.Inches)
		got, ok = r.Result.Plan.Length().Exact(), err == nil && r.Result.Plan.Length() == l
	case "buy":
		if most, cut := strings.CutPrefix(value, "at most "); cut {
			ok = r.Buy.Length <= limit(most)
		} else if least, cut := strings.CutPrefix(value, "more than "); cut {
			ok = r.Buy.Length > limit(least)
		} else {
			ok = r.Buy.Text == value
		}
	}
	if !ok {
		t.Errorf("want %s, got %s (need %s of a fabric sold by %v)", want, got, r.Need.Exact(), f.SoldBy)
	}
}
