package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/urfave/cli/v2"

	"crossgrain/model"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/pack/glpk"
	"crossgrain/yardage"
)

// fileHelp says what FILE is; it ends the description of each command.
const fileHelp = "FILE is a quilt file in YAML, or - for the standard input."

// planningFlags are the flags that all commands that plan share.
func planningFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "usable", Usage: "plan for these usable `WIDTHS` instead, as in 40,42"},
		&cli.StringFlag{Name: "style", Value: pack.Nested.String(), Usage: "`STYLE` of strips: plain, shared or nested"},
		&cli.StringFlag{Name: "time", Value: "10s", Usage: "`TIME` limit of each plan, 0 for none"},
		&cli.BoolFlag{Name: "timings", Usage: "say how long each plan took", DisableDefaultText: true},
	}
}

// order is what a command line asks for, checked as far as the command line
// alone allows.
type order struct {
	file   string
	usable string
	style  pack.Style
	limit  time.Duration
	// timings asks to say how long each plan took.
	timings bool
}

func newOrder(c *cli.Context) (order, error) {
	o := order{usable: c.String("usable"), timings: c.Bool("timings")}
	switch files := c.Args().Slice(); len(files) {
	case 0:
		return o, usage(helpHint(c.Command), "no quilt file named")
	case 1:
		o.file = files[0]
	default:
		return o, usage(helpHint(c.Command), "one quilt file at a time, not %d: %s", len(files), quoted(files))
	}
	if err := o.readLimit(c.String("time")); err != nil {
		return o, err
	}
	if c.IsSet("usable") && strings.TrimSpace(o.usable) == "" {
		return o, usage("write widths such as 40,42", "--usable has no widths")
	}
	styles := []string{pack.Plain.String(), pack.Shared.String(), pack.Nested.String()}
	style, err := choice("style", c.String("style"), styles)
	o.style = pack.Style(style)
	return o, err
}

// readLimit reads the time limit.
func (o *order) readLimit(text string) error {
	limit, err := time.ParseDuration(text)
	if _, bare := strconv.ParseFloat(text, 64); err != nil && bare == nil && !strings.HasPrefix(text, "-") {
		return usage(fmt.Sprintf("write %ss for seconds, or %sm for minutes", text, text), "--time %s: %[1]s of what?", text)
	}
	if err != nil || limit < 0 {
		return usage("write a time such as 10s or 2m", "--time does not know %q", text)
	}
	o.limit = limit
	return nil
}

// choice is the place of a flag's value among those that it takes.
func choice(flag, value string, values []string) (int, error) {
	if i := slices.Index(values, value); i >= 0 {
		return i, nil
	}
	return 0, usage("write one of "+strings.Join(values, ", "), "--%s does not know %q", flag, value)
}

func quoted(names []string) string {
	var q []string
	for _, n := range names {
		q = append(q, fmt.Sprintf("%q", n))
	}
	return strings.Join(q, ", ")
}

// plan reads the quilt and plans every fabric. A cancelled context is no
// error here: the plans are the best that were found.
func (s streams) plan(c *cli.Context, o order) (yardage.Quilt, error) {
	list, err := s.cutList(o)
	if err != nil {
		return yardage.Quilt{}, err
	}
	s.warnNarrow(list)
	options := yardage.Options{Style: o.style, TimeLimit: o.limit, Work: o.work()}
	line := &progressLine{out: s.err, unit: list.Unit, start: time.Now()}
	if terminal(s.err) {
		options.Progress = line.show
	}
	q, err := yardage.Require(c.Context, list, options)
	line.wipe()
	if errors.Is(err, glpk.ErrUnavailable) {
		return q, &helpful{err: fmt.Errorf("%v plans need the solver, which is not in this build", o.style),
			hint: "build with cgo and GLPK, or plan with --style plain"}
	}
	if err != nil {
		return q, err
	}
	if o.timings {
		s.timings(q)
	}
	s.limits(q, o)
	return q, nil
}

// warnNarrow tells of usable widths in centimetres that are likelier meant in
// inches.
func (s streams) warnNarrow(list model.CutList) {
	const least = 50 * model.Centimetre
	told := map[model.Length]bool{}
	for _, f := range list.Fabrics {
		for _, w := range f.Fabric.UsableWidths {
			if list.Unit == model.Centimetres && w < least && !told[w] {
				told[w] = true
				s.say(fmt.Sprintf("the usable width %s is less than %s: is it meant in inches? then write %s in",
					w.FormatWithUnit(list.Unit), least.FormatWithUnit(list.Unit), w.Format(list.Unit)))
			}
		}
	}
}

// cutList reads and checks the quilt and puts in the widths asked for.
func (s streams) cutList(o order) (model.CutList, error) {
	quilt, err := s.read(o.file)
	if err != nil {
		return model.CutList{}, err
	}
	list, err := quilt.CutList()
	if err != nil || o.usable == "" {
		return list, err
	}
	var widths []model.Length
	for text := range strings.SplitSeq(o.usable, ",") {
		if strings.TrimSpace(text) == "" {
			return list, usage("write widths such as 40,42", "--usable %s: nothing is written %s", o.usable, gap(o.usable))
		}
		width, err := model.ParseLength(strings.TrimSpace(text), quilt.Unit)
		if err != nil {
			return list, usage("write widths such as 40,42", "--usable: %w", err)
		}
		widths = append(widths, width)
	}
	list, err = list.WithWidths(widths)
	if err != nil {
		return list, fmt.Errorf("--usable %s: %w", o.usable, err)
	}
	return list, nil
}

// gap says where a list of widths has none.
func gap(list string) string {
	if strings.Contains(strings.ReplaceAll(list, " ", ""), ",,") {
		return "between two commas"
	}
	return "on one side of a comma"
}

func (s streams) read(file string) (model.Quilt, error) {
	if file != "-" {
		return quiltfile.Read(file)
	}
	// Parse refuses what is far too long for a quilt; more is not read.
	const most = 1 << 20
	data, err := io.ReadAll(io.LimitReader(s.in, most))
	if err != nil {
		return model.Quilt{}, fmt.Errorf("the standard input cannot be read: %w", err)
	}
	return quiltfile.Parse("standard input", data)
}

// timings says how long each plan took. It differs from run to run, so it is
// no part of the results.
func (s streams) timings(q yardage.Quilt) {
	for _, f := range q.Fabrics {
		for _, w := range f.Widths {
			s.say(fmt.Sprintf("%s at %s: %v", f.Fabric.ID, w.Width.FormatWithUnit(q.Unit),
				w.Result.Elapsed.Round(time.Millisecond)))
		}
	}
}

// limits tells of purchases that a longer search might prove or better.
func (s streams) limits(q yardage.Quilt, o order) {
	ended := map[pack.Stop]int{}
	for _, f := range q.Fabrics {
		for _, w := range f.Widths {
			if !w.BuyProven {
				ended[w.Result.Stop]++
			}
		}
	}
	for _, limit := range []struct {
		stop pack.Stop
		what string
	}{{pack.WorkLimit, "the work that --time %v allows"}, {pack.TimeLimit, "the clock, with --time %v,"}} {
		if n := ended[limit.stop]; n > 0 {
			s.say(fmt.Sprintf(limit.what+" ended the search before what to buy was proven, %s", o.limit, times(n)))
		}
	}
	if ended[pack.WorkLimit]+ended[pack.TimeLimit] > 0 {
		fmt.Fprintln(s.err, "a longer time may prove it, or find a plan that buys less")
	}
}

// work bounds a search without a time limit by nothing, and any other by what
// its time limit allows.
func (o order) work() int64 {
	if o.limit == 0 {
		return math.MaxInt64
	}
	return 0
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// stopped is the error of a run that Ctrl-C ended.
func stopped(c *cli.Context, hint string) error {
	if c.Context.Err() == nil {
		return nil
	}
	return &helpful{err: errors.New("stopped before the search was done"), hint: hint}
}
