package block

import (
	"encoding/json"
	"errors"
	"os"
	"testing"

	"crossgrain/model"
)

// published are the figures of units.json, each with its source.
type published struct {
	Geese struct {
		Source string
		Rows   []struct{ Width, Height, Large, Small mark }
	} `json:"geese_four_at_a_time"`
	StripSets []struct {
		Name, Source, Difference string
		Width                    mark
		PatchWidth               mark `json:"patch_width"`
		PatchHeight              mark `json:"patch_height"`
		SetLength                mark `json:"set_length"`
		Fabrics                  [][]string
		Units, Sets              int
		PerSet                   int `json:"per_set"`
		Strips                   map[string]int
		StatedSets               int `json:"stated_sets"`
		StatedPerSet             int `json:"stated_per_set"`
	} `json:"strip_sets"`
}

// mark is a length in inches, as printed.
type mark model.Length

func (m *mark) UnmarshalText(text []byte) error {
	l, err := model.ParseLength(string(text), model.Inches)
	*m = mark(l)
	return err
}

func readPublished(t *testing.T) (p published) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/units.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &p); err != nil {
		t.Fatal(err)
	}
	if len(p.Geese.Rows) == 0 || len(p.StripSets) == 0 {
		t.Fatal("units.json has no figures")
	}
	return p
}

// asPrinted is a length of inches as a source prints it.
func asPrinted(t *testing.T, text string) model.Length {
	t.Helper()
	l, err := model.ParseLength(text, model.Inches)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// printedCut is a cut as a source prints it.
type printedCut struct {
	fabric, width, height string
	count                 int
}

// compareCuts checks that a yield has just the printed cuts, in their order.
func compareCuts(t *testing.T, source string, y Yield, want ...printedCut) {
	t.Helper()
	if len(y.Cuts) != len(want) {
		t.Errorf("%s: got %+v, want %+v", source, y.Cuts, want)
		return
	}
	for i, w := range want {
		c := y.Cuts[i]
		if c.Fabric != w.fabric || c.Width != asPrinted(t, w.width) || c.Height != asPrinted(t, w.height) || c.Count != w.count {
			t.Errorf("%s: got %d of %s x %s of %s, want %+v", source,
				c.Count, c.Width.Format(model.Inches), c.Height.Format(model.Inches), c.Fabric, w)
		}
	}
}

// faultTest is a unit, and what is wrong with it: nothing if want is empty.
type faultTest struct {
	unit Unit
	kind error
	want string
}

func checkFaults(t *testing.T, rules Rules, tests ...faultTest) {
	t.Helper()
	for _, test := range tests {
		c := Checker{Rules: rules, Fabrics: threeFabrics}
		test.unit.Check(&c, model.PathOf(KeyUnits, "x"))
		checkFault(t, c, test.kind, test.want)
	}
}

func checkFault(t *testing.T, c Checker, kind error, want string) {
	t.Helper()
	if err := c.Faults.OrNil(); !errors.Is(err, kind) || err != nil && err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}
