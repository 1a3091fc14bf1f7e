package pack

import (
	"math"

	"crossgrain/pack/glpk"
)

// The program of a master problem stays open between solves. Its rows are the
// sizes; its columns are what is missing of every size, then layouts of the
// pool, those that matter.

// ask sets the demand, and makes the program if there is none.
func (m *master) ask(demand []int) error {
	var err error
	if m.lp == nil {
		if err = m.open(); err != nil {
			return err
		}
	}
	for i, d := range demand {
		err = orElse(err, func() error { return m.lp.SetRow(i, float64(d), math.Inf(1)) })
	}
	return err
}

func (m *master) open() error {
	lp, err := glpk.Open()
	if err != nil {
		return err
	}
	m.lp, m.rota = lp, rota{first: len(m.in.sizes)}
	for range m.in.sizes {
		err = orElse(err, func() error { return lp.AddRow(0, math.Inf(1), nil, nil) })
	}
	for i := range m.in.sizes {
		err = orElse(err, func() error {
			return lp.AddColumn(float64(m.penalty), 0, math.Inf(1), []int32{int32(i)}, []float64{1})
		})
	}
	return err
}

func (m *master) close() {
	if m.lp != nil {
		m.lp.Close()
		m.lp = nil
	}
}

// solveKnown solves the program over all layouts of the pool; changed says that
// the demand has.
func (m *master) solveKnown(changed bool) (glpk.Solution, error) {
	for len(m.rota.place) < len(m.pool.list) {
		if err := m.enter(m.rota.add(m.pool.list[len(m.rota.place)].yield)); err != nil {
			return glpk.Solution{}, err
		}
	}
	for {
		sol, err := m.lp.Solve(changed)
		m.effort += programEffort(m.lp, sol.Iterations)
		if err == nil && sol.Status != glpk.Optimal {
			err = glpk.ErrNumerical // it has a solution: all is missing
		}
		if err != nil {
			return sol, err
		}
		changed = false
		m.effort += int64(len(m.rota.place)-len(m.rota.active)) * int64(len(sol.RowDual)) / 2
		list := m.rota.called(m.gain(sol.RowDual), gainCall)
		for _, g := range list {
			if err := m.enter(g.index); err != nil {
				return sol, err
			}
		}
		if len(list) == 0 {
			return sol, nil
		}
	}
}

// A layout comes back if it gains more than gainCall, in units of length, and
// may leave below gainRest. Found by trial.
const (
	gainCall = 1e-6
	gainRest = -1e-4
)

// gain is what one more strip of a layout of the pool is worth beyond its height.
func (m *master) gain(worth []float64) func(i int) float64 {
	return func(i int) float64 { return m.rota.gain(i, float64(m.pool.list[i].height), worth) }
}

// gain is what one more strip of a layout is worth beyond its height.
func (c *column) gain(worth []float64) float64 {
	gain := -float64(c.height)
	for i, y := range c.yield {
		if y > 0 {
			gain += float64(y) * worth[i]
		}
	}
	return gain
}

// enter puts a layout of the pool into the program.
func (m *master) enter(i int) error {
	c := &m.pool.list[i]
	rows, values := c.yields()
	m.rota.enter(i)
	return m.lp.AddColumn(float64(c.height), 0, math.Inf(1), rows, values)
}

// rest takes out the layouts that gain least if there are too many.
func (m *master) rest(worth []float64) error {
	return m.rota.rest(m.lp, m.gain(worth), gainRest)
}

// strips are the strips of each layout of the pool.
func (m *master) strips(x []float64) []float64 {
	strips := make([]float64, len(m.pool.list))
	for _, i := range m.rota.active {
		strips[i] = x[m.rota.column(i)]
	}
	return strips
}
