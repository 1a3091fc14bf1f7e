package quiltfile

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

// Parse reads a cutting list from its text; name is what its errors call it.
// The error is [Errors]: faults of the YAML alone if it is not YAML, otherwise
// every fault of the file. A file that describes a design is a fault, of the
// kind [ErrDesign]: see [ParseDesign].
func Parse(name string, data []byte) (model.Quilt, error) {
	r, err := parse(name, data)
	if err != nil {
		return model.Quilt{}, err
	}
	if r.describes {
		return model.Quilt{}, fileError(name, 0, 0, say(ErrDesign, "name a file that has nothing but cuts"))
	}
	d := r.design
	return model.Quilt{Title: d.Title, Unit: d.Unit, Ruler: d.Ruler, Fabrics: d.Fabrics, Cuts: d.Cuts}, nil
}

// ParseDesign reads a quilt file of either kind from its text; name is what its
// errors call it. A cutting list is a design that has cuts only. The error is
// [Errors], as that of [Parse]: a design without faults can be worked out in
// each of its sizes.
func ParseDesign(name string, data []byte) (design.Design, error) {
	r, err := parse(name, data)
	if err != nil {
		return design.Design{}, err
	}
	return r.design, nil
}

// parse reads a file and all its faults.
func parse(name string, data []byte) (*reader, error) {
	if errs := checkText(name, data); errs != nil {
		return nil, errs
	}
	root, errs := parseYAML(name, withoutMark(data))
	if errs != nil {
		return nil, errs
	}
	r := newReader(name)
	r.describes = describes(root)
	r.nodes[place{part: model.WholeQuilt, index: -1}] = root
	r.nodes[place{part: model.DesignPart}] = root
	readKeys(r, root, model.Fault{Part: model.WholeQuilt, Index: -1}, topKeys(r.describes), &r.design)
	r.complete()
	r.checkRules()
	if len(r.errs) > 0 {
		return nil, r.errs.sorted()
	}
	return r, nil
}

// reader gathers a design and the faults of its file.
type reader struct {
	file   string
	errs   Errors
	design design.Design
	// describes says that the file has more than a cutting list.
	describes bool
	defaults  model.Fabric // what a fabric has that says nothing more
	unitKnown bool
	nodes     map[place]*yaml.Node // where each value stands
	wrong     map[place]bool       // the values that could not be read
	// lost are the labels of units that could not be read, short the lists of
	// fabrics that are written as one fabric.
	lost  map[string]bool
	short map[model.Path]bool
}

// place is a value in a quilt: of which part, which of them, and the field.
// The field is empty for the part itself. Items of a list count from 1; the
// list itself is at 0. Of a design the path alone says it.
type place struct {
	part  model.Part
	index int
	field string
	item  int
	path  model.Path
}

// ofAllFabrics is the index of fabric_defaults among the fabrics.
const ofAllFabrics = -1

// placeOf is where a fault of the rules is.
func placeOf(fault *model.Fault) place {
	if fault.Part == model.DesignPart {
		return place{part: model.DesignPart, path: fault.Path}
	}
	at := place{part: fault.Part, index: fault.Index, field: fault.Field}
	if fault.Field == model.FieldUsableWidths {
		at.item = fault.Item + 1
	}
	return at
}

// fieldOf is the place of a field of the part at; of the part itself if the
// field is empty. Keys of a design stand where its paths begin.
func fieldOf(at model.Fault, field string) place {
	switch {
	case at.Part == model.DesignPart && field == "":
		return place{part: model.DesignPart, path: at.Path}
	case at.Part == model.DesignPart, at.Part == model.WholeQuilt && designKeys[field]:
		return place{part: model.DesignPart, path: at.Path.At(field)}
	}
	return place{part: at.Part, index: at.Index, field: field}
}

func newReader(file string) *reader {
	return &reader{
		file:     file,
		design:   design.Design{Ruler: model.DefaultRuler(model.Inches)},
		defaults: model.DefaultFabric(model.Inches),
		nodes:    make(map[place]*yaml.Node),
		wrong:    make(map[place]bool),
		lost:     make(map[string]bool),
		short:    make(map[model.Path]bool),
	}
}

// fail notes what is wrong with a field, at a node.
func (r *reader) fail(n *yaml.Node, at model.Fault, field string, err error) {
	r.failItem(n, at, fieldOf(at, field), err)
}

// failItem notes what is wrong with a field, or with an item of it.
func (r *reader) failItem(n *yaml.Node, at model.Fault, where place, err error) {
	r.wrong[where] = true
	if !r.unitKnown && errors.Is(err, model.ErrTooFine) {
		return // it may sit on the ruler of the other unit
	}
	at.Part, at.Field, at.Path, at.Err = where.part, where.field, where.path, err
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
		r.wrong[fieldOf(at, "")] = true
		return
	}
	for _, k := range keys {
		value := values[k.name]
		if value == nil {
			if meant[k.name] {
				r.wrong[fieldOf(at, k.name)] = true
			} else if k.required {
				r.fail(n, at, k.name, say(model.ErrMissing, "add "+k.name+": and its value"))
			}
			continue
		}
		r.nodes[fieldOf(at, k.name)] = value
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
	case at.Part == model.DesignPart:
		at.Err = hinted(err, formOf(at.Path))
		return &at
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
	err := r.broken()
	var faults model.Faults
	errors.As(err, &faults)
	for _, fault := range faults {
		if fault = r.renamed(fault); fault == nil {
			continue
		}
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
		r.report(r.nodeAt(at), r.quoted(fault, at))
	}
}

// broken are the rules that the quilt breaks: [model.Faults] or nil.
func (r *reader) broken() error {
	d := r.design
	if !r.describes {
		_, err := model.Quilt{Title: d.Title, Unit: d.Unit, Ruler: d.Ruler, Fabrics: d.Fabrics, Cuts: d.Cuts}.CutList()
		return err
	}
	if err := d.Check(); err != nil || len(r.errs) > 0 {
		return err
	}
	var all model.Faults
	for _, size := range d.SizeNames() {
		_, err := d.Work(size)
		var faults model.Faults
		errors.As(err, &faults)
		all = append(all, faults...)
	}
	return all.OrNil()
}

// renamed is a fault as it is told of a list of fabrics that is written as one
// fabric: once, and of that. It is nil for the second time.
func (r *reader) renamed(fault *model.Fault) *model.Fault {
	list := fault.Path.Up()
	if fault.Part != model.DesignPart || !r.short[list] {
		return fault
	}
	if fault.Path != list.Entry(0) {
		return nil
	}
	one := *fault
	one.Path = list.Up().At(block.KeyFabric)
	return &one
}

// follows reports whether a fault is only there because something else could
// not be read: the fabrics, a unit, or for a sum any value of the design.
func (r *reader) follows(fault *model.Fault) bool {
	fabrics := place{part: model.WholeQuilt, index: -1, field: model.FieldFabrics}
	if errors.Is(fault.Err, model.ErrUnknown) {
		return r.wrong[fabrics]
	}
	if fault.Part != model.DesignPart {
		return false
	}
	for p := fault.Path; !p.IsZero(); p = p.Up() {
		// What is wrong with a round hangs on its kind.
		if r.wrong[place{part: model.DesignPart, path: p}] || r.wrong[place{part: model.DesignPart, path: p.At(keyKind)}] {
			return true
		}
	}
	// What does not go with a way of setting hangs on the way.
	way := place{part: model.DesignPart, path: model.PathOf(setting.KeySetting, setting.KeyWay)}
	if errors.Is(fault.Err, model.ErrNotTogether) && r.wrong[way] {
		return true
	}
	if v := (*model.ValueError)(nil); errors.As(fault.Err, &v) && (errors.Is(v, model.ErrUnknownName) || errors.Is(v, model.ErrNotInBlock)) {
		return r.lost[v.Value]
	}
	return r.unreadable() && slices.ContainsFunc(sums, func(kind error) bool { return errors.Is(fault.Err, kind) })
}

// sums are the faults of values that do not go with others.
var sums = []error{
	model.ErrOffSum, model.ErrUnevenBlocks, model.ErrTooSmall, model.ErrTooLarge, model.ErrNotSquareUnit,
}

// unreadable reports whether a value of the design could not be read.
func (r *reader) unreadable() bool {
	for at := range r.wrong {
		if at.part == model.DesignPart {
			return true
		}
	}
	return false
}

// says reports whether the file has the field of a place.
func (r *reader) says(at place) bool { return r.nodes[at.whole()] != nil }

// whole is the field of a place, without its item.
func (p place) whole() place { p.item = 0; return p }

// entry is the part of a place, without its field.
func (p place) entry() place { return place{part: p.part, index: p.index, path: p.path} }

// ofAll is the place of the same field in fabric_defaults.
func (p place) ofAll() place { p.index = ofAllFabrics; return p }

// nodeAt is the node at a place, or the nearest one around it.
func (r *reader) nodeAt(at place) *yaml.Node {
	for _, p := range []place{at, at.whole(), at.entry()} {
		if n := r.nodes[p]; n != nil {
			return n
		}
	}
	for p := at.path; !p.IsZero(); p = p.Up() {
		if n := r.nodes[place{part: model.DesignPart, path: p.Up()}]; n != nil {
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
