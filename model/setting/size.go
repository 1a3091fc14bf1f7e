package setting

// Size is one of the sizes that a design is made in. What it does not say is as
// in the design.
type Size struct {
	Name          string // its label, unique in the design
	Rows, Columns int    // 0: as in the setting, or worked out from Bed
	Bed           *Bed
	// Layout and Between replace those of the setting, and Borders all the
	// borders, if they are not nil.
	Layout, Between [][]Place
	Borders         []Border
}

// KeySizes is the key of the sizes in a quilt file.
const KeySizes = "sizes"
