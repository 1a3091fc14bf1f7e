package design

import (
	"errors"
	"fmt"
	"slices"
	"strings"

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
	in, err := d.size(size)
	if err != nil {
		return Whole{}, err
	}
	w := worker{size: in, Whole: Whole{
		Size: size, design: d.sized(in),
		Quilt: model.Quilt{Title: d.Title, Unit: d.Unit, Ruler: d.Ruler, Fabrics: d.Fabrics},
	}}
	if s := w.design.Setting; s != nil {
		width, height := w.design.blockSize(*s)
		top := s.Set(d.Rules(), width, height, d.Fabrics)
		w.blocks(top)
		w.units()
		for _, part := range top.Parts {
			w.take(part.Yield, model.PathOf(setting.KeySetting, part.Key))
		}
		w.borders()
		w.finish()
	}
	w.cutouts()
	w.names()
	if _, err := w.Quilt.CutList(); err != nil {
		return Whole{}, w.traced(err)
	}
	return w.Whole, nil
}

// worker gathers a Whole.
type worker struct {
	Whole
	size  setting.Size // that the whole is in; the zero value if there is but one
	needs needs
	lying []int // how many of each of the blocks stand turned a quarter
}

// blocks puts the blocks where they stand, and counts them.
func (w *worker) blocks(top setting.Top) {
	w.TopWidth, w.TopHeight, w.top = top.Width, top.Height, top
	w.Width, w.Height = top.Width, top.Height
	for _, place := range top.Places {
		w.countBlock(place.Place)
	}
}

// take takes what a part of the quilt needs.
func (w *worker) take(y block.Yield, from model.Path) {
	w.needs.take(y, from)
	w.note(y.Notes)
}

func (w *worker) countBlock(place setting.Place) {
	for i, c := range w.Blocks {
		if c.Block == place.Block && c.Colourway == place.Colourway {
			w.Blocks[i].Count++
			w.lying[i] += lies(place.Turn)
			return
		}
	}
	w.Blocks = append(w.Blocks, BlockCount{place.Block, place.Colourway, 1})
	w.lying = append(w.lying, lies(place.Turn))
}

// units makes every kind of unit that the blocks have, all its pieces at once.
func (w *worker) units() {
	for _, k := range w.kinds() {
		y := k.unit.Make(w.design.Rules(), k.count)
		levelSets(y, w.design.Fabrics)
		w.take(k.upright(y, w.design.Fabrics), k.at)
		if len(y.Trims) > 0 || len(y.Sets) > 0 {
			w.Charts = append(w.Charts, Chart{
				Name: k.name, Fabrics: k.unit.Uses(), Count: k.count, Made: y.Made, Trims: y.Trims, Sets: y.Sets, unit: k.unit})
		}
	}
}

// levelSets gives the strips of each strip set the length that all of them
// reach: that of the narrowest of its fabrics, each at its widest. A yield has
// the strips of one set after the other, of each fabric and height once.
func levelSets(y block.Yield, fabrics []model.Fabric) {
	strips := y.Strips
	for _, set := range y.Sets {
		if set.Length > 0 {
			continue // cut as pieces
		}
		type kind struct {
			fabric string
			height model.Length
		}
		kinds := make(map[kind]bool)
		longest := model.MaxUsableWidth
		for i, f := range set.Fabrics {
			kinds[kind{f, set.Heights[i]}] = true
			longest = min(longest, slices.Max(setting.Widths(fabrics, f)))
		}
		for i := range strips[:len(kinds)] {
			strips[i].Longest = longest
		}
		strips = strips[len(kinds):]
	}
}

// cutouts adds the shapes that are cut from strips, and says how.
func (w *worker) cutouts() {
	rules := w.design.Rules()
	for i, c := range w.design.Cutouts {
		words := c.Shape.Words(rules)
		strip := c.Shape.Lie(rules).Strip(c.Fabric, c.Use, c.Count)
		strip.Mark = rules.Ruler
		if c.Use == "" {
			strip.Use = words.Name
		}
		w.take(block.Yield{Strips: []model.Strip{strip}}, model.PathOf(KeyCutouts).Entry(i))
		w.note([]string{c.note(strip, words, rules.Unit, w.design.Fabrics)})
	}
}

// note says how the cutouts are cut, and how many a strip gives at each width.
func (c Cutouts) note(strip model.Strip, words block.Words, u model.Unit, fabrics []model.Fabric) string {
	what := words.Name
	if c.Use != "" && c.Use != what {
		what += " (" + c.Use + ")"
	}
	var per []string
	for _, width := range setting.Widths(fabrics, c.Fabric) {
		per = append(per, fmt.Sprintf("%d from a strip at %s", strip.PerStrip(width), width.FormatWithUnit(u)))
	}
	return fmt.Sprintf("Cut %d %s from strips of %s, %s; %s.", c.Count, what, strip.Height.FormatWithUnit(u), words.Cut, strings.Join(per, ", "))
}

// note adds notes, each once.
func (w *worker) note(notes []string) {
	for _, note := range notes {
		if !slices.Contains(w.Notes, note) {
			w.Notes = append(w.Notes, note)
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
			traced.AddAt(at, asked(f))
		}
	}
	return distinct(traced)
}

// asked is what is wrong with a cut, told of the part of the design that asks
// for it: too large a count is a matter of blocks.
func asked(f *model.Fault) error {
	var v *model.ValueError
	if f.Field != model.FieldCount || !errors.As(f.Err, &v) || !errors.Is(v, model.ErrOutOfRange) {
		return f.Err
	}
	return &model.ValueError{Value: v.Value, Err: model.ErrTooMany,
		Hint: "a quilt has at most 100,000 pieces: set fewer blocks, or larger units"}
}
