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

// in is the design as it is in one size: without sizes.
func (d Design) in(size string) (Design, error) {
	if len(d.Sizes) == 0 && size == "" {
		return d, nil
	}
	for _, s := range d.Sizes {
		if s.Name == size {
			return d.sized(s), nil
		}
	}
	var faults model.Faults
	faults.AddAt(model.PathOf(setting.KeySizes), &model.ValueError{Value: size, Err: model.ErrUnknownName, Hint: "write the name of one of its sizes"})
	return Design{}, faults
}

// sized is the design with what a size says put in.
func (d Design) sized(s setting.Size) Design {
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
	d.Setting, d.Sizes = &set, nil
	return d
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
