package reports

import (
	"cmp"
	"slices"

	"crossgrain/model"
	"crossgrain/model/design"
)

// sizeRows are the figures of a quilt in several sizes, one beside the other.
type sizeRows struct {
	title   string
	unit    model.Unit
	names   []string     // of the sizes
	designs []designRows // one for each size
	buys    []buySizes
}

// buySizes is what to buy of a fabric at a usable width, in each size.
type buySizes struct {
	fabric fabricRows
	width  model.Length
	needs  []widthRows // one for each size
}

// newSizeRows puts plans of a quilt in several sizes beside each other; all
// have the same fabrics and usable widths.
func newSizeRows(sizes []Quilt) sizeRows {
	var rows sizeRows
	for i, q := range sizes {
		one := newRows(q)
		rows.title, rows.unit = one.title, one.unit
		rows.names = append(rows.names, one.design.size)
		rows.designs = append(rows.designs, one.design)
		next := 0
		for _, f := range one.fabrics {
			for _, w := range f.widths {
				if i == 0 {
					rows.buys = append(rows.buys, buySizes{fabric: f, width: w.Width})
				}
				rows.buys[next].needs = append(rows.buys[next].needs, w)
				next++
			}
		}
	}
	return rows
}

// sizePieces are the pieces of one cut size of a fabric, in each size of the
// quilt.
type sizePieces struct {
	pieceKey
	counts []int
}

// pieceKey tells cut sizes of a fabric apart. Strips have a usable width, at
// which they are counted.
type pieceKey struct {
	along, across model.Length // the height of a strip is across
	halve         model.Halving
	use           string
	strip         bool
	width         model.Length // of a strip; 0 where it is the same at all
}

// piecesOfSizes are the pieces of one fabric in each size, pieces before
// strips.
func piecesOfSizes(lists []model.CutList, fabric int) []sizePieces {
	var rows []sizePieces
	add := func(size, count int, key pieceKey) {
		i := slices.IndexFunc(rows, func(p sizePieces) bool { return p.pieceKey == key })
		if i < 0 {
			i = len(rows)
			rows = append(rows, sizePieces{key, make([]int, len(lists))})
		}
		rows[i].counts[size] += count
	}
	for size, list := range lists {
		f := list.Fabrics[fabric]
		for _, p := range f.Pieces {
			add(size, p.Count, pieceKey{along: p.Along, across: p.Across, halve: p.Halve, use: clean(p.Use)})
		}
		for _, s := range f.Strips {
			for _, w := range f.Fabric.UsableWidths {
				add(size, s.Strips(w), pieceKey{across: s.Height, use: clean(s.Use), strip: true, width: w})
			}
		}
	}
	slices.SortStableFunc(rows, func(a, b sizePieces) int {
		if a.strip != b.strip {
			return cmp.Compare(boolInt(a.strip), boolInt(b.strip))
		}
		return 0
	})
	return oneForAllWidths(rows)
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// oneForAllWidths makes one row of strips that are as many at every usable
// width.
func oneForAllWidths(rows []sizePieces) []sizePieces {
	var merged []sizePieces
	for _, r := range rows {
		alike := func(other sizePieces) bool {
			other.width = r.width
			return other.pieceKey == r.pieceKey
		}
		same := !slices.ContainsFunc(rows, func(other sizePieces) bool {
			return alike(other) && !slices.Equal(other.counts, r.counts)
		})
		switch {
		case !r.strip || !same:
			merged = append(merged, r)
		case !slices.ContainsFunc(merged, alike):
			r.width = 0
			merged = append(merged, r)
		}
	}
	return merged
}

// cutSize is the cut size of a row as it is printed.
func (k pieceKey) cutSize(u model.Unit) string {
	if !k.strip {
		return size(k.along, k.across, u)
	}
	row := needRow{Strip: model.Strip{Height: k.across}}
	if k.width > 0 {
		row.at = []model.Length{k.width}
	}
	return stripSize(row, u)
}

// listsOf are the cut lists of a quilt in each size.
func listsOf(wholes []design.Whole) ([]model.CutList, error) {
	var lists []model.CutList
	for _, w := range wholes {
		list, err := w.Quilt.CutList()
		if err != nil {
			return nil, err
		}
		lists = append(lists, list)
	}
	return lists, nil
}
