package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
)

// The exit statuses.
const (
	done   = 0
	failed = 1
	misuse = 2
)

// run does what the arguments say and gives the exit status.
func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	o, err := readOrder(args, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return done
	case err != nil:
		return misuse
	}
	err = profiled(o.profile, func() error { return bench(ctx, o, newPrinter(o, stdout)) })
	if err != nil {
		fmt.Fprintf(stderr, "packbench: %v\n", err)
		return failed
	}
	return done
}

// errFaults says that the summary lists what must not be.
var errFaults = errors.New("a claim of ours or of another solver does not hold: see the faults above")

// bench runs the set. A cancelled run prints the summary of what is done, and
// is an error.
func bench(ctx context.Context, o order, p printer) error {
	instances, err := load(o)
	if err != nil {
		return err
	}
	p.start(len(instances))
	var rows []row
	if o.set == twelveSet {
		rows, err = measureQuilt(ctx, instances, o, p)
	} else {
		rows, err = measureAll(ctx, instances, o, p)
	}
	if err != nil {
		return err
	}
	s := summarise(rows, o.style)
	if err := p.finish(rows, s); err != nil {
		return err
	}
	if ctx.Err() != nil {
		return errors.New("stopped early")
	}
	if len(s.Faults) > 0 {
		return errFaults
	}
	return nil
}

// measureAll runs one instance after another, so that each has the machine to
// itself.
func measureAll(ctx context.Context, instances []instance, o order, p printer) ([]row, error) {
	var rows []row
	for _, in := range instances {
		r, err := measure(ctx, in, o)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", in.Name, err)
		}
		if err := r.compare(ctx, in, o); err != nil {
			return nil, fmt.Errorf("%s: %w", in.Name, err)
		}
		if ctx.Err() != nil {
			break // its figures are those of a run cut short
		}
		rows = append(rows, r)
		p.row(r)
	}
	return rows, nil
}
