package main

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// peer is a solver that is given our problems as integer programs.
type peer struct {
	name string
	// run solves the program in the file; others go into the same folder. An
	// error is the solver's: it fell over, or is not there.
	run func(ctx context.Context, file string, limit time.Duration) (answer, error)
}

// answer is what a solver says. Length and bound are sums of the program's
// objective.
type answer struct {
	optimal  bool
	feasible bool    // there is a plan
	length   int     // of it
	bound    float64 // −∞ where the solver does not tell
	seconds  float64
}

// grace is the time that a solver gets over its limit, for reading the program
// and for steps in which it does not look at the clock. Then it is ended.
const grace = 10 * time.Second

// findPeers are the solvers of a list of names. The package highs is in the
// given folder.
func findPeers(list, highsFolder string) []peer {
	all := []peer{{"glpsol", runGLPSOL}, {"cbc", runCBC}, {"highs", highsIn(highsFolder)}}
	var some []peer
	for _, name := range listed(list) {
		for _, p := range all {
			if p.name == name {
				some = append(some, p)
			}
		}
	}
	return some
}

func peerNames() []string { return []string{"glpsol", "cbc", "highs"} }

// runGLPSOL runs glpsol as it is: its cuts and its integer presolver made it
// slower on every program tried. The solution goes to an ordinary file, which
// glpsol removes first.
func runGLPSOL(ctx context.Context, file string, limit time.Duration) (answer, error) {
	solution := file + ".glpsol"
	a := answer{bound: math.Inf(-1)}
	seconds, log, err := runProgram(ctx, limit, nil, "glpsol", "--lp", file, "--tmlim", wholeSeconds(limit), "--write", solution)
	a.seconds = seconds
	if err != nil {
		return a, err
	}
	text, err := os.ReadFile(solution)
	if err != nil {
		return a, fmt.Errorf("glpsol wrote no solution: %s", lastLine(log))
	}
	a, err = readGLPSOL(string(text), log)
	a.seconds = seconds
	return a, err
}

// readGLPSOL reads a plain solution, whose line "s mip rows columns status
// objective" has the status o for optimal and f for feasible, and the log,
// where progress stands in lines such as
//
//   - 45656: mip =   1.952000000e+03 >=   1.904000000e+03   2.5% (261; 728)
func readGLPSOL(solution, log string) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	for line := range strings.Lines(solution) {
		f := strings.Fields(line)
		if len(f) != 6 || f[0] != "s" || f[1] != "mip" {
			continue
		}
		a.optimal = f[4] == "o"
		a.feasible = a.optimal || f[4] == "f"
		if !a.feasible {
			break
		}
		var err error
		if a.length, err = wholeNumber(f[5]); err != nil {
			return a, fmt.Errorf("glpsol: %w", err)
		}
	}
	for line := range strings.Lines(log) {
		_, after, ok := strings.Cut(line, ">=")
		if f := strings.Fields(after); ok && strings.HasPrefix(line, "+") && len(f) > 0 {
			if v, err := strconv.ParseFloat(f[0], 64); err == nil {
				a.bound = v
			}
		}
	}
	if a.optimal {
		a.bound = float64(a.length)
	}
	return a, nil
}

// runCBC runs cbc with no gap allowed.
func runCBC(ctx context.Context, file string, limit time.Duration) (answer, error) {
	solution := file + ".cbc"
	a := answer{bound: math.Inf(-1)}
	seconds, log, err := runProgram(ctx, limit, nil, "cbc", file, "-seconds", wholeSeconds(limit), "-timeMode", "elapsed",
		"-ratioGap", "0", "-allowableGap", "0", "-solve", "-solution", solution)
	a.seconds = seconds
	if err != nil {
		return a, err
	}
	text, err := os.ReadFile(solution)
	if err != nil {
		return a, fmt.Errorf("cbc wrote no solution: %s", lastLine(log))
	}
	a, err = readCBC(string(text), log)
	a.seconds = seconds
	return a, err
}

// readCBC reads the first line of a solution, such as
//
//	Optimal - objective value 47.00000000
//	Stopped on time - objective value 48.00000000
//	Stopped on time (no integer solution - continuous used) - objective value 1e+50
//
// and the log's last words, where the bound stands.
func readCBC(solution, log string) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	first, _, _ := strings.Cut(solution, "\n")
	status, value, ok := strings.Cut(first, " - objective value ")
	if ok && !strings.Contains(status, "no integer solution") {
		a.optimal = status == "Optimal"
		a.feasible = a.optimal || strings.HasPrefix(status, "Stopped")
	}
	if a.feasible {
		var err error
		if a.length, err = wholeNumber(value); err != nil {
			return a, fmt.Errorf("cbc: %w", err)
		}
	}
	for line := range strings.Lines(log) {
		if after, ok := strings.CutPrefix(line, "Lower bound:"); ok {
			if v, err := strconv.ParseFloat(strings.TrimSpace(after), 64); err == nil {
				a.bound = v
			}
		}
	}
	if a.optimal {
		a.bound = float64(a.length)
	}
	return a, nil
}

//go:embed highs.cjs
var highsScript []byte

// highsIn runs HiGHS, as npm's package highs in the given folder has it:
// compiled to WebAssembly and so on one core. The time is that of reading and
// solving, without the start of node.
func highsIn(folder string) func(context.Context, string, time.Duration) (answer, error) {
	return func(ctx context.Context, file string, limit time.Duration) (answer, error) {
		a := answer{bound: math.Inf(-1)}
		modules, err := filepath.Abs(filepath.Join(folder, "node_modules"))
		if err != nil {
			return a, err
		}
		if _, err := os.Stat(filepath.Join(modules, "highs")); err != nil {
			return a, fmt.Errorf("%w: highs is not in %q: make bench-needs puts it into bin/highs", exec.ErrNotFound, folder)
		}
		script := file + ".cjs"
		if err := os.WriteFile(script, highsScript, 0o666); err != nil {
			return a, err
		}
		seconds, log, err := runProgram(ctx, limit, []string{"NODE_PATH=" + modules}, "node", script, file,
			strconv.FormatFloat(limit.Seconds(), 'f', -1, 64))
		a.seconds = seconds
		if err != nil {
			return a, err
		}
		return readHiGHS(log)
	}
}

// readHiGHS reads the line of JSON that the script prints.
func readHiGHS(text string) (answer, error) {
	a := answer{bound: math.Inf(-1)}
	var said struct {
		Optimal, Feasible bool
		Length, Bound     *float64
		Seconds           float64
	}
	if err := json.Unmarshal([]byte(text), &said); err != nil {
		return a, fmt.Errorf("highs: %s", lastLine(text))
	}
	a.optimal, a.feasible, a.seconds = said.Optimal, said.Feasible, said.Seconds
	if a.feasible {
		if said.Length == nil {
			return a, errors.New("highs: a plan without a length")
		}
		var err error
		if a.length, err = wholeNumber(strconv.FormatFloat(*said.Length, 'g', -1, 64)); err != nil {
			return a, fmt.Errorf("highs: %w", err)
		}
	}
	if said.Bound != nil {
		a.bound = *said.Bound
	}
	return a, nil
}

// runProgram runs a program and returns its time and what it printed. It is
// ended when it takes longer than the limit and the grace.
func runProgram(ctx context.Context, limit time.Duration, env []string, name string, args ...string) (seconds float64, log string, err error) {
	inner, cancel := context.WithTimeout(ctx, limit+grace)
	defer cancel()
	var output bytes.Buffer
	command := exec.CommandContext(inner, name, args...)
	command.Env = append(os.Environ(), env...)
	command.Stdout, command.Stderr = &output, &output
	start := time.Now()
	err = command.Run()
	seconds = time.Since(start).Seconds()
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return seconds, "", fmt.Errorf("%w: make bench-needs installs it", err)
	case ctx.Err() != nil:
		return seconds, "", ctx.Err()
	case inner.Err() != nil:
		return seconds, "", fmt.Errorf("%s: ended %v after its time was over", name, grace)
	case err != nil:
		return seconds, "", fmt.Errorf("%s: %w: %s", name, err, lastLine(output.String()))
	}
	return seconds, output.String(), nil
}

// wholeSeconds is a time limit for programs that know only seconds.
func wholeSeconds(limit time.Duration) string {
	return strconv.Itoa(max(1, int(math.Ceil(limit.Seconds()))))
}

// wholeNumber reads an objective, whole but for the solver's rounding.
func wholeNumber(text string) (int, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil {
		return 0, err
	}
	n := math.Round(v)
	if math.Abs(v-n) > 1e-3 {
		return 0, fmt.Errorf("the length %v of a plan is not whole", v)
	}
	return int(n), nil
}

func lastLine(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	return strings.TrimSpace(lines[len(lines)-1])
}
