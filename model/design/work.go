package design

import (
	"errors"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// Work works out the design in the size of a name (see [Design.SizeNames]).
// The error is [model.Faults]: all that is wrong with the design, in every
// size; or, if nothing is, what cannot be cut in this one.
func (d Design) Work(size string) (Whole, error) {
	if err := d.Check(); err != nil {
		return Whole{}, err
	}
	d, err := d.in(size)
	if err != nil {
		return Whole{}, err
	}
	w := worker{Whole: Whole{
		Size: size, design: d,
		Quilt: model.Quilt{Title: d.Title, Unit: d.Unit, Ruler: d.Ruler, Fabrics: d.Fabrics},
	}}
	if d.Setting != nil {
		w.top(*d.Setting)
		w.units()
	}
	w.names()
	if _, err := w.Quilt.CutList(); err != nil {
		return Whole{}, w.traced(err)
	}
	return w.Whole, nil
}

// worker gathers a Whole.
type worker struct {
	Whole
	needs needs
}

// top sets the blocks.
func (w *worker) top(s setting.Setting) {
	b, _ := w.design.block(s.Layout[0][0].Block)
	top := s.Set(w.design.Rules(), b.Width, b.Height)
	w.Width, w.Height, w.places, w.frame = top.Width, top.Height, top.Places, top.Yield.Shapes
	w.needs.take(top.Yield, model.PathOf(setting.KeySetting))
	w.Notes = append(w.Notes, top.Yield.Notes...)
	for _, place := range top.Places {
		w.countBlock(place.Place)
	}
}

func (w *worker) countBlock(place setting.Place) {
	for i, c := range w.Blocks {
		if c.Block == place.Block && c.Colourway == place.Colourway {
			w.Blocks[i].Count++
			return
		}
	}
	w.Blocks = append(w.Blocks, BlockCount{place.Block, place.Colourway, 1})
}

// units makes every kind of unit that the blocks have, all its pieces at once.
func (w *worker) units() {
	var kinds kinds
	units := w.design.units()
	for _, count := range w.Blocks {
		b, _ := w.design.block(count.Block)
		swap, _ := b.Swap(count.Colourway)
		for _, p := range b.Contents(units) {
			p.Unit = p.Unit.Recolour(swap)
			kinds.count(p, count.Count)
		}
	}
	for _, k := range kinds {
		y := k.unit.Make(w.design.Rules(), k.count)
		w.needs.take(y, k.at)
		w.Notes = append(w.Notes, y.Notes...)
		if len(y.Trims) > 0 || len(y.Sets) > 0 {
			w.Charts = append(w.Charts, Chart{
				Name: k.name, Fabrics: k.unit.Uses(), Count: k.count, Made: y.Made, Trims: y.Trims, Sets: y.Sets})
		}
	}
}

// traced gives faults of cuts that the design asked for the place in the quilt
// file that they come from. The file's own cuts stand first.
func (w *worker) traced(err error) error {
	var faults model.Faults
	if !errors.As(err, &faults) {
		return err
	}
	own := len(w.design.Cuts)
	var traced model.Faults
	for _, f := range faults {
		i := f.Index - own
		if f.Part == model.StripPart {
			i = f.Index + len(w.Quilt.Cuts) - own
		} else if f.Part != model.CutPart || i < 0 {
			traced = append(traced, f)
			continue
		}
		for _, at := range w.origin[i] {
			traced.AddAt(at, f.Err)
		}
	}
	return traced
}

// kinds are the units of a quilt, each once.
type kinds []kind

type kind struct {
	unit  block.Unit
	name  string
	at    model.Path
	count int
}

// count adds n units.
func (k *kinds) count(p block.Placed, n int) {
	for i := range *k {
		if same((*k)[i].unit, p.Unit) {
			(*k)[i].count += n
			return
		}
	}
	*k = append(*k, kind{p.Unit, p.Name, p.At, n})
}
