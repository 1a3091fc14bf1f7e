package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"crossgrain/model"
	"crossgrain/pack"
	"crossgrain/yardage"
)

// screen is a terminal that remembers what is written to it.
type screen struct{ bytes.Buffer }

func (*screen) Terminal() bool { return true }

// left is what stands on the last line once all is written.
func (s *screen) left() string {
	text := s.String()
	var line []rune
	at := 0
	for _, r := range text[strings.LastIndexByte(text, '\n')+1:] {
		if r == '\r' {
			at = 0
			continue
		}
		line = append(line[:at], append([]rune{r}, line[min(at+1, len(line)):]...)...)
		at++
	}
	return strings.TrimSpace(string(line))
}

func TestProgressLine(t *testing.T) {
	var s screen
	start := time.Now()
	l := &progressLine{out: &s, start: start}
	foam := yardage.Progress{
		Fabric: "foam", Width: 40 * model.Inch, Number: 3, Total: 8,
		Search: pack.Progress{Best: 167 * model.Inch / 4, Bound: 319 * model.Inch / 8},
	}
	l.showAt(start.Add(400*time.Millisecond), foam)
	if s.Len() > 0 {
		t.Errorf("half a second is not over: %q", s.String())
	}
	l.showAt(start.Add(600*time.Millisecond), foam)
	if got, want := s.left(), "planning foam at 40 in (3 of 8): at most 41 3/4 in, at least 39 7/8 in"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	ink := foam
	ink.Fabric, ink.Number = "ink", 4
	l.showAt(start.Add(700*time.Millisecond), ink)
	if got := s.left(); !strings.HasPrefix(got, "planning foam") {
		t.Errorf("got %q while foam is planned", got)
	}
	l.showAt(start.Add(2*time.Second), ink)
	if got, want := s.left(), "planning ink at 40 in (4 of 8): at most 41 3/4 in, at least 39 7/8 in"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	ink.Fabric = strings.Repeat("é", 200)
	l.showAt(start.Add(3*time.Second), ink)
	if got := []rune(s.left()); len(got) > progressWidth {
		t.Errorf("a line of %d columns", len(got))
	}
	l.wipe()
	if got := s.left(); got != "" {
		t.Errorf("%q is left", got)
	}
}

// A long run tells how it stands, on a terminal only, and leaves nothing of it.
func TestProgressOfRun(t *testing.T) {
	file := heavy(t)
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Second)
	defer cancel()
	var out bytes.Buffer
	var seen screen
	run(ctx, []string{"plan", file, "--time", "0"}, strings.NewReader(""), &out, &seen)
	if text := seen.String(); !strings.Contains(text, "\rplanning f") || !strings.Contains(text, " of 2): at most ") {
		t.Errorf("no progress in %q", text)
	} else if strings.Contains(text, "\x1b") {
		t.Errorf("colour in %q", text)
	}
	text := seen.String()
	if rest := text[strings.LastIndexByte(text, '\r')+1:]; !strings.HasPrefix(rest, "crossgrain: stopped") {
		t.Errorf("%q follows the line", rest)
	}
	if strings.Contains(out.String(), "planning") {
		t.Error("progress in the results")
	}

	ctx, cancel = context.WithTimeout(t.Context(), 1200*time.Millisecond)
	defer cancel()
	if _, _, stderr := try(ctx, "plan", file, "--time", "0"); strings.Contains(stderr, "planning") {
		t.Errorf("progress where there is no terminal: %q", stderr)
	}
}
