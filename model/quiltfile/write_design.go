package quiltfile

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"reflect"
	"slices"
	"strconv"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

// ErrNotWritable is the error for a design that no quilt file can hold.
var ErrNotWritable = errors.New("no quilt file says this")

// WriteDesign writes a design as a quilt file that [ParseDesign] reads back to
// an equal design. The same design gives the same bytes. What a file need not
// say is left out.
//
// Nothing is written, and an error returned, if the design breaks a rule
// ([model.Faults] or [Errors]) or no quilt file can hold it ([ErrNotWritable],
// [model.ErrTooFine]): a label such as "star 90", say, or a unit of a kind that
// has no key.
func WriteDesign(w io.Writer, d design.Design) error {
	d = canonical(d)
	if err := d.Check(); err != nil {
		return fmt.Errorf("write a quilt file: %w", err)
	}
	b, err := encode(d)
	if err != nil {
		return fmt.Errorf("write a quilt file: %w", err)
	}
	back, err := ParseDesign("the file written", b)
	if err != nil {
		return fmt.Errorf("write a quilt file: %w", err)
	}
	if !reflect.DeepEqual(canonical(back), d) {
		return fmt.Errorf("write a quilt file: %w", &model.ValueError{Err: ErrNotWritable, Hint: "use plain labels, and values that are not left empty"})
	}
	_, err = w.Write(b)
	return err
}

// canonical is a design without what makes no difference to it.
func canonical(d design.Design) design.Design {
	if len(d.Borders) == 0 {
		d.Borders = nil
	}
	if b := d.Backing; b != nil && b.Width != 0 {
		one := *b
		one.Overage = setting.DefaultBacking(d.Unit).Overage
		d.Backing = &one
	}
	if b := d.Batting; b != nil && b.Width != 0 {
		one := *b
		one.Overage = 0
		d.Batting = &one
	}
	return d
}

// whole puts what a design has besides a cutting list.
func (e *encoder) whole(root *yaml.Node, d design.Design) {
	e.putGroup(root, block.KeyUnits, len(d.Units), func(i int) (string, *yaml.Node) {
		return d.Units[i].Name, e.unitNode(d.Units[i].Unit)
	})
	e.putGroup(root, block.KeyBlocks, len(d.Blocks), func(i int) (string, *yaml.Node) {
		return d.Blocks[i].Name, e.block(d.Blocks[i])
	})
	putList(root, design.KeyCutouts, d.Cutouts, e.cutout)
	if s := d.Setting; s != nil {
		if n := e.setting(*s, d.Blocks); len(n.Content) > 0 || len(d.Sizes) == 0 {
			put(root, setting.KeySetting, n)
		}
	}
	putList(root, setting.KeyBorders, d.Borders, e.border)
	if d.Binding != nil {
		put(root, setting.KeyBinding, e.binding(*d.Binding))
	}
	if d.Backing != nil {
		put(root, setting.KeyBacking, e.backing(*d.Backing))
	}
	if d.Batting != nil {
		n := flow()
		e.sizeOrOverage(n, d.Batting.Width, d.Batting.Height, d.Batting.Overage, 0)
		put(root, setting.KeyBatting, n)
	}
	e.putGroup(root, setting.KeySizes, len(d.Sizes), func(i int) (string, *yaml.Node) {
		return d.Sizes[i].Name, e.size(d.Sizes[i])
	})
}

// putGroup puts a group of n labelled values, if there are any.
func (e *encoder) putGroup(root *yaml.Node, key string, n int, entry func(i int) (label string, value *yaml.Node)) {
	group := &yaml.Node{Kind: yaml.MappingNode}
	for i := range n {
		label, value := entry(i)
		group.Content = append(group.Content, textNode(label), value)
	}
	if n > 0 {
		put(root, key, group)
	}
}

// putList puts a list of values, if there are any.
func putList[T any](root *yaml.Node, key string, values []T, node func(T) *yaml.Node) {
	if len(values) > 0 {
		put(root, key, listNode(values, node))
	}
}

func listNode[T any](values []T, node func(T) *yaml.Node) *yaml.Node {
	n := &yaml.Node{Kind: yaml.SequenceNode}
	for _, v := range values {
		n.Content = append(n.Content, node(v))
	}
	return n
}

// flow is an empty group of keys on one line.
func flow() *yaml.Node { return &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle} }

// flowList is a list on one line.
func flowList[T any](values []T, node func(T) *yaml.Node) *yaml.Node {
	n := listNode(values, node)
	n.Style = yaml.FlowStyle
	return n
}

func (e *encoder) lengthNode(l model.Length) *yaml.Node { return plain(e.length(l)) }

func (e *encoder) sizeNode(width, height model.Length) *yaml.Node {
	e.length(width) // notes what cannot be written
	e.length(height)
	return plain(model.WrittenSize(width, height, e.unit))
}

func (e *encoder) putEase(n *yaml.Node, ease block.Ease) {
	if ease.Kind == block.NoEase {
		return
	}
	if ease.Kind == block.OwnEase {
		e.length(ease.Own)
	}
	put(n, block.KeyEase, plain(ease.Written(e.unit)))
}

func putMethod(n *yaml.Node, m block.Method) {
	if m != block.DefaultMethod {
		put(n, block.KeyMethod, plain(m.String()))
	}
}

func (e *encoder) block(b block.Block) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	put(n, block.KeyFinished, e.sizeNode(b.Width, b.Height))
	putList(n, block.KeyRows, b.Rows, func(row []block.Cell) *yaml.Node {
		return flowList(row, func(c block.Cell) *yaml.Node { return textNode(withTurn(c.Unit, c.Turn)) })
	})
	if r := b.Rounds; r != nil {
		put(n, block.KeyCentre, e.centre(r.Centre))
		put(n, block.KeyRounds, listNode(r.Rounds, e.round))
	}
	e.putGroup(n, block.KeyColourways, len(b.Colourways), func(i int) (string, *yaml.Node) {
		way := b.Colourways[i]
		swap := flow()
		for _, from := range slices.Sorted(maps.Keys(way.Swap)) {
			swap.Content = append(swap.Content, textNode(from), textNode(way.Swap[from]))
		}
		return way.Name, swap
	})
	return n
}

// withTurn is a label with how far it is turned behind it.
func withTurn(label string, turn block.Turn) string {
	if turn == 0 {
		return label
	}
	return label + " " + strconv.Itoa(90*int(turn))
}

func (e *encoder) centre(c block.Centre) *yaml.Node {
	n := flow()
	if c.Side != 0 {
		put(n, model.FieldSize, e.lengthNode(c.Side))
	}
	putLabel(n, block.KeyFabric, c.Fabric)
	putLabel(n, block.KeyUnit, c.Unit)
	return n
}

// putLabel puts a label that may be empty.
func putLabel(n *yaml.Node, key, label string) {
	if label != "" {
		put(n, key, textNode(label))
	}
}

func (e *encoder) round(o block.Round) *yaml.Node {
	n := flow()
	put(n, keyKind, plain(o.Kind.String()))
	if o.Width != 0 {
		put(n, keyWidth, e.lengthNode(o.Width))
	}
	if len(o.Fabrics) == 1 {
		put(n, block.KeyFabric, textNode(o.Fabrics[0]))
	} else {
		put(n, block.KeyFabrics, flowList(o.Fabrics, textNode))
	}
	e.putEase(n, o.Ease)
	return n
}

func (e *encoder) cutout(c design.Cutouts) *yaml.Node {
	n := flow()
	slant := func(key string, height, long, short model.Length) {
		put(n, key, e.lengthNode(height))
		put(n, keyLong, e.lengthNode(long))
		put(n, keyShort, e.lengthNode(short))
	}
	switch s := c.Shape.(type) {
	case block.SixtyTriangle:
		put(n, block.KeySixtyTriangle, e.lengthNode(s.Height))
	case block.Hexagon:
		put(n, block.KeyHexagon, e.lengthNode(s.Height))
	case block.Diamond:
		key := block.KeyDiamond45
		if s.Angle == block.Degrees60 {
			key = block.KeyDiamond60
		}
		put(n, key, e.lengthNode(s.Height))
	case block.Trapezoid:
		slant(block.KeyTrapezoid, s.Height, s.Long, s.Short)
	case block.Wedge:
		slant(block.KeyWedge, s.Height, s.Long, s.Short)
	default:
		e.noKind(c.Shape)
	}
	put(n, model.FieldFabric, textNode(c.Fabric))
	put(n, model.FieldCount, plain(strconv.Itoa(c.Count)))
	putLabel(n, model.FieldUse, c.Use)
	return n
}

// noKind notes a value of a kind that has no key.
func (e *encoder) noKind(v any) {
	e.note(&model.ValueError{Value: fmt.Sprintf("%T", v), Err: ErrNotWritable, Hint: "use a kind that quilt files have"})
}
