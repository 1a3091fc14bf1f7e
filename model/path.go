package model

import (
	"fmt"
	"strconv"
	"strings"
)

// Path is the place of a value in a quilt file: the keys and labels that lead
// to it, and for an entry of a list its number, counted from 1:
// blocks/harbour/rows/2 is the second row of the block harbour. The zero value
// is the quilt as a whole. Paths can be compared and be keys of a map.
type Path struct {
	steps string // each step behind a pathMark, which no text of a quilt may have
}

const pathMark = "\x00"

// PathOf is the path with these steps.
func PathOf(steps ...string) Path { return Path{}.At(steps...) }

// At is the place of a value further in.
func (p Path) At(steps ...string) Path {
	for _, step := range steps {
		p.steps += pathMark + step
	}
	return p
}

// Entry is the place of an entry of a list, which is counted from 0.
func (p Path) Entry(i int) Path { return p.At(strconv.Itoa(i + 1)) }

// Up is the place around p. The quilt as a whole has none around it.
func (p Path) Up() Path { return Path{p.steps[:max(strings.LastIndex(p.steps, pathMark), 0)]} }

// IsZero reports whether p is the quilt as a whole.
func (p Path) IsZero() bool { return p.steps == "" }

// Steps are the keys, labels and numbers of the path.
func (p Path) Steps() []string {
	if p.IsZero() {
		return nil
	}
	return strings.Split(p.steps, pathMark)[1:]
}

// String is the path with slashes between its steps.
func (p Path) String() string { return strings.Join(p.Steps(), "/") }

// entries are the keys of groups and lists whose entries a message calls by
// the group's singular and their label or number.
var entries = map[string]string{
	"blocks": "block", "units": "unit", "rows": "row", "rounds": "round", "colourways": "colourway",
	"borders": "border", "sizes": "size", "layout": "layout row", "fabrics": "fabric",
	"between": "row between", "columns": "column", "heights": "height", "corners": "corner", "cutouts": "cutout",
}

// inRows are what stands in a row of a group or list.
var inRows = map[string]string{"rows": "unit", "layout": "block", "between": "block", "fabrics": "fabric"}

// Words is the path as a message says it: block "harbour": row 2: unit 3.
func (p Path) Words() string {
	var words []string
	steps := p.Steps()
	for i := 0; i < len(steps); i++ {
		one, group := entries[steps[i]]
		switch {
		case !group || i+1 == len(steps):
			words = append(words, steps[i])
			continue
		case i+2 < len(steps) && isNumber(steps[i+1]) && isNumber(steps[i+2]) && inRows[steps[i]] != "":
			row := one
			if steps[i] == "fabrics" {
				row = "fabrics row"
			}
			words = append(words, row+" "+steps[i+1], inRows[steps[i]]+" "+steps[i+2])
			i++
		case isNumber(steps[i+1]):
			words = append(words, one+" "+steps[i+1])
		default:
			words = append(words, fmt.Sprintf("%s %q", one, steps[i+1]))
		}
		i++
	}
	return strings.Join(words, ": ")
}

func isNumber(s string) bool { _, err := strconv.Atoi(s); return err == nil }
