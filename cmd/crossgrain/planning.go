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
	"crossgrain/model/design"
	"crossgrain/model/quiltbook"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
	"crossgrain/pack/glpk"
	"crossgrain/reports"
	"crossgrain/yardage"
)

// fileHelp says what FILE is; it ends the description of each command.
const fileHelp = "FILE is a quilt file in YAML, a workbook that was filled in (see crossgrain\n" +
	"start), or - for the standard input."

// fileFlags are the flags that all commands share.
func fileFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "size", Usage: "the quilt's size of this `NAME`; without it all sizes"},
		&cli.StringFlag{Name: "usable", Usage: "plan for these usable `WIDTHS` instead, as in 40,42"},
	}
}

// planningFlags are the flags that all commands that plan share.
func planningFlags() []cli.Flag {
	return append(fileFlags(),
		&cli.StringFlag{Name: "style", Value: pack.Nested.String(), Usage: "`STYLE` of strips: plain, shared or nested"},
		&cli.StringFlag{Name: "time", Value: "20s", Usage: "`TIME` limit of a quilt, 0 for none"},
		&cli.BoolFlag{Name: "timings", Usage: "say how long each plan took, and how it is proven", DisableDefaultText: true})
}

// order is what a command line asks for, checked as far as the command line
// alone allows.
type order struct {
	file   string
	usable string
	// size is the name of one of the quilt's sizes; empty for all.
	size  string
	style pack.Style
	limit time.Duration
	// timings asks to say how long each plan took.
	timings bool
}

// newFileOrder is the part of an order that all commands share.
func newFileOrder(c *cli.Context) (order, error) {
	o := order{usable: c.String("usable"), size: c.String("size")}
	switch files := c.Args().Slice(); len(files) {
	case 0:
		return o, usage(helpHint(c.Command), "no quilt file named")
	case 1:
		o.file = files[0]
	default:
		return o, usage(helpHint(c.Command), "one quilt file at a time, not %d: %s", len(files), quoted(files))
	}
	if c.IsSet("usable") && strings.TrimSpace(o.usable) == "" {
		return o, usage("write widths such as 40,42", "--usable has no widths")
	}
	if c.IsSet("size") && o.size == "" {
		return o, usage("write the name of one of the quilt's sizes", "--size has no name")
	}
	return o, nil
}

// newOrder is the order of a command that plans.
func newOrder(c *cli.Context) (order, error) {
	o, err := newFileOrder(c)
	if err != nil {
		return o, err
	}
	o.timings = c.Bool("timings")
	if err := o.readLimit(c.String("time")); err != nil {
		return o, err
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

// plan reads the quilt and plans every fabric, in the size asked for or in all.
// A cancelled context is no error here: the plans are the best that were found.
func (s streams) plan(c *cli.Context, o order) ([]reports.Quilt, error) {
	wholes, err := s.wholes(o)
	if err != nil {
		return nil, err
	}
	var quilts []reports.Quilt
	var all yardage.Quilt
	for i, whole := range wholes {
		list, err := whole.Quilt.CutList()
		if err != nil {
			return nil, err
		}
		if i == 0 {
			s.warnNarrow(list)
		}
		q, err := s.require(c, list, o)
		if err != nil {
			return nil, err
		}
		quilts = append(quilts, reports.Quilt{Quilt: q, Whole: whole})
		all.Unit, all.Fabrics = q.Unit, append(all.Fabrics, q.Fabrics...)
	}
	if o.timings {
		s.timings(all)
	}
	s.limits(all, o)
	return quilts, nil
}

// require plans a cut list and tells on a terminal how it stands.
func (s streams) require(c *cli.Context, list model.CutList, o order) (yardage.Quilt, error) {
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
	return q, err
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

// warnUnplaced tells of blocks and units that stand nowhere in the quilt.
func (s streams) warnUnplaced(d design.Design) {
	blocks, units := d.Unplaced()
	tell := func(thing string, labels []string) {
		switch len(labels) {
		case 0:
		case 1:
			s.say(fmt.Sprintf("the %s %q stands nowhere in the quilt: nothing is cut for it", thing, labels[0]))
		default:
			s.say(fmt.Sprintf("the %ss %s stand nowhere in the quilt: nothing is cut for them", thing, quoted(labels)))
		}
	}
	tell("block", blocks)
	tell("unit", units)
}

// wholes reads the quilt and works it out, in the size asked for or in all, at
// the usable widths asked for.
func (s streams) wholes(o order) ([]design.Whole, error) {
	d, err := s.read(o.file)
	if err != nil {
		return nil, err
	}
	sizes, err := sizesOf(d, o.size)
	if err != nil {
		return nil, err
	}
	if o.usable != "" {
		if d, err = withWidths(d, o.usable); err != nil {
			return nil, err
		}
	}
	wholes, err := worked(d, sizes, o)
	if err != nil {
		return nil, err
	}
	s.warnUnplaced(d)
	return wholes, nil
}

// worked is the quilt worked out in some of its sizes.
func worked(d design.Design, sizes []string, o order) ([]design.Whole, error) {
	var wholes []design.Whole
	for _, size := range sizes {
		whole, err := d.Work(size)
		if err != nil && o.usable != "" {
			err = fmt.Errorf("--usable %s: %w", o.usable, err)
		}
		if err != nil {
			return nil, err
		}
		wholes = append(wholes, whole)
	}
	return wholes, nil
}

// sizesOf are the sizes asked for: the one of a name, or all.
func sizesOf(d design.Design, name string) ([]string, error) {
	names := d.SizeNames()
	switch {
	case name == "":
		return names, nil
	case len(d.Sizes) == 0:
		return nil, usage("leave --size out", "the quilt has one size only, and none is called %q", name)
	case !slices.Contains(names, name):
		hint := "its sizes are " + strings.Join(names, ", ")
		if near := quiltfile.Nearest(name, names); near != "" {
			hint = fmt.Sprintf("did you mean %q? %s", near, hint)
		}
		return nil, usage(hint, "the quilt has no size %q", name)
	}
	return []string{name}, nil
}

// withWidths is the design with the usable widths of every fabric replaced.
func withWidths(d design.Design, usable string) (design.Design, error) {
	var widths []model.Length
	for text := range strings.SplitSeq(usable, ",") {
		if strings.TrimSpace(text) == "" {
			return d, usageWidths("--usable %s: nothing is written %s", usable, gap(usable))
		}
		width, err := model.ParseLength(strings.TrimSpace(text), d.Unit)
		if err != nil {
			return d, usageWidths("--usable: %w", err)
		}
		widths = append(widths, width)
	}
	// Widths that no fabric can have are told once, not of each fabric.
	if _, err := (model.CutList{Unit: d.Unit}).WithWidths(widths); err != nil {
		return d, fmt.Errorf("--usable %s: %w", usable, err)
	}
	d.Fabrics = slices.Clone(d.Fabrics)
	for i := range d.Fabrics {
		d.Fabrics[i].UsableWidths = widths
	}
	return d, nil
}

func usageWidths(format string, args ...any) error {
	return usage("write widths such as 40,42", format, args...)
}

// gap says where a list of widths has none.
func gap(list string) string {
	if strings.Contains(strings.ReplaceAll(list, " ", ""), ",,") {
		return "between two commas"
	}
	return "on one side of a comma"
}

// read reads the quilt, from a quilt file or a workbook.
func (s streams) read(file string) (design.Design, error) {
	name := file
	var data []byte
	var err error
	// What is far too long for a quilt is refused; more is not read.
	if file != "-" {
		data, err = quiltfile.Load(file, quiltbook.MaxFile)
	} else {
		name = "standard input"
		data, err = io.ReadAll(io.LimitReader(s.in, quiltbook.MaxFile+1))
		if err != nil {
			err = fmt.Errorf("the standard input cannot be read: %w", err)
		}
	}
	if err != nil {
		return design.Design{}, err
	}
	if !quiltbook.Claims(name, data) {
		return quiltfile.ParseDesign(name, data)
	}
	q, err := quiltbook.Parse(name, data)
	if err != nil {
		return design.Design{}, err
	}
	return design.OfCuts(q), nil
}

// timings says how long each plan took, and how its purchase is known to be the
// least. The time differs from run to run, so it is no part of the results.
func (s streams) timings(q yardage.Quilt) {
	for _, f := range q.Fabrics {
		for _, w := range f.Widths {
			known := "not proven"
			if w.BuyProven {
				known = fmt.Sprintf("proven by %v", w.Result.PurchaseBy)
			}
			s.say(fmt.Sprintf("%s at %s: %v, what to buy is %s", f.Fabric.ID, w.Width.FormatWithUnit(q.Unit),
				w.Result.Elapsed.Round(time.Millisecond), known))
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
