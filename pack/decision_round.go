package pack

// round rounds the relaxation of a box at random, once and as often as asked for again, and
// reports whether that gives a plan as short as asked for. In a box of a list for a length,
// whole numbers of strips from many a height up, which add up to the length, leave the rest
// just what it needs, so that such roundings find plans that those of the relaxation of all
// do not.
func (d *decision) round(x []float64) (short bool, err error) {
	for range 1 + d.again {
		if d.length == 0 || d.length >= d.s.length {
			return false, nil
		}
		if err := d.roundOnce(x); err != nil || d.s.length <= d.length {
			return err == nil, err
		}
	}
	return false, nil
}

// roundOnce does so once, and leaves the rest to the beam.
func (d *decision) roundOnce(x []float64) error {
	s := d.s
	strips := make([]float64, len(d.active))
	for i, j := range d.active {
		if d.list[j].cut == nil {
			strips[i] = x[j]
		}
	}
	demand := s.in.whole()
	kept := s.roundedStrips(strips, func(i int) column { return s.in.column(&d.list[d.active[i]]) }, demand)
	if anyLeft(demand) {
		return s.planByBeam(kept, demand)
	}
	s.offer(kept)
	return nil
}
