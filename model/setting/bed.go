package setting

import "crossgrain/model"

// Bed is a bed to make a quilt for: rows and columns are then worked out, the
// fewest with which the quilt is at least the mattress and its drop at both
// sides and the foot.
type Bed struct {
	Mattress string // the name of a standard mattress
	Drop     model.Length
}

// Mattress is a standard mattress.
type Mattress struct {
	Name          string
	Width, Length model.Length
}

// The keys of a bed in a quilt file.
const (
	KeyBed  = "bed"
	KeyDrop = "drop"
)
