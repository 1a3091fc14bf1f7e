package block

import "crossgrain/model"

// Patches is a grid of squares and rectangles: four-patch, nine-patch,
// checkerboard, rails (one row).
//
// For finished patches p by q:
//
//   - [PieceByPiece], the default: each patch is cut p + 2s by q + 2s.
//   - [StripSets]: each different row is a set of strips sewn side by side,
//     cut p + 2s high, from which sections of q + 2s are cut; a row and the
//     same row backwards share a set. One set gives floor(W/section) sections
//     (16 of 2 1/2 at 40 in, warpedspinster.blogspot.com, 2016-10).
//
// Ease widens every strip and section (or, piece by piece, every patch) and
// the unit is trimmed to size. Only an even grid of 2 by 2 may have it: the
// seams of others would not stay in place. The trade's is 1/4 in: strips of
// 1 3/4, sewn to 3, trimmed to 2 1/2 for a four-patch of 2 in (common
// practice, no source).
type Patches struct {
	// Columns and Rows are the finished widths and heights of the patches.
	Columns, Rows []model.Length
	// Fabrics are those of the patches, row by row.
	Fabrics [][]string
	Method  Method
	// SetLength is the length of the strips that sets are sewn of, for sets
	// of half-width strips or fat quarters; 0 is the whole usable width. Its
	// strips are pieces like any other.
	SetLength model.Length
	Ease      Ease
}

// The keys of a grid of patches in a quilt file.
const (
	KeyPatches   = "patches"
	KeyColumns   = "columns"
	KeyHeights   = "heights"
	KeySetLength = "set_length"
)
