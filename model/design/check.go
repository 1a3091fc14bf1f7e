package design

import (
	"errors"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// Check finds all that is wrong with a design, in every size. The error is
// [model.Faults].
func (d Design) Check() error {
	c := &block.Checker{Rules: d.Rules(), Fabrics: d.Fabrics, Units: d.plainUnits()}
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
	d.checkCutouts(c)
	switch {
	case d.Setting != nil || len(d.Sizes) > 0:
		d.checkFrame(c)
		d.checkSizes(c)
	case len(d.Blocks) > 0 || d.framed() || len(d.Cuts)+len(d.Cutouts) == 0:
		hint := "write rows: and columns:"
		if len(d.Blocks) == 0 && d.framed() {
			hint = "borders, binding, backing and batting are measured from it: write it, or list their pieces as cuts"
		}
		c.Faults.AddAt(model.PathOf(setting.KeySetting), &model.ValueError{Err: model.ErrMissing, Hint: hint})
	}
	return distinct(c.Faults).OrNil()
}

// framed reports whether the design has anything around its blocks.
func (d Design) framed() bool {
	return len(d.Borders) > 0 || d.Binding != nil || d.Backing != nil || d.Batting != nil
}

// distinct leaves out faults that are there already: what is wrong with the
// setting is wrong in each size.
func distinct(faults model.Faults) model.Faults {
	type told struct {
		at   model.Fault
		what string
	}
	seen := make(map[told]bool)
	var kept model.Faults
	for _, f := range faults {
		at := *f
		at.Err = nil
		if key := (told{at, f.Err.Error()}); !seen[key] {
			seen[key] = true
			kept = append(kept, f)
		}
	}
	return kept
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
		addParts(c.Units, b)
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
