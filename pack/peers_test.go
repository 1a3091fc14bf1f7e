package pack_test

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"crossgrain/model"
	"crossgrain/pack"
)

// This file holds shared plans against two programs that know nothing of
// ours: glpsol and cbc solve the same problem, written as one plain integer
// program without columns, bounds or any other idea of package pack.
//
// The program is the level-packing model of Lodi, Martello and Vigo (Models
// and bounds for two-dimensional level packing problems, Journal of
// Combinatorial Optimization 8, 2004), in its form for several pieces of one
// size. Sizes are put in order of height. Every piece may open a strip; a
// strip opened by a size is as high as that size and takes further pieces of
// that size and of the sizes after it:
//
//	min  Σₖ hₖ yₖ
//	     Σₖ yₖ + Σₖ xⱼₖ  = demand       for each item; over its sizes j
//	     Σⱼ wⱼ xⱼₖ ≤ (W − wₖ) yₖ        for each strip k
//	     yₖ ≥ yₖ₊₁                      for strips of one size: order only
//	     yₖ ∈ {0, 1}, xⱼₖ ≥ 0 whole
//
// We depart from it in one thing: an item that may be turned is two sizes
// with one demand.

// peerSize is an item as it may lie.
type peerSize struct{ item, along, across int }

// peerSizes lists how the items may lie across the width, highest first.
func peerSizes(width int, items []pack.Item) []peerSize {
	var sizes []peerSize
	for i, it := range items {
		along, across := int(it.Along), int(it.Across)
		if along <= width {
			sizes = append(sizes, peerSize{i, along, across})
		}
		if it.Turnable && across <= width && along != across {
			sizes = append(sizes, peerSize{i, across, along})
		}
	}
	slices.SortStableFunc(sizes, func(a, b peerSize) int { return b.across - a.across })
	return sizes
}

// levelModel writes the integer program in the CPLEX LP format.
func levelModel(width int, items []pack.Item) string {
	type strip struct{ opener, n int }
	var strips []strip
	sizes := peerSizes(width, items)
	for j, s := range sizes {
		for n := range items[s.item].Count {
			strips = append(strips, strip{j, n})
		}
	}
	var objective, room, order, bounds, whole, binary []string
	demand := make([][]string, len(items))
	for k, st := range strips {
		opener := sizes[st.opener]
		y := fmt.Sprintf("y%d", k)
		binary = append(binary, y)
		objective = append(objective, fmt.Sprintf("%d %s", opener.across, y))
		demand[opener.item] = append(demand[opener.item], y)
		if st.n > 0 {
			order = append(order, fmt.Sprintf("y%d - %s >= 0", k-1, y))
		}
		row := []string{fmt.Sprintf("%d %s", opener.along-width, y)}
		for j := st.opener; j < len(sizes); j++ {
			most := min((width-opener.along)/sizes[j].along, items[sizes[j].item].Count)
			if most == 0 {
				continue
			}
			x := fmt.Sprintf("x%d_%d", j, k)
			whole = append(whole, x)
			bounds = append(bounds, fmt.Sprintf("0 <= %s <= %d", x, most))
			demand[sizes[j].item] = append(demand[sizes[j].item], x)
			row = append(row, fmt.Sprintf("%d %s", sizes[j].along, x))
		}
		room = append(room, sum(row)+" <= 0")
	}
	var rows []string
	for i, terms := range demand {
		rows = append(rows, fmt.Sprintf("%s = %d", sum(terms), items[i].Count))
	}
	rows = append(append(rows, room...), order...)
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n length: %s\nSubject To\n", sum(objective))
	for i, row := range rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, row)
	}
	fmt.Fprintf(&b, "Bounds\n %s\nGenerals\n %s\nBinaries\n %s\nEnd\n",
		strings.Join(bounds, "\n "), strings.Join(whole, "\n "), strings.Join(binary, "\n "))
	return b.String()
}

// sum joins terms such as "3 x" and "-2 y", one to a line: the format limits
// the length of lines.
func sum(terms []string) string {
	s := strings.Join(terms, "\n  + ")
	return strings.ReplaceAll(s, "+ -", "- ")
}

// peer is a program that solves a file in the LP format.
type peer struct {
	name string
	// run solves the file model and returns the proven optimum. Files go to
	// the folder dir.
	run func(t *testing.T, model, dir string) int
}

// runGLPSOL reads the optimum from the plain solution file, whose line
// "s mip rows columns status objective" has the status o for optimal. The file
// is an ordinary one: glpsol removes what is in the way, even a device.
func runGLPSOL(t *testing.T, model, dir string) int {
	solution := filepath.Join(dir, "glpsol.sol")
	text := runPeer(t, solution, "glpsol", "--lp", model, "--cuts", "--write", solution)
	for line := range strings.Lines(text) {
		f := strings.Fields(line)
		if len(f) == 6 && f[0] == "s" && f[1] == "mip" && f[4] == "o" {
			return wholeOptimum(t, f[5])
		}
	}
	t.Fatalf("glpsol found no optimum:\n%s", text)
	return 0
}

// runCBC reads the optimum from the first line of the solution file, such as
// "Optimal - objective value 47.00000000".
func runCBC(t *testing.T, model, dir string) int {
	solution := filepath.Join(dir, "cbc.sol")
	text := runPeer(t, solution, "cbc", model, "solve", "solution", solution)
	first, _, _ := strings.Cut(text, "\n")
	value, ok := strings.CutPrefix(first, "Optimal - objective value ")
	if !ok {
		t.Fatalf("cbc found no optimum: %q", first)
	}
	return wholeOptimum(t, value)
}

// runPeer runs a program and returns the solution file that it left.
func runPeer(t *testing.T, solution, program string, args ...string) string {
	t.Helper()
	var output bytes.Buffer
	command := exec.CommandContext(t.Context(), program, args...)
	command.Stdout, command.Stderr = &output, &output
	if err := command.Run(); err != nil {
		t.Fatalf("%s: %v\n%s", program, err, output.String())
	}
	text, err := os.ReadFile(solution)
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, output.String())
	}
	return string(text)
}

// wholeOptimum reads an objective, whole but for the program's rounding.
func wholeOptimum(t *testing.T, text string) int {
	t.Helper()
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		t.Fatal(err)
	}
	n := int(v + 0.5)
	if diff := v - float64(n); diff > 1e-4 || diff < -1e-4 {
		t.Fatalf("the optimum %v is not whole", v)
	}
	return n
}

// peerInstance is a random small instance: 2 to 5 sizes, 1 to 6 of each, half
// of them turnable. The seed is the whole of its randomness.
func peerInstance(seed uint64) (width int, items []pack.Item) {
	r := rand.New(rand.NewPCG(seed, 0))
	width = 20 + r.IntN(21)
	for range 2 + seed%4 {
		items = append(items, pack.Item{
			Along:    model.Length(3 + r.IntN(width/2)),
			Across:   model.Length(2 + r.IntN(14)),
			Count:    1 + r.IntN(6),
			Turnable: r.IntN(2) == 0,
		})
	}
	return width, items
}

func TestPeers(t *testing.T) {
	peers := []peer{{"glpsol", runGLPSOL}, {"cbc", runCBC}}
	for _, p := range peers {
		if _, err := exec.LookPath(p.name); err != nil {
			t.Fatalf("%s is not installed: run make test, which installs it (%v)", p.name, err)
		}
	}
	for seed := range uint64(30) {
		t.Run(fmt.Sprintf("seed %d", seed), func(t *testing.T) {
			width, items := peerInstance(seed)
			dir := t.TempDir()
			file := filepath.Join(dir, "strips.lp")
			if err := os.WriteFile(file, []byte(levelModel(width, items)), 0o666); err != nil {
				t.Fatal(err)
			}
			p := newProblem(t, model.Length(width), items)
			r := solve(t, p, pack.Options{Style: pack.Shared})
			if !r.LengthProven() {
				t.Errorf("length %d is not proven, bound %d", r.Plan.Length(), r.Bound)
			}
			for _, peer := range peers {
				if want := peer.run(t, file, dir); r.Plan.Length() != model.Length(want) {
					t.Errorf("length %d, but %s has the optimum %d\nwidth %d, %+v",
						r.Plan.Length(), peer.name, want, width, items)
				}
			}
		})
	}
}
