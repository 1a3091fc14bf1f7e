package main

import (
	"encoding/json"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"strings"
)

// printer writes what a run finds.
type printer interface {
	start(instances int)
	row(r row)
	finish(rows []row, s summary) error
}

func newPrinter(o order, w io.Writer) printer {
	if o.as == "json" {
		return jsonPrinter{o, w}
	}
	return &textPrinter{o: o, w: w}
}

// jsonPrinter writes one object when all is done.
type jsonPrinter struct {
	o order
	w io.Writer
}

func (p jsonPrinter) start(int) {}
func (p jsonPrinter) row(row)   {}

func (p jsonPrinter) finish(rows []row, s summary) error {
	encoder := json.NewEncoder(p.w)
	encoder.SetIndent("", "  ")
	return encoder.Encode(struct {
		Set     string  `json:"set"`
		Style   string  `json:"style"`
		Turned  bool    `json:"turned"`
		Limit   float64 `json:"limit_seconds"`
		Cores   int     `json:"cores"`
		Rows    []row   `json:"rows"`
		Summary summary `json:"summary"`
	}{p.o.set, p.o.style.String(), p.o.turned, p.o.limit.Seconds(), runtime.GOMAXPROCS(0), rows, s})
}

// textPrinter writes each row as it comes.
type textPrinter struct {
	o   order
	w   io.Writer
	err error // the first of writing
}

func (p *textPrinter) say(format string, args ...any) {
	if _, err := fmt.Fprintf(p.w, format, args...); err != nil && p.err == nil {
		p.err = err
	}
}

const rowForm = "%-18s %5s %6s %8s %8s %19s %6s %8s %8s %8s %8s %7s %5s\n"

func (p *textPrinter) start(instances int) {
	turned := ""
	if p.o.turned {
		turned = ", all pieces turnable"
	}
	each := "for each"
	if p.o.set == twelveSet {
		each = "for all"
	}
	p.say("%s: %d instances, %v plans%s, %v %s, %d cores\n\n",
		p.o.set, instances, p.o.style, turned, p.o.limit, each, runtime.GOMAXPROCS(0))
	p.say(rowForm, "name", "types", "pieces", "bound", "length", "recorded", "strips", "proven", "buy",
		"seconds", "columns", "nodes", "MB")
}

func (p *textPrinter) row(r row) {
	buy := "-"
	if r.BuyProven != nil {
		buy = after(*r.BuyProven, r.BuySeconds)
	}
	p.say(rowForm, r.Name, strconv.Itoa(r.Types), strconv.Itoa(r.Pieces), strconv.Itoa(r.Bound), strconv.Itoa(r.Length),
		r.Recorded.String(), strconv.Itoa(r.Strips), after(r.Proven, r.LengthSeconds), buy,
		fmt.Sprintf("%.3f", r.Seconds), strconv.Itoa(r.Columns), strconv.Itoa(r.Nodes), orDash(r.Megabytes))
	for _, q := range r.Peers {
		p.say("    %-7s %-9s bound %s, plan %s, proven %s, %.3f s, times ours %.3g%s\n",
			q.Peer, q.Model, orDash(q.Bound), orDash(q.Length), yesNo(q.Proven), q.Seconds, q.Ratio, note(q.Note))
	}
}

func (p *textPrinter) finish(_ []row, s summary) error {
	p.say("\n")
	p.line("length proven", "%s; after seconds: median %.3f, most %.3f",
		share(s.LengthProven, s.Instances), s.MedianLengthSeconds, s.MaxLengthSeconds)
	p.line("strips proven", "%s", share(s.FewestStrips, s.Instances))
	if s.Bought > 0 {
		p.line("buy proven", "%s; after seconds: median %.3f, most %.3f",
			share(s.BuyProven, s.Bought), s.MedianBuySeconds, s.MaxBuySeconds)
	}
	p.line("seconds", "median %.3f, most %.3f, sum %.1f", s.MedianSeconds, s.MaxSeconds, s.TotalSeconds)
	p.line("slowest", "%s", strings.Join(s.Slowest, ", "))
	p.line("gap", "mean %.4f %%, most %.4f %%", s.MeanGap, s.MaxGap)
	p.line("memory", "at most %s MB", orDash(s.Megabytes))
	if s.Records.Known > 0 {
		p.records(s.Records)
	}
	for _, q := range s.Peers {
		p.line(q.Peer+", "+q.Model, "takes %.4g times as long (geometric mean of %d); proves %d (ours %d); "+
			"plans worse %d, better %d; failed %d", q.Ratio, q.Instances, q.Proven, q.Ours, q.Worse, q.Better, q.Failed)
	}
	if s.Records.Known > 0 || len(s.Peers) > 0 {
		p.line("bounds", "none above a plan of anyone: %s", yesNo(len(s.Faults) == 0))
	}
	for _, fault := range s.Faults {
		p.line("FAULT", "%s", fault)
	}
	return p.err
}

func (p *textPrinter) records(r records) {
	p.line("recorded plans", "%d; never worse: %s; shorter: %s", r.Known, noneOr(r.Worse), names(r.Shorter))
	if p.o.style.String() == "shared" {
		p.line("recorded optima", "reached and proven %s; published ones %s",
			share(r.Reached, r.Optima), share(r.PublishedReached, r.PublishedOptima))
		p.line("recorded as open", "%d, now proven %d", r.Open, r.Closed)
	}
	if r.Strips > 0 {
		p.line("recorded strips", "%d, reached and proven %d; never more at the recorded length: %s", r.Strips, r.StripsReached, noneOr(r.MoreStrips))
	}
}

// line is a line of the summary.
func (p *textPrinter) line(what, format string, args ...any) {
	p.say("%-18s %s\n", what, fmt.Sprintf(format, args...))
}

// String is the record as a column: an open one is an interval.
func (r *record) String() string {
	switch {
	case r == nil:
		return "-"
	case !r.optimal():
		return fmt.Sprintf("%d..%d", r.Bound, r.Length)
	case r.Basis == "published":
		return strconv.Itoa(r.Length) + " published"
	}
	return strconv.Itoa(r.Length)
}

// after says whether something is proven, and after what time if that is known.
func after(proven bool, seconds float64) string {
	if proven && seconds > 0 {
		return fmt.Sprintf("%.3f s", seconds)
	}
	return yesNo(proven)
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}

func orDash(n int) string {
	if n == 0 {
		return "-"
	}
	return strconv.Itoa(n)
}

func note(text string) string {
	if text == "" {
		return ""
	}
	return "; " + text
}

func names(list []string) string {
	if len(list) == 0 {
		return "none"
	}
	return strings.Join(list, ", ")
}

// noneOr answers whether a list of exceptions is empty.
func noneOr(list []string) string {
	if len(list) == 0 {
		return "yes"
	}
	return "no: " + strings.Join(list, ", ")
}

func share(n, of int) string {
	if of == 0 {
		return "none recorded"
	}
	return fmt.Sprintf("%d of %d (%.1f %%)", n, of, 100*float64(n)/float64(of))
}
