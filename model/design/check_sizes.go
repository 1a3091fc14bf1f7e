package design

import (
	"strconv"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
	"crossgrain/model/setting"
)

// checkSizes checks the setting, and what hangs on it, in each size.
func (d Design) checkSizes(c *block.Checker) {
	if len(d.Sizes) == 0 {
		d.checkSize(c, setting.Size{})
		return
	}
	seen := make(map[string]bool)
	for _, s := range d.Sizes {
		at := model.PathOf(setting.KeySizes, s.Name)
		checkLabel(c, at, s.Name, seen)
		if s.Name == "" {
			continue // that is the name of the only size
		}
		if s.Borders != nil {
			checkBorders(c, bordersIn(s), s.Borders)
		}
		if s.Bed == nil {
			d.checkSize(c, s)
			continue
		}
		s.Bed.Check(c, at)
		for _, given := range []struct {
			key string
			n   int
		}{{setting.KeyRows, s.Rows}, {setting.KeyColumns, s.Columns}} {
			if given.n != 0 {
				c.Faults.AddAt(at.At(given.key), &model.ValueError{Value: strconv.Itoa(given.n), Err: model.ErrNotTogether,
					Hint: "the bed gives the rows and columns: leave it out, or leave the bed out"})
			}
		}
		d.checkSize(c, s)
	}
}

// checkSize checks one size.
func (d Design) checkSize(c *block.Checker, s setting.Size) {
	at := func(key string) model.Path { return placeIn(s, key) }
	sized := d.sized(s)
	set, before := *sized.Setting, len(c.Faults)
	if set.Check(c, at); len(c.Faults) > before {
		return
	}
	sized.checkLayout(c, at(setting.KeyLayout), set.Layout)
	sized.checkLayout(c, at(setting.KeyBetween), set.Between)
	if len(c.Faults) > before {
		return
	}
	width, height := sized.blockSize(set)
	if set.CheckBlocks(c, at, width, height); len(c.Faults) > 0 {
		return // sizes hang on all the rest
	}
	if s.Bed != nil {
		if _, _, ok := set.Propose(*s.Bed, width, height, sized.Borders); !ok {
			c.Faults.AddAt(model.PathOf(setting.KeySizes, s.Name, setting.KeyBed), &model.ValueError{Value: s.Bed.Mattress, Err: model.ErrTooMany,
				Hint: "it takes more than " + strconv.Itoa(setting.MaxRows) + " rows or columns: write a larger block"})
		}
	}
	sized.checkSheets(c)
}

// checkLayout checks that the blocks of a layout are there, and of one size.
func (d Design) checkLayout(c *block.Checker, at model.Path, layout [][]setting.Place) {
	width, height := d.blockSize(*d.Setting)
	for i, row := range layout {
		for j, p := range row {
			d.checkPlace(c, at.Entry(i).Entry(j), p, width, height)
		}
	}
}

// checkPlace checks one place, for blocks of a width and a height.
func (d Design) checkPlace(c *block.Checker, at model.Path, p setting.Place, width, height model.Length) {
	b, known := d.block(p.Block)
	if !known {
		c.Faults.AddAt(at, &model.ValueError{Value: p.Block, Err: model.ErrUnknownName, Hint: "write the label of a block, or add it to the blocks"})
		return
	}
	if _, known := b.Swap(p.Colourway); !known {
		c.Faults.AddAt(at, &model.ValueError{Value: p.Colourway, Err: model.ErrNotInBlock, Hint: "write a colourway of the block, or add it there"})
	}
	if w, h := d.placeSize(p); w != width || h != height {
		c.Faults.AddAt(at, &model.ValueError{Value: model.FormatSize(w, h, d.Unit), Err: model.ErrUnevenBlocks,
			Hint: "the first block is " + model.FormatSize(width, height, d.Unit)})
	}
}

// checkFrame checks what is around the blocks, apart from its sizes.
func (d Design) checkFrame(c *block.Checker) {
	checkBorders(c, model.PathOf(setting.KeyBorders), d.Borders)
	if d.Binding != nil {
		d.Binding.Check(c, model.PathOf(setting.KeyBinding))
	}
	if d.Backing != nil {
		d.Backing.Check(c, model.PathOf(setting.KeyBacking))
	}
	if d.Batting != nil {
		d.Batting.Check(c, model.PathOf(setting.KeyBatting))
	}
}

func checkBorders(c *block.Checker, at model.Path, borders []setting.Border) {
	if len(borders) > setting.MaxBorders {
		c.Faults.AddAt(at, &model.ValueError{Value: strconv.Itoa(len(borders)), Err: model.ErrTooMany,
			Hint: "write at most " + strconv.Itoa(setting.MaxBorders)})
	}
	for i, b := range borders {
		b.Check(c, at.Entry(i))
	}
}

// finished is the finished size of a design in one size, borders included.
func (d Design) finished() (width, height geometry.Surd) {
	width, height = d.Setting.Size(d.blockSize(*d.Setting))
	for _, b := range d.Borders {
		width, height = b.Size(width, height)
	}
	return width, height
}

// checkSheets checks that a backing and a batting of a given size are at least
// as large as the quilt.
func (d Design) checkSheets(c *block.Checker) {
	quiltWidth, quiltHeight := d.finished()
	check := func(key string, width, height model.Length) {
		if width == 0 || !geometry.Of(width).Less(quiltWidth) && !geometry.Of(height).Less(quiltHeight) {
			return
		}
		rules := d.Rules()
		c.Faults.AddAt(model.PathOf(key, setting.KeyBackingSize), &model.ValueError{
			Value: model.FormatSize(width, height, d.Unit), Err: model.ErrTooSmall,
			Hint: "the quilt is " + model.WrittenSize(rules.Ceil(quiltWidth), rules.Ceil(quiltHeight), d.Unit) + ": write a larger size, or overage:"})
	}
	if b := d.Backing; b != nil {
		check(setting.KeyBacking, b.Width, b.Height)
	}
	if b := d.Batting; b != nil {
		check(setting.KeyBatting, b.Width, b.Height)
	}
}

// checkCutouts checks the shapes that are cut from strips.
func (d Design) checkCutouts(c *block.Checker) {
	for i, cut := range d.Cutouts {
		at := model.PathOf(KeyCutouts).Entry(i)
		cut.Shape.Check(c, at)
		c.Fabric(at.At(block.KeyFabric), cut.Fabric)
		if cut.Count < 1 || cut.Count > model.MaxPieces {
			c.Faults.AddAt(at.At(KeyCount), &model.ValueError{Value: strconv.Itoa(cut.Count), Err: model.ErrOutOfRange,
				Hint: "write a whole number from 1 to 100,000"})
		}
	}
}
