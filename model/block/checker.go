package block

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"crossgrain/model"
)

// MaxFinished is the largest side of a unit or a block.
const MaxFinished = 200 * model.Inch

// The keys of units and blocks that faults are in, as a quilt file has them.
// The finished size of a unit stands behind the key that names its kind.
const (
	KeyFabric  = "fabric"
	KeyFabrics = "fabrics"
	KeyMethod  = "method"
	KeyEase    = "ease"
)

// Checker gathers the faults of units and blocks.
type Checker struct {
	Rules   Rules
	Fabrics []model.Fabric
	Units   Units
	Faults  model.Faults
}

// Finished checks a finished length: more than 0, not too large, and such that
// it is on the ruler's mark with its seam allowances.
func (c *Checker) Finished(at model.Path, l model.Length) { c.finished(at, l, 2) }

// finished checks a finished length that is cut with a number of seam
// allowances.
func (c *Checker) finished(at model.Path, l model.Length, seams model.Length) {
	value := l.FormatWithUnit(c.Rules.Unit)
	switch cut := l + seams*c.Rules.Seam; {
	case l <= 0:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrNotPositive, Hint: "write the finished size"})
	case l > MaxFinished:
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrOutOfRange,
			Hint: "write at most " + MaxFinished.FormatWithUnit(c.Rules.Unit)})
	case !cut.OnMark(c.Rules.Ruler):
		next := cut.CeilTo(c.Rules.Ruler) - seams*c.Rules.Seam
		c.Faults.AddAt(at, &model.ValueError{Value: value, Err: model.ErrOffMark, Hint: fmt.Sprintf(
			"with its seams it is %s: write %s, or a finer ruler", cut.FormatWithUnit(c.Rules.Unit), next.Written(c.Rules.Unit))})
	}
}

// Fabric checks the label of a fabric.
func (c *Checker) Fabric(at model.Path, label string) {
	for _, f := range c.Fabrics {
		if f.ID == label && label != "" {
			return
		}
	}
	c.Faults.AddAt(at, model.Quilt{Fabrics: c.Fabrics}.UnknownFabric(label))
}

// FabricList checks the fabrics of a unit at at, which must be as many as
// there are parts, in their order.
func (c *Checker) FabricList(at model.Path, fabrics []string, parts ...string) {
	at = at.At(KeyFabrics)
	if len(fabrics) != len(parts) {
		c.Faults.AddAt(at, &model.ValueError{Value: strconv.Itoa(len(fabrics)), Err: model.ErrFabricCount,
			Hint: fmt.Sprintf("write %d: %s", len(parts), strings.Join(parts, ", "))})
		return
	}
	for i, label := range fabrics {
		c.Fabric(at.Entry(i), label)
	}
}

// Method checks that a unit knows the method it is to be made by.
func (c *Checker) Method(at model.Path, m Method, known []Method) {
	if m != DefaultMethod && !slices.Contains(known, m) {
		c.Faults.AddAt(at.At(KeyMethod), &model.ValueError{Value: m.String(), Err: model.ErrNotAChoice,
			Hint: "this unit is made " + methodList(known)})
	}
}

// Ease checks an ease.
func (c *Checker) Ease(at model.Path, e Ease) {
	if e.Own < 0 || e.Own > MaxEase {
		c.Faults.AddAt(at.At(KeyEase), &model.ValueError{Value: e.Own.FormatWithUnit(c.Rules.Unit), Err: model.ErrOutOfRange,
			Hint: "write none, trade, or a length up to " + MaxEase.FormatWithUnit(c.Rules.Unit)})
	}
}
