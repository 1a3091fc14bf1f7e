package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crossgrain/pack"
)

// Both models have the optimum that pack proves, whichever solver is asked.
func TestModelsAgreeWithPack(t *testing.T) {
	for seed := range uint64(8) {
		in := tinyInstance(seed)
		t.Run(in.Name, func(t *testing.T) {
			p, err := in.problem()
			if err != nil {
				t.Fatal(err)
			}
			r, err := pack.Solve(t.Context(), p, pack.Options{Style: pack.Shared})
			if err != nil || !r.LengthProven() {
				t.Fatalf("length %d, bound %d: %v", r.Plan.Length(), r.Bound, err)
			}
			want := in.units(r.Plan.Length())
			s := state(in)
			for _, m := range compactModels {
				file := filepath.Join(t.TempDir(), "strips.lp")
				if err := writeProgram(file, m.write(s)); err != nil {
					t.Fatal(err)
				}
				for _, peer := range findPeers("glpsol,cbc", "") {
					a, err := peer.run(t.Context(), file, 20*time.Second)
					if err != nil {
						t.Fatalf("%s: %v", peer.name, err)
					}
					if got := a.length * s.height; !a.optimal || got != want || a.bound != float64(a.length) {
						t.Errorf("%s on the %s model: %d, bound %v, optimal %v; pack proves %d\n%+v",
							peer.name, m.name, got, a.bound, a.optimal, want, in)
					}
				}
			}
		})
	}
}

// tinyInstance is a random instance: 2 or 3 sizes, 1 to 4 of each, on a grid
// of 2 along and 3 across, with turnable pieces only in every other one.
func tinyInstance(seed uint64) instance {
	r := rand.New(rand.NewPCG(seed, 1))
	in := instance{Name: fmt.Sprintf("seed %d", seed), unit: 1, Width: 30 + r.IntN(11)}
	for i := range 2 + r.IntN(2) {
		piece := [3]int{2 * (2 + r.IntN(7)), 3 * (1 + r.IntN(5)), 1 + r.IntN(4)}
		if seed%2 == 1 && i > 0 {
			in.Turnable = append(in.Turnable, piece)
		} else {
			in.Pieces = append(in.Pieces, piece)
		}
	}
	return in
}

// Two 3 wide, one 2 wide, on a width of 8: the wider ones first, no more of a
// width than there are, and the loss from the first place that a piece
// reaches.
func TestStripGraph(t *testing.T) {
	s := stated{width: 8, demand: []int{2, 1}, lies: []lies{{0, 3, 5}, {1, 2, 4}}}
	got := newStripGraph(s, s.lies)
	want := stripGraph{
		places: []int{0, 2, 3, 5, 6, 8},
		arcs:   []arc{{0, 3, 0}, {3, 6, 0}, {0, 2, 1}, {3, 5, 1}, {6, 8, 1}},
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(stripGraph{}, arc{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestState(t *testing.T) {
	in := instance{Width: 25, Pieces: [][3]int{{4, 6, 7}}, Turnable: [][3]int{{30, 8, 2}, {10, 10, 1}, {12, 6, 3}}}
	want := stated{
		width:  12, // 25 on a grid of 2: an odd unit is of no use
		height: 2,
		demand: []int{7, 2, 1, 3},
		lies:   []lies{{1, 4, 15}, {3, 3, 6}, {2, 5, 5}, {0, 2, 3}, {3, 6, 3}},
	}
	if diff := cmp.Diff(want, state(in), cmp.AllowUnexported(stated{}, lies{})); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestWriteProgram(t *testing.T) {
	var p program
	x, y := p.add(variable{whole: true, most: 4}), p.add(variable{})
	p.objective = []term{{3, x}, {1, y}}
	p.require([]term{{1, x}, {-2, y}}, ">=", 5)
	var b strings.Builder
	if err := p.write(&b); err != nil {
		t.Fatal(err)
	}
	want := `Minimize
 length:
  +3 x0
  +1 x1
Subject To
 r0:
  +1 x0
  -2 x1
  >= 5
Bounds
 0 <= x0 <= 4
Generals
 x0
End
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// A solver that is not there, or is given what it cannot read, is an error.
func TestPeersFail(t *testing.T) {
	folder := t.TempDir()
	if _, err := highsIn(folder)(t.Context(), "x.lp", time.Second); err == nil {
		t.Error("highs ran from an empty folder")
	}
	if _, _, err := runProgram(context.Background(), time.Second, nil, "no-such-solver"); err == nil {
		t.Error("a solver that is not there ran")
	}
	for _, peer := range findPeers("glpsol,cbc", "") {
		if a, err := peer.run(t.Context(), filepath.Join(folder, "nothing.lp"), time.Second); err == nil && a.feasible {
			t.Errorf("%s has a plan for a file that is not there: %+v", peer.name, a)
		}
	}
}
