package pack

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"crossgrain/pack/glpk"
)

// drawRegionAround draws a region around numbers.
func drawRegionAround(t *rapid.T, n numbers) region {
	r := region{least: make(numbers, len(n)), most: make(numbers, len(n)), branched: -1}
	for k, v := range n {
		r.least[k] = max(0, v-rapid.IntRange(0, 2).Draw(t, "fewer"))
		r.most[k] = v + rapid.IntRange(0, 2).Draw(t, "more")
	}
	return r
}

// In one region after another, the joint program finds room for all of the demand,
// or as much of it as any numbers in the region have, and as much surplus as they
// have alone, or enough of it; and the numbers that it suggests are in the region
// and have the room that it says. It refutes a region just if there is no room, by
// less than programs in floating point tell.
func TestJointProgramFindsTheMostRoom(t *testing.T) {
	tight, surplus := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := drawSearch(t, 12)
		defer s.end()
		for range 4 {
			n := drawNumbers(t, s, 6)
			r := drawRegionAround(t, n)
			if !r.tighten() {
				t.Fatalf("%v does not hold %v", r, n)
			}
			length := n.length(s.pr.heights()) + rapid.IntRange(0, 3).Draw(t, "longer")
			a, err := s.joint.solve(r, length)
			if err != nil {
				t.Fatal(err)
			}
			room, err := s.fit.theta(n)
			if err != nil {
				t.Fatal(err)
			}
			if a.room < min(room, 1)-1e-6 {
				t.Errorf("%v up to %d: room for %v; %v alone has %v", r, length, a.room, n, room)
			}
			s.checkJoined(t, a, r, length)
			alone, err := s.joint.solve(region{least: n, most: n, branched: -1}, length)
			if err != nil {
				t.Fatal(err)
			}
			if a.room < min(alone.room, roomEnough)-1e-6 {
				t.Errorf("%v up to %d: room for %v; %v alone has %v", r, length, a.room, n, alone.room)
			}
			if min(alone.room, room) < 1-1e-6 && math.Abs(alone.room-room) > 1e-6 {
				t.Errorf("%v up to %d: room for %v; it is %v", n, length, alone.room, room)
			}
			switch closed := a.refutes(s.in, s.pr.heights(), r, length); {
			case closed && room > 1+1e-9:
				t.Errorf("%v up to %d is refuted; %v has room for %v", r, length, n, room)
			case !closed && a.room < 1-1e-8:
				t.Errorf("%v up to %d is not refuted; there is room for %v", r, length, a.room)
			}
			surplus += b2i(alone.room > 1.0001)
			tight += b2i(a.room < 1)
		}
	})
	if tight < 20 {
		t.Errorf("only %d regions have no room for the demand", tight)
	}
	if surplus < 20 {
		t.Errorf("only %d numbers have room for a surplus", surplus)
	}
}

// checkJoined checks the numbers of a solved joint program.
func (s *search) checkJoined(t *rapid.T, a joined, r region, length int) {
	const near = 1e-6
	sum, below := 0.0, 0
	for k, h := range s.pr.heights() {
		sum += a.n[k] * float64(h-below)
		below = h
		if a.n[k] < float64(r.least[k])-near || a.n[k] > float64(r.most[k])+near {
			t.Errorf("%v is not in %v", a.n, r)
		}
	}
	if sum > float64(length)+near {
		t.Errorf("%v is %v long, at most %d is allowed", a.n, sum, length)
	}
	if room, err := s.fit.thetaOf(a.n); err != nil || room < min(a.room, 1)-near {
		t.Errorf("%v is said to have room for %v, has room for %v (%v)", a.n, a.room, room, err)
	}
}

// Columns come and go as their gains say, and those in the program keep their
// places.
func TestRota(t *testing.T) {
	lp, err := glpk.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer lp.Close()
	if err := lp.AddRow(0, math.Inf(1), nil, nil); err != nil {
		t.Fatal(err)
	}
	gains := []float64{-5, 3, -9, 0, -7, -1, 2, -8, -6, -4}
	gain := func(i int) float64 { return gains[i] }
	r := rota{}
	for range gains {
		i := r.add(nil)
		if err := lp.AddColumn(0, 0, 1, []int32{0}, []float64{float64(i + 1)}); err != nil {
			t.Fatal(err)
		}
		r.enter(i)
	}
	if err := r.rest(lp, gain, -0.5); err != nil {
		t.Fatal(err)
	}
	if got := len(r.active); got != keptPerRow || lp.Columns() != got {
		t.Fatalf("%d columns are active, %d in the program, want %d", got, lp.Columns(), keptPerRow)
	}
	for at, i := range r.active {
		if r.column(i) != at || gain(i) < -1 {
			t.Errorf("column %d, which gains %v, is active at %d and said to be at %d", i, gain(i), at, r.column(i))
		}
	}
	gains[2], gains[7] = 1, 4
	list := r.called(gain, 0)
	if len(list) != 2 || list[0].index != 7 || list[1].index != 2 {
		t.Errorf("%v are called, want 7 and then 2", list)
	}
}
