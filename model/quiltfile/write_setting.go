package quiltfile

import (
	"reflect"
	"strconv"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

func (e *encoder) setting(s setting.Setting, blocks []block.Block) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode}
	if s.Way != setting.Straight {
		put(n, setting.KeyWay, plain(s.Way.String()))
	}
	putCount(n, setting.KeyRows, s.Rows)
	putCount(n, setting.KeyColumns, s.Columns)
	if len(blocks) != 1 || !reflect.DeepEqual(s.Layout, onlyBlock(blocks[0].Name)) {
		putList(n, setting.KeyLayout, s.Layout, placesNode)
	}
	putList(n, setting.KeyBetween, s.Between, placesNode)
	putLabel(n, setting.KeySettingSquare, s.SettingSquare)
	e.putTriangles(n, setting.KeySides, s.Sides)
	e.putTriangles(n, setting.KeyCorners, s.Corners)
	if s.Float != 0 {
		put(n, setting.KeyFloat, e.lengthNode(s.Float))
	}
	if s.Sashing != nil {
		put(n, setting.KeySashing, e.sashing(*s.Sashing))
	}
	return n
}

func putCount(n *yaml.Node, key string, count int) {
	if count != 0 {
		put(n, key, plain(strconv.Itoa(count)))
	}
}

// placesNode is a row of a layout.
func placesNode(row []setting.Place) *yaml.Node {
	return flowList(row, func(p setting.Place) *yaml.Node {
		label := p.Block
		if p.Colourway != "" {
			label += "/" + p.Colourway
		}
		return textNode(withTurn(label, p.Turn))
	})
}

func (e *encoder) putTriangles(n *yaml.Node, key string, t setting.Triangles) {
	if t == (setting.Triangles{}) {
		return
	}
	group := flow()
	put(group, block.KeyFabric, textNode(t.Fabric))
	e.putEase(group, t.Ease)
	put(n, key, group)
}

func (e *encoder) sashing(s setting.Sashing) *yaml.Node {
	n := flow()
	put(n, setting.KeySashWidth, e.lengthNode(s.Width))
	put(n, setting.KeySashFabric, textNode(s.Fabric))
	putLabel(n, setting.KeyCornerstone, s.Cornerstone)
	putYes(n, setting.KeyAround, s.Around)
	return n
}

// putYes puts a key that says yes, and nothing for no.
func putYes(n *yaml.Node, key string, yes bool) {
	if yes {
		put(n, key, plain("true"))
	}
}

func (e *encoder) border(b setting.Border) *yaml.Node {
	n := flow()
	put(n, setting.KeyBorderWidth, e.lengthNode(b.Width))
	put(n, setting.KeyBorderFabric, textNode(b.Fabric))
	if b.Corners != setting.SidesFirst {
		put(n, setting.KeyBorderCorner, plain(b.Corners.String()))
	}
	putLabel(n, setting.KeyCornerFabric, b.CornerFabric)
	if b.Cut != setting.CrosswiseStraight {
		put(n, setting.KeyBorderCut, plain(b.Cut.String()))
	}
	if len(b.Sides) > 0 {
		put(n, setting.KeyBorderSides, flowList(b.Sides, func(s block.Side) *yaml.Node { return plain(s.String()) }))
	}
	if b.Extra != defaultExtra(b.Corners, e.unit) {
		put(n, setting.KeyExtra, e.lengthNode(b.Extra))
	}
	return n
}

func (e *encoder) binding(b setting.Binding) *yaml.Node {
	n, defaults := flow(), setting.DefaultBinding(e.unit)
	put(n, setting.KeyBindingFabric, textNode(b.Fabric))
	if b.Strip != defaults.Strip {
		put(n, setting.KeyStrip, e.lengthNode(b.Strip))
	}
	if b.Tail != defaults.Tail {
		put(n, setting.KeyTail, e.lengthNode(b.Tail))
	}
	if b.Straight {
		put(n, setting.KeyJoin, plain(joinStraight))
	}
	putYes(n, setting.KeyBias, b.Bias)
	return n
}

func (e *encoder) backing(b setting.Backing) *yaml.Node {
	n, defaults := flow(), setting.DefaultBacking(e.unit)
	put(n, setting.KeyBackingFabric, textNode(b.Fabric))
	e.sizeOrOverage(n, b.Width, b.Height, b.Overage, defaults.Overage)
	if b.Seam != defaults.Seam {
		put(n, setting.KeyBackingSeam, e.lengthNode(b.Seam))
	}
	return n
}

// sizeOrOverage puts the size of a backing or a batting, or what it has over on
// each side if that is not the default.
func (e *encoder) sizeOrOverage(n *yaml.Node, width, height, overage, defaultOverage model.Length) {
	switch {
	case width != 0:
		put(n, setting.KeyBackingSize, e.sizeNode(width, height))
	case overage != defaultOverage:
		put(n, setting.KeyOverage, e.lengthNode(overage))
	}
}

func (e *encoder) size(s setting.Size) *yaml.Node {
	n := flow()
	if s.Layout != nil || s.Between != nil || len(s.Borders) > 0 {
		n.Style = 0
	}
	putCount(n, setting.KeyRows, s.Rows)
	putCount(n, setting.KeyColumns, s.Columns)
	if s.Bed != nil {
		put(n, setting.KeyBed, textNode(s.Bed.Mattress))
		if s.Bed.Drop != 0 {
			put(n, setting.KeyDrop, e.lengthNode(s.Bed.Drop))
		}
	}
	putList(n, setting.KeyLayout, s.Layout, placesNode)
	putList(n, setting.KeyBetween, s.Between, placesNode)
	if s.Borders != nil {
		borders := listNode(s.Borders, e.border)
		if len(s.Borders) == 0 {
			borders.Style = yaml.FlowStyle
		}
		put(n, setting.KeyBorders, borders)
	}
	return n
}
