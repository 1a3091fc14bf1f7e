package quiltfile

import (
	"errors"
	"slices"

	"crossgrain/model"
)

// quoted is a fault that quotes a length or a size as the file has it, where it
// is written in another unit than the file's: 3 cm, not the 1.1812 in that it
// comes to.
func (r *reader) quoted(fault *model.Fault, at place) *model.Fault {
	var v *model.ValueError
	n := r.nodes[at]
	if n == nil || !errors.As(fault.Err, &v) {
		return fault
	}
	written, err := scalarText(n)
	if err != nil || !slices.Contains(told(written, r.design.Unit), v.Value) {
		return fault
	}
	value, asWritten := *v, *fault
	value.Value = written
	asWritten.Err = &value
	return &asWritten
}

// told are the ways that rules tell of a length or a size that is written with
// units of its own; none for others.
func told(written string, u model.Unit) []string {
	width, height, err := model.ParseSize(written, u)
	other := model.Centimetres
	if u == other {
		other = model.Inches
	}
	// A bare number is another length in the other unit, but for 0.
	w, h, _ := model.ParseSize(written, other)
	if err != nil || w != width || h != height || width == 0 || height == 0 {
		return nil
	}
	size := model.FormatSize(width, height, u)
	return []string{
		width.FormatWithUnit(u), height.FormatWithUnit(u), size, size + " " + u.String(), model.WrittenSize(width, height, u),
	}
}
