package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"crossgrain/model/quiltfile"
)

// The exit statuses.
const (
	done   = 0
	failed = 1
	misuse = 2
)

// streams are where a command reads and writes. Results go to out, messages
// to err.
type streams struct {
	in       io.Reader
	out, err io.Writer
}

// run does what the arguments say, without the program's name, and gives the
// exit status.
func run(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	s := streams{stdin, stdout, stderr}
	app := newApp(s)
	// The library writes help without a look at what becomes of it.
	help := &keepsError{out: stdout}
	app.Writer = help
	args, err := arrange(app, args)
	if err == nil {
		err = app.RunContext(ctx, append([]string{app.Name}, args...))
	}
	if err == nil && help.err != nil {
		err = fmt.Errorf("the help could not be written: %w", reason(help.err))
	}
	if err == nil {
		return done
	}
	s.tell(err)
	if h, ok := errors.AsType[*helpful](err); ok {
		fmt.Fprintln(stderr, h.hint)
		if h.usage {
			return misuse
		}
	}
	return failed
}

// keepsError writes, and keeps the first error.
type keepsError struct {
	out io.Writer
	err error
}

func (k *keepsError) Write(p []byte) (int, error) {
	n, err := k.out.Write(p)
	if k.err == nil {
		k.err = err
	}
	return n, err
}

// tell writes an error. The faults of a quilt file, or of a workbook, stand on
// lines of their own that begin with the place, so that an editor can go there.
func (s streams) tell(err error) {
	faults, ok := errors.AsType[quiltfile.Errors](err)
	if !ok || !slices.ContainsFunc(faults, (*quiltfile.Error).Placed) {
		s.say(err.Error())
		return
	}
	what := "1 fault"
	if len(faults) > 1 {
		what = fmt.Sprintf("%d faults", len(faults))
	}
	where := "quilt file"
	if slices.ContainsFunc(faults, func(e *quiltfile.Error) bool { return e.Cell != "" }) {
		where = "workbook"
	}
	s.say(what + " in the " + where + ", nothing is planned")
	fmt.Fprintln(s.err, err)
}

// say writes a message, one line or more, to the error stream.
func (s streams) say(message string) {
	for line := range strings.Lines(message) {
		fmt.Fprintf(s.err, "crossgrain: %s\n", strings.TrimSuffix(line, "\n"))
	}
}

// helpful is an error with a line on what to do next. Usage marks a command
// line that cannot be carried out as it stands.
type helpful struct {
	err   error
	hint  string
	usage bool
}

func (h *helpful) Error() string { return h.err.Error() }
func (h *helpful) Unwrap() error { return h.err }

func usage(hint, format string, args ...any) error {
	return &helpful{fmt.Errorf(format, args...), hint, true}
}

func newApp(s streams) *cli.App {
	return &cli.App{
		Name:  "crossgrain",
		Usage: "what to buy for a quilt, and how to cut it",
		Description: "Reads the design of a quilt, or its list of cut pieces, works out every cut\n" +
			"size and count, finds strips that take the least cloth, says what to buy at\n" +
			"each usable width, and, where it can, proves that no plan cut in the same way\n" +
			"buys less.",
		Version:         version(),
		Commands:        []*cli.Command{startCommand(s), piecesCommand(s), planCommand(s), exportCommand(s)},
		HideHelpCommand: true,
		Reader:          s.in,
		Writer:          s.out,
		ErrWriter:       s.err,
		OnUsageError:    badUsage,
		ExitErrHandler:  func(*cli.Context, error) {}, // run gives the status
	}
}

// version is what the Go tools know of this build.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(unknown)"
}

// badUsage is a value that a flag does not take.
func badUsage(c *cli.Context, err error, _ bool) error {
	name := strings.TrimSpace("crossgrain " + c.Command.Name)
	if c.Command.Name == c.App.Name {
		name = c.App.Name
	}
	return usage("try: "+name+" --help", "%w", err)
}
