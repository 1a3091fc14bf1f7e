package reports

import (
	"crossgrain/model/design"
	"crossgrain/yardage"
)

// Quilt is what a report tells of: what to buy and how to cut it, and of a
// design in one size how it is made.
type Quilt struct {
	yardage.Quilt
	// Whole is the design worked out; its zero value is a cutting list.
	Whole design.Whole
}
