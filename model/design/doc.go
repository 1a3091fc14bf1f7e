// Package design holds a whole quilt as its maker thinks of it, and works out
// what to cut: a [Design] of units, blocks, a setting and borders, in one size
// or several, becomes with [Design.Work] a [Whole]: the [model.Quilt] of the
// cuts, and beside it the trimming, the counts, the finished shapes and notes.
package design
