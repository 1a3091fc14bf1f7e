package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// try runs a command line in the test's own process.
func try(ctx context.Context, args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = run(ctx, args, strings.NewReader(""), &out, &err)
	return status, out.String(), err.String()
}

func TestHelpFitsTheTerminal(t *testing.T) {
	for _, args := range [][]string{{"--help"}, {"pieces", "--help"}, {"plan", "--help"}, {"export", "--help"}} {
		status, help, _ := try(t.Context(), args...)
		if status != done || help == "" {
			t.Errorf("%v: status %d", args, status)
		}
		for line := range strings.Lines(help) {
			if n := len(strings.TrimSuffix(line, "\n")); n > 80 {
				t.Errorf("%v: %d columns: %s", args, n, line)
			}
		}
	}
}

// heavy is a quilt that keeps the search busy for far longer than a test
// lasts: many fabrics, each with many sizes that do not go well together.
func heavy(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	b.WriteString("title: Heavy\nunit: in\nruler: 1/16\n" +
		"fabric_defaults: {usable_widths: [44]}\nfabrics:\n")
	for f := range 2 {
		fmt.Fprintf(&b, "  f%d: {name: Fabric %d}\n", f, f)
	}
	b.WriteString("cuts:\n")
	for f := range 2 {
		for s := range 40 {
			fmt.Fprintf(&b, "  - {name: P%d_%d, fabric: f%d, size: %d %d/16 x %d %d/16, count: %d}\n",
				f, s, f, 1+(s*7)%11, 1+(s*5+f)%15, 1+(s*3)%13, 1+(s*11)%15, 17+(s*29)%60)
		}
	}
	path := filepath.Join(t.TempDir(), "heavy.yaml")
	if err := os.WriteFile(path, []byte(b.String()), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// Ctrl-C gives the best plans so far, and says that the search was not done.
func TestInterruptedPlan(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 300*time.Millisecond)
	defer cancel()
	start := time.Now()
	status, stdout, stderr := try(ctx, "plan", heavy(t), "--time", "0")
	if status != failed {
		t.Errorf("status %d, want %d", status, failed)
	}
	for _, want := range []string{"WHAT TO BUY", "CUTTING: Fabric 1, usable width 44 in"} {
		if !strings.Contains(stdout, want) {
			t.Errorf("the results do not say %q", want)
		}
	}
	if want := "crossgrain: stopped before the search was done\nthe plans printed are the best found so far\n"; stderr != want {
		t.Errorf("got %q, want %q", stderr, want)
	}
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("it took %v to stop", took)
	}
}

func TestInterruptedExport(t *testing.T) {
	ctx, cancel := context.WithTimeout(t.Context(), 300*time.Millisecond)
	defer cancel()
	out := filepath.Join(t.TempDir(), "out.xlsx")
	status, stdout, stderr := try(ctx, "export", heavy(t), "--to", out)
	if status != failed || stdout != "" || !strings.Contains(stderr, "out.xlsx was not written") {
		t.Errorf("status %d, %q, %q", status, stdout, stderr)
	}
	holds(t, out, "")
}

// A time limit is no failure: the results say what is known.
func TestTimeLimit(t *testing.T) {
	status, stdout, stderr := try(t.Context(), "plan", heavy(t), "--time", "1ns", "--style", "shared")
	if status != done || !strings.Contains(stdout, " is enough; whether ") {
		t.Errorf("status %d, %.400q", status, stdout)
	}
	if !strings.Contains(stderr, "crossgrain: the clock, with --time 1ns, ended the search before what to buy was proven, ") {
		t.Errorf("got %q", stderr)
	}
}
