package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"

	"crossgrain/model"
	"crossgrain/pack"
)

// instance is one problem as its file has it, in whole numbers of its own
// unit.
type instance struct {
	Name   string
	Like   string // another file, beside this one, that has the rest
	Width  int
	Pieces [][3]int // along the strip, across it, how many
	// Turnable are pieces, besides, that may be turned.
	Turnable [][3]int
	AsGiven  *record `json:"as_given"`
	Turned   *record // with every piece turnable

	unit model.Length // ticks
	// step is what the purchase rounds up to; zero for a problem that nothing
	// is bought for.
	step model.Length
}

// record is what is known of the shared plans of a problem.
type record struct {
	Length int `json:"length"` // of the best plan known
	// Bound is the best one known where the length is not known to be the
	// least, and 0 where it is.
	Bound  int `json:"bound,omitempty"`
	Strips int `json:"strips,omitempty"` // the least at that length; 0 if not known
	// Basis is published, computed or open.
	Basis string `json:"basis"`
}

// optimal reports whether no plan is shorter.
func (r record) optimal() bool { return r.Bound == 0 }

// readInstance reads one file, first the file that it is like.
func readInstance(file string) (instance, error) {
	var in instance
	if err := in.read(file); err != nil {
		return in, err
	}
	if in.Like != "" {
		var base instance
		if err := base.read(filepath.Join(filepath.Dir(file), filepath.FromSlash(in.Like))); err != nil {
			return in, err
		}
		if err := base.read(file); err != nil { // over it
			return in, err
		}
		in = base
	}
	if in.Name == "" || in.Width <= 0 || len(in.Pieces)+len(in.Turnable) == 0 {
		return in, fmt.Errorf("%s: no name, no width or no pieces", file)
	}
	return in, nil
}

func (in *instance) read(file string) error {
	text, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, in); err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return nil
}

// turnable is the problem with every piece turnable.
func (in instance) turnable() instance {
	in.Turnable = append(append([][3]int(nil), in.Turnable...), in.Pieces...)
	in.Pieces, in.AsGiven = nil, in.Turned
	return in
}

// problem states the instance to package pack.
func (in instance) problem() (*pack.Problem, error) {
	var items []pack.Item
	for _, s := range in.sizes() {
		items = append(items, pack.Item{
			Along:    model.Length(s.along) * in.unit,
			Across:   model.Length(s.across) * in.unit,
			Count:    s.count,
			Turnable: s.turnable,
		})
	}
	return pack.NewProblem(model.Length(in.Width)*in.unit, items)
}

// size is a size to cut, in the unit of its instance.
type size struct {
	along, across, count int
	turnable             bool
}

func (in instance) sizes() []size {
	var sizes []size
	for _, p := range in.Pieces {
		sizes = append(sizes, size{p[0], p[1], p[2], false})
	}
	for _, p := range in.Turnable {
		sizes = append(sizes, size{p[0], p[1], p[2], true})
	}
	return sizes
}

// pieceCount is the number of pieces to cut.
func (in instance) pieceCount() int {
	n := 0
	for _, s := range in.sizes() {
		n += s.count
	}
	return n
}

// purchase is what must be bought for a length, nil where nothing is bought.
func (in instance) purchase() func(model.Length) model.Length {
	if in.step == 0 {
		return nil
	}
	return func(l model.Length) model.Length { return l.CeilTo(in.step) }
}

// units is a length in the instance's unit, rounded up: the length of every
// plan is a whole number of units.
func (in instance) units(l model.Length) int { return int(l.CeilTo(in.unit) / in.unit) }
