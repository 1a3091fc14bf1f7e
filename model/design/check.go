package design

import (
	"errors"
	"fmt"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// Check finds all that is wrong with a design, in every size. The error is
// [model.Faults].
func (d Design) Check() error {
	c := &block.Checker{Rules: d.Rules(), Fabrics: d.Fabrics, Units: d.units()}
	head := model.Quilt{Title: d.Title, Unit: d.Unit, Ruler: d.Ruler, Fabrics: d.Fabrics, Cuts: d.Cuts}
	if len(d.Cuts) == 0 {
		c.Faults = faultsOf(head.CheckSetup())
	} else {
		_, err := head.CutList()
		c.Faults = faultsOf(err)
	}
	if d.Ruler <= 0 || d.Seam <= 0 || d.Seam > MaxSeam {
		d.checkSeam(c)
		return c.Faults.OrNil() // all other sizes hang on these
	}
	d.checkUnits(c)
	d.checkBlocks(c)
	if d.Setting == nil && len(d.Sizes) == 0 {
		if len(d.Blocks) > 0 || len(d.Cuts)+len(d.Cutouts) == 0 {
			c.Faults.AddAt(model.PathOf(setting.KeySetting), &model.ValueError{Err: model.ErrMissing, Hint: "write rows: and columns:"})
		}
		return c.Faults.OrNil()
	}
	d.checkSizes(c)
	return c.Faults.OrNil()
}

func faultsOf(err error) model.Faults {
	var faults model.Faults
	errors.As(err, &faults)
	return faults
}

func (d Design) checkSeam(c *block.Checker) {
	if d.Seam <= 0 || d.Seam > MaxSeam {
		c.Faults.AddAt(model.PathOf(KeySeam), &model.ValueError{Value: d.Seam.FormatWithUnit(d.Unit), Err: model.ErrOutOfRange,
			Hint: "write a seam allowance up to " + MaxSeam.FormatWithUnit(d.Unit)})
	}
}

func (d Design) checkUnits(c *block.Checker) {
	seen := make(map[string]bool)
	for _, u := range d.Units {
		at := model.PathOf(block.KeyUnits, u.Name)
		checkLabel(c, at, u.Name, seen)
		u.Unit.Check(c, at)
	}
}

func (d Design) checkBlocks(c *block.Checker) {
	seen := make(map[string]bool)
	for _, b := range d.Blocks {
		at := model.PathOf(block.KeyBlocks, b.Name)
		checkLabel(c, at, b.Name, seen)
		b.Check(c, at)
	}
}

// checkLabel checks that a label is there and unique.
func checkLabel(c *block.Checker, at model.Path, label string, seen map[string]bool) {
	switch {
	case label == "":
		c.Faults.AddAt(at, &model.ValueError{Err: model.ErrMissing, Hint: "write a label"})
	case seen[label]:
		c.Faults.AddAt(at, &model.ValueError{Value: label, Err: model.ErrDuplicate, Hint: "write another label"})
	}
	seen[label] = true
}

// checkSizes checks the setting in each size.
func (d Design) checkSizes(c *block.Checker) {
	if len(d.Sizes) == 0 {
		d.checkSetting(c, func(key string) model.Path { return model.PathOf(setting.KeySetting, key) })
		return
	}
	seen := make(map[string]bool)
	for _, s := range d.Sizes {
		checkLabel(c, model.PathOf(setting.KeySizes, s.Name), s.Name, seen)
		d.sized(s).checkSetting(c, func(key string) model.Path { return placeIn(s, key) })
	}
}

// checkSetting checks a setting and that its blocks are there, of one size, and
// not too many.
func (d Design) checkSetting(c *block.Checker, at func(key string) model.Path) {
	s := *d.Setting
	before := len(c.Faults)
	s.Check(c, at)
	if len(c.Faults) > before {
		return
	}
	first, _ := d.block(s.Layout[0][0].Block)
	for i, row := range s.Layout {
		for j, p := range row {
			d.checkPlace(c, at(setting.KeyLayout).Entry(i).Entry(j), p, first)
		}
	}
	if n := s.Rows * s.Columns; n > model.MaxPieces {
		c.Faults.AddAt(at(setting.KeyRows), &model.ValueError{Value: fmt.Sprint(n), Err: model.ErrTooMany, Hint: "a quilt has at most 100,000 pieces"})
	}
}

func (d Design) checkPlace(c *block.Checker, at model.Path, p setting.Place, first block.Block) {
	b, known := d.block(p.Block)
	if !known {
		c.Faults.AddAt(at, &model.ValueError{Value: p.Block, Err: model.ErrUnknownName, Hint: "write the label of a block, or add it to the blocks"})
		return
	}
	if _, known := b.Swap(p.Colourway); !known {
		c.Faults.AddAt(at, &model.ValueError{Value: p.Colourway, Err: model.ErrUnknownName, Hint: "write a colourway of the block, or add it there"})
	}
	width, height := b.Width, b.Height
	if p.Turn%2 == 1 {
		width, height = height, width
	}
	if width != first.Width || height != first.Height {
		c.Faults.AddAt(at, &model.ValueError{Value: model.FormatSize(width, height, d.Unit), Err: model.ErrUnevenBlocks,
			Hint: "the first block is " + model.FormatSize(first.Width, first.Height, d.Unit)})
	}
}
