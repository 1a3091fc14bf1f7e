// Package drawing is a list of shapes, lines and texts, and the writers that
// make SVG, PNG and PDF of it.
//
// A [Drawing] measures in whole units, which are the ticks of what is drawn (see
// [model.Length]): cloth, or a quilt. Its scale says how many of them go into
// one point of paper. A [Sheet] puts drawings of any scale beside each other, in
// points. Drawings are in tones of grey only: what tells fills apart are hatches
// and labels, so that a print in black and white loses nothing.
//
// All writers draw the same list, and the same list gives the same bytes.
package drawing
