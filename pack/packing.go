package pack

import (
	"cmp"
	"math"
	"slices"
)

// packing rounds the fit of whole numbers of strips into whole strips of
// layouts. It fixes strips one after another, as long as the fit shows that
// the rest still holds the rest of the demand, and prices layouts for what is
// left as it goes: a dive that never leaves what the relaxation can hold.
type packing struct {
	s     *search
	fit   *fit // over a pool of its own
	n     numbers
	fixed []int // strips fixed, by layout of the pool
	shut  []bool
	left  []int // pieces of each size still to cut
	shake float64
}

// The settings of packing, found by trial.
const (
	shakeStep       = 0.15 // two packings of a leaf on, choices are shaken by so much more
	shakeTurns      = 8    // until they begin anew, from other layouts
	pricingRounds   = 25   // most pricings for one step
	packingTries    = 6    // layouts tried for one step
	packingSteps    = 300  // most steps
	packingScale    = 1 << 34
	roomToSpare     = 1.0005 // theta at which pricing may stop
	packingReleases = 10     // times that strips are taken back
	leastReleased   = 0.3    // of the strips at least, on average
	mostReleased    = 0.9    // and at most
	releasedShake   = 0.5    // by so much choices are shaken then
)

// pack tries to pack the demand into strips, once and then, until so much work
// has been done, again from what it came to. The choice of what to fix next is
// shaken the more the later the try.
func (q *question) pack(n numbers, try int, stop int64) ([]run, error) {
	f, err := newFit(q.s, q.fit.pool.clone(), nil)
	if err != nil {
		return nil, err
	}
	defer f.close()
	if err := f.set(n.floats()); err != nil {
		return nil, err
	}
	p := &packing{s: q.s, fit: f, n: n, left: q.s.in.whole(), shake: shakeStep * float64(try/2%shakeTurns)}
	return p.search(stop)
}

// search dives, and when it is stuck takes some of the strips back and dives
// again from there, until so much work has been done.
func (p *packing) search(stop int64) ([]run, error) {
	for again := 0; ; again++ {
		runs, err := p.dive()
		if err != nil || runs != nil || again == packingReleases || p.s.work() >= stop || p.s.over() {
			return runs, err
		}
		p.shake = max(p.shake, releasedShake)
		if err := p.release(); err != nil {
			return nil, err
		}
	}
}

// release takes back some of the fixed strips, and opens all layouts.
func (p *packing) release() error {
	share := leastReleased + (mostReleased-leastReleased)*p.s.fill.shake.Float64()
	for j, n := range p.fixed {
		back := 0
		for range n {
			if p.s.fill.shake.Float64() < share {
				back++
			}
		}
		if back == 0 && !p.shut[j] {
			continue
		}
		p.shut[j] = false
		if err := p.fix(j, -back); err != nil {
			return err
		}
	}
	return nil
}

func (p *packing) dive() ([]run, error) {
	x, ok, err := p.solve()
	for step := 0; ok && err == nil && step < packingSteps; step++ {
		if err := p.fixWhole(x); err != nil {
			return nil, err
		}
		if !anyLeft(p.left) {
			return p.runs(), nil
		}
		before := slices.Clone(x)
		if x, ok, err = p.fixOne(p.candidates(x)); err != nil || ok {
			continue
		}
		// Nothing can be added. Perhaps other layouts can, now that some are
		// shut.
		x, ok, err = p.solve()
		ok = ok && !slices.Equal(x, before)
	}
	return nil, err
}

// fixWhole fixes what of the strips is whole, and shuts layouts that would now
// make too much of a size.
func (p *packing) fixWhole(x []float64) error {
	pool := p.fit.pool.list
	for j, v := range x {
		more := min(int(math.Floor(v+wholeEnough))-p.fixed[j], timesWhole(&pool[j], p.left))
		if more > 0 {
			if err := p.fix(j, more); err != nil {
				return err
			}
		}
	}
	return p.shutSurplus()
}

// candidates are layouts to have one more strip of, the nearest to whole
// first.
func (p *packing) candidates(x []float64) []int {
	var list []int
	score := map[int]float64{}
	for j, v := range x {
		part := v - float64(p.fixed[j])
		if part > wholeEnough && timesWhole(&p.fit.pool.list[j], p.left) > 0 {
			list = append(list, j)
			score[j] = part + p.shake*p.s.fill.shake.Float64()
		}
	}
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(score[b], score[a]) })
	return list[:min(len(list), packingTries)]
}

// fixOne fixes a strip of the first layout after which the rest still fits.
func (p *packing) fixOne(layouts []int) (x []float64, ok bool, err error) {
	for _, j := range layouts {
		if err := p.fix(j, 1); err != nil {
			return nil, false, err
		}
		if err := p.shutSurplus(); err != nil {
			return nil, false, err
		}
		if x, ok, err = p.solve(); err != nil || ok {
			return x, ok, err
		}
		if err := p.reject(j); err != nil {
			return nil, false, err
		}
	}
	return nil, false, nil
}

func (p *packing) fix(j, n int) error {
	p.fixed[j] += n
	for i, y := range p.fit.pool.list[j].yield {
		p.left[i] -= y * n
	}
	return p.fit.bound(j, limits{p.fixed[j], noLimit})
}

// reject takes back one strip of a layout and shuts it; layouts that make too
// much of nothing any more open again.
func (p *packing) reject(j int) error {
	pool := p.fit.pool.list
	p.fixed[j]--
	for i, y := range pool[j].yield {
		p.left[i] += y
	}
	for k := range p.fixed {
		if k != j && p.shut[k] && timesWhole(&pool[k], p.left) > 0 {
			p.shut[k] = false
			if err := p.fit.bound(k, limits{p.fixed[k], noLimit}); err != nil {
				return err
			}
		}
	}
	return p.close(j)
}

// close shuts a layout: no more strips of it than are fixed.
func (p *packing) close(j int) error {
	p.shut[j] = true
	return p.fit.bound(j, limits{p.fixed[j], p.fixed[j]})
}

func (p *packing) shutSurplus() error {
	for j := range p.fixed {
		if !p.shut[j] && timesWhole(&p.fit.pool.list[j], p.left) == 0 {
			if err := p.close(j); err != nil {
				return err
			}
		}
	}
	return nil
}

// solve prices layouts for what is left, and reports whether the strips still
// hold everything.
func (p *packing) solve() (x []float64, ok bool, err error) {
	for range pricingRounds {
		if p.s.over() {
			break
		}
		r, err := p.fit.solve()
		if err != nil {
			return nil, false, err
		}
		p.grow()
		if r.theta > roomToSpare {
			return slices.Clone(r.x), true, nil
		}
		v := p.fit.prices(r, packingScale)
		found, worth := p.s.pr.upTo(v, p.left, p.fit.used)
		if p.tooMuch(v.worth, worth) {
			return nil, false, nil
		}
		if !p.fit.learn(v, found, worth) {
			return slices.Clone(r.x), r.theta > 1-wholeEnough/1000, nil
		}
	}
	return nil, false, nil
}

// tooMuch reports whether, at such prices, what is left is worth more than the
// strips that are left can be. Strip has the worths of the heights used.
func (p *packing) tooMuch(worth, strip []int64) bool {
	room := 0.0
	for i, k := range p.fit.used {
		room += float64(strip[i]) * float64(p.n.single(k))
	}
	for j, n := range p.fixed {
		if n > 0 { // it takes up strips at least as high as itself
			k, _ := slices.BinarySearch(p.fit.heights, p.fit.pool.list[j].height)
			i, _ := slices.BinarySearch(p.fit.used, k)
			room -= float64(strip[i]) * float64(n)
		}
	}
	need := 0.0
	for i, n := range p.left {
		need += float64(worth[i]) * float64(n)
	}
	return room < need*(1-violated)
}

// grow makes room for the layouts that the fit has.
func (p *packing) grow() {
	for len(p.fixed) < p.fit.entered {
		p.fixed, p.shut = append(p.fixed, 0), append(p.shut, false)
	}
}

func (p *packing) runs() []run {
	var runs []run
	for j, n := range p.fixed {
		if n > 0 {
			runs = append(runs, run{p.fit.pool.list[j], n})
		}
	}
	return runs
}
