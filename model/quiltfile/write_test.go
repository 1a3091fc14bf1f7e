package quiltfile

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// anyText draws a text that a quilt may have, many of them such as YAML would
// take for something else.
func anyText(least int) *rapid.Generator[string] {
	tricky := rapid.SampledFrom([]string{
		"null", "~", "true", "no", "40", "2.5", "0x1F", "1e3", "2024-01-01", "<<", "=", "-", "?", "- a", "a: b", "a #b", "#",
		"'", `"`, "it's", `a "b" c`, "{a}", "[a]", "a, b", "*a", "&a", "!a", "!!str a", "%", "@", "`", "|", ">", "a:", ":a",
		"...", "---", "é½×", "日本", "🧵", "a  b", "a\u00a0b", "\\n", "\\", "1:30", "+1", ".inf", "012",
	})
	free := rapid.Map(rapid.StringOfN(rapid.Rune(), least, 20, -1), func(s string) string {
		s = strings.Map(func(r rune) rune {
			if !unicode.IsGraphic(r) || r == unicode.ReplacementChar || r == '“' || r == '”' {
				return 'x'
			}
			return r
		}, s)
		if s = strings.TrimSpace(s); s == "" && least > 0 {
			return "x"
		}
		return s
	})
	if least == 0 {
		return rapid.OneOf(rapid.Just(""), tricky, free)
	}
	return rapid.OneOf(tricky, free)
}

// anyQuilt draws a quilt that keeps every rule.
func anyQuilt() *rapid.Generator[model.Quilt] {
	return rapid.Custom(func(t *rapid.T) model.Quilt {
		q := model.Quilt{
			Title: anyText(0).Draw(t, "title"),
			Unit:  rapid.SampledFrom([]model.Unit{model.Inches, model.Centimetres}).Draw(t, "unit"),
			Ruler: rapid.SampledFrom([]model.Length{
				model.Inch / 8, model.Inch / 64, model.Inch / 24, model.Millimetre, model.Millimetre / 10, 5 * model.Millimetre,
			}).Draw(t, "ruler"),
		}
		ids := rapid.SliceOfNDistinct(anyText(1), 1, 4, rapid.ID[string]).Draw(t, "fabrics")
		for _, id := range ids {
			f := anyFabric(t, id, q.Unit)
			if slices.ContainsFunc(q.Fabrics, func(other model.Fabric) bool { return other.Name == f.Name }) {
				f.Name = ""
			}
			q.Fabrics = append(q.Fabrics, f)
		}
		for _, name := range rapid.SliceOfNDistinct(anyText(1), 1, 6, rapid.ID[string]).Draw(t, "cuts") {
			q.Cuts = append(q.Cuts, anyCut(t, name, rapid.SampledFrom(ids).Draw(t, "fabric"), q.Ruler))
		}
		return q
	})
}

func anyFabric(t *rapid.T, id string, u model.Unit) model.Fabric {
	f := model.DefaultFabric(u)
	f.ID, f.Name = id, anyText(0).Draw(t, "name")
	f.OneWay = rapid.Bool().Draw(t, "one-way")
	if rapid.Bool().Draw(t, "own widths") {
		f.UsableWidths = rapid.SliceOfNDistinct(
			rapid.SampledFrom([]model.Length{36 * model.Inch, 40 * model.Inch, 1270 * model.Inch / 12, 1021 * model.Millimetre}),
			1, 4, rapid.ID[model.Length]).Draw(t, "widths")
	}
	if rapid.Bool().Draw(t, "own step") {
		f.SoldBy = rapid.SampledFrom([]model.ShopCut{
			{Step: model.Yard / 3, Unit: model.Yards}, {Step: model.Metre / 4, Unit: model.Metres},
			{Step: model.Inch, Unit: model.InchesOfCloth}, {Step: 5 * model.Centimetre, Unit: model.CentimetresOfCloth},
		}).Draw(t, "step")
	}
	f.Straighten = rapid.SampledFrom([]model.Length{0, model.Inch, model.Inch / 3, 15 * model.Millimetre}).Draw(t, "straighten")
	f.Shrinkage = model.Percent(rapid.SampledFrom([]int64{0, 200, 250, 5000, 1}).Draw(t, "shrinkage"))
	f.Price = model.Money(rapid.SampledFrom([]int64{0, 5, 1250, 1_000_000_00}).Draw(t, "price"))
	return f
}

func anyCut(t *rapid.T, name, fabric string, ruler model.Length) model.Cut {
	side := rapid.Int64Range(1, int64(36*model.Inch/ruler))
	c := model.Cut{
		Name: name, Fabric: fabric, Use: anyText(0).Draw(t, "use"),
		Width:  ruler * model.Length(side.Draw(t, "width")),
		Height: ruler * model.Length(side.Draw(t, "height")),
		Count:  rapid.IntRange(1, 10_000).Draw(t, "count"),
		NoTurn: rapid.Bool().Draw(t, "turn: no"),
		Halve:  model.Halving(rapid.IntRange(0, 1).Draw(t, "halve")),
	}
	if rapid.IntRange(0, 3).Draw(t, "square") == 0 {
		c.Height, c.Halve = c.Width, model.Halving(rapid.IntRange(0, 2).Draw(t, "halve the square"))
	}
	if rapid.Bool().Draw(t, "grain") {
		c.Grain = model.Crosswise
		if c.Width <= c.Height {
			c.Grain = model.Lengthwise
		}
	}
	return c
}

func TestWriteReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuilt().Draw(t, "quilt")
		var first, second bytes.Buffer
		if err := Write(&first, q); err != nil {
			t.Fatal(err)
		}
		back, err := Parse("q.yaml", first.Bytes())
		if err != nil {
			t.Fatalf("%v\n%s", err, first.Bytes())
		}
		if !reflect.DeepEqual(back, q) {
			t.Fatalf("got  %+v\nwant %+v\n%s", back, q, first.Bytes())
		}
		if err := Write(&second, back); err != nil || !bytes.Equal(first.Bytes(), second.Bytes()) {
			t.Fatalf("the second time it is\n%s%v\nfirst\n%s", second.Bytes(), err, first.Bytes())
		}
	})
}

func TestWriteForm(t *testing.T) {
	q, err := Read(filepath.Join(quilts, "tide-pool-cm.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	q.Cuts = append(q.Cuts[:2], model.Cut{
		Name: "no", Fabric: "coral", Width: 7 * model.Inch / 8, Height: 10 * model.Centimetre, Count: 1, NoTurn: true, Use: "a, b",
	})
	q.Ruler = model.Length(24) // fine enough for both units, but not to be written
	var b bytes.Buffer
	if err := Write(&b, q); !errors.Is(err, model.ErrTooFine) || b.Len() > 0 {
		t.Errorf("a ruler of 24 ticks: %v, %q", err, b.String())
	}
	q.Ruler = 5 * model.Millimetre
	q.Cuts[2].Width = 10 * model.Inch // 25.4 cm
	if err := Write(&b, q); !errors.Is(err, model.ErrOffMark) || b.Len() > 0 {
		t.Errorf("off the mark: %v, %q", err, b.String())
	}
	q.Ruler = model.Millimetre
	if err := Write(&b, q); err != nil {
		t.Fatal(err)
	}
	want := `title: Tide pool
unit: cm
fabric_defaults:
  straighten: 2
fabrics:
  pool: {name: Pool blue}
  sand: {name: Sand linen, sold_by: 0.25 m, shrinkage: 3%}
  coral: {name: Coral dots}
cuts:
- {name: Aa, fabric: pool, size: 13, count: 40, halve: once, use: corners}
- {name: Ab, fabric: sand, size: 13, count: 40, halve: once, use: corners}
- {name: no, fabric: coral, size: 25.4 x 10, count: 1, turn: no, use: 'a, b'}
`
	if b.String() != want {
		t.Errorf("got\n%swant\n%s", b.String(), want)
	}
}

func TestWriteRefusesLengths(t *testing.T) {
	q, err := Read(filepath.Join(quilts, "harbour-steps.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(f *model.Fabric){
		"width":      func(f *model.Fabric) { f.UsableWidths = []model.Length{44*model.Inch + 1} },
		"straighten": func(f *model.Fabric) { f.Straighten = 1 },
		"sold by":    func(f *model.Fabric) { f.SoldBy.Step = 1 },
	} {
		fabrics := q.Fabrics
		q.Fabrics = append([]model.Fabric(nil), fabrics...)
		change(&q.Fabrics[3])
		var b bytes.Buffer
		if err := Write(&b, q); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, %q", name, err, b.String())
		}
		q.Fabrics = fabrics
	}
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, fs.ErrInvalid }

func TestWriteTellsOfFullDisk(t *testing.T) {
	q, err := Read(filepath.Join(quilts, "harbour-steps.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	if err := Write(full{}, q); !errors.Is(err, fs.ErrInvalid) {
		t.Errorf("got %v", err)
	}
	data, err := os.ReadFile(filepath.Join(quilts, "harbour-steps.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := Write(&b, q); err != nil || b.Len() >= len(data) {
		t.Errorf("written in %d bytes of %d, %v", b.Len(), len(data), err)
	}
}
