package pack

import "slices"

// nestedLister lists stacks. Most stacks are of no use in a layout that must be
// worth nearly as much as its strip can be: what the rest of its width can be
// worth at most tells what a stack must be.
type nestedLister struct {
	p        *nestedPricer
	limit    []int
	promises []promise
	list     []offering
	parts    []part
	made     []int
	worth    []int64 // of the stack at hand, by each promise
	steps    int64
	full     bool // gave up
}

// promise is what stacks and strips are worth at most at one set of prices.
type promise struct {
	worth []int64   // of a piece of each size
	most  [][]int64 // most[l][h]: of a stack no higher than h in a stretch of the l-th length
	strip stretchTable
	need  []int64 // the least worth of a stack in a stretch of each length
}

// stepsPerStack bounds the steps for each stack; found by trial.
const stepsPerStack = 1000

func (p *nestedPricer) lister(limit []int, worths [][]int64, tallest int) lister {
	g := &nestedLister{p: p, limit: limit, made: make([]int, len(limit)), worth: make([]int64, len(worths))}
	for _, worth := range worths {
		p.evaluate(worth)
		p.stacks(limit, tallest, p.in.width)
		r := promise{
			worth: worth,
			strip: newStretchTable(p.in.width, len(p.lengths)),
			need:  make([]int64, len(p.lengths)),
		}
		for l := range p.lengths {
			r.most = append(r.most, slices.Clone(p.most[l][:tallest+1]))
		}
		g.promises = append(g.promises, r)
	}
	return g
}

// offers are stacks no higher than top. Others may yet stand on each that is
// worth too little by itself.
func (g *nestedLister) offers(top int, least []int64, most int) ([]offering, bool) {
	p, width := g.p, g.p.in.width
	for v := range g.promises {
		r := &g.promises[v]
		p.steps += r.strip.fill(p.lengths, r.most, width, top)
		if r.strip.best[width] < least[v] {
			return nil, true
		}
		for l, length := range p.lengths {
			r.need[l] = least[v] - r.strip.best[max(0, width-length)]
		}
	}
	g.list, g.full, g.steps = nil, false, 0
	g.grow(0, top, most, offering{})
	p.steps += g.steps
	return g.list, !g.full
}

// grow lists the stacks that are made of one and of more options, from one on.
func (g *nestedLister) grow(from, top, most int, o offering) {
	for i := from; i < len(g.p.in.options) && !g.full; i++ {
		opt := g.p.in.options[i]
		if o.tall+opt.across > top {
			return // options stand in ascending order of height
		}
		if g.made[opt.size] >= g.limit[opt.size] {
			continue
		}
		next := offering{along: max(o.along, opt.along), tall: o.tall + opt.across}
		g.put(i, 1)
		if at, _ := slices.BinarySearch(g.p.lengths, next.along); g.promising(at, top-next.tall) {
			if g.reaches(at, 0) {
				next.parts = mergeParts(g.parts)
				g.list = append(g.list, next)
			}
			g.full = len(g.list) > most || g.steps > int64(most)*stepsPerStack
			g.grow(i, top, most, next)
		}
		g.put(i, -1)
	}
}

// put puts a piece on the stack, or takes the last one off.
func (g *nestedLister) put(option, n int) {
	size := g.p.in.options[option].size
	g.made[size] += n
	for v := range g.promises {
		g.worth[v] += int64(n) * g.promises[v].worth[size]
	}
	if n > 0 {
		g.parts = append(g.parts, part{option, 1})
	} else {
		g.parts = g.parts[:len(g.parts)-1]
	}
}

// promising reports whether the stack at hand, of the l-th length, can be worth
// enough with more in so much room, in a stretch of its length or of a greater one.
func (g *nestedLister) promising(l, room int) bool {
	for ; l < len(g.p.lengths) && g.p.lengths[l] <= g.p.in.width; l++ {
		g.steps += 2
		if g.reaches(l, room) {
			return true
		}
	}
	return false
}

// reaches reports whether the stack and the best in so much room are worth enough
// in a stretch of the l-th length.
func (g *nestedLister) reaches(l, room int) bool {
	for v := range g.promises {
		if r := &g.promises[v]; g.worth[v]+r.most[l][room] < r.need[l] {
			return false
		}
	}
	return true
}
