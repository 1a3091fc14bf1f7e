package pack

import (
	"errors"
	"fmt"

	"crossgrain/model"
)

// TallestStrip is the tallest cut that a nested plan makes where a lower one
// would do: 24 in is the length of the usual ruler and mat (common practice,
// no source). A higher strip is just as high as a piece that stands
// so tall.
const TallestStrip = 24 * model.Inch

// MaxPieces is the most pieces that one problem may hold.
const MaxPieces = 1_000_000

// Errors that NewProblem wraps.
var (
	ErrNotPositive = errors.New("not a positive size or count")
	ErrTooWide     = errors.New("wider than the usable width")
	ErrTooMany     = fmt.Errorf("more than %d pieces", MaxPieces)
)

// Item is one size to cut: Count pieces of Along (across the fabric, along
// the strip) by Across (along the fabric, in the strip's height).
type Item struct {
	Along, Across model.Length
	Count         int
	Turnable      bool
}

// Problem is what to cut from one fabric at one usable width. Make it with
// NewProblem; it is read-only afterwards.
type Problem struct {
	width model.Length
	items []Item
}

// NewProblem checks that every item can lie on the fabric. Its error wraps
// ErrNotPositive, ErrTooWide or ErrTooMany and names the item by its index.
func NewProblem(width model.Length, items []Item) (*Problem, error) {
	if width <= 0 {
		return nil, fmt.Errorf("usable width %d: %w", width, ErrNotPositive)
	}
	total := 0
	for i, it := range items {
		if it.Along <= 0 || it.Across <= 0 || it.Count <= 0 {
			return nil, fmt.Errorf("item %d: %w", i, ErrNotPositive)
		}
		if it.Along > width && (!it.Turnable || it.Across > width) {
			return nil, fmt.Errorf("item %d: %w", i, ErrTooWide)
		}
		if it.Count > MaxPieces-total {
			return nil, ErrTooMany
		}
		total += it.Count
	}
	return &Problem{width: width, items: append([]Item(nil), items...)}, nil
}

// Width is the usable width.
func (p *Problem) Width() model.Length { return p.width }

// Items are the sizes to cut, in the order given to NewProblem.
func (p *Problem) Items() []Item { return append([]Item(nil), p.items...) }
