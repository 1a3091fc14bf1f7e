package quiltfile

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"

	"crossgrain/model"
)

// scalarText is the text of a single value as it is written, without the
// spaces around it. An empty value is an empty text.
func scalarText(n *yaml.Node) (string, error) {
	if err := plainNode(n, yaml.ScalarNode); err != nil {
		return "", err
	}
	if isNull(n) {
		return "", nil
	}
	return strings.TrimSpace(n.Value), nil
}

// isNull reports whether a value is left empty, or written as ~ or null.
func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null" && n.Style&yaml.TaggedStyle == 0
}

// kinds are the kinds of nodes as a message calls them, and what to do if
// one is wanted.
var kinds = map[yaml.Kind]struct{ name, hint string }{
	yaml.ScalarNode:   {"a single value", "write one value"},
	yaml.SequenceNode: {"a list", "write a list, as in [40, 42]"},
	yaml.MappingNode:  {"a group of keys", "write keys with values, as in {name: A}"},
}

// plainNode checks that a node is of a kind, and neither an alias nor tagged.
func plainNode(n *yaml.Node, want yaml.Kind) error {
	switch {
	case n.Kind == yaml.AliasNode:
		return &model.ValueError{Value: "*" + n.Value, Err: ErrAlias, Hint: "write the value out"}
	case n.Style&yaml.TaggedStyle != 0:
		return &model.ValueError{Value: n.Tag, Err: ErrTag, Hint: "leave it out"}
	case n.Kind != want:
		return wrongKind(n, want, kinds[want].hint)
	}
	return nil
}

// wrongKind is the error for a node of another kind than is wanted.
func wrongKind(n *yaml.Node, want yaml.Kind, hint string) error {
	return say(fmt.Errorf("%w: %s where %s belongs", ErrWrongKind, kinds[n.Kind].name, kinds[want].name), hint)
}

// hinted gives an error of the wrong kind a better hint.
func hinted(err error, hint string) error {
	var v *model.ValueError
	if hint != "" && errors.As(err, &v) && errors.Is(err, ErrWrongKind) {
		return say(v.Err, hint)
	}
	return err
}

// items are the values of a list.
func items(n *yaml.Node) ([]*yaml.Node, error) {
	if err := plainNode(n, yaml.SequenceNode); err != nil {
		return nil, err
	}
	return n.Content, nil
}

// pairs gives the values of a group of keys by key. An empty value is a group
// without keys. Keys that are not among the names, or there twice, are
// reported and left out; meant has the names that they are likely slips of.
func (r *reader) pairs(n *yaml.Node, names []string) (values map[string]*yaml.Node, meant map[string]bool, err error) {
	values, meant = make(map[string]*yaml.Node), make(map[string]bool)
	err = r.eachPair(n, func(k, v *yaml.Node) {
		for _, name := range names {
			if k.Value == name {
				values[name] = v
				return
			}
		}
		name, err := unknownKey(k, v, names)
		meant[name] = true
		r.report(k, err)
	})
	return values, meant, err
}

// unknownKey is the error for a key that is not among the names, and the name
// that it is likely a slip of, if there is one.
func unknownKey(k, v *yaml.Node, names []string) (meant string, err error) {
	hint := "remove it, or write one of " + list(names)
	if name, text := unparted(k.Value, names); isNull(v) && name != "" {
		meant, hint = name, fmt.Sprintf("write a colon and a space behind the key, as in %s: %s", name, text)
	} else if name := Nearest(k.Value, names); name != "" {
		meant, hint = name, "did you mean "+name+"?"
	} else if isNull(v) {
		// {use: red, white} is a key "white" without a value.
		hint = "put a text that has a comma in quotes, and write a point for decimals, as in 12.5"
	}
	return meant, &model.ValueError{Value: k.Value, Err: ErrUnknownKey, Hint: hint}
}

// unparted takes a key and its value apart where the colon or the space
// behind it is missing: name A, count:7. The name is empty if there is none.
func unparted(text string, names []string) (name, value string) {
	i := strings.IndexAny(text, ": ")
	if i < 1 || !slices.Contains(names, text[:i]) {
		return "", ""
	}
	value = strings.Trim(text[i:], ": ")
	if !simpleText.MatchString(value) {
		value = "…"
	}
	return text[:i], value
}

// eachPair calls do for each key and value of a group of keys. It reports and
// leaves out keys that are no text or are there twice.
func (r *reader) eachPair(n *yaml.Node, do func(k, v *yaml.Node)) error {
	if isNull(n) {
		return nil
	}
	if err := plainNode(n, yaml.MappingNode); err != nil {
		return err
	}
	first := make(map[string]int)
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		if err := plainNode(k, yaml.ScalarNode); err != nil {
			r.report(k, fmt.Errorf("key: %w", err))
			continue
		}
		if line, again := first[k.Value]; again {
			r.report(k, &model.ValueError{
				Value: k.Value, Err: ErrDuplicateKey, Hint: fmt.Sprintf("remove it here or in line %d", line)})
			continue
		}
		first[k.Value] = k.Line
		do(k, n.Content[i+1])
	}
	return nil
}

// Nearest is the name that a word is likely a slip of: at most a third of the
// name's letters, or one letter, away. It is empty if there is none.
func Nearest(word string, names []string) string {
	const longest = 40
	word = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(word), "-", "_"))
	if len(word) > longest {
		return ""
	}
	best, least := "", longest
	for _, name := range names {
		most := max(len(name)/3, 1)
		if len(word) > len(name)+most || len(word) < len(name)-most {
			continue // the letters too many or too few are more already
		}
		if d := editDistance(word, name); d < least && d <= most {
			best, least = name, d
		}
	}
	return best
}

// editDistance is the number of letters to insert, remove, replace or swap
// with their neighbour to make b of a (the optimal string alignment distance).
func editDistance(a, b string) int {
	x, y := []rune(a), []rune(b)
	// Rows i-2, i-1 and i of the table of distances between prefixes.
	before, above, row := make([]int, len(y)+1), make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			replace := above[j-1]
			if x[i-1] != y[j-1] {
				replace++
			}
			row[j] = min(replace, above[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(y)]
}
