package quiltfile

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

// wholeKeys are the keys of a design besides those of a cutting list. What
// others refer to comes first.
var wholeKeys = []key[design.Design]{
	lengthKey(design.KeySeam, func(d *design.Design) *model.Length { return &d.Seam }),
	{name: block.KeyUnits, read: readUnits},
	{name: block.KeyBlocks, read: readBlocks},
	{name: design.KeyCutouts, read: readCutouts},
	{name: setting.KeySetting, read: readSetting},
	{name: setting.KeyBorders, read: func(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) (err error) {
		d.Borders, err = r.borders(n, model.PathOf(setting.KeyBorders))
		return err
	}},
	{name: setting.KeyBinding, read: readBinding},
	{name: setting.KeyBacking, read: readBacking},
	{name: setting.KeyBatting, read: readBatting},
	{name: setting.KeySizes, read: readSizes},
}

// designKeys are the keys that make a file a design.
var designKeys = map[string]bool{
	design.KeySeam: true, block.KeyUnits: true, block.KeyBlocks: true, design.KeyCutouts: true, setting.KeySetting: true,
	setting.KeyBorders: true, setting.KeyBinding: true, setting.KeyBacking: true, setting.KeyBatting: true, setting.KeySizes: true,
}

// topKeys are the keys of a whole file. A design need not have cuts.
func topKeys(describes bool) []key[design.Design] {
	keys := slices.Concat(quiltKeys, wholeKeys)
	for i := range keys {
		if keys[i].name == model.FieldCuts && describes {
			keys[i].required = false
		}
	}
	return keys
}

// describes reports whether a file describes a design, slips of the pen aside.
func describes(root *yaml.Node) bool {
	names := make([]string, 0, len(quiltKeys)+len(wholeKeys))
	for _, k := range topKeys(true) {
		names = append(names, k.name)
	}
	for i := 0; root.Kind == yaml.MappingNode && i+1 < len(root.Content); i += 2 {
		if word := root.Content[i].Value; designKeys[word] || designKeys[Nearest(word, names)] {
			return true
		}
	}
	return false
}

// complete puts in what a file leaves to be understood: that the only block
// stands everywhere.
func (r *reader) complete() {
	d := &r.design
	if d.Setting == nil && len(d.Sizes) > 0 && !r.wrong[place{part: model.DesignPart, path: model.PathOf(setting.KeySetting)}] {
		d.Setting = &setting.Setting{}
	}
	if s := d.Setting; s != nil && s.Layout == nil && len(d.Blocks) == 1 {
		s.Layout = onlyBlock(d.Blocks[0].Name)
	}
	r.checkCounts(setting.KeyRows, func(rows, _ int) int { return rows })
	r.checkCounts(setting.KeyColumns, func(_, columns int) int { return columns })
}

func onlyBlock(name string) [][]setting.Place { return [][]setting.Place{{{Block: name}}} }

// checkCounts tells of sizes that neither say nor inherit a number of rows or
// of columns.
func (r *reader) checkCounts(name string, of func(rows, columns int) int) {
	s, set := r.design.Setting, model.PathOf(setting.KeySetting)
	if s == nil || of(s.Rows, s.Columns) != 0 || r.unread(set) || r.unread(set.At(name)) ||
		r.says(place{part: model.DesignPart, path: set.At(name)}) {
		return
	}
	for _, size := range r.design.Sizes {
		in := model.PathOf(setting.KeySizes, size.Name)
		if said := r.says(place{part: model.DesignPart, path: in.At(name)}); size.Bed == nil && !said && !r.unread(in) && !r.unread(in.At(name)) {
			r.failAt(r.nodeAt(place{part: model.DesignPart, path: in}), in.At(name), say(model.ErrMissing, fmt.Sprintf("add %s: here or in the setting, or bed:", name)))
			r.wrong[place{part: model.DesignPart, path: set.At(name)}] = true
		}
	}
	if len(r.design.Sizes) == 0 {
		r.failAt(r.nodeAt(place{part: model.DesignPart, path: set}), set.At(name), say(model.ErrMissing, "add "+name+": and their number"))
	}
}

// unread reports whether the value at a place could not be read.
func (r *reader) unread(at model.Path) bool { return r.wrong[place{part: model.DesignPart, path: at}] }

// cutoutForm is one entry of the cutouts as it is written.
type cutoutForm struct {
	height, long, short model.Length
	design.Cutouts
}

func readCutouts(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	entries, err := items(n)
	if err != nil {
		return hinted(err, `begin each shape with "- "`)
	}
	for i, entry := range entries {
		if c, ok := readKind(r, entry, model.PathOf(design.KeyCutouts).Entry(i), cutoutKinds); ok {
			d.Cutouts = append(d.Cutouts, c)
		}
	}
	return nil
}

// cutoutKinds are the shapes that are cut from strips.
var cutoutKinds = []kind[design.Cutouts]{
	cutout(block.KeySixtyTriangle, func(f cutoutForm) block.Cutout { return block.SixtyTriangle{Height: f.height} }),
	cutout(block.KeyHexagon, func(f cutoutForm) block.Cutout { return block.Hexagon{Height: f.height} }),
	cutout(block.KeyDiamond45, func(f cutoutForm) block.Cutout { return block.Diamond{Height: f.height, Angle: block.Degrees45} }),
	cutout(block.KeyDiamond60, func(f cutoutForm) block.Cutout { return block.Diamond{Height: f.height, Angle: block.Degrees60} }),
	cutout(block.KeyTrapezoid, func(f cutoutForm) block.Cutout {
		return block.Trapezoid{Height: f.height, Long: f.long, Short: f.short}
	}, slantKeys...),
	cutout(block.KeyWedge, func(f cutoutForm) block.Cutout {
		return block.Wedge{Height: f.height, Long: f.long, Short: f.short}
	}, slantKeys...),
}

// slantKeys are the keys of shapes with two parallel sides.
var slantKeys = []key[cutoutForm]{
	needed(lengthKey(keyLong, func(f *cutoutForm) *model.Length { return &f.long })),
	needed(lengthKey(keyShort, func(f *cutoutForm) *model.Length { return &f.short })),
}

const (
	keyLong  = "long"
	keyShort = "short"
)

func cutout(name string, shape func(cutoutForm) block.Cutout, more ...key[cutoutForm]) kind[design.Cutouts] {
	keys := slices.Concat([]key[cutoutForm]{
		lengthKey(name, func(f *cutoutForm) *model.Length { return &f.height }),
	}, more, []key[cutoutForm]{
		needed(textKey(model.FieldFabric, func(f *cutoutForm) *string { return &f.Fabric })),
		needed(wholeKey(model.FieldCount, func(f *cutoutForm) *int { return &f.Count })),
		textKey(model.FieldUse, func(f *cutoutForm) *string { return &f.Use }),
	})
	return newKind(func(f cutoutForm) design.Cutouts {
		f.Shape = shape(f)
		return f.Cutouts
	}, keys...)
}

// maxSizes is how many sizes a design may have: each is worked out when the
// file is read.
const maxSizes = 30

// sizeForm is a size as it is written.
type sizeForm struct {
	setting.Size
	mattress string
	drop     model.Length
}

var sizeKeys = []key[sizeForm]{
	wholeKey(setting.KeyRows, func(f *sizeForm) *int { return &f.Rows }),
	wholeKey(setting.KeyColumns, func(f *sizeForm) *int { return &f.Columns }),
	textKey(setting.KeyBed, func(f *sizeForm) *string { return &f.mattress }),
	{name: setting.KeyDrop, read: text(func(r *reader, s string, f *sizeForm) (err error) {
		if f.mattress == "" {
			return say(model.ErrNotTogether, "a drop is that of a bed: add bed: and its name")
		}
		f.drop, err = model.ParseLength(s, r.design.Unit)
		return err
	})},
	{name: setting.KeyLayout, read: func(r *reader, n *yaml.Node, at model.Fault, f *sizeForm) (err error) {
		f.Layout, err = r.layout(n, at.Path.At(setting.KeyLayout))
		return err
	}},
	{name: setting.KeyBetween, read: func(r *reader, n *yaml.Node, at model.Fault, f *sizeForm) (err error) {
		f.Between, err = r.layout(n, at.Path.At(setting.KeyBetween))
		return err
	}},
	{name: setting.KeyBorders, read: func(r *reader, n *yaml.Node, at model.Fault, f *sizeForm) (err error) {
		f.Borders, err = r.borders(n, at.Path.At(setting.KeyBorders))
		return err
	}},
}

func readSizes(r *reader, n *yaml.Node, at model.Fault, d *design.Design) error {
	if n.Kind == yaml.MappingNode && len(n.Content) > 2*maxSizes {
		return say(model.ErrTooMany, fmt.Sprintf("write at most %d", maxSizes))
	}
	return hinted(r.eachLabel(n, model.PathOf(setting.KeySizes), func(label string, v *yaml.Node, at model.Path) {
		var f sizeForm
		group(r, v, at, sizeKeys, &f)
		f.Name = label
		if f.mattress != "" {
			f.Bed = &setting.Bed{Mattress: f.mattress, Drop: f.drop}
		}
		d.Sizes = append(d.Sizes, f.Size)
	}), "write them as in crib: {rows: 4, columns: 3}")
}
