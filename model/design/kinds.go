package design

import (
	"fmt"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/block"
)

// kind is one kind of unit in a quilt.
type kind struct {
	unit  block.Unit
	name  string
	at    model.Path
	count int
	lying int      // how many of them stand turned a quarter in the quilt
	in    []string // the labels of the blocks where they do
}

// kinds are the units of the quilt, each kind once.
func (w *worker) kinds() []kind {
	var kinds []kind
	places := make(map[string]int) // by all that is said of a unit
	units := w.design.units()
	for i, count := range w.Blocks {
		b, _ := w.design.block(count.Block)
		swap, _ := b.Swap(count.Colourway)
		for _, p := range b.Contents(units) {
			p.Unit = p.Unit.Recolour(swap)
			said := fmt.Sprintf("%#v", p.Unit) // units that are equal in depth are written alike
			at, known := places[said]
			if !known {
				at = len(kinds)
				places[said] = at
				kinds = append(kinds, kind{unit: p.Unit, name: p.Name, at: p.At})
			}
			lying := w.lying[i]
			if lies(p.Turn) > 0 {
				lying = count.Count - lying // turned in a turned block is upright
			}
			kinds[at].add(b.Name, count.Count, lying)
		}
	}
	return kinds
}

// add counts n units in a block.
func (k *kind) add(in string, n, lying int) {
	k.count, k.lying = k.count+n, k.lying+lying
	if lying > 0 && !slices.Contains(k.in, in) {
		k.in = append(k.in, in)
	}
}

// lies is 1 for a turn by one or three quarters, and 0 for one that leaves
// upright what is upright.
func lies(turn block.Turn) int { return int(turn % 2) }

// forLying says what a piece is for that is cut for units that stand turned.
const forLying = ", for turned units"

// onSide is the cut for units that stand turned: width and height exchanged.
func onSide(c model.Cut) model.Cut {
	c.Width, c.Height, c.Use = c.Height, c.Width, c.Use+forLying
	return c
}

// upright is the yield with the prints of one-way fabrics upright, as far as
// whole pieces go, and notes of what is cut so and of what lies on its side.
func (k kind) upright(y block.Yield, fabrics []model.Fabric) block.Yield {
	if k.lying == 0 {
		return y
	}
	oneWay := make(map[string]bool)
	for _, f := range fabrics {
		oneWay[f.ID] = f.OneWay
	}
	var stand, lie []string
	var cuts []model.Cut
	for _, c := range y.Cuts {
		var turned model.Cut
		switch {
		case !oneWay[c.Fabric]:
		case !isWhole(k.unit, c):
			lie = withLabel(lie, c.Fabric)
		case c.Width != c.Height:
			stand = withLabel(stand, c.Fabric)
			turned = onSide(c)
			turned.Count = c.Count / k.count * k.lying // so many in each unit
			c.Count -= turned.Count
		}
		for _, part := range []model.Cut{c, turned} {
			if part.Count > 0 {
				cuts = append(cuts, part)
			}
		}
	}
	for _, s := range y.Strips {
		if oneWay[s.Fabric] {
			lie = withLabel(lie, s.Fabric)
		}
	}
	y.Cuts, y.Notes = cuts, slices.Clip(y.Notes)
	if len(stand) > 0 {
		y.Notes = append(y.Notes, fmt.Sprintf("%s For those, the pieces of %s are cut with width and height exchanged, "+
			"so that the one-way print stands upright in the quilt.", k.turned(), strings.Join(stand, ", ")))
	}
	if len(lie) > 0 {
		y.Notes = append(y.Notes, fmt.Sprintf("%s The one-way print of %s lies on its side in those: "+
			"how the unit is made leaves no other way. Take another fabric, or leave the turn out, if that matters.",
			k.turned(), strings.Join(lie, ", ")))
	}
	return y
}

// turned says where how many of the units stand turned.
func (k kind) turned() string {
	what := "unit " + k.name + " in block"
	if len(k.in) > 1 {
		what += "s"
	}
	what += " " + strings.Join(k.in, ", ")
	if _, rounds := k.unit.(block.Rounds); rounds {
		what = "block " + k.name
	}
	stand := "stand"
	if k.lying == 1 {
		stand = "stands"
	}
	return fmt.Sprintf("Of %s, %d of %d %s turned a quarter in the quilt.", what, k.lying, k.count, stand)
}

func isWhole(u block.Unit, c model.Cut) bool {
	whole, ok := u.(block.Whole)
	return ok && whole.IsWhole(c)
}

func withLabel(labels []string, label string) []string {
	if slices.Contains(labels, label) {
		return labels
	}
	return append(labels, label)
}
