// Package model holds what a quilt is made of, in the trade's own words:
// exact lengths, fabrics as they are bought, the pieces to cut, and the rules
// that a cut list must keep. It knows nothing of files, plans or reports, and
// it imports the standard library only.
//
// # Lengths
//
// A [Length] is a whole number of ticks of 1/24384 inch, in which every mark
// of an inch ruler down to 1/64, every third of an inch and every 0.1 mm is
// exact. [ParseLength] reads what quilters write (12 1/2, 12½, 31.75 cm, 1/8
// yd), [Length.Format] writes fractions of an inch or decimals of a
// centimetre. There is no floating-point number anywhere in the package, and
// what must be rounded is rounded up, so that cloth is never short; only
// [Length.Decimal], which is for other programs, rounds to the nearest.
//
// # From a quilt to a cut list
//
// A [Quilt] is what a quilt file says. [Quilt.CutList] checks every rule and
// sorts the cuts by fabric into [Piece] values, which say what the planner has
// to know: the size along the strip, the size across it, how many, and
// whether they may be turned. If rules are broken it returns [Faults], all of
// them, each of which tells the fabric or the cut and the field it is about.
package model
