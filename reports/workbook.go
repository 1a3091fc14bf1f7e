package reports

import (
	"bytes"
	"errors"
	"io"

	"github.com/xuri/excelize/v2"
)

// The sheets, in order. A quilt in several sizes has one sheet of cutting for
// each of them.
const (
	sizesSheet       = "Sizes"
	buySheet         = "Buy"
	cuttingSheet     = "Cutting"
	piecesSheet      = "Pieces"
	trimSheet        = "Trim chart"
	widthsSheet      = "Widths"
	assumptionsSheet = "Assumptions"
)

// workbookDate stands in a workbook's properties for the time of writing, so
// that the same quilt gives the same file.
const workbookDate = "2000-01-01T00:00:00Z"

// WriteWorkbook writes a quilt, in one size or in several, as an .xlsx
// workbook: what to buy and what it costs, the cutting lists, the pieces, of a
// design how it is made, the usable widths side by side, and what was assumed.
//
// Figures that a reader may want to vary stand in named cells on the last
// sheet. What to buy and what it costs are formulas of them and of the strips
// that are listed; their values are stored too. The same quilt gives the same
// bytes. The sizes are worked out of one design and have the same fabrics;
// there must be one at least.
func WriteWorkbook(w io.Writer, sizes []Quilt) error {
	if len(sizes) == 0 {
		return errors.New("a workbook needs a quilt in one size at least")
	}
	return newBook().write(w, sizes)
}

func newBook() *book { return &book{file: excelize.NewFile(), styles: map[look]int{}} }

// write fills the workbook and writes it.
func (b *book) write(w io.Writer, sizes []Quilt) (err error) {
	defer func() {
		if e := b.file.Close(); err == nil {
			err = e
		}
	}()
	for _, q := range sizes {
		b.sizes = append(b.sizes, newRows(q))
	}
	b.properties()
	b.plan()
	// Buy has formulas of what stands on the sheets behind it, so that it is
	// filled last.
	b.sizesPage(sizes)
	buy := b.newBuySheet()
	b.cutting()
	b.pieces()
	b.making()
	b.widths()
	b.assumptions()
	b.buy(buy)
	return b.finish(w)
}

// finish writes the workbook.
func (b *book) finish(w io.Writer) error {
	b.addPictures()
	b.do(b.file.DeleteSheet("Sheet1"))
	b.file.SetActiveSheet(0)
	for _, s := range b.sheets {
		s.stream()
	}
	if b.err != nil {
		return b.err
	}
	var data bytes.Buffer
	if err := b.file.Write(&data); err != nil {
		return err
	}
	return inOrder(w, data.Bytes())
}

// book is a workbook in the making. It keeps the first error; after one,
// nothing more is done.
type book struct {
	file   *excelize.File
	sizes  []quiltRows
	plans  []*planAt
	cloth  []clothFigures // one for each fabric
	sheets []*sheet
	styles map[look]int
	// plain leaves pictures out.
	plain    bool
	pictures []*picture
	err      error
}

func (b *book) do(err error) {
	if b.err == nil {
		b.err = err
	}
}

// first is the quilt in its first size. Title, unit and fabrics are those of
// all.
func (b *book) first() quiltRows { return b.sizes[0] }

// several reports whether the quilt has more sizes than one.
func (b *book) several() bool { return len(b.sizes) > 1 }

func (b *book) properties() {
	b.do(b.file.SetDefaultFont(fontFamily))
	b.do(b.file.SetDocProps(&excelize.DocProperties{
		Title: b.first().heading(), Subject: "What to buy and how to cut it", Creator: "crossgrain",
		Keywords: "quilt, fabric, cutting list", LastModifiedBy: "crossgrain", Language: "en",
		Created: workbookDate, Modified: workbookDate,
	}))
	b.do(b.file.SetAppProps(&excelize.AppProperties{Application: "crossgrain"}))
}

// planAt is one plan, and where in the workbook it stands.
type planAt struct {
	size, fabric int
	quilt        quiltRows
	cuts         fabricRows
	widthRows
	row int // on the sheets Buy and Widths
	// heights and takes are the cells of its strips on the sheet of cutting:
	// how high each is, and what all of one layout take. They are empty where
	// nothing is cut.
	heights, takes string
}

// plan gives every plan its row on the sheets Buy and Widths.
func (b *book) plan() {
	row := firstRow
	for size, q := range b.sizes {
		for fabric, f := range q.fabrics {
			for _, w := range f.widths {
				b.plans = append(b.plans, &planAt{size: size, fabric: fabric, quilt: q, cuts: f, widthRows: w, row: row})
				row++
			}
		}
	}
	b.cloth = newClothFigures(b.first().fabrics)
}

// plansOf are the plans of a fabric in a size.
func (b *book) plansOf(size, fabric int) []*planAt {
	var plans []*planAt
	for _, p := range b.plans {
		if p.size == size && p.fabric == fabric {
			plans = append(plans, p)
		}
	}
	return plans
}
