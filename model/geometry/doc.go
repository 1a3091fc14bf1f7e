// Package geometry has the exact numbers and shapes that quilt arithmetic
// needs: lengths with square roots of 2, 3 and 6 in them, and polygons whose
// corners are such lengths. Nothing in it is rounded; only [Surd.CeilTo] makes
// a length of a [Surd], on a ruler's mark and never too short.
package geometry
