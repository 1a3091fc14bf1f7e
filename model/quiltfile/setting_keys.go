package quiltfile

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
	"crossgrain/model/setting"
)

var settingKeys = []key[setting.Setting]{
	wordKey(setting.KeyWay, setting.ParseWay, func(s *setting.Setting) *setting.Way { return &s.Way }),
	wholeKey(setting.KeyRows, func(s *setting.Setting) *int { return &s.Rows }),
	wholeKey(setting.KeyColumns, func(s *setting.Setting) *int { return &s.Columns }),
	{name: setting.KeyLayout, read: func(r *reader, n *yaml.Node, at model.Fault, s *setting.Setting) (err error) {
		s.Layout, err = r.layout(n, at.Path.At(setting.KeyLayout))
		return err
	}},
	{name: setting.KeyBetween, read: func(r *reader, n *yaml.Node, at model.Fault, s *setting.Setting) (err error) {
		s.Between, err = r.layout(n, at.Path.At(setting.KeyBetween))
		return err
	}},
	textKey(setting.KeySettingSquare, func(s *setting.Setting) *string { return &s.SettingSquare }),
	trianglesKey(setting.KeySides, func(s *setting.Setting) *setting.Triangles { return &s.Sides }),
	trianglesKey(setting.KeyCorners, func(s *setting.Setting) *setting.Triangles { return &s.Corners }),
	lengthKey(setting.KeyFloat, func(s *setting.Setting) *model.Length { return &s.Float }),
	{name: setting.KeySashing, read: func(r *reader, n *yaml.Node, at model.Fault, s *setting.Setting) error {
		s.Sashing = new(setting.Sashing)
		group(r, n, at.Path.At(setting.KeySashing), sashingKeys, s.Sashing)
		return nil
	}},
}

var triangleKeys = []key[setting.Triangles]{
	needed(textKey(block.KeyFabric, func(t *setting.Triangles) *string { return &t.Fabric })),
	easeKey(func(t *setting.Triangles) *block.Ease { return &t.Ease }),
}

func trianglesKey(name string, field func(*setting.Setting) *setting.Triangles) key[setting.Setting] {
	return key[setting.Setting]{name: name, read: func(r *reader, n *yaml.Node, at model.Fault, s *setting.Setting) error {
		group(r, n, at.Path.At(name), triangleKeys, field(s))
		return nil
	}}
}

var sashingKeys = []key[setting.Sashing]{
	needed(lengthKey(setting.KeySashWidth, func(s *setting.Sashing) *model.Length { return &s.Width })),
	needed(textKey(setting.KeySashFabric, func(s *setting.Sashing) *string { return &s.Fabric })),
	textKey(setting.KeyCornerstone, func(s *setting.Sashing) *string { return &s.Cornerstone }),
	yesKey(setting.KeyAround, func(s *setting.Sashing) *bool { return &s.Around }),
}

func readSetting(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	d.Setting = new(setting.Setting)
	group(r, n, model.PathOf(setting.KeySetting), settingKeys, d.Setting)
	return nil
}

// layout reads rows of places: block, block/colourway, block/colourway 90.
func (r *reader) layout(n *yaml.Node, at model.Path) ([][]setting.Place, error) {
	rows, err := r.labelRows(n, at, "[[star, isle], [isle, star]]")
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 {
		return nil, say(model.ErrMissing, "write at least one row of blocks")
	}
	var places [][]setting.Place
	for i, row := range rows {
		var line []setting.Place
		for j, s := range row {
			label, turn, err := splitTurn(s, r.isPlace)
			if err != nil {
				r.failAt(r.nodes[place{part: model.DesignPart, path: at.Entry(i).Entry(j)}], at.Entry(i).Entry(j), err)
			}
			name, colourway, _ := strings.Cut(label, "/")
			line = append(line, setting.Place{Block: strings.TrimSpace(name), Colourway: strings.TrimSpace(colourway), Turn: turn})
		}
		places = append(places, line)
	}
	return places, nil
}

// isPlace reports whether a text is the label of a block, or of a block and one
// of its colourways.
func (r *reader) isPlace(label string) bool {
	name, colourway, _ := strings.Cut(label, "/")
	return slices.ContainsFunc(r.design.Blocks, func(b block.Block) bool {
		_, known := b.Swap(strings.TrimSpace(colourway))
		return b.Name == strings.TrimSpace(name) && known
	})
}

// borderForm is a border as it is written.
type borderForm struct {
	setting.Border
	extra *model.Length
}

var borderKeys = []key[borderForm]{
	needed(lengthKey(setting.KeyBorderWidth, func(f *borderForm) *model.Length { return &f.Width })),
	needed(textKey(setting.KeyBorderFabric, func(f *borderForm) *string { return &f.Fabric })),
	wordKey(setting.KeyBorderCorner, setting.ParseCorners, func(f *borderForm) *setting.Corners { return &f.Corners }),
	textKey(setting.KeyCornerFabric, func(f *borderForm) *string { return &f.CornerFabric }),
	wordKey(setting.KeyBorderCut, setting.ParseBorderCut, func(f *borderForm) *setting.BorderCut { return &f.Cut }),
	{name: setting.KeyBorderSides, read: readSides},
	{name: setting.KeyExtra, read: text(func(r *reader, s string, f *borderForm) error {
		extra, err := model.ParseLength(s, r.design.Unit)
		f.extra = &extra
		return err
	})},
}

// borders reads a list of borders at a place; it is never nil.
func (r *reader) borders(n *yaml.Node, at model.Path) ([]setting.Border, error) {
	borders := []setting.Border{}
	if isNull(n) {
		return borders, nil
	}
	entries, err := items(n)
	if err != nil {
		return borders, hinted(err, `begin each border with "- "`)
	}
	for i, entry := range entries {
		var f borderForm
		group(r, entry, at.Entry(i), borderKeys, &f)
		f.Extra = defaultExtra(f.Corners, r.design.Unit)
		if f.extra != nil {
			f.Extra = *f.extra
		}
		borders = append(borders, f.Border)
	}
	return borders, nil
}

// defaultExtra is what each side of a border is cut longer if a file does not
// say it: 6 in or 15 cm for mitred ones (APQ cuts 6 in over).
func defaultExtra(c setting.Corners, u model.Unit) model.Length {
	switch {
	case c != setting.Mitred:
		return 0
	case u == model.Centimetres:
		return 15 * model.Centimetre
	}
	return 6 * model.Inch
}

func readSides(r *reader, n *yaml.Node, at model.Fault, f *borderForm) error {
	in := at.Path.At(setting.KeyBorderSides)
	words, err := r.labels(n, in)
	if err != nil {
		return hinted(err, "write a list, as in [left, right]")
	}
	for i, word := range words {
		side, err := setting.ParseSide(word)
		if err != nil {
			r.failAt(r.nodes[place{part: model.DesignPart, path: in.Entry(i)}], in.Entry(i), err)
		}
		f.Sides = append(f.Sides, side)
	}
	return nil
}

var bindingKeys = []key[setting.Binding]{
	needed(textKey(setting.KeyBindingFabric, func(b *setting.Binding) *string { return &b.Fabric })),
	lengthKey(setting.KeyStrip, func(b *setting.Binding) *model.Length { return &b.Strip }),
	lengthKey(setting.KeyTail, func(b *setting.Binding) *model.Length { return &b.Tail }),
	wordKey(setting.KeyJoin, parseJoin, func(b *setting.Binding) *bool { return &b.Straight }),
	yesKey(setting.KeyBias, func(b *setting.Binding) *bool { return &b.Bias }),
}

// The joins of a binding.
const (
	joinDiagonal = "diagonal"
	joinStraight = "straight"
)

func parseJoin(s string) (straight bool, err error) {
	if s != joinDiagonal && s != joinStraight {
		return false, &model.ValueError{Value: s, Err: model.ErrNotAChoice, Hint: "write diagonal or straight"}
	}
	return s == joinStraight, nil
}

func readBinding(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	b := setting.DefaultBinding(d.Unit)
	group(r, n, model.PathOf(setting.KeyBinding), bindingKeys, &b)
	d.Binding = &b
	return nil
}

var backingKeys = []key[setting.Backing]{
	needed(textKey(setting.KeyBackingFabric, func(b *setting.Backing) *string { return &b.Fabric })),
	sizeKey(setting.KeyBackingSize, func(b *setting.Backing) (w, h *model.Length) { return &b.Width, &b.Height }),
	{name: setting.KeyOverage, read: text(func(r *reader, s string, b *setting.Backing) error {
		return r.overage(s, b.Width, &b.Overage)
	})},
	lengthKey(setting.KeyBackingSeam, func(b *setting.Backing) *model.Length { return &b.Seam }),
}

// overage reads what a backing or a batting has over on each side, which it
// does not say if its size is given.
func (r *reader) overage(s string, width model.Length, into *model.Length) (err error) {
	if width != 0 {
		return say(model.ErrNotTogether, "write size: or overage:, not both")
	}
	*into, err = model.ParseLength(s, r.design.Unit)
	return err
}

func readBacking(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	b := setting.DefaultBacking(d.Unit)
	group(r, n, model.PathOf(setting.KeyBacking), backingKeys, &b)
	d.Backing = &b
	return nil
}

var battingKeys = []key[setting.Batting]{
	sizeKey(setting.KeyBackingSize, func(b *setting.Batting) (w, h *model.Length) { return &b.Width, &b.Height }),
	{name: setting.KeyOverage, read: text(func(r *reader, s string, b *setting.Batting) error {
		return r.overage(s, b.Width, &b.Overage)
	})},
}

func readBatting(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	d.Batting = new(setting.Batting)
	group(r, n, model.PathOf(setting.KeyBatting), battingKeys, d.Batting)
	return nil
}
