package quiltfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
	"go.yaml.in/yaml/v4/plugin/loaderlimits"

	"crossgrain/model"
	"crossgrain/model/design"
)

// maxDepth is how deep lists and groups of keys may be nested. A quilt file
// has six levels.
const maxDepth = 20

var errTooDeep = errors.New("nested too deep")

// parseYAML gives the one value of a file. Nodes keep every scalar as it is
// written, and an alias as an alias, so that nothing grows here.
func parseYAML(name string, data []byte) (*yaml.Node, Errors) {
	limits := loaderlimits.New(loaderlimits.DepthFunc(func(depth int, _ *yaml.DepthContext) error {
		if depth > maxDepth {
			return errTooDeep
		}
		return nil
	}))
	loader, err := yaml.NewLoader(bytes.NewReader(data), yaml.WithPlugin(limits))
	if err != nil {
		return nil, fileError(name, 0, 0, fmt.Errorf("start reading YAML: %w", err))
	}
	var document, second yaml.Node
	switch err := loader.Load(&document); {
	case errors.Is(err, io.EOF):
		return nil, fileError(name, 0, 0, emptyFile())
	case err != nil:
		return nil, syntaxError(name, data, err)
	case len(document.Content) != 1 || isNull(document.Content[0]):
		return nil, fileError(name, 0, 0, emptyFile())
	}
	switch err := loader.Load(&second); {
	case err == nil:
		return nil, fileError(name, second.Line, second.Column, say(ErrTwoQuilts, "keep one quilt in a file"))
	case !errors.Is(err, io.EOF):
		return nil, syntaxError(name, data, err)
	}
	return document.Content[0], nil
}

func emptyFile() error { return say(ErrEmpty, "write title, unit, fabrics and cuts") }

// syntaxHints say what to do about the messages of the YAML library that are
// met in practice, each known by some of its words.
var syntaxHints = []struct{ words, wrong, hint string }{
	{"mapping values are not allowed", "a colon where no key ends", `put a text that has ": " in quotes, and check the indent`},
	{"cannot start any token", "a character that starts no value", "indent with spaces, not tabs, and put texts that start with @, ` or % in quotes"},
	{"did not find expected ',' or ']'", "a list without its end", "close it with ]"},
	{"did not find expected ',' or '}'", "a group of keys without its end", "close it with } and put commas between the keys"},
	{"end of stream", "a quote without its end", "close the quote"},
	{"did not find expected key", "a line that does not fit those above", "check its indent"},
	{"did not find expected '-'", "a line that does not fit the list above", "check its indent, and start each entry with -"},
	{"could not find expected ':'", "a key without its colon", `write it as "key: value", with a space after the colon`},
	{"expected <document start>", "text after the end of the value", "remove it, or check the brackets"},
	{"unknown anchor", "an alias of YAML", "write the value out"},
	{"scanning an alias", "an alias of YAML", "put a text that starts with * in quotes"},
	{"scanning an anchor", "an anchor of YAML", "put a text that starts with & in quotes"},
}

// lineHint says what to do about slips that show in the line of a syntax error
// or in the one before; nothing where none does. Lines count from 1.
func lineHint(data []byte, line int) string {
	lines := strings.Split(string(data), "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	text, before := strings.TrimSpace(lines[line-1]), ""
	for i := line - 2; i >= 0 && before == ""; i-- {
		before = strings.TrimSpace(lines[i])
	}
	first, _ := utf8.DecodeRuneInString(text)
	word, _, _ := strings.Cut(before, " ")
	switch {
	case strings.ContainsAny(text, "“”„"):
		return "write straight quotes in place of curly ones"
	case strings.ContainsRune("•·–—−", first) && len(text) > 0:
		return `begin each cut with a plain "- ", not with ` + string(first)
	case strings.HasPrefix(text, "{") && strings.HasPrefix(before, "{"):
		return `begin each cut with "- "`
	case strings.Contains(text, ":") && slices.ContainsFunc(topKeys(true), func(k key[design.Design]) bool { return k.name == word }):
		return "write a colon behind " + word + " in the line before"
	}
	return ""
}

// syntaxError turns an error of the YAML library into ours, at its place.
func syntaxError(name string, data []byte, err error) Errors {
	load := (*yaml.LoadError)(nil)
	if many := (*yaml.LoadErrors)(nil); errors.As(err, &many) && len(many.Errors) > 0 {
		load = many.Errors[0]
	} else if !errors.As(err, &load) {
		return fileError(name, 0, 0, say(ErrSyntax, "check quotes, brackets and indents"))
	}
	at := load.Mark
	if strings.HasPrefix(load.Message, "did not find expected ',' or") && load.ContextMark.Line > 0 {
		at = load.ContextMark // where the bracket was opened
	}
	if strings.Contains(load.Message, errTooDeep.Error()) {
		return fileError(name, at.Line, at.Column, say(ErrTooDeep, fmt.Sprintf("a quilt file has at most %d levels", maxDepth)))
	}
	text := load.ContextMsg + ": " + load.Message
	for _, h := range syntaxHints {
		if strings.Contains(text, h.words) {
			if hint := lineHint(data, at.Line); hint != "" {
				h.hint = hint
			}
			return fileError(name, at.Line, at.Column, say(fmt.Errorf("%w: %s", ErrSyntax, h.wrong), h.hint))
		}
	}
	return fileError(name, at.Line, at.Column, &model.ValueError{
		Value: load.Message, Err: ErrSyntax, Hint: "check quotes, brackets and indents"})
}
