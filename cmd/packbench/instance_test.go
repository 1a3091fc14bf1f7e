package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crossgrain/model"
	"crossgrain/pack"
)

const benchFolder = "../../testdata/bench"

// Every instance of every set is a problem, and what is recorded of it can be.
func TestInstances(t *testing.T) {
	want := map[string]int{"quilts-a": 106, "quilts-b": 10, "quilts-c": 11, "classic": 126, "twelve": 12}
	for _, name := range setNames() {
		instances, err := load(order{set: name, data: benchFolder})
		if err != nil {
			t.Fatal(err)
		}
		if len(instances) != want[name] {
			t.Errorf("%s: %d instances, want %d", name, len(instances), want[name])
		}
		for _, in := range instances {
			for _, version := range []instance{in, in.turnable()} {
				checkInstance(t, version)
			}
		}
	}
}

func checkInstance(t *testing.T, in instance) {
	t.Helper()
	if _, err := in.problem(); err != nil {
		t.Errorf("%s: %v", in.Name, err)
	}
	known := in.AsGiven
	if known == nil {
		return
	}
	area := 0
	for _, s := range in.sizes() {
		area += s.along * s.across * s.count
	}
	least := (area + in.Width - 1) / in.Width
	switch known.Basis {
	case "published", "computed":
		if !known.optimal() || known.Length < least {
			t.Errorf("%s: the optimum %d, bound %d, area bound %d", in.Name, known.Length, known.Bound, least)
		}
	case "open":
		if known.optimal() || known.Bound < least || known.Length <= known.Bound {
			t.Errorf("%s: open from %d to %d, area bound %d", in.Name, known.Bound, known.Length, least)
		}
	default:
		t.Errorf("%s: the basis is %q", in.Name, known.Basis)
	}
}

// The name of an instance is that of its file, or of the file that it is like.
func TestInstanceNames(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(benchFolder, "*", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	for _, file := range files {
		in, err := readInstance(file)
		if err != nil {
			t.Error(err)
		} else if want := strings.TrimSuffix(filepath.Base(file), ".json"); in.Name != want {
			t.Errorf("%s: the name is %q", file, in.Name)
		}
	}
}

// A file lays its own figures over those of the file that it is like.
func TestInstanceLikeAnother(t *testing.T) {
	in, err := readInstance(filepath.Join(benchFolder, "classic", "gcut1d.json"))
	if err != nil {
		t.Fatal(err)
	}
	want := &record{Length: 51604, Strips: 325, Basis: "published"}
	if diff := cmp.Diff(want, in.AsGiven); diff != "" {
		t.Errorf("as given (-want +got):\n%s", diff)
	}
	if len(in.Pieces) != 10 || in.Width != 250 {
		t.Errorf("%d sizes on a width of %d", len(in.Pieces), in.Width)
	}
}

func TestInstanceFaults(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{
		"not-json":  `{`,
		"no-pieces": `{"name": "no-pieces", "width": 5}`,
		"no-base":   `{"like": "nowhere.json"}`,
	} {
		file := filepath.Join(folder, name+".json")
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
		if _, err := readInstance(file); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// A quilt's purchase is in steps of 4 1/2 in, 72 units; a classic has none.
func TestPurchase(t *testing.T) {
	quilt := instance{unit: sets[0].unit, step: sets[0].step}
	buy := quilt.purchase()
	for units, want := range map[int]int{1: 72, 72: 72, 73: 144} {
		if got := quilt.units(buy(quilt.unit * model.Length(units))); got != want {
			t.Errorf("%d units buy %d, want %d", units, got, want)
		}
	}
	if (instance{unit: 1}).purchase() != nil {
		t.Error("something is bought for a classic")
	}
}

// The tallest strip of a nested plan is far above every piece of a classic: it
// does not shape their plans.
func TestClassicsAreSmall(t *testing.T) {
	instances, err := load(order{set: classicSet, data: benchFolder})
	if err != nil {
		t.Fatal(err)
	}
	for _, in := range instances {
		for _, s := range in.sizes() {
			if highest := model.Length(max(s.along, s.across)) * in.unit; highest > pack.TallestStrip/100 {
				t.Errorf("%s: a piece is %d ticks high", in.Name, highest)
			}
		}
	}
}

func TestSpread(t *testing.T) {
	all := make([]instance, 10)
	for i := range all {
		all[i].Width = i
	}
	for n, want := range map[int][]int{0: {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 3: {0, 3, 6}, 1: {0}, 10: {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 99: {0, 1, 2, 3, 4, 5, 6, 7, 8, 9}} {
		var got []int
		for _, in := range spread(all, n) {
			got = append(got, in.Width)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%d of them (-want +got):\n%s", n, diff)
		}
	}
}
