package setting

import "crossgrain/model"

// Batting is the layer between. Its size is that of the backing if nothing is
// given, else the quilt and an overage on each side, or Width by Height. It is
// no fabric of the plan: its size is told.
type Batting struct {
	Overage       model.Length
	Width, Height model.Length
}

// KeyBatting is the key of the batting in a quilt file.
const KeyBatting = "batting"
