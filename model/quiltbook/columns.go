package quiltbook

import (
	"strings"

	"crossgrain/model"
)

// The sheets that are read. Others are the maker's own.
const (
	quiltSheet   = "Quilt"
	fabricsSheet = "Fabrics"
	cutsSheet    = "Cuts"
)

// field is a column of a sheet, or a line of the sheet on the whole quilt: how
// it is told of, and how what stands there is read into a T.
type field[T any] struct {
	heading string
	name    string // the field of the model, that faults are found by
	// needed says what to write where nothing is, in a row that must have it;
	// empty for what may be left out.
	needed string
	// hint stands over the heading, note is what the heading's note says.
	hint, note string
	// width is that of the column, in characters.
	width float64
	// choices are what the drop-down list has; a field that is open takes
	// others too.
	choices []string
	open    bool
	read    func(r *reader, c cell, into *T) error
}

// The fields of lengths that a quilt file has in one.
const (
	fieldWidth  = "width"
	fieldHeight = "height"
)

var (
	yesNo    = []string{"yes", "no"}
	shopCuts = []string{"1/8 yd", "1/4 yd", "1/3 yd", "1/2 yd", "1 yd", "10 cm", "25 cm", "0.5 m"}
)

// quiltFields are the lines of the sheet on the whole quilt. The unit comes
// first: the meaning of every bare number hangs on it.
var quiltFields = []field[model.Quilt]{
	{
		heading: "Unit", name: model.FieldUnit, needed: "write in or cm", hint: "must be written",
		note:    "in (inches) or cm: the unit of every number that stands without one. Choose it before anything else.",
		choices: []string{"in", "cm"}, read: readUnit,
	},
	{
		heading: "Title", name: model.FieldTitle, hint: "no title",
		note: "What the quilt is called.",
		read: func(r *reader, c cell, q *model.Quilt) (err error) {
			q.Title, err = r.text(c)
			return err
		},
	},
	{
		heading: "Ruler", name: model.FieldRuler, hint: "1/8; in cm 0.1",
		note: "Every cut size must sit on this mark of your ruler, so that a slip of the pen is found.",
		read: func(r *reader, c cell, q *model.Quilt) (err error) {
			// A ruler that cannot be read is 0: no size is then said to be off it.
			q.Ruler, err = r.length(c)
			return err
		},
	},
}

// defaultFields are what the sheet on the whole quilt says of all fabrics, and
// a fabric for itself.
var defaultFields = []field[model.Fabric]{
	{
		heading: "Usable widths", name: model.FieldUsableWidths, hint: "40, 42; in cm 102, 107", width: 16,
		note: "The widths between the selvages to plan for: one, or several with commas between them.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.UsableWidths, err = r.widths(c)
			return err
		},
	},
	{
		heading: "Sold by", name: model.FieldSoldBy, hint: "1/8 yd; in cm 10 cm", width: 12,
		note:    "The step that the shop cuts this fabric in, with its unit: yd, m, cm or in. Choose from the list, or write your own.",
		choices: shopCuts, open: true,
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.SoldBy, err = r.shopCut(c)
			return err
		},
	},
	{
		heading: "Straighten", name: model.FieldStraighten, hint: "0", width: 12,
		note: "The length that is lost once when you square up the end of the fabric.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.Straighten, err = r.length(c)
			return err
		},
	},
	{
		heading: "Shrinkage", name: model.FieldShrinkage, hint: "0%", width: 12,
		note: "How much shorter the wash makes it before you cut, with its sign: 2%.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.Shrinkage, err = r.percent(c)
			return err
		},
	},
	{
		heading: "Price", name: model.FieldPrice, hint: "not known", width: 10,
		note: "What a yard costs, or a metre of fabric that is sold in m or cm. A number alone will do.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.Price, err = r.price(c)
			return err
		},
	},
}

// fabricFields are the columns of the fabrics.
var fabricFields = append([]field[model.Fabric]{
	{
		heading: "Label", name: model.FieldID, needed: "write a label such as ink", hint: "a short word, such as ink", width: 13,
		note: "A short word of your own that the sheet Cuts calls the fabric by.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.ID, err = r.text(c)
			return err
		},
	},
	{
		heading: "Name", name: model.FieldName, hint: "what you call it in full", width: 26,
		note: "Printed instead of the label. It may be left blank.",
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.Name, err = r.text(c)
			return err
		},
	},
	{
		heading: "One-way", name: model.FieldOneWay, hint: "has it an up?", width: 11,
		note:    "yes: the print has an up, and no piece of it is turned. Blank is no.",
		choices: yesNo,
		read: func(r *reader, c cell, f *model.Fabric) (err error) {
			f.OneWay, err = r.yes(c)
			return err
		},
	},
}, shortHints(defaultFields, []string{"40, 42", "1/8 yd", "1/2", "2%", "12.50"})...)

// shortHints are the fields with other hints: of a fabric, what to write in
// place of what all fabrics have.
func shortHints(fields []field[model.Fabric], examples []string) []field[model.Fabric] {
	var short []field[model.Fabric]
	for i, f := range fields {
		f.hint = "as in " + examples[i]
		f.note += " Blank: as on the sheet Quilt."
		short = append(short, f)
	}
	return short
}

// cutRow is a row of the cuts: the two sides of a piece may stand in one cell.
type cutRow struct {
	model.Cut
	bothSides bool
}

// cutFields are the columns of the cuts. Width comes before height, which may
// be left out.
var cutFields = []field[cutRow]{
	{
		heading: "Piece", name: model.FieldName, needed: "write a label such as A", hint: "a label, such as A", width: 9,
		note: "The label of the piece, used once in the quilt.",
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Name, err = r.text(c)
			return err
		},
	},
	{
		heading: "Fabric", name: model.FieldFabric, needed: "write the fabric that the piece is cut from", hint: "from the list", width: 13,
		note: "The label of its fabric. The list has those of the sheet Fabrics.",
		read: readFabricOf,
	},
	{
		heading: "Width", name: fieldWidth, needed: "write the size that the blade cuts", hint: "across the fabric", width: 12,
		note: "What the blade cuts, seam allowances and all, from selvage to selvage as the piece stands on the print. Write it as you say it: 2 1/2.",
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Width, row.Height, row.bothSides, err = r.size(c)
			return err
		},
	},
	{
		heading: "Height", name: fieldHeight, hint: "along it; blank: a square", width: 12,
		note: "The same along the selvage. Leave it blank for a square.",
		read: readHeight,
	},
	{
		heading: "Count", name: model.FieldCount, needed: "write how many to cut", hint: "before halving", width: 10,
		note: "How many to cut, before they are halved: 40 squares halved once are a count of 40, and give 80 triangles.",
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Count, err = r.whole(c)
			return err
		},
	},
	{
		heading: "Halve", name: model.FieldHalve, hint: "into triangles", width: 11,
		note:    "once: cut on one diagonal into 2 triangles. twice: a square, cut on both into 4. Blank: not at all.",
		choices: []string{"once", "twice"},
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Halve, err = choice(r.values, c, halvingSpellings, model.ParseHalving)
			return err
		},
	},
	{
		heading: "Use", name: model.FieldUse, hint: "what it is for", width: 26,
		note: "What the piece is for, such as star points. It may be left blank.",
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Use, err = r.text(c)
			return err
		},
	},
	{
		heading: "Turn", name: model.FieldTurn, hint: "may it be turned?", width: 10,
		note:    "no: the piece keeps its stand, though its fabric is not one-way. Blank is yes.",
		choices: yesNo,
		read: func(r *reader, c cell, row *cutRow) error {
			turn, err := r.yes(c)
			row.NoTurn = err == nil && !turn
			return err
		},
	},
	{
		heading: "Grain", name: model.FieldGrain, hint: "of its long side", width: 13,
		note:    "lengthwise: its long side runs along the selvage. crosswise: across the fabric. Such a piece is not turned. Blank: it does not matter.",
		choices: []string{"crosswise", "lengthwise"},
		read: func(r *reader, c cell, row *cutRow) (err error) {
			row.Grain, err = choice(r.values, c, grainSpellings, model.ParseGrain)
			return err
		},
	},
}

func readUnit(r *reader, c cell, q *model.Quilt) error {
	unit, err := choice(r.values, c, unitSpellings, model.ParseUnit)
	if err != nil {
		return err
	}
	r.unitKnown, r.values.unit = true, unit
	r.defaults = model.DefaultFabric(unit)
	q.Unit, q.Ruler = unit, model.DefaultRuler(unit)
	return nil
}

// readFabricOf reads the fabric of a cut: its label or its name, whatever the
// case.
func readFabricOf(r *reader, c cell, row *cutRow) error {
	said, err := r.text(c)
	if err != nil {
		return err
	}
	row.Fabric = said
	for _, f := range r.quilt.Fabrics {
		if f.ID == said {
			return nil
		}
	}
	var found []string
	for _, f := range r.quilt.Fabrics {
		if strings.EqualFold(f.ID, said) || f.Name != "" && strings.EqualFold(f.Name, said) {
			found = append(found, f.ID)
		}
	}
	if len(found) == 1 {
		row.Fabric = found[0]
	}
	return nil
}

func readHeight(r *reader, c cell, row *cutRow) error {
	height, err := r.length(c)
	if err == nil && row.bothSides {
		return say(model.ErrNotTogether, "the width has both sides already: leave the height blank")
	}
	row.Height = height
	return err
}

// headingWords are the fields of the model as a workbook calls them.
var headingWords = func() map[string]string {
	words := make(map[string]string)
	for _, f := range fabricFields {
		words[f.name] = strings.ToLower(f.heading)
	}
	return words
}()
