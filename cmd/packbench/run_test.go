package main

import (
	"bytes"
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// runIn runs packbench on instances of our own and returns its status and
// what it wrote.
func runIn(t *testing.T, instances map[string]string, args ...string) (status int, out, err string) {
	t.Helper()
	folder := t.TempDir()
	for name, text := range instances {
		file := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	var stdout, stderr bytes.Buffer
	status = run(t.Context(), append([]string{"--data", folder, "--highs", folder}, args...), &stdout, &stderr)
	return status, stdout.String(), stderr.String()
}

// Two strips of 4 hold the four pieces of 5 by 4 on a width of 10.
const fourPieces = `{"name": "a1", "width": 10, "pieces": [[5, 4, 4]], "as_given": {"length": LENGTH, "basis": "computed"}}`

func fourPiecesWith(length string) map[string]string {
	text := strings.Replace(fourPieces, "LENGTH", length, 1)
	return map[string]string{"quilts/a1.json": text, "classic/a1.json": text}
}

func TestRunText(t *testing.T) {
	status, out, err := runIn(t, fourPiecesWith("8"), "--set", "classic", "--peers", "glpsol,cbc", "--peer-time", "5s")
	if status != done || err != "" {
		t.Fatalf("status %d, %s", status, err)
	}
	for _, want := range []string{
		"classic: 1 instances, shared plans, 10s for each",
		"glpsol  arc-flow  bound 8, plan 8, proven yes",
		"cbc     level     bound 8, plan 8, proven yes",
		"length proven      1 of 1 (100.0 %)",
		"recorded optima    reached and proven 1 of 1 (100.0 %)",
		"proves 1 (ours 1); plans worse 0, better 0; failed 0",
		"bounds             none above a plan of anyone: yes",
	} {
		if !strings.Contains(out, want) {
			t.Errorf("there is no %q in:\n%s", want, out)
		}
	}
	row := regexp.MustCompile(`(?m)^a1 {21}1 {6}4 {8}8 {8}8 {19}8 {6}2  \d\.\d{3} s {8}- `)
	if !row.MatchString(out) {
		t.Errorf("no row is like %v in:\n%s", row, out)
	}
}

func TestRunJSON(t *testing.T) {
	status, out, err := runIn(t, fourPiecesWith("8"), "--set", "quilts-a", "--style", "nested", "--as", "json")
	if status != done || err != "" {
		t.Fatalf("status %d, %s", status, err)
	}
	var said struct {
		Style   string
		Rows    []row
		Summary summary
	}
	if err := json.Unmarshal([]byte(out), &said); err != nil {
		t.Fatal(err)
	}
	if said.Style != "nested" || len(said.Rows) != 1 || said.Rows[0].Length != 8 || said.Rows[0].BuySeconds <= 0 || said.Rows[0].LengthSeconds <= 0 || said.Summary.BuyProven != 1 {
		t.Errorf("%+v", said)
	}
}

// The quilt of twelve is planned at both of its widths.
func TestRunTwelve(t *testing.T) {
	status, out, err := runIn(t, map[string]string{"quilts/a1.json": `{"name": "a1", "width": 640, "pieces": [[320, 64, 4]]}`}, "--set", "twelve")
	if status != done || err != "" {
		t.Fatalf("status %d, %s", status, err)
	}
	for _, want := range []string{"a1 at 40 in", "a1 at 42 in", "the whole quilt", "buy proven         2 of 2 (100.0 %)"} {
		if !strings.Contains(out, want) {
			t.Errorf("there is no %q in:\n%s", want, out)
		}
	}
}

// A bound above a plan on record is a failure, after the summary.
func TestRunFaults(t *testing.T) {
	status, out, err := runIn(t, fourPiecesWith("7"), "--set", "quilts-a")
	if status != failed || !strings.Contains(out, "a1: our bound 8 is above the recorded plan of 7") || !strings.Contains(err, "does not hold") {
		t.Errorf("status %d, %s\n%s", status, err, out)
	}
}

// A profile is written where it is asked for, gzipped as pprof does, or the run fails.
func TestRunProfile(t *testing.T) {
	file := filepath.Join(t.TempDir(), "cpu.prof")
	status, _, fault := runIn(t, fourPiecesWith("8"), "--profile", file)
	profile, err := os.ReadFile(file)
	if status != done || err != nil || !bytes.HasPrefix(profile, []byte{0x1f, 0x8b}) {
		t.Errorf("status %d, %s, %v, %d bytes", status, fault, err, len(profile))
	}
	if status, out, fault := runIn(t, fourPiecesWith("8"), "--profile", filepath.Join(file, "none")); status != failed || out != "" || fault == "" {
		t.Errorf("where no file can be: status %d, %q, %q", status, out, fault)
	}
}

func TestRunMisuse(t *testing.T) {
	for _, args := range [][]string{
		{"--set", "other"}, {"--style", "plain"}, {"--turned"}, {"--time", "0s"}, {"--time", "soon"}, {"--only", "["},
		{"--sample", "-1"}, {"--work", "-1"}, {"--peers", "other"}, {"--models", "other"}, {"--as", "xml"}, {"more"},
		{"--peers", "cbc", "--style", "nested"}, {"--set", "twelve", "--work", "5"},
	} {
		if status, out, err := runIn(t, nil, args...); status != misuse || out != "" || err == "" {
			t.Errorf("%v: status %d, %q, %q", args, status, out, err)
		}
	}
	if status, _, err := runIn(t, nil, "--help"); status != done || !strings.Contains(err, "--set") && !strings.Contains(err, "-set") {
		t.Errorf("--help: status %d, %q", status, err)
	}
}

// What is not there fails with a hint.
func TestRunFails(t *testing.T) {
	for hint, args := range map[string][]string{
		"see --data and --only": {"--set", "quilts-b"},
		"make bench-needs":      {"--set", "classic", "--peers", "highs"},
	} {
		if status, _, err := runIn(t, fourPiecesWith("8"), args...); status != failed || !strings.Contains(err, hint) {
			t.Errorf("%v: status %d, %q", args, status, err)
		}
	}
}

// A cancelled run says so and sums up what is done.
func TestRunCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, err bytes.Buffer
	status := run(ctx, []string{"--data", benchFolder, "--only", "a001"}, &out, &err)
	if status != failed || !strings.Contains(err.String(), "stopped early") || !strings.Contains(out.String(), "length proven") {
		t.Errorf("status %d, %s\n%s", status, err.String(), out.String())
	}
}
