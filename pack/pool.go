package pack

import (
	"maps"
	"slices"
)

// pool is a set of layouts in the order in which they became known.
type pool struct {
	list  []column
	known map[string]bool // keys of the list
}

// add puts a layout in unless one like it is there.
func (p *pool) add(c column) bool {
	k := c.key()
	if p.known[k] {
		return false
	}
	if p.known == nil {
		p.known = map[string]bool{}
	}
	p.known[k] = true
	p.list = append(p.list, c)
	return true
}

// addRuns puts the layouts of a plan in.
func (p *pool) addRuns(runs []run) {
	for _, r := range runs {
		p.add(r.col)
	}
}

func (p *pool) clone() *pool { return &pool{slices.Clone(p.list), maps.Clone(p.known)} }
