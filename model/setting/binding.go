package setting

import "crossgrain/model"

// Binding goes round the quilt's edge: strips joined to the perimeter and a
// tail. A diagonal join loses the strip's cut width, a straight one 2s. On the
// bias it is cut from a square of side √(length × strip), rounded up to a whole
// inch or, in centimetres, to 2 cm (quiltingboard.com, t9808: 250 in of 2 in
// strip, 22.36, 23).
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

// The keys of a binding in a quilt file.
const (
	KeyBinding       = "binding"
	KeyBindingFabric = "fabric"
	KeyStrip         = "strip"
	KeyTail          = "tail"
	KeyJoin          = "join"
	KeyBias          = "bias"
)
