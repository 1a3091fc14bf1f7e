package setting

import (
	"fmt"
	"sort"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Binding goes round the quilt's edge: strips joined to the perimeter and a
// tail. A diagonal join loses the strip's cut width, a straight one 2s. On the
// bias it is cut from a square of at least √(length × strip), in whole inches
// or, in centimetres, in steps of 2 cm (quiltingboard.com, t9808: 250 in of 2 in
// strip, 22.36, 23), and large enough that its strips, joined, reach the length.
type Binding struct {
	Fabric   string
	Strip    model.Length // cut width
	Tail     model.Length // over, for the corners and the last join; may be 0
	Straight bool         // the joins are straight, not diagonal
	Bias     bool
}

// DefaultBinding is a binding that says nothing more than its fabric: strips of
// 2 1/2 in and a tail of 12 in, or 6.5 cm and 30 cm (common practice; strips of
// 2 1/4 or 2 1/2 in in quiltsbyjen.ca).
func DefaultBinding(u model.Unit) Binding {
	if u == model.Centimetres {
		return Binding{Strip: 65 * model.Millimetre, Tail: 30 * model.Centimetre}
	}
	return Binding{Strip: 5 * model.Inch / 2, Tail: 12 * model.Inch}
}

// The limits of bindings.
const (
	MaxBindingStrip = 12 * model.Inch
	MaxTail         = 10 * model.Yard
)

// The keys of a binding in a quilt file.
const (
	KeyBinding       = "binding"
	KeyBindingFabric = "fabric"
	KeyStrip         = "strip"
	KeyTail          = "tail"
	KeyJoin          = "join"
	KeyBias          = "bias"
)

var joinWords = []string{"diagonal", "straight"}

// ParseJoin reads diagonal or straight. The error is a *model.ValueError of
// the kind model.ErrNotAChoice.
func ParseJoin(text string) (straight bool, err error) {
	i, err := choose(joinWords, text)
	return i == 1, err
}

// Join is diagonal or straight, as a quilt file has it.
func (b Binding) Join() string {
	if b.Straight {
		return joinWords[1]
	}
	return joinWords[0]
}

// Check notes what is wrong with a binding, at its place in the quilt file.
func (b Binding) Check(c *block.Checker, at model.Path) {
	u := c.Rules.Unit
	c.Fabric(at.At(KeyBindingFabric), b.Fabric)
	switch value := b.Strip.FormatWithUnit(u); {
	case b.Strip <= 2*c.Rules.Seam:
		c.Faults.AddAt(at.At(KeyStrip), &model.ValueError{Value: value, Err: model.ErrTooSmall,
			Hint: "write the cut width, more than its two seam allowances, as in " + DefaultBinding(u).Strip.Format(u)})
	case b.Strip > MaxBindingStrip:
		c.Faults.AddAt(at.At(KeyStrip), &model.ValueError{Value: value, Err: model.ErrOutOfRange,
			Hint: "write at most " + MaxBindingStrip.FormatWithUnit(u)})
	case !b.Strip.OnMark(c.Rules.Ruler):
		c.Faults.AddAt(at.At(KeyStrip), &model.ValueError{Value: value, Err: model.ErrOffMark,
			Hint: "write " + b.Strip.CeilTo(c.Rules.Ruler).Written(u) + ", or a finer ruler"})
	}
	if b.Tail < 0 || b.Tail > MaxTail {
		c.Faults.AddAt(at.At(KeyTail), &model.ValueError{Value: b.Tail.FormatWithUnit(u), Err: model.ErrOutOfRange,
			Hint: "write 0 to " + MaxTail.FormatWithUnit(u)})
	}
}

// Length is how much binding a quilt of a finished width and height takes: its
// perimeter and the tail, rounded up to the ruler's mark.
func (b Binding) Length(r block.Rules, width, height geometry.Surd) model.Length {
	return r.Ceil(width.Add(height).Times(2).Add(geometry.Of(b.Tail)))
}

// Make is what the binding of a quilt of a finished width and height takes.
func (b Binding) Make(r block.Rules, width, height geometry.Surd) block.Yield {
	length := b.Length(r, width, height)
	if b.Bias {
		side := b.biasSquare(r, length)
		return block.Yield{
			Cuts: []model.Cut{{Fabric: b.Fabric, Width: side, Height: side, Count: 1, Use: "bias binding"}},
			Notes: []string{fmt.Sprintf("Bias binding: cut the square once on the diagonal, cut strips of %s along that cut from both halves, "+
				"and join them to %s.", b.Strip.FormatWithUnit(r.Unit), length.FormatWithUnit(r.Unit))},
		}
	}
	strip := model.Strip{Fabric: b.Fabric, Use: "binding", Height: b.Strip, Run: length, Join: b.Strip}
	if b.Straight {
		strip.Join = 2 * r.Seam
	}
	return block.Yield{Strips: []model.Strip{strip}}
}

// biasSquare is the side of the square for a length of bias binding: the least
// whole inch, or even centimetre, that is enough by its area, length × strip,
// and by its strips.
func (b Binding) biasSquare(r block.Rules, length model.Length) model.Length {
	step := model.Inch
	if r.Unit == model.Centimetres {
		step = 2 * model.Centimetre
	}
	area := model.AreaOf(length, b.Strip)
	steps := sort.Search(int(model.MaxRun/step), func(n int) bool {
		side := model.Length(n) * step
		return model.AreaOf(side, side) >= area
	})
	side := model.Length(steps) * step
	for b.biasReach(r, side) < length {
		side += step
	}
	return side.CeilTo(r.Ruler)
}

// biasReach is the length that the bias strips of a square reach, joined. Each
// half of the square is a triangle of the height h = side/√2, and gives n whole
// strips, whose mean lengths are 2h less 1, 3, 5 … strips: 2nh - n²·strip in
// all. Their ends are cut at 45°, so that a join with the seam allowance s
// loses 2s√2 (our own arithmetic; that the area is not reached is measured at
// ronbd.com: a square of 12 gives 60 in of 2 in strip, where the area says 72).
func (b Binding) biasReach(r block.Rules, side model.Length) model.Length {
	height := geometry.Of(side).OverRoot2().CeilTo(1) - 1 // rounded down
	join := geometry.Root2(2 * r.Seam).CeilTo(1)
	n := height / b.Strip
	return 2*(2*n*height-n*n*b.Strip) - max(2*n-1, 0)*join
}
