package main

import "slices"

// arcFlow is the arc-flow model of two-stage cutting of Macedo, Alves and
// Valério de Carvalho (Arc-flow model for the two-dimensional guillotine
// cutting stock problem, Computers & Operations Research 37, 2010), which
// carries the one of Valério de Carvalho (Exact solution of bin-packing
// problems using column generation and branch-and-bound, Annals of Operations
// Research 86, 1999) over to strips. A strip is a path from 0 to the width: an
// arc of a piece leads on by its width, an arc of loss to the next place.
//
//	min  Σ h z(h)                               over the heights h
//	     flow in = flow out                     at each place of each height
//	     flow from 0 = flow to the width = z(h) for each height
//	     Σ arcs of the item ≥ demand            for each item
//	     z and the arcs of pieces ≥ 0 whole
//
// On a roll the first stage, which puts strips on a sheet, is no more than the
// counts z. An item that may be turned has arcs of both ways to lie, with one
// demand.
func arcFlow(s stated) *program {
	var p program
	demand := make([][]term, len(s.demand))
	for i, l := range s.lies {
		if i > 0 && s.lies[i-1].across == l.across {
			continue // the height is done
		}
		strips := p.add(variable{whole: true})
		p.objective = append(p.objective, term{l.across, strips})
		g := newStripGraph(s, s.lies[i:])
		flow := make([][]term, s.width+1) // by place: what comes in less what goes out
		flow[0] = []term{{1, strips}}
		flow[s.width] = []term{{-1, strips}}
		carry := func(from, to int, whole bool) int {
			x := p.add(variable{whole: whole})
			flow[from] = append(flow[from], term{-1, x})
			flow[to] = append(flow[to], term{1, x})
			return x
		}
		for _, a := range g.arcs {
			x := carry(a.from, a.to, true)
			demand[a.item] = append(demand[a.item], term{1, x})
		}
		// Loss need not be declared whole: it is where all else is. None
		// leaves 0, where a strip of loss alone would begin.
		for k := 2; k < len(g.places); k++ {
			carry(g.places[k-1], g.places[k], false)
		}
		for _, place := range g.places {
			p.require(flow[place], "=", 0)
		}
	}
	for item, terms := range demand {
		p.require(terms, ">=", s.demand[item])
	}
	return &p
}

// stripGraph has the places that pieces can reach, in order, from 0 to the
// width, and the arcs of pieces between them.
type stripGraph struct {
	places []int
	arcs   []arc
}

type arc struct{ from, to, item int }

// newStripGraph draws only what Valério de Carvalho's reductions leave: in a
// path the pieces come widest first, each way to lie no more often than the
// item is asked for.
func newStripGraph(s stated, ways []lies) stripGraph {
	ways = slices.Clone(ways)
	slices.SortStableFunc(ways, func(a, b lies) int { return b.along - a.along })
	var g stripGraph
	reached := make([]bool, s.width+1)
	reached[0] = true
	for _, l := range ways {
		// copies[x] is the least number of pieces of this way to lie that end
		// in x; 0 where a path without one does.
		copies := make([]int, s.width+1)
		for x := 0; x+l.along <= s.width; x++ {
			next := x + l.along
			if !reached[x] || copies[x] == s.demand[l.item] {
				continue
			}
			g.arcs = append(g.arcs, arc{x, next, l.item})
			if !reached[next] {
				reached[next] = true
				copies[next] = copies[x] + 1
			}
		}
	}
	reached[s.width] = true
	for x, yes := range reached {
		if yes {
			g.places = append(g.places, x)
		}
	}
	return g
}
