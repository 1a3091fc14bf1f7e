package design

import (
	"crossgrain/model"
	"crossgrain/model/setting"
)

// SizeNames are the names of the design's sizes, in order: one empty name if
// it has one size only.
func (d Design) SizeNames() []string {
	if len(d.Sizes) == 0 {
		return []string{""}
	}
	names := make([]string, len(d.Sizes))
	for i, s := range d.Sizes {
		names[i] = s.Name
	}
	return names
}

// size is one of the sizes of the design, by its name. A design in one size has
// an empty one.
func (d Design) size(name string) (setting.Size, error) {
	if len(d.Sizes) == 0 && name == "" {
		return setting.Size{}, nil
	}
	for _, s := range d.Sizes {
		if s.Name == name {
			return s, nil
		}
	}
	var faults model.Faults
	faults.AddAt(model.PathOf(setting.KeySizes), &model.ValueError{Value: name, Err: model.ErrUnknownName, Hint: "write the name of one of its sizes"})
	return setting.Size{}, faults
}

// sized is the design with what a size says put in, and without sizes. The only
// block of a design needs no layout. A bed gives the rows and columns; 1 of
// each if they cannot be told.
func (d Design) sized(s setting.Size) Design {
	if d.Setting == nil && s.Name == "" {
		return d
	}
	var set setting.Setting
	if d.Setting != nil {
		set = *d.Setting
	}
	if s.Rows != 0 {
		set.Rows = s.Rows
	}
	if s.Columns != 0 {
		set.Columns = s.Columns
	}
	if s.Layout != nil {
		set.Layout = s.Layout
	}
	if s.Between != nil {
		set.Between = s.Between
	}
	if s.Borders != nil {
		d.Borders = s.Borders
	}
	if set.Layout == nil && len(d.Blocks) == 1 {
		set.Layout = [][]setting.Place{{{Block: d.Blocks[0].Name}}}
	}
	if s.Bed != nil {
		set.Rows, set.Columns = 1, 1
		width, height := d.blockSize(set)
		if rows, columns, ok := set.Propose(*s.Bed, width, height, d.Borders); ok {
			set.Rows, set.Columns = rows, columns
		}
	}
	d.Setting, d.Sizes = &set, nil
	return d
}

// blockSize is the finished size of the blocks in a setting, as the first of
// them stands; 0 if it is not known.
func (d Design) blockSize(s setting.Setting) (width, height model.Length) {
	if len(s.Layout) == 0 || len(s.Layout[0]) == 0 {
		return 0, 0
	}
	return d.placeSize(s.Layout[0][0])
}

// placeSize is the finished size of a block as it stands in a place.
func (d Design) placeSize(p setting.Place) (width, height model.Length) {
	b, _ := d.block(p.Block)
	if p.Turn%2 == 1 {
		return b.Height, b.Width
	}
	return b.Width, b.Height
}

// placeIn is where the quilt file says a key of the setting for a size: in the
// size if it says it there, else in the setting.
func placeIn(s setting.Size, key string) model.Path {
	said := map[string]bool{
		setting.KeyRows: s.Rows != 0, setting.KeyColumns: s.Columns != 0,
		setting.KeyLayout: s.Layout != nil, setting.KeyBetween: s.Between != nil,
	}
	if said[key] {
		return model.PathOf(setting.KeySizes, s.Name, key)
	}
	return model.PathOf(setting.KeySetting, key)
}

// bordersIn is where the quilt file has the borders of a size.
func bordersIn(s setting.Size) model.Path {
	if s.Borders != nil {
		return model.PathOf(setting.KeySizes, s.Name, setting.KeyBorders)
	}
	return model.PathOf(setting.KeyBorders)
}
