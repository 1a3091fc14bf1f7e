package quiltfile

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

const in = model.Inch

// Every key of a design is read into its field.
func TestParseDesign(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("testdata", "every-key.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	got, err := ParseDesign("every-key.yaml", data)
	if err != nil {
		t.Fatal(err)
	}
	own := block.Ease{Kind: block.OwnEase, Own: in / 2}
	trade := block.Ease{Kind: block.TradeEase}
	ink, foam := model.DefaultFabric(model.Inches), model.DefaultFabric(model.Inches)
	ink.ID, foam.ID = "ink", "foam"
	ink.UsableWidths, foam.UsableWidths = []model.Length{40 * in}, []model.Length{40 * in}
	place := func(name, colourway string, turn block.Turn) setting.Place {
		return setting.Place{Block: name, Colourway: colourway, Turn: turn}
	}
	want := design.Design{
		Title: "Every key", Ruler: in / 16, Seam: 3 * in / 8, Fabrics: []model.Fabric{ink, foam},
		Units: []design.NamedUnit{
			{Name: "square", Unit: block.Rectangle{Width: 4 * in, Height: 4 * in, Fabric: "ink"}},
			{Name: "rectangle", Unit: block.Rectangle{Width: 4 * in, Height: 2 * in, Fabric: "foam"}},
			{Name: "half", Unit: block.HalfSquare{Side: 4 * in, Fabrics: []string{"ink", "foam"}, Method: block.EightAtATime, Ease: trade}},
			{Name: "quarter", Unit: block.QuarterSquare{Side: 4 * in, Fabrics: []string{"ink", "foam", "ink", "foam"}, Method: block.TwoAtATime}},
			{Name: "goose", Unit: block.Geese{Width: 4 * in, Height: 2 * in, Fabrics: []string{"ink", "ink"}, Method: block.FlipAndTrim, Ease: own}},
			{Name: "diamond", Unit: block.SquareInSquare{Side: 4 * in, Fabrics: []string{"ink", "foam", "ink", "foam", "ink"}}},
			{Name: "slant", Unit: block.HalfRectangle{Width: 4 * in, Height: 2 * in, Fabrics: []string{"ink", "foam"}, OtherWay: true}},
			{Name: "four", Unit: block.Patches{Columns: []model.Length{2 * in, 2 * in}, Rows: []model.Length{2 * in, 2 * in},
				Fabrics: [][]string{{"ink", "foam"}, {"foam", "ink"}}, Method: block.StripSets, SetLength: 20 * in, Ease: trade}},
			{Name: "uneven", Unit: block.Patches{Columns: []model.Length{in, 2 * in, in}, Rows: []model.Length{3 * in, in},
				Fabrics: [][]string{{"ink", "foam", "ink"}, {"foam", "ink", "foam"}}}},
			{Name: "flipped", Unit: block.FlipCorners{Width: 4 * in, Height: 4 * in, Fabric: "ink", Corners: []block.FlipCorner{
				{Corner: block.UpperLeft, Width: 2 * in, Height: 2 * in, Fabric: "foam"},
				{Corner: block.LowerRight, Width: 2 * in, Height: in, Fabric: "foam", CutWidth: 4 * in, CutHeight: 3 * in},
			}}},
		},
		Blocks: []block.Block{
			{Name: "sampler", Width: 8 * in, Height: 8 * in,
				Rows: [][]block.Cell{
					{{Unit: "square"}, {Unit: "half", Turn: 1}},
					{{Unit: "quarter", Turn: 2}, {Unit: "flipped", Turn: 3}},
				},
				Colourways: []block.Colourway{{Name: "night", Swap: block.Swap{"foam": "ink"}}}},
			{Name: "cabin", Width: 8 * in, Height: 8 * in, Rounds: &block.Rounds{Side: 8 * in, Centre: block.Centre{Unit: "four"},
				Rounds: []block.Round{
					{Kind: block.LogsAround, Width: in, Fabrics: []string{"ink", "foam", "ink", "foam"}, Ease: own},
					{Kind: block.LogsOpposite, Fabrics: []string{"foam"}},
				}}},
			{Name: "inner", Width: 8 * in, Height: 8 * in, Rounds: &block.Rounds{Side: 8 * in, Centre: block.Centre{Side: 4 * in, Fabric: "ink"},
				Rounds: []block.Round{{Kind: block.Triangles, Fabrics: []string{"ink"}}, {Kind: block.Triangles, Fabrics: []string{"foam"}}}}},
			{Name: "large", Width: 16 * in, Height: 16 * in, Rows: [][]block.Cell{
				{{Unit: "sampler"}, {Unit: "cabin", Turn: 2}}, {{Unit: "sampler/night", Turn: 1}, {Unit: "inner"}},
			}},
		},
		Cutouts: []design.Cutouts{
			{Shape: block.SixtyTriangle{Height: 3 * in}, Fabric: "ink", Count: 7, Use: "teeth"},
			{Shape: block.Hexagon{Height: 3 * in}, Fabric: "ink", Count: 1},
			{Shape: block.Diamond{Height: 3 * in, Angle: block.Degrees45}, Fabric: "foam", Count: 2},
			{Shape: block.Diamond{Height: 3 * in, Angle: block.Degrees60}, Fabric: "foam", Count: 3},
			{Shape: block.Trapezoid{Height: 3 * in, Long: 6 * in, Short: 3 * in}, Fabric: "ink", Count: 4},
			{Shape: block.Wedge{Height: 9 * in, Long: 3 * in}, Fabric: "ink", Count: 5},
		},
		Setting: &setting.Setting{
			Way: setting.OnPoint, Rows: 3, Columns: 4,
			Layout:  [][]setting.Place{{place("sampler", "", 0), place("cabin", "", 0)}, {place("sampler", "night", 1)}},
			Between: [][]setting.Place{{place("inner", "", 2)}},
			Sides:   setting.Triangles{Fabric: "ink", Ease: trade}, Corners: setting.Triangles{Fabric: "foam"}, Float: in,
			Sashing: &setting.Sashing{Width: 2 * in, Fabric: "ink", Cornerstone: "foam", Around: true},
		},
		Borders: []setting.Border{
			{Width: 2 * in, Fabric: "ink", Corners: setting.Mitred, Extra: 6 * in},
			{Width: 3 * in, Fabric: "foam", Corners: setting.CornerSquares, CornerFabric: "ink", Cut: setting.CrosswiseDiagonal, Extra: in},
			{Width: in, Fabric: "ink", Corners: setting.TopFirst, Cut: setting.LengthwiseCut, Sides: []block.Side{block.Left, block.Right}},
		},
		Binding: &setting.Binding{Fabric: "foam", Strip: 2 * in, Tail: 10 * in, Straight: true, Bias: true},
		Backing: &setting.Backing{Fabric: "ink", Overage: 3 * in, Seam: in / 2},
		Batting: &setting.Batting{Width: 99 * in, Height: 88 * in},
		Sizes: []setting.Size{
			{Name: "wall", Layout: [][]setting.Place{{place("cabin", "", 0)}}, Between: [][]setting.Place{{place("cabin", "", 0)}}, Borders: []setting.Border{}},
			{Name: "lap", Rows: 4, Columns: 3, Borders: []setting.Border{{Width: in, Fabric: "ink"}}},
			{Name: "bed", Bed: &setting.Bed{Mattress: "crib", Drop: 4 * in}},
		},
		Cuts: []model.Cut{{Name: "A", Fabric: "ink", Width: 5 * in, Height: 3 * in, Count: 1, Use: "label"}},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	var b bytes.Buffer
	if err := WriteDesign(&b, got); err != nil {
		t.Fatal(err)
	}
	if back, err := ParseDesign("written", b.Bytes()); err != nil || !reflect.DeepEqual(canonical(back), canonical(got)) {
		t.Errorf("%v\n%s\nwritten as\n%s", err, cmp.Diff(canonical(got), canonical(back)), b.String())
	}
	if err := satisfies(compiled(t), data); err != nil {
		t.Error(err)
	}
	if err := satisfies(compiled(t), b.Bytes()); err != nil {
		t.Error(err)
	}
	if _, err := Parse("every-key.yaml", data); !errors.Is(err, ErrDesign) {
		t.Errorf("as a cutting list: %v", err)
	}
}

// A cutting list is a design with cuts only.
func TestParseDesignOfCuts(t *testing.T) {
	d, err := ParseDesign("q.yaml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	q, err := Parse("q.yaml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	whole, err := d.Work("")
	if err != nil || !reflect.DeepEqual(whole.Quilt, q) {
		t.Errorf("got %+v, %v, want %+v", whole.Quilt, err, q)
	}
	if _, err := Parse("q.yaml", []byte(small+"seam: 1/4\n")); !errors.Is(err, ErrDesign) {
		t.Errorf("a seam in a cutting list: %v", err)
	}
}

// Everything wrong with a design is told at once, each with its place.
func TestDesignFaults(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("testdata", "faults", "*.yaml"))
	if err != nil || len(files) < 4 {
		t.Fatalf("%v, %v", files, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(file)
		want, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		_, err = ParseDesign(name, data)
		if err == nil {
			t.Errorf("%s is read", name)
			continue
		}
		if diff := cmp.Diff(strings.TrimSpace(string(want)), err.Error()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// What no quilt file can say is not written.
func TestNotWritable(t *testing.T) {
	good, err := ParseDesign("q.yaml", []byte("unit: in\nfabrics: {ink: }\nunits: {a: {square: 2, fabric: ink}}\n"+
		"blocks: {b: {finished: 2, rows: [[a]]}}\nsetting: {rows: 1, columns: 1}\n"))
	if err != nil {
		t.Fatal(err)
	}
	for name, change := range map[string]func(d *design.Design){
		"a label that is a turn": func(d *design.Design) {
			d.Units = []design.NamedUnit{{Name: "a 90", Unit: d.Units[0].Unit}}
			d.Blocks[0].Rows = [][]block.Cell{{{Unit: "a 90"}}}
		},
		"a kind of unit that has no key": func(d *design.Design) { d.Units[0].Unit = strange{d.Units[0].Unit} },
		"a block that is not there":      func(d *design.Design) { d.Setting.Layout = onlyBlock("c") },
		"a length between all marks":     func(d *design.Design) { d.Seam = 1 },
	} {
		d := good
		d.Units, d.Blocks = append([]design.NamedUnit{}, d.Units...), append([]block.Block{}, d.Blocks...)
		set := *d.Setting
		d.Setting = &set
		change(&d)
		var b bytes.Buffer
		if err := WriteDesign(&b, d); err == nil || b.Len() > 0 {
			t.Errorf("%s: %v, and written:\n%s", name, err, b.String())
		}
	}
}

// strange is a unit of a kind of its own.
type strange struct{ block.Unit }

func FuzzParseDesign(f *testing.F) {
	var files []string
	for _, pattern := range []string{
		filepath.Join(quilts, "*.yaml"), filepath.Join(published, "designs", "*.yaml"),
		filepath.Join("testdata", "*.yaml"), filepath.Join("testdata", "faults", "*.yaml"),
	} {
		found, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		files = append(files, found...)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := ParseDesign("q.yaml", data)
		if err != nil {
			var errs Errors
			if !errors.As(err, &errs) || len(errs) == 0 || !reflect.DeepEqual(d, design.Design{}) {
				t.Fatalf("%+v and the error %v", d, err)
			}
			return
		}
		var b bytes.Buffer
		if err := WriteDesign(&b, d); err != nil {
			t.Fatalf("%+v is not written: %v", d, err)
		}
	})
}
