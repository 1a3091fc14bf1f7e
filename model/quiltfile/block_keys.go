package quiltfile

import (
	"slices"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
)

// blockForm is a block as it is written. Centre and rounds are nil where they
// are not.
type blockForm struct {
	block.Block
	centre *block.Centre
	rounds []block.Round
}

var blockKeys = []key[blockForm]{
	needed(sizeKey(block.KeyFinished, func(f *blockForm) (w, h *model.Length) { return &f.Width, &f.Height })),
	{name: block.KeyRows, read: readBlockRows},
	{name: block.KeyCentre, read: func(r *reader, n *yaml.Node, at model.Fault, f *blockForm) error {
		f.centre = new(block.Centre)
		group(r, n, at.Path.At(block.KeyCentre), centreKeys, f.centre)
		return nil
	}},
	{name: block.KeyRounds, read: readRounds},
	{name: block.KeyColourways, read: readColourways},
}

var centreKeys = []key[block.Centre]{
	lengthKey(model.FieldSize, func(c *block.Centre) *model.Length { return &c.Side }),
	textKey(block.KeyFabric, func(c *block.Centre) *string { return &c.Fabric }),
	textKey(block.KeyUnit, func(c *block.Centre) *string { return &c.Unit }),
}

var roundKeys = slices.Concat([]key[block.Round]{
	needed(wordKey(keyKind, block.ParseRoundKind, func(o *block.Round) *block.RoundKind { return &o.Kind })),
	lengthKey(keyWidth, func(o *block.Round) *model.Length { return &o.Width }),
	easeKey(func(o *block.Round) *block.Ease { return &o.Ease }),
}, fabricKeysOf(1, func(o *block.Round) *[]string { return &o.Fabrics }))

const (
	keyKind  = "kind"
	keyWidth = "width"
)

func readBlocks(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	return hinted(r.eachLabel(n, model.PathOf(block.KeyBlocks), func(label string, v *yaml.Node, at model.Path) {
		var f blockForm
		group(r, v, at, blockKeys, &f)
		b := f.Block
		b.Name = label
		if f.centre != nil || f.rounds != nil {
			b.Rounds = &block.Rounds{Side: b.Width}
			if len(f.rounds) > 0 {
				b.Rounds.Rounds = f.rounds
			}
			if f.centre != nil {
				b.Rounds.Centre = *f.centre
			} else if where := (place{part: model.DesignPart, path: at.At(block.KeyCentre)}); !r.wrong[where] {
				r.failAt(v, where.path, say(model.ErrMissing, "add centre: and what it is, as in {size: 2, fabric: ink}"))
			}
		}
		d.Blocks = append(d.Blocks, b)
	}), "write them as in star: {finished: 12, rows: [[corner, goose, corner]]}")
}

func readBlockRows(r *reader, n *yaml.Node, at model.Fault, f *blockForm) error {
	in := at.Path.At(block.KeyRows)
	rows, err := r.labelRows(n, in, "[[corner, goose, corner]]")
	for i, row := range rows {
		var cells []block.Cell
		for j, s := range row {
			label, turn, err := splitTurn(s, r.isUnit)
			if err != nil {
				r.failAt(r.nodes[place{part: model.DesignPart, path: in.Entry(i).Entry(j)}], in.Entry(i).Entry(j), err)
			}
			cells = append(cells, block.Cell{Unit: label, Turn: turn})
		}
		f.Rows = append(f.Rows, cells)
	}
	return err
}

// isUnit reports whether a text is the label of a unit, or of a block that
// stands before, in a colourway or not.
func (r *reader) isUnit(label string) bool {
	return r.lost[label] || r.isPlace(label) ||
		slices.ContainsFunc(r.design.Units, func(u design.NamedUnit) bool { return u.Name == label })
}

func readRounds(r *reader, n *yaml.Node, at model.Fault, f *blockForm) error {
	entries, err := items(n)
	f.rounds = []block.Round{}
	if err != nil {
		return hinted(err, `begin each round with "- "`)
	}
	for i, entry := range entries {
		var o block.Round
		group(r, entry, at.Path.At(block.KeyRounds).Entry(i), roundKeys, &o)
		f.rounds = append(f.rounds, o)
	}
	return nil
}

func readColourways(r *reader, n *yaml.Node, at model.Fault, f *blockForm) error {
	return hinted(r.eachLabel(n, at.Path.At(block.KeyColourways), func(label string, v *yaml.Node, in model.Path) {
		way := block.Colourway{Name: label, Swap: make(block.Swap)}
		err := r.eachPair(v, func(from, to *yaml.Node) {
			r.note(to, in.At(from.Value))
			other, err := scalarText(to)
			if err != nil {
				r.failAt(to, in.At(from.Value), err)
			}
			way.Swap[from.Value] = other
		})
		if err != nil {
			r.failAt(v, in, hinted(err, "write which fabric stands for which, as in {ink: rust}"))
		}
		f.Colourways = append(f.Colourways, way)
	}), "write them as in rusty: {ink: rust}")
}
