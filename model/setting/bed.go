package setting

import (
	"sort"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/geometry"
)

// Bed is a bed to make a quilt for: rows and columns are then worked out, the
// fewest with which the quilt is at least the mattress and its drop at both
// sides and the foot.
type Bed struct {
	Mattress string // the name of a standard mattress
	Drop     model.Length
}

// Mattress is a standard mattress.
type Mattress struct {
	Name          string
	Width, Length model.Length
}

// MaxDrop is the most that a quilt hangs down.
const MaxDrop = 40 * model.Inch

// The keys of a bed in a quilt file.
const (
	KeyBed  = "bed"
	KeyDrop = "drop"
)

// Mattresses are the standard mattresses of the United States, in inches
// (atimetosewquilts.com, measurements; the twin XL from the Better Sleep
// Council's sizes, as quoted on reference.com). Other pages have a twin of 38
// in, a full of 53 in, a king of 78 in, a crib of 27 in.
func Mattresses() []Mattress {
	in := model.Inch
	return []Mattress{
		{"crib", 28 * in, 52 * in}, {"twin", 39 * in, 75 * in}, {"twin xl", 39 * in, 80 * in}, {"full", 54 * in, 75 * in},
		{"queen", 60 * in, 80 * in}, {"king", 76 * in, 80 * in}, {"cal king", 72 * in, 84 * in},
	}
}

// Quilt is the least size of the quilt: the mattress and the drop at both
// sides and the foot (a drop of 12 in: 63 x 87 on a twin, slideserve.com, "Can
// You Figure the Amount of Yardage"). The error is a *model.ValueError of the
// kind model.ErrNotAChoice, for a mattress that is not known.
func (b Bed) Quilt() (width, length model.Length, err error) {
	var names []string
	for _, m := range Mattresses() {
		if m.Name == b.Mattress {
			return m.Width + 2*b.Drop, m.Length + b.Drop, nil
		}
		names = append(names, m.Name)
	}
	_, err = choose(names, b.Mattress)
	return 0, 0, err
}

// Check notes what is wrong with a bed; at is the place of the size in the
// quilt file.
func (b Bed) Check(c *block.Checker, at model.Path) {
	if _, _, err := b.Quilt(); err != nil {
		c.Faults.AddAt(at.At(KeyBed), err)
	}
	if b.Drop < 0 || b.Drop > MaxDrop {
		c.Faults.AddAt(at.At(KeyDrop), &model.ValueError{Value: b.Drop.FormatWithUnit(c.Rules.Unit), Err: model.ErrOutOfRange,
			Hint: "write 0 to " + MaxDrop.FormatWithUnit(c.Rules.Unit)})
	}
}

// Propose is the fewest rows and columns of blocks of a finished width and
// height with which the setting and its borders are at least as large as the
// quilt of the bed. It is not ok if not even [MaxRows] will do, or the bed is
// not known.
func (s Setting) Propose(bed Bed, width, height model.Length, borders []Border) (rows, columns int, ok bool) {
	wide, long, err := bed.Quilt()
	if err != nil || width <= 0 || height <= 0 {
		return 0, 0, false
	}
	for _, b := range borders {
		wide -= b.on(block.Left) + b.on(block.Right)
		long -= b.on(block.Top) + b.on(block.Bottom)
	}
	fewest := func(least model.Length, size func(n int) geometry.Surd) int {
		return 1 + sort.Search(MaxRows, func(n int) bool { return !size(n + 1).Less(geometry.Of(least)) })
	}
	s.Rows, s.Columns = 1, 1
	columns = fewest(wide, func(n int) geometry.Surd {
		s.Columns = n
		across, _ := s.Size(width, height)
		return across
	})
	rows = fewest(long, func(n int) geometry.Surd {
		s.Rows = n
		_, down := s.Size(width, height)
		return down
	})
	return rows, columns, rows <= MaxRows && columns <= MaxRows
}
