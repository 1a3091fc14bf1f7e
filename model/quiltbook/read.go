package quiltbook

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
)

// extensions are the names of spreadsheets: of workbooks that are read, and of
// others, of which the error says what to do.
var extensions = []string{".xlsx", ".xlsm", ".xltx", ".xltm", ".xls", ".xlsb", ".ods", ".ots", ".csv", ".tsv"}

// Claims reports whether a file is to be read as a workbook, by its name or by
// how it begins.
func Claims(name string, data []byte) bool {
	return slices.Contains(extensions, strings.ToLower(filepath.Ext(name))) ||
		bytes.HasPrefix(data, zipMagic) || bytes.HasPrefix(data, compoundMagic)
}

// Read reads the quilt in the workbook at path; see [Parse].
func Read(path string) (model.Quilt, error) {
	data, err := quiltfile.Load(path, MaxFile)
	if err != nil {
		return model.Quilt{}, err
	}
	return Parse(path, data)
}

// Parse reads a quilt from a workbook; name is what its errors call it. The
// error is [quiltfile.Errors]: one if the file is no workbook, otherwise every
// fault of it, each with its sheet and cell.
func Parse(name string, data []byte) (model.Quilt, error) {
	b, err := openWorkbook(data)
	if err != nil {
		return model.Quilt{}, quiltfile.Errors{{File: name, Err: err}}
	}
	r := &reader{
		file: name, book: b, values: values{since1904: b.since1904},
		quilt:    model.Quilt{Ruler: model.DefaultRuler(model.Inches)},
		defaults: model.DefaultFabric(model.Inches),
		places:   make(map[place]spot), wrong: make(map[place]bool),
	}
	r.readSheets()
	r.checkRules()
	if len(r.errs) > 0 {
		return model.Quilt{}, r.sorted()
	}
	return r.quilt, nil
}

// reader gathers a quilt and the faults of its workbook.
type reader struct {
	values
	file      string
	book      *workbook
	quilt     model.Quilt
	defaults  model.Fabric // what a fabric has that says nothing more
	unitKnown bool
	places    map[place]spot // where each value stands, or would
	wrong     map[place]bool // the values that could not be read
	errs      []placed
}

// place is a value in a quilt: of which part, which of them, and the field.
type place struct {
	part  model.Part
	index int
	field string
}

// ofAllFabrics is the index of what the sheet on the whole quilt says of all
// fabrics.
const ofAllFabrics = -1

// spot is a cell of one of the sheets; without a column it is the sheet.
type spot struct {
	sheet string
	at    at
	said  bool // whether anything stands there
}

// placed is a fault at its place.
type placed struct {
	spot spot
	err  error
}

// fault notes what is wrong with a field of a part.
func (r *reader) fault(s spot, about model.Fault, field string, err error) {
	r.wrong[place{about.Part, about.Index, field}] = true
	if !r.unitKnown && errors.Is(err, model.ErrTooFine) {
		return // it may sit on the ruler of the other unit
	}
	about.Field, about.Err = field, err
	r.report(s, &about)
}

// report notes an error at a place. Faults call fields as the headings do.
func (r *reader) report(s spot, err error) {
	if f, ok := errors.AsType[*model.Fault](err); ok {
		worded := *f
		if word := headingWords[f.Field]; word != "" {
			worded.Field = word
		}
		if f.Part == model.CutPart && f.Field == model.FieldName {
			worded.Field = strings.ToLower(cutFields[0].heading)
		}
		err = &worded
	}
	r.errs = append(r.errs, placed{s, err})
}

// readSheets reads the three sheets, the units and fabrics before what hangs
// on them.
func (r *reader) readSheets() {
	if g, ok := r.grid(quiltSheet); ok {
		r.readQuilt(g)
	}
	if g, ok := r.grid(fabricsSheet); ok {
		r.readFabrics(g)
	} else {
		r.wrong[place{model.WholeQuilt, -1, model.FieldFabrics}] = true
	}
	if g, ok := r.grid(cutsSheet); ok {
		r.readCuts(g)
	} else {
		r.wrong[place{model.WholeQuilt, -1, model.FieldCuts}] = true
	}
}

// grid reads the cells of a sheet. It is not ok if there is no such sheet, or
// if it cannot be read to its end.
func (r *reader) grid(name string) (grid, bool) {
	part, err := r.book.sheet(name)
	if err != nil {
		r.errs = append(r.errs, placed{spot{}, r.otherBook(err)})
		return grid{}, false
	}
	g, far, err := r.book.grid(part)
	switch {
	case err != nil:
		r.errs = append(r.errs, placed{spot{sheet: part.name}, err})
	case far != nil:
		r.errs = append(r.errs, placed{spot{sheet: part.name, at: far.at}, far.err})
	}
	return g, err == nil && far == nil
}

// otherBook gives the error for a missing sheet a better hint where the
// workbook is one that was written to be read by people.
func (r *reader) otherBook(err error) error {
	_, noBuy := r.book.sheet("Buy")
	_, noCutting := r.book.sheet("Cutting")
	if v, ok := errors.AsType[*model.ValueError](err); ok && noBuy == nil && noCutting == nil {
		v.Hint = "this workbook is a result: name the one that you filled in"
	}
	return err
}

// readQuilt reads the sheet on the whole quilt, where each value stands right
// of its label.
func (r *reader) readQuilt(g grid) {
	labels := findLabels(g)
	quilt := model.Fault{Part: model.WholeQuilt, Index: -1}
	readLabelled(r, g, labels, quiltFields, quilt, &r.quilt)
	all := model.Fault{Part: model.FabricPart, Index: ofAllFabrics}
	readLabelled(r, g, labels, defaultFields, all, &r.defaults)
	r.slips(g, labels)
}

// findLabels finds the labels of the sheet on the whole quilt: the first text
// of each row.
func findLabels(g grid) map[string]at {
	labels := make(map[string]at)
	for _, n := range g.rowNumbers() {
		column := maxColumn + 1
		for c := range g.rows[n] {
			column = min(column, c)
		}
		if word := headingOf(g.cell(at{n, column})); word != "" {
			if _, again := labels[word]; !again {
				labels[word] = at{n, column}
			}
		}
	}
	return labels
}

// headingOf is the text of a cell as headings are compared.
func headingOf(c cell) string {
	if c.kind != text {
		return ""
	}
	return strings.Join(strings.Fields(strings.ToLower(strings.TrimRight(c.value, " :*"))), " ")
}

func readLabelled[T any](r *reader, g grid, labels map[string]at, fields []field[T], about model.Fault, into *T) {
	for _, f := range fields {
		where := spot{sheet: g.name}
		label, there := labels[strings.ToLower(f.heading)]
		if there {
			where.at = at{label.row, label.column + 1}
		}
		c := g.cell(where.at)
		where.said = there && c.kind != blank
		r.places[place{about.Part, about.Index, f.name}] = where
		switch {
		case where.said:
			if err := f.read(r, c, into); err != nil {
				r.fault(where, about, f.name, err)
			}
		case f.needed != "" && !there:
			hint := fmt.Sprintf("write it in the first column, and right of it what it is: %s", f.needed)
			r.fault(where, about, f.name, &model.ValueError{Value: f.heading, Err: ErrNoHeading, Hint: hint})
		case f.needed != "":
			r.fault(where, about, f.name, say(model.ErrMissing, f.needed))
		}
	}
}

// slips tells of labels that are likely meant for others, with a value beside
// them that would be passed over.
func (r *reader) slips(g grid, labels map[string]at) {
	var absent []string
	for _, f := range quiltFields {
		absent = append(absent, f.heading)
	}
	for _, f := range defaultFields {
		absent = append(absent, f.heading)
	}
	absent = slices.DeleteFunc(absent, func(heading string) bool {
		_, there := labels[strings.ToLower(heading)]
		return there
	})
	for word, label := range labels {
		if near := nearHeading(word, absent); near != "" && g.cell(at{label.row, label.column + 1}).kind != blank {
			r.errs = append(r.errs, placed{spot{sheet: g.name, at: label}, slip(g.cell(label), near)})
		}
	}
}

// nearHeading is the heading that a word is likely a slip of.
func nearHeading(word string, headings []string) string {
	var low []string
	for _, h := range headings {
		low = append(low, strings.ReplaceAll(strings.ToLower(h), "-", "_"))
	}
	if near := quiltfile.Nearest(word, low); near != "" {
		return headings[slices.Index(low, near)]
	}
	return ""
}

func slip(c cell, meant string) error {
	return &model.ValueError{Value: c.value, Err: ErrNoHeading, Hint: fmt.Sprintf("did you mean %s?", meant)}
}

// sorted are the faults in the order of the sheets and cells, each said once.
func (r *reader) sorted() quiltfile.Errors {
	order := []string{"", quiltSheet, fabricsSheet, cutsSheet}
	rank := func(p placed) [3]int {
		sheet := slices.IndexFunc(order, func(s string) bool { return strings.EqualFold(s, p.spot.sheet) })
		return [3]int{sheet, p.spot.at.row, p.spot.at.column}
	}
	slices.SortStableFunc(r.errs, func(a, b placed) int {
		x, y := rank(a), rank(b)
		return slices.Compare(x[:], y[:])
	})
	var errs quiltfile.Errors
	said := make(map[string]bool)
	for _, p := range r.errs {
		e := &quiltfile.Error{File: r.file, Cell: p.spot.String(), Err: p.err}
		if text := e.Error(); !said[text] {
			said[text] = true
			errs = append(errs, e)
		}
	}
	return errs
}

// String is the cell as a formula calls it, Cuts!C7, or the sheet alone.
func (s spot) String() string {
	name := s.sheet
	if strings.ContainsAny(name, " '!") {
		name = "'" + strings.ReplaceAll(name, "'", "''") + "'"
	}
	if s.at.column == 0 || s.at.row == 0 {
		return name
	}
	return name + "!" + s.at.String()
}
