package design

import (
	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
)

// borders puts one border after another around the top, and moves all that is
// inside them to its place on the whole.
func (w *worker) borders() {
	for i, b := range w.design.Borders {
		framed := b.Around(w.design.Rules(), i+1, w.Width, w.Height, w.design.fabric(b.Fabric))
		w.Width, w.Height = framed.Width, framed.Height
		w.take(framed.Yield, bordersIn(w.size).Entry(i))
		moved := geometry.At(geometry.Of(framed.Left), geometry.Of(framed.Top))
		w.corner = w.corner.Plus(moved)
		moveAll(w.frame, moved)
		for _, shape := range framed.Yield.Shapes {
			shape.Cut = -1
			w.frame = append(w.frame, shape)
		}
	}
	if len(w.design.Borders) > 0 && (!whole(w.TopWidth) || !whole(w.TopHeight)) {
		w.note([]string{"Borders: the sides of a top on point come from diagonals, and border lengths are rounded up; " +
			"measure through the middle of the top, and cut the borders to that."})
	}
}

func whole(s geometry.Surd) bool {
	_, whole := s.Length()
	return whole
}

// moveAll moves shapes by a vector.
func moveAll(shapes []block.Shape, by geometry.Point) {
	for i := range shapes {
		shapes[i].Outline = shapes[i].Outline.Moved(by)
	}
}

// finish adds binding, backing and batting.
func (w *worker) finish() {
	d, rules := w.design, w.design.Rules()
	if b := d.Binding; b != nil {
		w.take(b.Make(rules, w.Width, w.Height), model.PathOf(setting.KeyBinding))
	}
	if b := d.Backing; b != nil {
		widths := setting.Widths(d.Fabrics, b.Fabric)
		w.take(b.Make(rules, w.Width, w.Height, widths), model.PathOf(setting.KeyBacking))
		w.Backing = b.Ways(rules, w.Width, w.Height, widths)
		w.BackWidth, w.BackHeight = b.Size(rules, w.Width, w.Height)
	}
	if b := d.Batting; b != nil {
		w.BattingWidth, w.BattingHeight = b.Size(rules, w.Width, w.Height, d.Backing)
	}
}
