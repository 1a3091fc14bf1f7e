// Package setting puts blocks together into a quilt: rows and columns,
// straight or on point, sashing, borders, binding, backing and batting, and the
// sizes of beds. It knows blocks by their labels and their finished size only.
package setting
