package quiltbook

import (
	"errors"
	"slices"
	"strings"

	"crossgrain/model"
)

// table is a sheet's table: the row of its headings, and the column of each
// field.
type table struct {
	grid    grid
	row     int
	columns map[string]int
}

// spot is the cell of a field in a row.
func (t table) spot(row int, field string) spot {
	where := at{row, t.columns[field]}
	return spot{t.grid.name, where, t.grid.cell(where).kind != blank}
}

// maxAbove is how many rows may stand above a table's headings.
const maxAbove = 30

// findTable finds a table by its headings, which stand in any order in the row
// that has most of them. It is not ok if one that is needed is missing.
func findTable[T any](r *reader, g grid, fields []field[T]) (t table, ok bool) {
	t = table{grid: g}
	most := 1 // one word alone may stand in a sentence's place
	for _, n := range g.rowNumbers() {
		if n > maxAbove {
			break
		}
		columns := make(map[string]int)
		for column, c := range g.rows[n] {
			for _, f := range fields {
				if before, again := columns[f.name]; headingOf(c) == strings.ToLower(f.heading) && (!again || column < before) {
					columns[f.name] = column
				}
			}
		}
		if len(columns) > most {
			most, t.row, t.columns = len(columns), n, columns
		}
	}
	if t.row == 0 {
		hint := "write the headings " + allHeadings(fields) + " in one row, as crossgrain start does"
		r.errs = append(r.errs, placed{spot{sheet: g.name}, say(ErrNoHeading, hint)})
		return t, false
	}
	return t, checkHeadings(r, t, fields)
}

func allHeadings[T any](fields []field[T]) string {
	var names []string
	for _, f := range fields {
		names = append(names, f.heading)
	}
	return strings.Join(names, ", ")
}

// checkHeadings tells of headings that are there twice, that are slips of
// others, or that are missing though they are needed.
func checkHeadings[T any](r *reader, t table, fields []field[T]) (ok bool) {
	ok = true
	fail := func(column int, err error) {
		r.errs = append(r.errs, placed{spot{sheet: t.grid.name, at: at{t.row, column}}, err})
		ok = false
	}
	var absent []string
	for _, f := range fields {
		if t.columns[f.name] == 0 {
			absent = append(absent, f.heading)
		}
	}
	meant := make(map[string]bool)
	for column, c := range t.grid.rows[t.row] {
		word := headingOf(c)
		known := slices.IndexFunc(fields, func(f field[T]) bool { return strings.ToLower(f.heading) == word })
		if known >= 0 && t.columns[fields[known].name] != column {
			fail(column, &model.ValueError{Value: c.value, Err: model.ErrDuplicate, Hint: "call one of the two columns something else"})
		}
		if near := nearHeading(word, absent); known < 0 && near != "" {
			fail(column, slip(c, near))
			meant[near] = true
		}
	}
	for _, f := range fields {
		if f.needed != "" && t.columns[f.name] == 0 && !meant[f.heading] {
			fail(1, &model.ValueError{Value: f.heading, Err: ErrNoHeading, Hint: "write it over its column in this row"})
		}
	}
	return ok
}

// readRow reads the fields of a row. Nothing in a cell leaves a field as it is.
func readRow[T any](r *reader, t table, row int, fields []field[T], about model.Fault, into *T) {
	for _, f := range fields {
		if t.columns[f.name] == 0 {
			continue
		}
		where := t.spot(row, f.name)
		r.places[place{about.Part, about.Index, f.name}] = where
		if where.said {
			if err := f.read(r, t.grid.cell(where.at), into); err != nil {
				r.fault(where, about, f.name, err)
			}
		} else if f.needed != "" {
			r.fault(where, about, f.name, say(model.ErrMissing, f.needed))
		}
	}
}

// filled are the rows below the headings that have anything in the table's
// columns, one more than a quilt may have at most.
func (t table) filled(most int) []int {
	var rows []int
	for _, n := range t.grid.rowNumbers() {
		if n <= t.row || len(rows) > most {
			continue
		}
		for _, column := range t.columns {
			if t.grid.cell(at{n, column}).kind != blank {
				rows = append(rows, n)
				break
			}
		}
	}
	return rows
}

// nameOf is the label of a row, as far as it can be read.
func (r *reader) nameOf(t table, row int, field string) string {
	name, err := r.text(t.grid.cell(at{row, t.columns[field]}))
	if err != nil {
		return ""
	}
	return name
}

func (r *reader) readFabrics(g grid) {
	t, ok := findTable(r, g, fabricFields)
	list := place{model.WholeQuilt, -1, model.FieldFabrics}
	r.wrong[list] = !ok
	if !ok {
		return
	}
	r.places[list] = t.spot(t.row+1, model.FieldID)
	for i, row := range t.filled(model.MaxFabrics) {
		f := r.defaults
		f.UsableWidths = slices.Clone(f.UsableWidths)
		about := model.Fault{Part: model.FabricPart, Index: i, Name: r.nameOf(t, row, model.FieldID)}
		readRow(r, t, row, fabricFields, about, &f)
		r.quilt.Fabrics = append(r.quilt.Fabrics, f)
	}
}

func (r *reader) readCuts(g grid) {
	t, ok := findTable(r, g, cutFields)
	list := place{model.WholeQuilt, -1, model.FieldCuts}
	r.wrong[list] = !ok
	if !ok {
		return
	}
	r.places[list] = t.spot(t.row+1, model.FieldName)
	for i, row := range t.filled(model.MaxCuts) {
		var c cutRow
		about := model.Fault{Part: model.CutPart, Index: i, Name: r.nameOf(t, row, model.FieldName)}
		if r.onlyNote(t, row, about) {
			c.Name = about.Name
		} else {
			readRow(r, t, row, cutFields, about, &c)
		}
		r.places[place{model.CutPart, i, model.FieldSize}] = t.spot(row, fieldWidth)
		r.quilt.Cuts = append(r.quilt.Cuts, c.Cut)
	}
}

// onlyNote tells of a row that has neither fabric nor size nor count: a note,
// or a row that was not gone on with.
func (r *reader) onlyNote(t table, row int, about model.Fault) bool {
	needed := []string{model.FieldFabric, fieldWidth, fieldHeight, model.FieldCount}
	for _, f := range needed {
		if t.spot(row, f).said {
			return false
		}
	}
	where := t.spot(row, model.FieldFabric)
	for _, f := range append(needed, model.FieldName, model.FieldSize) {
		r.wrong[place{model.CutPart, about.Index, f}] = true
	}
	r.fault(where, about, model.FieldFabric, say(model.ErrMissing,
		"write the fabric, the width and the count; or, if this row is a note, move it to a column right of the table"))
	return true
}

// checkRules finds the rules that the quilt breaks, and where. Faults that
// only follow from a value that could not be read are left out.
func (r *reader) checkRules() {
	if !r.unitKnown {
		return
	}
	_, err := r.quilt.CutList()
	var faults model.Faults
	errors.As(err, &faults)
	for _, fault := range faults {
		where := place{fault.Part, fault.Index, fault.Field}
		if fault.Part == model.FabricPart && !r.places[where].said && r.places[where.ofAll()].said {
			where = where.ofAll()
			all := *fault
			all.Name, all.Index = "", ofAllFabrics
			fault = &all
		}
		if r.wrong[where] || r.follows(fault) {
			continue
		}
		r.report(r.places[where], fault)
	}
}

func (p place) ofAll() place { p.index = ofAllFabrics; return p }

// follows reports whether a fault is only there because something else could
// not be read: the list of fabrics or a fabric's label, or a side.
func (r *reader) follows(fault *model.Fault) bool {
	if errors.Is(fault.Err, model.ErrUnknown) {
		for i := range r.quilt.Fabrics {
			if r.wrong[place{model.FabricPart, i, model.FieldID}] {
				return true
			}
		}
		return r.wrong[place{model.WholeQuilt, -1, model.FieldFabrics}]
	}
	if fault.Part == model.CutPart && (fault.Field == model.FieldSize || fault.Field == model.FieldHalve || fault.Field == model.FieldGrain) {
		return r.wrong[place{model.CutPart, fault.Index, fieldWidth}] || r.wrong[place{model.CutPart, fault.Index, fieldHeight}]
	}
	return false
}
