package quiltfile

import (
	"slices"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
)

func readUnits(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	return hinted(r.eachLabel(n, model.PathOf(block.KeyUnits), func(label string, v *yaml.Node, at model.Path) {
		u, ok := readKind(r, v, at, unitKinds)
		if !ok {
			r.lost[label] = true
			return
		}
		d.Units = append(d.Units, design.NamedUnit{Name: label, Unit: u})
	}), "write them as in corner: {square: 2, fabric: ink}")
}

// unitKinds are the kinds of units.
var unitKinds = []kind[block.Unit]{
	newKind(func(u block.Rectangle) block.Unit { return u },
		sideKey(block.KeySquare, func(u *block.Rectangle, side model.Length) { u.Width, u.Height = side, side }),
		needed(textKey(block.KeyFabric, func(u *block.Rectangle) *string { return &u.Fabric }))),
	newKind(func(u block.Rectangle) block.Unit { return u },
		sizeKey(block.KeyRectangle, func(u *block.Rectangle) (w, h *model.Length) { return &u.Width, &u.Height }),
		needed(textKey(block.KeyFabric, func(u *block.Rectangle) *string { return &u.Fabric }))),
	unitKind(2, func(u *block.HalfSquare) *[]string { return &u.Fabrics },
		sideKey(block.KeyHalfSquare, func(u *block.HalfSquare, side model.Length) { u.Side = side }),
		methodKey(block.HalfSquareMethods, func(u *block.HalfSquare) *block.Method { return &u.Method }),
		easeKey(func(u *block.HalfSquare) *block.Ease { return &u.Ease })),
	newKind(quarterSquare, slices.Concat([]key[block.QuarterSquare]{
		sideKey(block.KeyQuarterSquare, func(u *block.QuarterSquare, side model.Length) { u.Side = side }),
		methodKey(block.QuarterSquareMethods, func(u *block.QuarterSquare) *block.Method { return &u.Method }),
		easeKey(func(u *block.QuarterSquare) *block.Ease { return &u.Ease }),
	}, fabricKeysOf(4, func(u *block.QuarterSquare) *[]string { return &u.Fabrics }))...),
	unitKind(2, func(u *block.Geese) *[]string { return &u.Fabrics },
		sizeKey(block.KeyGeese, func(u *block.Geese) (w, h *model.Length) { return &u.Width, &u.Height }),
		methodKey(block.GeeseMethods, func(u *block.Geese) *block.Method { return &u.Method }),
		easeKey(func(u *block.Geese) *block.Ease { return &u.Ease })),
	unitKind(2, func(u *block.SquareInSquare) *[]string { return &u.Fabrics },
		sideKey(block.KeySquareInSquare, func(u *block.SquareInSquare, side model.Length) { u.Side = side }),
		methodKey(block.SquareInSquareMethods, func(u *block.SquareInSquare) *block.Method { return &u.Method }),
		easeKey(func(u *block.SquareInSquare) *block.Ease { return &u.Ease })),
	unitKind(2, func(u *block.HalfRectangle) *[]string { return &u.Fabrics },
		sizeKey(block.KeyHalfRectangle, func(u *block.HalfRectangle) (w, h *model.Length) { return &u.Width, &u.Height }),
		wordKey(keySeamFrom, parseSeamFrom, func(u *block.HalfRectangle) *bool { return &u.OtherWay }),
		easeKey(func(u *block.HalfRectangle) *block.Ease { return &u.Ease })),
	newKind(patches, patchKeys...),
	newKind(func(u block.FlipCorners) block.Unit { return u },
		sizeKey(block.KeyFlipCorners, func(u *block.FlipCorners) (w, h *model.Length) { return &u.Width, &u.Height }),
		needed(textKey(block.KeyFabric, func(u *block.FlipCorners) *string { return &u.Fabric })),
		key[block.FlipCorners]{name: block.KeyCorners, required: true, read: readFlipCorners}),
}

// unitKind is a kind of unit that has fabrics, parts of them if one stands for
// all.
func unitKind[T block.Unit](parts int, fabrics func(*T) *[]string, keys ...key[T]) kind[block.Unit] {
	return newKind(func(u T) block.Unit { return u }, slices.Concat(keys, fabricKeysOf(parts, fabrics))...)
}

// quarterSquare is the unit with all its fabrics: of two, the first is that of
// top and bottom.
func quarterSquare(u block.QuarterSquare) block.Unit {
	if f := u.Fabrics; len(f) == 2 {
		u.Fabrics = []string{f[0], f[1], f[0], f[1]}
	}
	return u
}

const keySeamFrom = "seam_from"

// parseSeamFrom reads where the seam of a half-rectangle begins; the other way
// is from the upper left.
func parseSeamFrom(s string) (otherWay bool, err error) {
	switch s {
	case block.UpperLeft.String():
		return true, nil
	case block.LowerLeft.String():
		return false, nil
	}
	return false, &model.ValueError{Value: s, Err: model.ErrNotAChoice, Hint: "write lower left or upper left"}
}

// patchForm is a grid of patches as it is written: the size of one patch, or
// the widths of columns and the heights of rows.
type patchForm struct {
	block.Patches
	width, height model.Length
}

var patchKeys = slices.Concat([]key[patchForm]{
	{name: block.KeyPatches, read: func(r *reader, n *yaml.Node, at model.Fault, f *patchForm) error {
		if isNull(n) {
			return nil
		}
		for _, name := range []string{block.KeyColumns, block.KeyHeights} {
			r.note(n, at.Path.At(name))
		}
		return r.size(n, &f.width, &f.height)
	}},
	lengthsKey(block.KeyColumns, func(f *patchForm) *[]model.Length { return &f.Columns }),
	lengthsKey(block.KeyHeights, func(f *patchForm) *[]model.Length { return &f.Rows }),
	{name: block.KeyFabrics, read: func(r *reader, n *yaml.Node, at model.Fault, f *patchForm) (err error) {
		f.Fabrics, err = r.labelRows(n, at.Path.At(block.KeyFabrics), "[[ink, foam], [foam, ink]]")
		return err
	}},
	methodKey(block.PatchesMethods, func(f *patchForm) *block.Method { return &f.Method }),
	lengthKey(block.KeySetLength, func(f *patchForm) *model.Length { return &f.SetLength }),
	easeKey(func(f *patchForm) *block.Ease { return &f.Ease }),
})

// patches is the grid with the widths and heights of all its patches.
func patches(f patchForm) block.Unit {
	u := f.Patches
	if f.width > 0 && u.Columns == nil && len(u.Fabrics) > 0 {
		u.Columns = slices.Repeat([]model.Length{f.width}, len(u.Fabrics[0]))
	}
	if f.height > 0 && u.Rows == nil {
		u.Rows = slices.Repeat([]model.Length{f.height}, len(u.Fabrics))
	}
	return u
}

// lengthsKey reads a list of lengths.
func lengthsKey[T any](name string, field func(*T) *[]model.Length) key[T] {
	return key[T]{name: name, read: func(r *reader, n *yaml.Node, at model.Fault, into *T) error {
		entries, err := items(n)
		if err != nil {
			return hinted(err, "write a list, as in [1, 2, 1]")
		}
		for i, entry := range entries {
			in := at.Path.At(name).Entry(i)
			r.note(entry, in)
			var l model.Length
			s, err := scalarText(entry)
			if err == nil {
				l, err = model.ParseLength(s, r.design.Unit)
			}
			if err != nil {
				r.failAt(entry, in, err)
			}
			*field(into) = append(*field(into), l)
		}
		return nil
	}}
}

const keyCorner = "corner"

var flipCornerKeys = []key[block.FlipCorner]{
	needed(wordKey(keyCorner, parseCorner, func(c *block.FlipCorner) *block.Corner { return &c.Corner })),
	needed(sizeKey(model.FieldSize, func(c *block.FlipCorner) (w, h *model.Length) { return &c.Width, &c.Height })),
	needed(textKey(block.KeyFabric, func(c *block.FlipCorner) *string { return &c.Fabric })),
	sizeKey(keyCut, func(c *block.FlipCorner) (w, h *model.Length) { return &c.CutWidth, &c.CutHeight }),
}

const keyCut = "cut"

func readFlipCorners(r *reader, n *yaml.Node, at model.Fault, u *block.FlipCorners) error {
	entries, err := items(n)
	if err != nil {
		return hinted(err, "write a list, as in [{corner: upper left, size: 2, fabric: ink}]")
	}
	for i, entry := range entries {
		var c block.FlipCorner
		group(r, entry, at.Path.At(block.KeyCorners).Entry(i), flipCornerKeys, &c)
		u.Corners = append(u.Corners, c)
	}
	return nil
}

func parseCorner(s string) (block.Corner, error) {
	for c := block.UpperLeft; c <= block.LowerLeft; c++ {
		if s == c.String() {
			return c, nil
		}
	}
	return 0, &model.ValueError{Value: s, Err: model.ErrNotAChoice, Hint: "write upper left, upper right, lower right or lower left"}
}
