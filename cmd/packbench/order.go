package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"time"

	"crossgrain/pack"
)

// order is what a command line asks for.
type order struct {
	set      string
	style    pack.Style
	turned   bool // every piece may be turned
	limit    time.Duration
	work     int64  // steps of the search; 0 for what the limit gives
	only     string // a pattern of path.Match for names
	sample   int    // so many instances, evenly spread; 0 for all
	peers    []peer
	models   []compactModel
	peerTime time.Duration
	as       string // text or json
	data     string // the folder of the instances
	profile  string // the file that gets a profile; "" for none
}

// errUsage marks a command line that cannot be carried out as it stands. The
// user has been told why.
var errUsage = errors.New("the command line is wrong")

// readOrder reads the command line. Its error is errUsage, or flag.ErrHelp
// where help was asked for.
func readOrder(args []string, stderr io.Writer) (order, error) {
	var o order
	var style, peers, models, highs string
	f := flag.NewFlagSet("packbench", flag.ContinueOnError)
	f.SetOutput(stderr)
	f.StringVar(&o.set, "set", "quilts-a", "instance `SET`: "+strings.Join(setNames(), ", "))
	f.StringVar(&style, "style", "", "`STYLE` of strips: shared or nested (default shared, for twelve nested)")
	f.BoolVar(&o.turned, "turned", false, "let every piece be turned (classic only)")
	f.DurationVar(&o.limit, "time", 10*time.Second, "time `LIMIT` of ours for one instance, for twelve of all")
	f.Int64Var(&o.work, "work", 0, "work limit of ours in `STEPS`, 0 for as many as the time limit gives")
	f.StringVar(&o.only, "only", "", "only instances whose name matches `PATTERN`, such as gcut*")
	f.IntVar(&o.sample, "sample", 0, "only `N` instances, evenly spread over the set")
	f.StringVar(&peers, "peers", "", "run these `SOLVERS` beside ours: "+strings.Join(peerNames(), ","))
	f.StringVar(&models, "models", "arc-flow,level", "the integer `PROGRAMS` that they are given")
	f.DurationVar(&o.peerTime, "peer-time", time.Minute, "time `LIMIT` of a solver for one program")
	f.StringVar(&highs, "highs", "bin/highs", "`FOLDER` in which npm has installed highs")
	f.StringVar(&o.as, "as", "text", "`FORM` of the answer: text or json")
	f.StringVar(&o.data, "data", "testdata/bench", "`FOLDER` of the instances")
	f.StringVar(&o.profile, "profile", "", "write where the time goes to `FILE`, for go tool pprof")
	if err := f.Parse(args); err != nil {
		if !errors.Is(err, flag.ErrHelp) {
			err = errUsage
		}
		return o, err
	}
	o.peers = findPeers(peers, highs)
	o.models = findModels(models)
	if style == "" {
		style = defaultStyle(o.set)
	}
	o.style = pack.Shared
	if style == pack.Nested.String() {
		o.style = pack.Nested
	}
	if fault := o.fault(f.Args(), style, peers, models); fault != "" {
		fmt.Fprintln(stderr, "packbench: "+fault+"; try packbench --help")
		return o, errUsage
	}
	return o, nil
}

// fault says what cannot be carried out; "" if all can.
func (o order) fault(rest []string, style, peers, models string) string {
	_, badPattern := path.Match(o.only, "")
	switch {
	case len(rest) > 0:
		return fmt.Sprintf("%q is no flag", rest[0])
	case !slices.Contains(setNames(), o.set):
		return fmt.Sprintf("there is no set %q", o.set)
	case style != pack.Shared.String() && style != pack.Nested.String():
		return fmt.Sprintf("there is no style %q", style)
	case o.turned && o.set != classicSet:
		return "--turned is for the set classic"
	case o.limit <= 0 || o.peerTime <= 0:
		return "a time limit must be more than 0s"
	case o.work < 0:
		return fmt.Sprintf("--work %d is less than none", o.work)
	case o.work > 0 && o.set == twelveSet:
		return "a quilt is planned with the work that its time limit gives"
	case badPattern != nil:
		return fmt.Sprintf("--only does not know the pattern %q", o.only)
	case o.sample < 0:
		return fmt.Sprintf("--sample %d is less than none", o.sample)
	case len(o.peers) != len(listed(peers)):
		return fmt.Sprintf("--peers does not know all of %q", peers)
	case len(o.models) != len(listed(models)):
		return fmt.Sprintf("--models does not know all of %q", models)
	case len(o.peers) > 0 && (o.style != pack.Shared || o.set == twelveSet):
		return "the integer programs are those of shared plans of one fabric"
	case o.as != "text" && o.as != "json":
		return fmt.Sprintf("--as does not know %q", o.as)
	}
	return ""
}

// listed are the words of a list with commas.
func listed(list string) []string {
	return strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
}
