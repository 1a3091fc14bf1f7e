package reports

import (
	"io"

	"crossgrain/model/design"
)

// WritePieces writes what is cut for a quilt and how it is made, without plans:
// the pieces and strips of each fabric, what units are trimmed to, strip sets,
// notes and the cautions. The error is that of [model.Quilt.CutList], or of the
// writer.
func WritePieces(w io.Writer, whole design.Whole, o TextOptions) error {
	list, err := whole.Quilt.CutList()
	if err != nil {
		return err
	}
	t := newTextWriter(w, o)
	d := newDesignRows(whole)
	t.heading(heading(list.Title))
	t.aboutQuilt(d)
	for _, f := range list.Fabrics {
		if rows := newCutRows(f); !rows.nothing() {
			t.pieces(rows, list.Unit)
		}
	}
	t.making(d, list.Unit)
	t.cautions()
	return t.out.Flush()
}

// aboutQuilt prints a line on what the quilt is.
func (t *textWriter) aboutQuilt(d designRows) {
	if about := d.about(); about != "" {
		t.hang("", about)
	}
}
