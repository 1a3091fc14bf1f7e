package quiltfile

import (
	"bytes"
	"fmt"
	"io"
	"reflect"
	"strconv"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
)

// Write writes a quilt as a quilt file that [Parse] reads back to an equal
// quilt. The same quilt gives the same bytes. What a file need not say is left
// out; what all fabrics share stands in fabric_defaults.
//
// Nothing is written, and an error returned, if the quilt breaks a rule
// ([model.Faults]) or has a length that no quilt file can hold
// ([model.ErrTooFine]).
func Write(w io.Writer, q model.Quilt) error {
	if _, err := q.CutList(); err != nil {
		return fmt.Errorf("write a quilt file: %w", err)
	}
	b, err := encode(design.OfCuts(q))
	if err != nil {
		return fmt.Errorf("write a quilt file: %w", err)
	}
	_, err = w.Write(b)
	return err
}

// encode gives the text of a quilt file.
func encode(d design.Design) ([]byte, error) {
	e := encoder{unit: d.Unit}
	root := e.design(d)
	if e.err != nil {
		return nil, e.err
	}
	var b bytes.Buffer
	dumper, err := yaml.NewDumper(&b, yaml.WithLineWidth(-1))
	if err != nil {
		return nil, err
	}
	if err := dumper.Dump(root); err != nil {
		return nil, err
	}
	if err := dumper.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

// encoder makes nodes of a quilt. It keeps the first length that cannot be
// written.
type encoder struct {
	unit model.Unit
	err  error
}

func (e *encoder) design(d design.Design) *yaml.Node {
	root := &yaml.Node{Kind: yaml.MappingNode}
	if d.Title != "" {
		put(root, model.FieldTitle, textNode(d.Title))
	}
	put(root, model.FieldUnit, plain(d.Unit.String()))
	rules := block.DefaultRules(d.Unit)
	if d.Ruler != rules.Ruler {
		put(root, model.FieldRuler, plain(e.length(d.Ruler)))
	}
	if d.Seam != rules.Seam {
		put(root, design.KeySeam, plain(e.length(d.Seam)))
	}
	defaults := sharedDefaults(d.Fabrics, d.Unit)
	shared := &yaml.Node{Kind: yaml.MappingNode}
	e.settings(shared, defaults, model.DefaultFabric(d.Unit))
	if len(shared.Content) > 0 {
		put(root, fieldFabricDefaults, shared)
	}
	fabrics := &yaml.Node{Kind: yaml.MappingNode}
	for _, f := range d.Fabrics {
		fabrics.Content = append(fabrics.Content, textNode(f.ID), e.fabric(f, defaults))
	}
	put(root, model.FieldFabrics, fabrics)
	e.whole(root, d)
	if len(d.Cuts) > 0 {
		cuts := &yaml.Node{Kind: yaml.SequenceNode}
		for _, c := range d.Cuts {
			cuts.Content = append(cuts.Content, e.cut(c))
		}
		put(root, model.FieldCuts, cuts)
	}
	return root
}

// sharedDefaults is what all fabrics agree on, and for the rest
// what a file has that says nothing.
func sharedDefaults(fabrics []model.Fabric, u model.Unit) model.Fabric {
	defaults, first := model.DefaultFabric(u), fabrics[0]
	all := func(same func(f model.Fabric) bool) bool {
		for _, f := range fabrics {
			if !same(f) {
				return false
			}
		}
		return true
	}
	if all(func(f model.Fabric) bool { return reflect.DeepEqual(f.UsableWidths, first.UsableWidths) }) {
		defaults.UsableWidths = first.UsableWidths
	}
	if all(func(f model.Fabric) bool { return f.SoldBy == first.SoldBy }) {
		defaults.SoldBy = first.SoldBy
	}
	if all(func(f model.Fabric) bool { return f.Straighten == first.Straighten }) {
		defaults.Straighten = first.Straighten
	}
	if all(func(f model.Fabric) bool { return f.Shrinkage == first.Shrinkage }) {
		defaults.Shrinkage = first.Shrinkage
	}
	if all(func(f model.Fabric) bool { return f.Price == first.Price }) {
		defaults.Price = first.Price
	}
	return defaults
}

// settings puts what f says differently from the defaults.
func (e *encoder) settings(n *yaml.Node, f, defaults model.Fabric) {
	if !reflect.DeepEqual(f.UsableWidths, defaults.UsableWidths) {
		widths := &yaml.Node{Kind: yaml.SequenceNode, Style: yaml.FlowStyle}
		for _, w := range f.UsableWidths {
			widths.Content = append(widths.Content, plain(e.length(w)))
		}
		put(n, model.FieldUsableWidths, widths)
	}
	if f.SoldBy != defaults.SoldBy {
		put(n, model.FieldSoldBy, plain(e.shopCut(f.SoldBy)))
	}
	if f.Straighten != defaults.Straighten {
		put(n, model.FieldStraighten, plain(e.length(f.Straighten)))
	}
	if f.Shrinkage != defaults.Shrinkage {
		put(n, model.FieldShrinkage, plain(f.Shrinkage.String()))
	}
	if f.Price != defaults.Price {
		put(n, model.FieldPrice, plain(f.Price.String()))
	}
}

func (e *encoder) fabric(f, defaults model.Fabric) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	if f.Name != "" {
		put(n, model.FieldName, textNode(f.Name))
	}
	if f.OneWay {
		put(n, model.FieldOneWay, plain("true"))
	}
	e.settings(n, f, defaults)
	return n
}

func (e *encoder) cut(c model.Cut) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	put(n, model.FieldName, textNode(c.Name))
	put(n, model.FieldFabric, textNode(c.Fabric))
	put(n, model.FieldSize, plain(model.WrittenSize(c.Width, c.Height, e.unit)))
	put(n, model.FieldCount, plain(strconv.Itoa(c.Count)))
	if c.Halve != model.NotHalved {
		put(n, model.FieldHalve, plain(c.Halve.String()))
	}
	if c.NoTurn {
		put(n, model.FieldTurn, plain("no"))
	}
	if c.Grain != model.AnyGrain {
		put(n, model.FieldGrain, plain(c.Grain.String()))
	}
	if c.Use != "" {
		put(n, model.FieldUse, textNode(c.Use))
	}
	return n
}

// length is l as it is read back.
func (e *encoder) length(l model.Length) string {
	text := l.Written(e.unit)
	if _, err := model.ParseLength(text, e.unit); err != nil {
		e.note(err)
	}
	return text
}

func (e *encoder) shopCut(c model.ShopCut) string {
	text := c.String()
	if back, err := model.ParseShopCut(text); err != nil || back != c {
		e.note(&model.ValueError{Value: text, Err: model.ErrNotAShopCut, Hint: "use a step such as 1/8 yd or 10 cm"})
	}
	return text
}

func (e *encoder) note(err error) {
	if e.err == nil {
		e.err = err
	}
}

// put adds a key and its value.
func put(n *yaml.Node, key string, value *yaml.Node) {
	n.Content = append(n.Content, plain(key), value)
}

// plain is a word or a number that needs no quotes.
func plain(s string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Value: s} }

// textNode is a text of the user's, quoted if YAML would take it for
// something else.
func textNode(s string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s} }
