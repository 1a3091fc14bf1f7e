package main

import (
	"slices"
)

// compactModel states the shared plans of a problem as an integer program.
type compactModel struct {
	name  string
	write func(stated) *program
}

var compactModels = []compactModel{{"arc-flow", arcFlow}, {"level", level}}

// findModels are the models of a list of names.
func findModels(list string) []compactModel {
	var models []compactModel
	for _, name := range listed(list) {
		for _, m := range compactModels {
			if m.name == name {
				models = append(models, m)
			}
		}
	}
	return models
}

// mostVariables is the largest program that is written. The level model of
// thousands of pieces is far beyond what any solver takes.
const mostVariables = 400_000

// stated is a problem on the coarsest grids that its sizes share, one along
// the strips and one across, which only helps the solvers.
type stated struct {
	width  int
	demand []int  // by item
	lies   []lies // how items may lie, highest first
	height int    // the grid across, in the instance's unit
}

// lies is one way that an item may lie in a strip. A turnable item has two,
// with one demand.
type lies struct{ item, along, across int }

// state lists how the items may lie across the width.
func state(in instance) stated {
	var p stated
	along, across := 0, 0
	for i, s := range in.sizes() {
		p.demand = append(p.demand, s.count)
		if s.along <= in.Width {
			p.lies = append(p.lies, lies{i, s.along, s.across})
		}
		if s.turnable && s.across <= in.Width && s.across != s.along {
			p.lies = append(p.lies, lies{i, s.across, s.along})
		}
	}
	for _, l := range p.lies {
		along, across = gcd(along, l.along), gcd(across, l.across)
	}
	for i := range p.lies {
		p.lies[i].along /= along
		p.lies[i].across /= across
	}
	p.width, p.height = in.Width/along, across
	slices.SortStableFunc(p.lies, func(a, b lies) int { return b.across - a.across })
	return p
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// variableCount is about how many variables a model takes: for each strip that
// may be opened, or each place in a strip of a height, the ways to lie.
func (m compactModel) variableCount(p stated) int {
	n := 0
	for j, l := range p.lies {
		if m.name == "level" {
			n += p.demand[l.item] * (len(p.lies) - j + 1)
		} else {
			n += (len(p.lies) - j) * p.width
		}
	}
	return n
}
