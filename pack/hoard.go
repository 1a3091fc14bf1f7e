package pack

// hoard holds very many short lists in few large pieces of memory.
type hoard[T any] []T

// hoardPiece is the length of a piece.
const hoardPiece = 4096

// hold holds a copy of a list, which must not be added to.
func (h *hoard[T]) hold(list []T) []T {
	if len(*h)+len(list) > cap(*h) {
		*h = make([]T, 0, max(hoardPiece, len(list)))
	}
	from := len(*h)
	*h = append(*h, list...)
	return (*h)[from:len(*h):len(*h)]
}
