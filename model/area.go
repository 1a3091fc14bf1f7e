package model

// Area is an exact area in square ticks. An int64 holds the area of every
// quilt that keeps the rules of [Quilt.CutList]: at most [MaxPieces] pieces of
// at most [MaxUsableWidth] by [MaxSide] are 1.3e10 square inches, and an Area
// reaches 1.55e10.
type Area int64

// AreaOf is the area of a rectangle.
func AreaOf(width, height Length) Area { return Area(width) * Area(height) }
