package quiltfile

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// The keys below read a value of a common kind into a field of a T.

func textKey[T any](name string, field func(*T) *string) key[T] {
	return key[T]{name: name, read: text(func(_ *reader, s string, into *T) error {
		*field(into) = s
		return nil
	})}
}

func lengthKey[T any](name string, field func(*T) *model.Length) key[T] {
	return key[T]{name: name, read: text(func(r *reader, s string, into *T) (err error) {
		*field(into), err = model.ParseLength(s, r.design.Unit)
		return err
	})}
}

func wholeKey[T any](name string, field func(*T) *int) key[T] {
	return wordKey(name, WholeNumber, field)
}

func yesKey[T any](name string, field func(*T) *bool) key[T] { return wordKey(name, yesOrNo, field) }

// wordKey reads one of the words that parse knows.
func wordKey[T, W any](name string, parse func(string) (W, error), field func(*T) *W) key[T] {
	return key[T]{name: name, read: text(func(_ *reader, s string, into *T) error {
		word, err := parse(s)
		if err == nil {
			*field(into) = word
		}
		return err
	})}
}

// sizeKey reads width x height; one number is a square.
func sizeKey[T any](name string, field func(*T) (width, height *model.Length)) key[T] {
	return key[T]{name: name, read: func(r *reader, n *yaml.Node, _ model.Fault, into *T) error {
		width, height := field(into)
		return r.size(n, width, height)
	}}
}

// size reads width x height; one number is a square.
func (r *reader) size(n *yaml.Node, width, height *model.Length) error {
	s, err := scalarText(n)
	if err != nil {
		hint := "write it as in 5 x 7"
		if n.Kind == yaml.SequenceNode && len(n.Content) == 2 &&
			simpleText.MatchString(n.Content[0].Value) && simpleText.MatchString(n.Content[1].Value) {
			hint = fmt.Sprintf("write %s x %s", n.Content[0].Value, n.Content[1].Value)
		}
		return hinted(err, hint)
	}
	*width, *height, err = model.ParseSize(s, r.design.Unit)
	return err
}

func easeKey[T any](field func(*T) *block.Ease) key[T] {
	return key[T]{name: block.KeyEase, read: text(func(r *reader, s string, into *T) error {
		ease, err := block.ParseEase(s, r.design.Unit)
		if err != nil {
			return &model.ValueError{Value: s, Err: ErrEase, Hint: "write none, trade, or a length such as 1/4"}
		}
		*field(into) = ease
		return nil
	})}
}

func methodKey[T any](known []block.Method, field func(*T) *block.Method) key[T] {
	parse := func(text string) (block.Method, error) { return block.ParseMethod(text, known) }
	return wordKey(block.KeyMethod, parse, field)
}

// sideKey reads the side of a square, one number.
func sideKey[T any](name string, set func(into *T, side model.Length)) key[T] {
	return key[T]{name: name, read: text(func(r *reader, s string, into *T) error {
		side, err := model.ParseLength(s, r.design.Unit)
		if err != nil {
			if _, _, sized := model.ParseSize(s, r.design.Unit); sized == nil {
				return &model.ValueError{Value: s, Err: model.ErrNotALength, Hint: "this unit is square: write one number, its side"}
			}
			return err
		}
		set(into, side)
		return nil
	})}
}

// needed is a key that must be there.
func needed[T any](k key[T]) key[T] {
	k.required = true
	return k
}

// fabricKeysOf are two keys, of which a file has one: fabrics for a list of
// them, fabric for one that stands for parts of them.
func fabricKeysOf[T any](parts int, field func(*T) *[]string) []key[T] {
	one := key[T]{name: block.KeyFabric, read: func(r *reader, n *yaml.Node, at model.Fault, into *T) error {
		label, err := scalarText(n)
		if err != nil {
			return hinted(err, "write one fabric, or fabrics: and a list")
		}
		for range parts {
			*field(into) = append(*field(into), label)
		}
		list := at.Path.At(block.KeyFabrics)
		r.short[list] = true
		r.nodes[place{part: model.DesignPart, path: list}] = n
		return nil
	}}
	many := key[T]{name: block.KeyFabrics, read: func(r *reader, n *yaml.Node, at model.Fault, into *T) error {
		list := at.Path.At(block.KeyFabrics)
		if *field(into) != nil {
			return say(model.ErrNotTogether, "write fabric: or fabrics:, not both")
		}
		labels, err := r.labels(n, list)
		*field(into) = labels
		return hinted(err, "write a list, as in [ink, foam], or fabric: for one")
	}}
	return []key[T]{one, many}
}

// labels reads a list of labels at a place. One that cannot be read is empty.
func (r *reader) labels(n *yaml.Node, at model.Path) ([]string, error) {
	entries, err := items(n)
	if err != nil {
		return nil, err
	}
	labels := []string{}
	for i, entry := range entries {
		r.note(entry, at.Entry(i))
		label, err := scalarText(entry)
		if err != nil {
			r.failAt(entry, at.Entry(i), err)
		}
		labels = append(labels, label)
	}
	return labels, nil
}

// labelRows reads a list of lists of labels at a place.
func (r *reader) labelRows(n *yaml.Node, at model.Path, form string) ([][]string, error) {
	rows, err := items(n)
	if err != nil {
		return nil, hinted(err, "write the rows as in "+form)
	}
	labels := [][]string{}
	for i, row := range rows {
		r.note(row, at.Entry(i))
		line, err := r.labels(row, at.Entry(i))
		if err != nil {
			r.failAt(row, at.Entry(i), hinted(err, "write each row in brackets, as in "+form))
		}
		labels = append(labels, line)
	}
	return labels, nil
}

// note keeps where a value of the design stands.
func (r *reader) note(n *yaml.Node, at model.Path) {
	r.nodes[place{part: model.DesignPart, path: at}] = n
}

// failAt notes what is wrong with a value of the design, at a node.
func (r *reader) failAt(n *yaml.Node, at model.Path, err error) {
	r.failItem(n, model.Fault{Index: -1}, place{part: model.DesignPart, path: at}, err)
}

// group reads a group of keys of the design.
func group[T any](r *reader, n *yaml.Node, at model.Path, keys []key[T], into *T) {
	r.note(n, at)
	readKeys(r, n, model.Fault{Part: model.DesignPart, Index: -1, Path: at}, keys, into)
}

// forms show how a group of keys is written, by its key or that of the list or
// group that it is in.
var forms = map[string]string{
	block.KeyBlocks:    "{finished: 4, rows: [[wing, wing], [wing, wing]]}",
	block.KeyCentre:    "{size: 2, fabric: ink}",
	block.KeyRounds:    "{kind: logs around, width: 1, fabric: ink}",
	block.KeyCorners:   "{corner: upper left, size: 2, fabric: ink}",
	setting.KeySetting: "{rows: 4, columns: 3}",
	setting.KeySides:   "{fabric: ink}",
	setting.KeyCorners: "{fabric: ink}",
	setting.KeySashing: "{width: 1, fabric: ink}",
	setting.KeyBorders: "{width: 2, fabric: ink}",
	setting.KeyBinding: "{fabric: ink}",
	setting.KeyBacking: "{fabric: ink}",
	setting.KeyBatting: "{overage: 3}, or {}",
	setting.KeySizes:   "{rows: 4, columns: 3}",
}

// formOf shows how the group at a place is written; nothing where it is not
// known.
func formOf(at model.Path) string {
	steps := at.Steps()
	for i := len(steps) - 1; i >= 0 && i >= len(steps)-2; i-- {
		if form := forms[steps[i]]; form != "" {
			return "write it as in " + form
		}
	}
	return ""
}

// eachLabel calls do for each label and value of a group at a place.
func (r *reader) eachLabel(n *yaml.Node, at model.Path, do func(label string, v *yaml.Node, at model.Path)) error {
	return r.eachPair(n, func(k, v *yaml.Node) {
		label := strings.TrimSpace(k.Value)
		in := at.At(label)
		r.note(v, in)
		if err := checkLabel(label); err != nil {
			r.failAt(k, in, err)
		}
		do(label, v, in)
	})
}

// turned is what may stand behind a label: how far it is turned clockwise.
var turned = regexp.MustCompile(`^(.*\S)\s+([0-9]+)°?$`)

// maxLabel is how long a label of a design may be, in characters.
const maxLabel = 60

// checkLabel checks that a label can be printed, and told from what may stand
// behind it.
func checkLabel(label string) error {
	m := turned.FindStringSubmatch(label)
	switch {
	case strings.ContainsFunc(label, func(r rune) bool { return !unicode.IsGraphic(r) || r == utf8.RuneError }):
		return &model.ValueError{Value: label, Err: model.ErrNotPrintable, Hint: "leave out line breaks, tabs and control characters"}
	case utf8.RuneCountInString(label) > maxLabel:
		return &model.ValueError{Value: label, Err: model.ErrTooManyChars, Hint: fmt.Sprintf("write at most %d characters", maxLabel)}
	case strings.Contains(label, "/") || m != nil && turns[m[2]] != nil:
		return &model.ValueError{Value: label, Err: ErrLabel, Hint: "write one without a slash, and without a turn such as 90 at its end"}
	}
	return nil
}

func turnOf(t block.Turn) *block.Turn { return &t }

// turns are the turns by their degrees.
var turns = map[string]*block.Turn{"0": turnOf(0), "90": turnOf(1), "180": turnOf(2), "270": turnOf(3)}

// splitTurn takes a label and its turn apart: goose 90. A number that is part
// of a label that is known stays there.
func splitTurn(s string, known func(label string) bool) (label string, turn block.Turn, err error) {
	m := turned.FindStringSubmatch(s)
	if m == nil || known(s) {
		return s, 0, nil
	}
	if t := turns[m[2]]; t != nil {
		return m[1], *t, nil
	}
	if known(m[1]) {
		return m[1], 0, &model.ValueError{Value: s, Err: model.ErrOutOfRange, Hint: "turn it by 90, 180 or 270"}
	}
	return s, 0, nil
}

// kind is one of the kinds that a group may be of: the key that names it, the
// other keys that such a group has, and how it is read.
type kind[U any] struct {
	name string
	keys []string
	read func(r *reader, n *yaml.Node, at model.Path) U
}

// newKind is a kind whose first key names it. Its keys are read into a T, of
// which done makes a U.
func newKind[T, U any](done func(T) U, keys ...key[T]) kind[U] {
	k := kind[U]{name: keys[0].name}
	for _, key := range keys {
		k.keys = append(k.keys, key.name)
	}
	k.read = func(r *reader, n *yaml.Node, at model.Path) U {
		var into T
		group(r, n, at, keys, &into)
		return done(into)
	}
	return k
}

// readKind reads a group of one of the kinds. It is not ok if anything in it
// could not be read.
func readKind[U any](r *reader, n *yaml.Node, at model.Path, kinds []kind[U]) (u U, ok bool) {
	before := len(r.errs)
	if k, err := kindOf(n, kinds); err != nil {
		r.failAt(n, at, err)
	} else {
		u = k.read(r, n, at)
	}
	return u, len(r.errs) == before
}

// kindOf finds the key that names a group's kind.
func kindOf[U any](n *yaml.Node, kinds []kind[U]) (found kind[U], err error) {
	if err := plainNode(n, yaml.MappingNode); err != nil {
		return found, hinted(err, fmt.Sprintf("write what it is, as in {%s: 3}", kinds[0].name))
	}
	names := make([]string, len(kinds))
	for i, k := range kinds {
		names[i] = k.name
	}
	var near string
	for i := 0; i+1 < len(n.Content); i += 2 {
		word := n.Content[i].Value
		for _, k := range kinds {
			if word == k.name && found.name != "" && word != found.name {
				return found, &model.ValueError{Value: word, Err: model.ErrNotTogether, Hint: "it is " + found.name + " already: write one of them"}
			}
			if word == k.name {
				found = k
			}
		}
		if name := Nearest(word, names); near == "" && name != "" {
			near = name
			err = &model.ValueError{Value: word, Err: ErrUnknownKey, Hint: "did you mean " + name + "?"}
		}
	}
	switch {
	case found.name != "":
		return found, nil
	case err != nil:
		return found, err
	}
	return found, say(model.ErrMissing, "write what it is, with one of the keys "+list(names))
}
