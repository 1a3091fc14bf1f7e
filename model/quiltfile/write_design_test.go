package quiltfile

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

// anyLabel draws a label of a design, many of them such as YAML would take for
// something else.
func anyLabel() *rapid.Generator[string] {
	return rapid.Map(anyText(1), func(s string) string {
		s = strings.ReplaceAll(s, "/", "-")
		if checkLabel(s) != nil {
			return "x" + strings.ReplaceAll(s, " ", "")
		}
		return s
	})
}

// drawn draws from a list.
func drawn[T any](t *rapid.T, name string, from ...T) T { return rapid.SampledFrom(from).Draw(t, name) }

// anyDesign draws a design that keeps every rule: blocks of 12 in or 30 cm, of
// units of half of that.
func anyDesign(t *rapid.T) design.Design {
	u := drawn(t, "unit", model.Inches, model.Centimetres)
	rules := block.DefaultRules(u)
	d := design.Design{Title: anyText(0).Draw(t, "title"), Unit: u, Ruler: rules.Ruler, Seam: rules.Seam}
	half := 6 * model.Inch
	if u == model.Centimetres {
		half = 15 * model.Centimetre
	}
	ids := rapid.SliceOfNDistinct(anyText(1), 2, 4, rapid.ID[string]).Draw(t, "fabrics")
	for _, id := range ids {
		f := model.DefaultFabric(u)
		f.ID = id
		d.Fabrics = append(d.Fabrics, f)
	}
	for i, name := range rapid.SliceOfNDistinct(anyLabel(), 1, 5, rapid.ID[string]).Draw(t, "units") {
		fabrics := []string{drawn(t, "fabric", ids...), drawn(t, "fabric", ids...)}
		d.Units = append(d.Units, design.NamedUnit{Name: name, Unit: anyUnit(t, i, half, fabrics)})
	}
	cell := func() block.Cell {
		return block.Cell{Unit: drawn(t, "cell", d.Units...).Name, Turn: block.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))}
	}
	for i, name := range rapid.SliceOfNDistinct(anyLabel(), 1, 3, rapid.ID[string]).Draw(t, "blocks") {
		b := block.Block{Name: name, Width: 2 * half, Height: 2 * half}
		if i == 2 {
			b.Rounds = &block.Rounds{Side: 2 * half, Centre: block.Centre{Side: half, Fabric: ids[0]}, Rounds: []block.Round{
				{Kind: drawn(t, "kind", block.LogsAround, block.LogsOpposite), Fabrics: drawn(t, "sides", ids[:1], []string{ids[1], ids[0], ids[0], ids[1]})},
			}}
		} else {
			b.Rows = [][]block.Cell{{cell(), cell()}, {cell(), cell()}}
		}
		d.Blocks = append(d.Blocks, b)
	}
	place := func() setting.Place {
		return setting.Place{Block: drawn(t, "place", d.Blocks...).Name, Turn: block.Turn(rapid.IntRange(0, 3).Draw(t, "turn"))}
	}
	d.Setting = &setting.Setting{Rows: rapid.IntRange(1, 4).Draw(t, "rows"), Columns: rapid.IntRange(1, 4).Draw(t, "columns"),
		Layout: [][]setting.Place{{place(), place()}, {place()}}}
	if rapid.Bool().Draw(t, "on point") {
		s := d.Setting
		s.Way, s.SettingSquare = setting.OnPoint, ids[0]
		s.Sides, s.Corners = setting.Triangles{Fabric: ids[1], Ease: anyEase(t)}, setting.Triangles{Fabric: ids[0]}
	}
	if rapid.Bool().Draw(t, "sashing") {
		d.Setting.Sashing = &setting.Sashing{Width: half / 3, Fabric: ids[0], Around: rapid.Bool().Draw(t, "around")}
		d.Setting.Sashing.Cornerstone = ids[1]
	}
	anyFrame(t, &d, half/3, ids)
	return d
}

func anyEase(t *rapid.T) block.Ease {
	return drawn(t, "ease", block.Ease{}, block.Ease{Kind: block.TradeEase}, block.Ease{Kind: block.OwnEase, Own: model.Inch / 2},
		block.Ease{Kind: block.OwnEase})
}

// anyUnit draws a unit of side by side.
func anyUnit(t *rapid.T, kind int, side model.Length, fabrics []string) block.Unit {
	ease := anyEase(t)
	method := func(known ...block.Method) block.Method {
		return drawn(t, "method", append(known, block.DefaultMethod)...)
	}
	part := side / 2
	switch drawn(t, "kind", kind, 1, 2, 3, 4, 5) {
	case 1:
		return block.HalfSquare{Side: side, Fabrics: fabrics, Ease: ease,
			Method: method(block.FromTriangles, block.TwoAtATime, block.FourAtATime, block.EightAtATime)}
	case 2:
		return block.QuarterSquare{Side: side, Fabrics: append(fabrics, fabrics...), Ease: ease, Method: method(block.FromTriangles, block.TwoAtATime)}
	case 3:
		return block.SquareInSquare{Side: side, Fabrics: fabrics, Ease: ease, Method: method(block.FromTriangles, block.FlipAndTrim)}
	case 4:
		return block.Patches{Columns: []model.Length{part, part}, Rows: []model.Length{part, part},
			Fabrics: [][]string{fabrics, {fabrics[1], fabrics[0]}}, Ease: ease, Method: method(block.StripSets, block.PieceByPiece)}
	case 5:
		third := side / 3
		return block.Patches{Columns: []model.Length{third, 2 * third}, Rows: []model.Length{2 * third, third},
			Fabrics: [][]string{fabrics, fabrics}, Method: method(block.StripSets, block.PieceByPiece)}
	}
	return block.Rectangle{Width: side, Height: side, Fabric: fabrics[0]}
}

// anyFrame draws what is around the blocks, and sizes.
func anyFrame(t *rapid.T, d *design.Design, width model.Length, ids []string) {
	border := func() setting.Border {
		b := setting.Border{Width: width, Fabric: ids[0], Corners: setting.Corners(rapid.IntRange(0, 3).Draw(t, "corners")), Extra: anyEase(t).Own}
		if b.Corners == setting.CornerSquares {
			b.CornerFabric = ids[1]
		}
		return b
	}
	for range rapid.IntRange(0, 2).Draw(t, "borders") {
		d.Borders = append(d.Borders, border())
	}
	if rapid.Bool().Draw(t, "bound") {
		b := setting.DefaultBinding(d.Unit)
		b.Fabric, b.Straight, b.Bias = ids[1], rapid.Bool().Draw(t, "straight"), rapid.Bool().Draw(t, "bias")
		d.Binding = &b
		back := setting.DefaultBacking(d.Unit)
		back.Fabric, back.Overage = ids[0], drawn(t, "overage", back.Overage, 3*model.Inch)
		d.Backing = &back
		d.Batting = &setting.Batting{Overage: drawn(t, "overage", 0, model.Inch)}
	}
	for i, name := range rapid.SliceOfNDistinct(anyLabel(), 0, 3, rapid.ID[string]).Draw(t, "sizes") {
		s := setting.Size{Name: name}
		switch i {
		case 0:
			s.Rows, s.Columns = 2, 3
			s.Borders = drawn(t, "its borders", nil, []setting.Border{}, []setting.Border{border()})
		case 1:
			s.Layout = onlyBlock(d.Blocks[0].Name)
		case 2:
			s.Bed = &setting.Bed{Mattress: "crib", Drop: drawn(t, "drop", 0, 3*model.Inch)}
		}
		d.Sizes = append(d.Sizes, s)
	}
}

// Whatever design is written is read back the same, and an editor finds no
// fault with it.
func TestWriteDesignReadsBack(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(rt *rapid.T) {
		d := anyDesign(rt)
		if err := d.Check(); err != nil {
			rt.Skip(err) // sashing that has no place, say
		}
		var b, again bytes.Buffer
		if err := WriteDesign(&b, d); err != nil {
			rt.Fatalf("%+v is not written: %v", d, err)
		}
		back, err := ParseDesign("q.yaml", b.Bytes())
		if err != nil || !reflect.DeepEqual(canonical(back), canonical(d)) {
			rt.Fatalf("%v\n%s\n%s", err, cmp.Diff(canonical(d), canonical(back)), b.String())
		}
		if err := WriteDesign(&again, back); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
			rt.Fatalf("%v, written again as\n%s", err, again.String())
		}
		if err := satisfies(s, b.Bytes()); err != nil {
			rt.Fatalf("%v\n%s", err, b.String())
		}
	})
}
