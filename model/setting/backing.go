package setting

import "crossgrain/model"

// Backing is the quilt's back: the quilt and an overage on each side, in panels
// sewn side by side, of which each seam loses twice its allowance. The panels
// run along the quilt or across it, whichever takes less fabric at the
// narrowest usable width; both are told. A fabric as wide as the back needs one
// panel.
type Backing struct {
	Fabric  string
	Overage model.Length // on each side; not counted if Width and Height are given
	Seam    model.Length // the allowance of the panels' seams
	// Width and Height are those of the back if they are given, not 0.
	Width, Height model.Length
}

// DefaultBacking is a backing that says nothing more than its fabric: 4 in or
// 10 cm over on each side (common practice; 2 to 6 in on the pages of guilds
// and long-arm quilters), and seams of 1/4 in or 0.75 cm.
func DefaultBacking(u model.Unit) Backing {
	if u == model.Centimetres {
		return Backing{Overage: 10 * model.Centimetre, Seam: 3 * model.Centimetre / 4}
	}
	return Backing{Overage: 4 * model.Inch, Seam: model.Inch / 4}
}

// The keys of a backing in a quilt file.
const (
	KeyBacking       = "backing"
	KeyBackingFabric = "fabric"
	KeyOverage       = "overage"
	KeyBackingSeam   = "seam"
	KeyBackingSize   = "size"
)
