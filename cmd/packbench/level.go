package main

// level is the level-packing model of Lodi, Martello and Vigo (Models and
// bounds for two-dimensional level packing problems, Journal of Combinatorial
// Optimization 8, 2004), in its form for several pieces of one size. The ways
// to lie are in order of height. Every piece may open a strip; the strip is as
// high as that piece and takes further pieces of its way to lie and of those
// after it:
//
//	min  Σₖ hₖ yₖ
//	     Σₖ yₖ + Σₖ xⱼₖ  = demand       for each item; over its ways j to lie
//	     Σⱼ wⱼ xⱼₖ ≤ (W − wₖ) yₖ        for each strip k
//	     yₖ ≥ yₖ₊₁                      for strips opened by one way: order only
//	     yₖ ∈ {0, 1}, xⱼₖ ≥ 0 whole
//
// We depart from it in one thing: an item that may be turned has two ways to
// lie, with one demand.
func level(s stated) *program {
	var p program
	demand := make([][]term, len(s.demand))
	for k, opener := range s.lies {
		before := -1
		for range s.demand[opener.item] {
			y := p.add(variable{whole: true, most: 1})
			p.objective = append(p.objective, term{opener.across, y})
			demand[opener.item] = append(demand[opener.item], term{1, y})
			if before >= 0 {
				p.require([]term{{1, before}, {-1, y}}, ">=", 0)
			}
			before = y
			room := []term{{opener.along - s.width, y}}
			for _, l := range s.lies[k:] {
				most := min((s.width-opener.along)/l.along, s.demand[l.item])
				if most == 0 {
					continue
				}
				x := p.add(variable{whole: true, most: most})
				demand[l.item] = append(demand[l.item], term{1, x})
				room = append(room, term{l.along, x})
			}
			if len(room) > 1 {
				p.require(room, "<=", 0)
			}
		}
	}
	for item, terms := range demand {
		p.require(terms, "=", s.demand[item])
	}
	return &p
}
