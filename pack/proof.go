package pack

// Proof is how it is known that no plan is shorter than a bound.
type Proof uint8

const (
	// ByCount: each size on strips of its own needs so many strips. This is
	// so for plain plans alone.
	ByCount Proof = iota
	// ByArea: the pieces cover as much, or one of them is as high.
	ByArea
	// ByRelaxation: prices of the pieces, or planes made of such prices and
	// their roundings, rule all shorter plans out at once.
	ByRelaxation
	// BySearch: shorter plans are ruled out in parts, until none is left.
	BySearch
)

var proofNames = [...]string{"count", "area", "relaxation", "search"}

// String is the proof in a word: count, area, relaxation or search.
func (p Proof) String() string { return proofNames[p] }

// raise raises the proven bound to a length that strips can add up to, and
// takes note of how it is known.
func (s *search) raise(lower int, by Proof) {
	lower = raise(s.sums, max(lower, s.lower), s.length)
	if lower == s.lower {
		return
	}
	// What has to be bought for nothing at all is known as the rest is.
	if s.lower == 0 || s.purchase(lower) != s.purchase(s.lower) {
		s.buyBy = by
	}
	s.lower, s.lowerBy = lower, by
}

// settled reports whether the purchase is proven.
func (s *search) settled() bool { return s.purchase(s.lower) == s.purchase(s.length) }
