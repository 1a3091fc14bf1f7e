package quiltfile

import (
	"errors"
	"fmt"
	"strings"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
)

// Parse reads a quilt file from its text; name is what its errors call it.
// The error is [Errors]: faults of the YAML alone if it is not YAML, otherwise
// every fault of the file.
func Parse(name string, data []byte) (model.Quilt, error) {
	if errs := checkText(name, data); errs != nil {
		return model.Quilt{}, errs
	}
	root, errs := parseYAML(name, withoutMark(data))
	if errs != nil {
		return model.Quilt{}, errs
	}
	r := newReader(name)
	whole := model.Fault{Part: model.WholeQuilt, Index: -1}
	r.nodes[place{part: model.WholeQuilt, index: -1}] = root
	readKeys(r, root, whole, quiltKeys, &r.quilt)
	r.checkRules()
	if len(r.errs) > 0 {
		return model.Quilt{}, r.errs.sorted()
	}
	return r.quilt, nil
}

// reader gathers a quilt and the faults of its file.
type reader struct {
	file      string
	errs      Errors
	quilt     model.Quilt
	defaults  model.Fabric // what a fabric has that says nothing more
	unitKnown bool
	nodes     map[place]*yaml.Node // where each value stands
	wrong     map[place]bool       // the values that could not be read
}

// place is a value in a quilt: of which part, which of them, and the field.
// The field is empty for the part itself. Items of a list count from 1; the
// list itself is at 0.
type place struct {
	part  model.Part
	index int
	field string
	item  int
}

// ofAllFabrics is the index of fabric_defaults among the fabrics.
const ofAllFabrics = -1

// placeOf is where a fault of the rules is.
func placeOf(fault *model.Fault) place {
	at := place{part: fault.Part, index: fault.Index, field: fault.Field}
	if fault.Field == model.FieldUsableWidths {
		at.item = fault.Item + 1
	}
	return at
}

func newReader(file string) *reader {
	return &reader{
		file:     file,
		quilt:    model.Quilt{Ruler: model.DefaultRuler(model.Inches)},
		defaults: model.DefaultFabric(model.Inches),
		nodes:    make(map[place]*yaml.Node),
		wrong:    make(map[place]bool),
	}
}

// fail notes what is wrong with a field, at a node.
func (r *reader) fail(n *yaml.Node, at model.Fault, field string, err error) {
	r.failItem(n, at, place{part: at.Part, index: at.Index, field: field}, err)
}

// failItem notes what is wrong with a field, or with an item of it.
func (r *reader) failItem(n *yaml.Node, at model.Fault, where place, err error) {
	r.wrong[where] = true
	if !r.unitKnown && errors.Is(err, model.ErrTooFine) {
		return // it may sit on the ruler of the other unit
	}
	at.Field, at.Err = where.field, err
	r.report(n, &at)
}

// report notes an error at a node.
func (r *reader) report(n *yaml.Node, err error) {
	var v *model.ValueError
	if errors.As(err, &v) && strings.ContainsAny(v.Value, "“”„") &&
		!errors.Is(err, model.ErrCurlyQuotes) && !errors.Is(err, model.ErrTooFine) && !errors.Is(err, model.ErrTooLong) {
		v.Hint = "these are curly quotes: write straight ones or none"
	}
	r.errs = append(r.errs, &Error{File: r.file, Line: n.Line, Column: n.Column, Err: err})
}

// key is a key that a group of keys may have, and how its value is read into
// a T.
type key[T any] struct {
	name     string
	required bool
	read     func(r *reader, n *yaml.Node, at model.Fault, into *T) error
}

// readKeys reads a group of keys in the order of the table, not of the file,
// so that a key may rely on those before it in the table.
func readKeys[T any](r *reader, n *yaml.Node, at model.Fault, keys []key[T], into *T) {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = k.name
	}
	values, meant, err := r.pairs(n, names)
	if err != nil {
		r.report(n, located(at, err))
		r.wrong[place{part: at.Part, index: at.Index}] = true
		return
	}
	for _, k := range keys {
		value := values[k.name]
		if value == nil {
			if meant[k.name] {
				r.wrong[place{part: at.Part, index: at.Index, field: k.name}] = true
			} else if k.required {
				r.fail(n, at, k.name, say(model.ErrMissing, "add "+k.name+": and its value"))
			}
			continue
		}
		r.nodes[place{part: at.Part, index: at.Index, field: k.name}] = value
		if err := k.read(r, value, at, into); err != nil {
			r.fail(value, at, k.name, err)
		}
	}
}

// located is err about the part at, if it is about one.
func located(at model.Fault, err error) error {
	switch {
	case at.Part == model.FabricPart && at.Index == ofAllFabrics:
		return fmt.Errorf("%s: %w", fieldFabricDefaults, err)
	case at.Part == model.FabricPart:
		return fmt.Errorf("fabric %q: %w", at.Name, err)
	case at.Part == model.CutPart:
		return fmt.Errorf("cut %d: %w", at.Index+1, err)
	}
	return err
}

// text adapts a reader of texts to a key. An empty value is an empty text.
func text[T any](read func(r *reader, text string, into *T) error) func(*reader, *yaml.Node, model.Fault, *T) error {
	return func(r *reader, n *yaml.Node, _ model.Fault, into *T) error {
		s, err := scalarText(n)
		if err != nil {
			return err
		}
		return read(r, s, into)
	}
}

// checkRules finds the rules that the quilt breaks, and where. Faults that
// only follow from a value that could not be read are left out.
func (r *reader) checkRules() {
	if !r.unitKnown || r.wrong[place{part: model.WholeQuilt, index: -1}] {
		return
	}
	_, err := r.quilt.CutList()
	var faults model.Faults
	errors.As(err, &faults)
	for _, fault := range faults {
		at := placeOf(fault)
		if fault.Part == model.FabricPart && !r.says(at) && r.says(at.ofAll()) {
			at = at.ofAll()
			all := *fault
			all.Name, all.Index = "", ofAllFabrics
			fault = &all
		}
		if r.wrong[at] || r.wrong[at.whole()] || r.wrong[at.entry()] || r.follows(fault) {
			continue
		}
		r.report(r.nodeAt(at), fault)
	}
}

// follows reports whether a fault is only there because the fabrics could not
// be read.
func (r *reader) follows(fault *model.Fault) bool {
	fabrics := place{part: model.WholeQuilt, index: -1, field: model.FieldFabrics}
	return r.wrong[fabrics] && errors.Is(fault.Err, model.ErrUnknown)
}

// says reports whether the file has the field of a place.
func (r *reader) says(at place) bool { return r.nodes[at.whole()] != nil }

// whole is the field of a place, without its item.
func (p place) whole() place { p.item = 0; return p }

// entry is the part of a place, without its field.
func (p place) entry() place { return place{part: p.part, index: p.index} }

// ofAll is the place of the same field in fabric_defaults.
func (p place) ofAll() place { p.index = ofAllFabrics; return p }

// nodeAt is the node at a place, or the nearest one around it.
func (r *reader) nodeAt(at place) *yaml.Node {
	for _, p := range []place{at, at.whole(), at.entry()} {
		if n := r.nodes[p]; n != nil {
			return n
		}
	}
	return r.nodes[place{part: model.WholeQuilt, index: -1}]
}

// peek is the text of a key of a group of keys, before the group is read.
func peek(n *yaml.Node, name string) string {
	for i := 0; n.Kind == yaml.MappingNode && i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == name {
			s, _ := scalarText(n.Content[i+1])
			return s
		}
	}
	return ""
}

// list joins two names or more for a message: a, b or c.
func list(names []string) string {
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}
