package design

import (
	"slices"

	"crossgrain/model"
	"crossgrain/model/block"
)

// needs are the pieces and strips of a quilt, pieces of one size and use
// together.
type needs struct {
	cuts   []model.Cut
	strips []model.Strip
	// The places in the quilt file that ask for each.
	cutsFrom, stripsFrom [][]model.Path
}

// take adds what a yield asks for.
func (n *needs) take(y block.Yield, from model.Path) {
	for _, c := range y.Cuts {
		i := slices.IndexFunc(n.cuts, func(have model.Cut) bool {
			have.Count = c.Count
			return have == c
		})
		if i < 0 {
			n.cuts, n.cutsFrom = append(n.cuts, c), append(n.cutsFrom, []model.Path{from})
			continue
		}
		n.cuts[i].Count += c.Count
		n.cutsFrom[i] = withPath(n.cutsFrom[i], from)
	}
	for _, s := range y.Strips {
		// Strips stay apart: each set is sewn, and each run joined, on its own.
		n.strips, n.stripsFrom = append(n.strips, s), append(n.stripsFrom, []model.Path{from})
	}
}

func withPath(paths []model.Path, p model.Path) []model.Path {
	if slices.Contains(paths, p) {
		return paths
	}
	return append(paths, p)
}

// names puts the file's own cuts and then all needs in the quilt, fabric by
// fabric, each with a label that no other has.
func (w *worker) names() {
	d := w.design
	label := labels(d.Cuts)
	w.Quilt.Cuts = slices.Clone(d.Cuts)
	for _, f := range d.Fabrics {
		for i, c := range w.needs.cuts {
			if c.Fabric == f.ID {
				c.Name = label()
				w.Quilt.Cuts = append(w.Quilt.Cuts, c)
				w.origin = append(w.origin, w.needs.cutsFrom[i])
			}
		}
	}
	for _, f := range d.Fabrics {
		for i, s := range w.needs.strips {
			if s.Fabric == f.ID {
				s.Name = label()
				w.Quilt.Strips = append(w.Quilt.Strips, s)
				w.origin = append(w.origin, w.needs.stripsFrom[i])
			}
		}
	}
}

// labels gives one label after another that none of the cuts has: A to Z
// without I and O, which are taken for 1 and 0, then AA, AB and on.
func labels(cuts []model.Cut) func() string {
	const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	next := 0
	return func() string {
		for {
			name := ""
			for i := next; ; i = i/len(letters) - 1 {
				name = letters[i%len(letters):i%len(letters)+1] + name
				if i < len(letters) {
					break
				}
			}
			next++
			if !slices.ContainsFunc(cuts, func(c model.Cut) bool { return c.Name == name }) {
				return name
			}
		}
	}
}
