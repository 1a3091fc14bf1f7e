package quiltfile

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/design"
)

// quiltKeys are the keys of a cutting list. The unit comes first: the meaning
// of every bare number hangs on it. The other keys are read by functions that
// need no table, save those of fabrics and cuts, which come last.
var quiltKeys = []key[design.Design]{
	{name: model.FieldUnit, required: true, read: text(readUnit)},
	textKey(model.FieldTitle, func(d *design.Design) *string { return &d.Title }),
	{name: model.FieldRuler, read: text(readRuler)},
	{name: fieldFabricDefaults, read: readFabricDefaults},
	{name: model.FieldFabrics, required: true, read: readFabrics},
	{name: model.FieldCuts, required: true, read: readCuts},
}

const fieldFabricDefaults = "fabric_defaults"

// defaultKeys are the keys of fabric_defaults, which each fabric has too.
var defaultKeys = []key[model.Fabric]{
	{name: model.FieldUsableWidths, read: readWidths},
	{name: model.FieldSoldBy, read: text(func(_ *reader, s string, f *model.Fabric) (err error) {
		f.SoldBy, err = model.ParseShopCut(s)
		return err
	})},
	{name: model.FieldStraighten, read: text(func(r *reader, s string, f *model.Fabric) (err error) {
		f.Straighten, err = model.ParseLength(s, r.design.Unit)
		return err
	})},
	{name: model.FieldShrinkage, read: text(func(_ *reader, s string, f *model.Fabric) (err error) {
		f.Shrinkage, err = model.ParsePercent(s)
		return err
	})},
	{name: model.FieldPrice, read: text(func(_ *reader, s string, f *model.Fabric) (err error) {
		f.Price, err = model.ParsePrice(s)
		return err
	})},
}

// fabricKeys are the keys of one fabric.
var fabricKeys = append([]key[model.Fabric]{
	{name: model.FieldName, read: text(func(_ *reader, s string, f *model.Fabric) error { f.Name = s; return nil })},
	{name: model.FieldOneWay, read: text(func(_ *reader, s string, f *model.Fabric) (err error) {
		f.OneWay, err = yesOrNo(s)
		return err
	})},
}, defaultKeys...)

// cutKeys are the keys of one cut.
var cutKeys = []key[model.Cut]{
	{name: model.FieldName, required: true, read: text(func(_ *reader, s string, c *model.Cut) error { c.Name = s; return nil })},
	{name: model.FieldFabric, required: true, read: text(func(_ *reader, s string, c *model.Cut) error { c.Fabric = s; return nil })},
	{name: model.FieldSize, required: true, read: readSize},
	{name: model.FieldCount, required: true, read: text(readCount)},
	{name: model.FieldHalve, read: text(func(_ *reader, s string, c *model.Cut) (err error) {
		c.Halve, err = model.ParseHalving(s)
		return err
	})},
	{name: model.FieldUse, read: text(func(_ *reader, s string, c *model.Cut) error { c.Use = s; return nil })},
	{name: model.FieldTurn, read: text(func(_ *reader, s string, c *model.Cut) error {
		turn, err := yesOrNo(s)
		c.NoTurn = err == nil && !turn
		return err
	})},
	{name: model.FieldGrain, read: text(func(_ *reader, s string, c *model.Cut) (err error) {
		c.Grain, err = model.ParseGrain(s)
		return err
	})},
}

func readUnit(r *reader, s string, d *design.Design) error {
	unit, err := model.ParseUnit(s)
	if err != nil {
		return err
	}
	r.unitKnown = true
	r.defaults = model.DefaultFabric(unit)
	rules := block.DefaultRules(unit)
	d.Unit, d.Ruler, d.Seam = unit, rules.Ruler, rules.Seam
	return nil
}

func readRuler(_ *reader, s string, d *design.Design) (err error) {
	// A ruler that cannot be read is 0: no size is then said to be off it.
	d.Ruler, err = model.ParseLength(s, d.Unit)
	return err
}

func readFabricDefaults(r *reader, n *yaml.Node, _ model.Fault, _ *design.Design) error {
	at := model.Fault{Part: model.FabricPart, Index: ofAllFabrics}
	readKeys(r, n, at, defaultKeys, &r.defaults)
	return nil
}

func readFabrics(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	err := r.eachPair(n, func(k, v *yaml.Node) {
		fabric := r.defaults
		fabric.ID = strings.TrimSpace(k.Value)
		fabric.UsableWidths = slices.Clone(fabric.UsableWidths)
		at := model.Fault{Part: model.FabricPart, Index: len(d.Fabrics), Name: fabric.ID}
		r.nodes[place{part: at.Part, index: at.Index}] = v
		r.nodes[place{part: at.Part, index: at.Index, field: model.FieldID}] = k
		if v.Kind == yaml.ScalarNode && !isNull(v) {
			r.wrong[place{part: at.Part, index: at.Index}] = true
			r.report(v, located(at, hinted(plainNode(v, yaml.MappingNode), fabricForm(fabric.ID, v.Value))))
		} else {
			readKeys(r, v, at, fabricKeys, &fabric)
		}
		d.Fabrics = append(d.Fabrics, fabric)
	})
	if n.Kind == yaml.SequenceNode && len(n.Content) > 0 {
		return hinted(err, fabricForm(n.Content[0].Value, "Kelp green"))
	}
	return err
}

// simpleText is a text that is short, and needs no quotes in a quilt file.
var simpleText = regexp.MustCompile(`^[\pL\pN][\pL\pN _-]{0,39}$`)

// fabricForm shows how a fabric is written; nothing where it cannot be shown.
func fabricForm(label, name string) string {
	if !simpleText.MatchString(label) || !simpleText.MatchString(name) {
		return ""
	}
	return fmt.Sprintf("write it as in %s: {name: %s}", label, name)
}

func readSize(r *reader, n *yaml.Node, _ model.Fault, c *model.Cut) error {
	s, err := scalarText(n)
	if err != nil {
		hint := "write it as in 5 x 7"
		if n.Kind == yaml.SequenceNode && len(n.Content) == 2 &&
			simpleText.MatchString(n.Content[0].Value) && simpleText.MatchString(n.Content[1].Value) {
			hint = fmt.Sprintf("write %s x %s", n.Content[0].Value, n.Content[1].Value)
		}
		return hinted(err, hint)
	}
	c.Width, c.Height, err = model.ParseSize(s, r.design.Unit)
	return err
}

func readCuts(r *reader, n *yaml.Node, _ model.Fault, d *design.Design) error {
	if isNull(n) {
		return nil // the rules say that there are none
	}
	cuts, err := items(n)
	if err != nil {
		return hinted(err, `begin each cut with "- "`)
	}
	// One more than the rules allow is enough for them to see.
	for i, entry := range cuts[:min(len(cuts), model.MaxCuts+1)] {
		var c model.Cut
		at := model.Fault{Part: model.CutPart, Index: i, Name: peek(entry, model.FieldName)}
		r.nodes[place{part: at.Part, index: at.Index}] = entry
		readKeys(r, entry, at, cutKeys, &c)
		d.Cuts = append(d.Cuts, c)
	}
	return nil
}

// readWidths reads the list of usable widths. A width that cannot be read is
// reported and counts as 0, which no piece is measured against.
func readWidths(r *reader, n *yaml.Node, at model.Fault, f *model.Fabric) error {
	f.UsableWidths = nil
	if isNull(n) {
		return nil // the rules say that there are none
	}
	widths, err := items(n)
	if err != nil {
		return err
	}
	for i, entry := range widths[:min(len(widths), model.MaxUsableWidths+1)] {
		where := place{part: at.Part, index: at.Index, field: model.FieldUsableWidths, item: i + 1}
		r.nodes[where] = entry
		var width model.Length
		s, err := scalarText(entry)
		if err == nil {
			width, err = model.ParseLength(s, r.design.Unit)
		}
		if err != nil {
			r.failItem(entry, at, where, err)
		}
		f.UsableWidths = append(f.UsableWidths, width)
	}
	return nil
}

func readCount(_ *reader, s string, c *model.Cut) (err error) {
	c.Count, err = WholeNumber(s)
	return err
}

// WholeNumber reads a whole number. One that is too large for an int is the
// largest int, which no rule allows either. The error is a [*model.ValueError]
// of the kind [ErrNotANumber].
func WholeNumber(s string) (int, error) {
	n, err := strconv.Atoi(s)
	switch {
	case s == "":
		return 0, say(ErrNotANumber, "nothing is written: write it in digits, as in 96")
	case errors.Is(err, strconv.ErrRange) && strings.HasPrefix(s, "-"):
		return math.MinInt, nil
	case errors.Is(err, strconv.ErrRange):
		return math.MaxInt, nil
	case err != nil:
		return 0, &model.ValueError{Value: s, Err: ErrNotANumber, Hint: "write it in digits, as in 96"}
	}
	return n, nil
}

// yesOrNo reads the words for yes and no that YAML knows.
func yesOrNo(s string) (bool, error) {
	switch strings.ToLower(s) {
	case "yes", "true", "on":
		return true, nil
	case "no", "false", "off":
		return false, nil
	}
	return false, &model.ValueError{Value: s, Err: ErrNotYesOrNo, Hint: "write yes or no"}
}
