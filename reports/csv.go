package reports

import (
	"encoding/csv"
	"io"
	"math/big"
	"strconv"
	"strings"

	"crossgrain/model"
	"crossgrain/model/design"
)

// WriteBuyCSV writes what to buy of each fabric, in each size, at each usable
// width: a table of texts and decimal numbers with a row of headings, as RFC
// 4180 has it, in UTF-8. Lengths in the quilt's unit are exact up to six places,
// what to buy is in the unit of sale.
func WriteBuyCSV(w io.Writer, sizes []Quilt) error {
	t := newTable(w, "size", "fabric", "name", "usable_width", "unit", "strips", "length", "needed",
		"buy", "by_hand", "saved", "sold_in", "buy_text", "proven", "price", "price_for", "cost")
	for _, size := range sizes {
		q := newRows(size)
		for _, f := range q.fabrics {
			sold := f.fabric.SoldBy
			sale := func(l model.Length) string { return ratioText(int64(l), int64(saleUnits[sold.Unit])) }
			for _, r := range f.widths {
				price := ""
				if f.fabric.Price > 0 {
					price = f.fabric.Price.String()
				}
				t.row(q.design.size, f.fabric.ID, f.label, r.Width.Decimal(q.unit), q.unit.String(),
					strconv.Itoa(r.stripCount), r.length.Decimal(q.unit), r.Need.CeilTo(q.ruler).Decimal(q.unit),
					sale(r.Buy.Length), sale(r.PlainBuy.Length), sale(r.Saved.Length), sold.Unit.String(), r.Buy.Text,
					yesNo(r.BuyProven), price, sold.PriceUnit().String(), cost(r, f.fabric))
			}
		}
	}
	return t.flush()
}

// WritePiecesCSV writes every piece of a quilt, in each size, as a table like
// that of [WriteBuyCSV]. Full-width strips have a row for each usable width, at
// which they are so many. The error is that of [model.Quilt.CutList], or of the
// writer.
func WritePiecesCSV(w io.Writer, wholes []design.Whole) error {
	lists, err := listsOf(wholes)
	if err != nil {
		return err
	}
	t := newTable(w, "size", "fabric", "name", "piece", "use", "width", "height", "unit",
		"count", "halve", "triangles", "may_turn", "grain", "at_usable_width")
	for i, list := range lists {
		size, u := clean(wholes[i].Size), list.Unit
		for _, cuts := range list.Fabrics {
			f := newCutRows(cuts)
			for _, p := range f.pieces {
				triangles := ""
				if p.triangles > 0 {
					triangles = strconv.Itoa(p.triangles)
				}
				t.row(size, f.fabric.ID, f.label, p.label, clean(p.Use), p.Along.Decimal(u), p.Across.Decimal(u), u.String(),
					strconv.Itoa(p.Count), p.Halve.String(), triangles, mayTurn(p), p.Grain.String(), "")
			}
			for _, n := range f.strips {
				for _, width := range n.widths(f) {
					t.row(size, f.fabric.ID, f.label, n.label, clean(n.Use), width.Decimal(u), n.Height.Decimal(u), u.String(),
						strconv.Itoa(n.count), "", "", yesNo(false), wholeStrip, width.Decimal(u))
				}
			}
		}
	}
	return t.flush()
}

// csvTable writes rows; csv keeps the first error for flush.
type csvTable struct{ out *csv.Writer }

func newTable(w io.Writer, headings ...string) csvTable {
	t := csvTable{csv.NewWriter(w)}
	t.out.UseCRLF = true
	_ = t.out.Write(headings)
	return t
}

func (t csvTable) row(cells ...string) {
	for i, c := range cells {
		cells[i] = noFormula(c)
	}
	_ = t.out.Write(cells)
}

func (t csvTable) flush() error {
	t.out.Flush()
	return t.out.Error()
}

// noFormula puts an apostrophe before a text that a spreadsheet would take for
// a formula.
func noFormula(s string) string {
	if s != "" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

// ratioText is a/b as a decimal, rounded to six places, halves up, without
// zeros at the end.
func ratioText(a, b int64) string {
	text := big.NewRat(a, b).FloatString(6)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
