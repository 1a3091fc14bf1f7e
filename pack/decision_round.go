package pack

// round rounds the relaxation of a box at random, leaves the rest to the beam, and reports
// whether that gives a plan as short as asked for. In a box of a list for a length, whole
// numbers of strips from many a height up, which add up to the length, leave the rest just
// what it needs, so that such roundings find plans that those of the relaxation of all
// do not.
func (d *decision) round(x []float64) (short bool, err error) {
	s := d.s
	if d.length == 0 || d.length >= s.length {
		return false, nil
	}
	strips := make([]float64, len(d.active))
	for i, j := range d.active {
		if d.list[j].cut == nil {
			strips[i] = x[j]
		}
	}
	demand := s.in.whole()
	kept := s.roundedStrips(strips, func(i int) column { return s.in.column(&d.list[d.active[i]]) }, demand)
	if anyLeft(demand) {
		err = s.planByBeam(kept, demand)
	} else {
		s.offer(kept)
	}
	return s.length <= d.length, err
}
