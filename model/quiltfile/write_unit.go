package quiltfile

import (
	"slices"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
)

// unitNode is a unit on one line.
func (e *encoder) unitNode(u block.Unit) *yaml.Node {
	n := flow()
	switch u := u.(type) {
	case block.Rectangle:
		if u.Width == u.Height {
			put(n, block.KeySquare, e.lengthNode(u.Width))
		} else {
			put(n, block.KeyRectangle, e.sizeNode(u.Width, u.Height))
		}
		put(n, block.KeyFabric, textNode(u.Fabric))
	case block.HalfSquare:
		put(n, block.KeyHalfSquare, e.lengthNode(u.Side))
		e.making(n, u.Fabrics, u.Method, u.Ease)
	case block.QuarterSquare:
		put(n, block.KeyQuarterSquare, e.lengthNode(u.Side))
		e.making(n, u.Fabrics, u.Method, u.Ease)
	case block.Geese:
		put(n, block.KeyGeese, e.sizeNode(u.Width, u.Height))
		e.making(n, u.Fabrics, u.Method, u.Ease)
	case block.SquareInSquare:
		put(n, block.KeySquareInSquare, e.lengthNode(u.Side))
		e.making(n, u.Fabrics, u.Method, u.Ease)
	case block.HalfRectangle:
		put(n, block.KeyHalfRectangle, e.sizeNode(u.Width, u.Height))
		if u.OtherWay {
			put(n, keySeamFrom, plain(block.UpperLeft.String()))
		}
		e.making(n, u.Fabrics, block.DefaultMethod, u.Ease)
	case block.Patches:
		e.patches(n, u)
	case block.FlipCorners:
		put(n, block.KeyFlipCorners, e.sizeNode(u.Width, u.Height))
		put(n, block.KeyFabric, textNode(u.Fabric))
		put(n, block.KeyCorners, flowList(u.Corners, e.flipCorner))
	default:
		e.noKind(u)
	}
	return n
}

// making puts the fabrics of a unit, and how it is made.
func (e *encoder) making(n *yaml.Node, fabrics []string, m block.Method, ease block.Ease) {
	put(n, block.KeyFabrics, flowList(fabrics, textNode))
	putMethod(n, m)
	e.putEase(n, ease)
}

func (e *encoder) patches(n *yaml.Node, u block.Patches) {
	if alike(u.Columns) && alike(u.Rows) {
		put(n, block.KeyPatches, e.sizeNode(u.Columns[0], u.Rows[0]))
	} else {
		put(n, block.KeyPatches, plain("null"))
		put(n, block.KeyColumns, flowList(u.Columns, e.lengthNode))
		put(n, block.KeyHeights, flowList(u.Rows, e.lengthNode))
	}
	put(n, block.KeyFabrics, flowList(u.Fabrics, func(row []string) *yaml.Node { return flowList(row, textNode) }))
	putMethod(n, u.Method)
	if u.SetLength != 0 {
		put(n, block.KeySetLength, e.lengthNode(u.SetLength))
	}
	e.putEase(n, u.Ease)
}

// alike reports whether lengths are there and are all the same.
func alike(lengths []model.Length) bool {
	return len(lengths) > 0 && !slices.ContainsFunc(lengths, func(l model.Length) bool { return l != lengths[0] })
}

func (e *encoder) flipCorner(c block.FlipCorner) *yaml.Node {
	n := flow()
	put(n, keyCorner, plain(c.Corner.String()))
	put(n, model.FieldSize, e.sizeNode(c.Width, c.Height))
	put(n, block.KeyFabric, textNode(c.Fabric))
	if c.CutWidth != 0 || c.CutHeight != 0 {
		put(n, keyCut, e.sizeNode(c.CutWidth, c.CutHeight))
	}
	return n
}
