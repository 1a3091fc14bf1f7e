package pack_test

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/pack"
)

// classicFolder holds the cutting-stock problems of the literature; its README
// says where they and their optima are from.
const classicFolder = "../testdata/published/cutting-stock"

// classic is one such problem. Its lengths are bare numbers, taken as ticks.
type classic struct {
	Name    string
	Source  string
	Width   int64
	AsGiven *optimum `json:"as_given"` // no piece turned; nil where not known
	Turned  *optimum // every piece may be turned; nil where not known
	Pieces  [][3]int64
}

// optimum is the least length of strips, and whether it was read in a
// publication or computed.
type optimum struct {
	Length int64
	Basis  string
}

// readClassics reads every problem, in the order of the file names.
func readClassics(t testing.TB) []classic {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(classicFolder, "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no problems in %s: %v", classicFolder, err)
	}
	all := make([]classic, len(files))
	for i, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(text, &all[i]); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		if want := strings.TrimSuffix(filepath.Base(file), ".json"); all[i].Name != want {
			t.Fatalf("%s: the name is %q", file, all[i].Name)
		}
	}
	return all
}

// oneDimensional reports whether all pieces are 1 high: strips are then rolls.
func (c classic) oneDimensional() bool {
	for _, p := range c.Pieces {
		if p[1] != 1 {
			return false
		}
	}
	return true
}

// problem is the classic as a problem of ours, a tick for a unit.
func (c classic) problem(t tester, turnable bool) *pack.Problem {
	t.Helper()
	items := make([]pack.Item, len(c.Pieces))
	for i, p := range c.Pieces {
		items[i] = pack.Item{
			Along:    model.Length(p[0]),
			Across:   model.Length(p[1]),
			Count:    int(p[2]),
			Turnable: turnable,
		}
	}
	return newProblem(t, model.Length(c.Width), items)
}

// tester is a test, a benchmark or one draw of a property.
type tester interface {
	rapid.TB
	Context() context.Context
}

// newProblem is pack.NewProblem for what must be a problem.
func newProblem(t tester, width model.Length, items []pack.Item) *pack.Problem {
	t.Helper()
	p, err := pack.NewProblem(width, items)
	if err != nil {
		t.Fatalf("no problem: %v", err)
	}
	return p
}

// solve plans a problem, checks the plan again, and checks what every result
// must hold.
func solve(t tester, p *pack.Problem, o pack.Options) pack.Result {
	t.Helper()
	r, err := pack.Solve(t.Context(), p, o)
	if err != nil {
		t.Fatalf("%v plan: %v", o.Style, err)
	}
	if r.Plan.Style != o.Style {
		t.Errorf("%v plan: the result is of the style %v", o.Style, r.Plan.Style)
	}
	if err := pack.Verify(p, r.Plan); err != nil {
		t.Errorf("%v plan: %v", o.Style, err)
	}
	if r.Bound > r.Plan.Length() {
		t.Errorf("%v plan: bound %d is above the length %d", o.Style, r.Bound, r.Plan.Length())
	}
	return r
}
