package pack

import (
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// kept reports whether numbers keep the plane, in whole numbers of any size.
func (p *plane) kept(n numbers) bool {
	sum := new(big.Int)
	for k, a := range p.step {
		sum.Add(sum, new(big.Int).Mul(big.NewInt(a), big.NewInt(int64(n[k]))))
	}
	return sum.Cmp(big.NewInt(p.least)) >= 0
}

// allNumbers lists all numbers of so many heights that never rise, up to most.
func allNumbers(heights, most int) []numbers {
	if heights == 0 {
		return []numbers{{}}
	}
	var list []numbers
	for first := range most + 1 {
		for _, rest := range allNumbers(heights-1, first) {
			list = append(list, append(numbers{first}, rest...))
		}
	}
	return list
}

// drawPlane draws a plane with steps and a least up to most.
func drawPlane(t *rapid.T, heights int, most int64) *plane {
	step := rapid.SliceOfN(rapid.Int64Range(0, most), heights, heights).Draw(t, "step")
	return newPlane(step, rapid.Int64Range(1, most).Draw(t, "least"))
}

// A plane that is scaled down is no stronger than before, and one that need
// not be stays as it is.
func TestNewPlaneOnlyWeakens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bits := rapid.IntRange(1, 58).Draw(t, "bits")
		step := rapid.SliceOfN(rapid.Int64Range(0, 1<<bits), 3, 3).Draw(t, "step")
		least := rapid.Int64Range(1, 1<<bits).Draw(t, "least")
		given := &plane{step: slices.Clone(step), least: least}
		p := newPlane(step, least)
		if p.least < 1 || p.least > planeScale {
			t.Fatalf("the least %d has become %d", least, p.least)
		}
		if least <= planeScale && (p.least != least || !slices.Equal(p.step, step)) {
			t.Errorf("%v ≥ %d has become %v ≥ %d", step, least, p.step, p.least)
		}
		if !slices.Equal(step, given.step) {
			t.Error("it has changed what it was given")
		}
		for _, n := range allNumbers(3, 5) {
			if given.kept(n) && !p.kept(n) {
				t.Errorf("%v keep %v ≥ %d, but not %v ≥ %d", n, step, least, p.step, p.least)
			}
		}
	})
}

// Whole numbers that keep a plane keep every rounding of it: of small planes,
// and of large ones, which are scaled down.
func TestRoundingsCutOffNothingWhole(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.SampledFrom([]int64{12, 60, 1000, planeScale, 1 << 50}).Draw(t, "most")
		p := drawPlane(t, 3, most)
		at := rapid.SliceOfN(rapid.Float64Range(0, 5), 3, 3).Draw(t, "at")
		list := p.roundings(at)
		for _, byHeight := range []bool{false, true} {
			if c := p.rounded(rapid.Int64Range(1, most).Draw(t, "divisor"), byHeight); c != nil {
				list = append(list, c)
			}
		}
		for _, c := range list {
			tried++
			for _, n := range allNumbers(3, 6) {
				if p.kept(n) && !c.kept(n) {
					t.Fatalf("%v keep %v ≥ %d, but not its rounding %v ≥ %d", n, p.step, p.least, c.step, c.least)
				}
			}
		}
	})
	if tried < 100 {
		t.Errorf("only %d roundings were tried", tried)
	}
}

// Strips of which each is worth 30, for a demand that is worth 40: there must
// be two, which only the rounding knows. In the same way for two heights, the
// lower worth 10 and the higher 30: three low ones will not do, one high and one
// low one will; a low one alone counts a third of what is asked for.
func TestRoundingByHand(t *testing.T) {
	one := newPlane([]int64{30}, 40)
	if c := one.rounded(30, false); !one.kept(numbers{2}) || c.kept(numbers{1}) || !c.kept(numbers{2}) {
		t.Errorf("30 n ≥ 40 becomes %d n ≥ %d", c.step[0], c.least)
	}
	if list := one.roundings([]float64{40. / 30}); len(list) == 0 || list[0].at([]float64{40. / 30}) > 0.7 {
		t.Errorf("no rounding cuts 4/3 strips off: %v", list)
	}
	two := newPlane([]int64{10, 20}, 40) // steps: from the lower height up, and from the higher
	c := two.rounded(30, true)
	want := &plane{step: []int64{10, 0}, least: 20} // F(10) = F(30) = 10
	if !slices.Equal(c.step, want.step) || c.least != want.least {
		t.Errorf("10 and 30 ≥ 40 becomes %v ≥ %d, want %v ≥ %d", c.step, c.least, want.step, want.least)
	}
}
