package pack

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/model"
)

// Every plan that the beam builds holds the demand, in strips that fit the cloth,
// and is shorter than it was told to be.
func TestBeamPlansHoldTheDemand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 30)
		defer s.end()
		demand := drawDemand(t, s.in)
		if !anyLeft(demand) {
			return
		}
		stop := s.seeded + 1
		runs := s.beam.build(demand, stop)
		for runs != nil {
			length, _ := total(runs)
			left := slices.Clone(demand)
			for _, r := range runs {
				checkFits(t, s.in, &r.col)
				take(left, &r.col, r.count)
			}
			if anyLeft(left) || length >= stop {
				t.Fatalf("%v, %d long, leaves %v of %v; a plan shorter than %d was asked for", runs, length, left, demand, stop)
			}
			stop = length
			runs = s.beam.build(demand, stop)
		}
	})
}

// checkFits holds a layout against the width and its height.
func checkFits(t *rapid.T, in *instance, c *column) {
	along := 0
	for _, s := range c.stretches {
		along += s.count * s.along
		tall := 0
		for _, p := range s.parts {
			tall += p.count * in.options[p.option].across
			if in.options[p.option].along > s.along {
				t.Fatalf("%v: a piece is longer than its stretch", c)
			}
		}
		if tall > c.height {
			t.Fatalf("%v: a stack is higher than the strip", c)
		}
	}
	if along > in.width {
		t.Fatalf("%v: longer than the width %d", c, in.width)
	}
}

// In nested plans, the beam beats as many fillings one by one. Invented pieces.
func TestBeamSparesCloth(t *testing.T) {
	var items []Item
	for i, w := range []int{4, 5, 7, 9, 11, 13} {
		items = append(items, Item{Along: model.Length(w), Across: model.Length(3 + i%3), Count: 47 - i, Turnable: i%2 == 0})
	}
	s, err := beginSearch(30, items, Nested)
	if err != nil {
		t.Fatal(err)
	}
	defer s.end()
	const builds = 8
	byFilling, byBeam := 2*s.length, 2*s.length
	for range builds {
		if runs := s.beam.build(s.in.whole(), byBeam); runs != nil {
			byBeam, _ = total(runs)
		}
		for range beamWidth * beamFillings {
			if runs := s.fill.pass(s.in.whole(), byFilling); runs != nil {
				byFilling, _ = total(runs)
			}
		}
	}
	if byBeam >= byFilling {
		t.Errorf("the beam's plan is %d long, one filled strip by strip %d, at a bound of %d", byBeam, byFilling, s.lower)
	}
}
