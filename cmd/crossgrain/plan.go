package main

import (
	"fmt"
	"io"
	"os"

	"github.com/urfave/cli/v2"

	"crossgrain/reports"
)

func planCommand(s streams) *cli.Command {
	formats := []string{"text", "json"}
	return &cli.Command{
		Name:      "plan",
		Usage:     "print what to buy and the cutting list",
		ArgsUsage: "FILE",
		Description: "Prints what to buy of each fabric at each usable width, then how to cut it,\n" +
			"strip by strip, and of a design how its units are made. Of a quilt in several\n" +
			"sizes it prints what to buy in each, side by side; with --size all of one.\n" +
			"Ctrl-C ends the search and prints the best plans so far.\n" + fileHelp,
		Flags: append(planningFlags(),
			&cli.StringFlag{Name: "as", Value: "text", Usage: "print the results as `FORMAT`, text or json"}),
		OnUsageError: badUsage,
		Action: func(c *cli.Context) error {
			o, err := newOrder(c)
			if err != nil {
				return err
			}
			format, err := choice("as", c.String("as"), formats)
			if err != nil {
				return err
			}
			quilts, err := s.plan(c, o)
			if err != nil {
				return err
			}
			if err := write(s.out, quilts, formats[format]); err != nil {
				return fmt.Errorf("the results could not be written: %w", err)
			}
			return stopped(c, "the plans printed are the best found so far")
		},
	}
}

// write prints one quilt, or its sizes side by side.
func write(w io.Writer, quilts []reports.Quilt, format string) error {
	options := reports.TextOptions{Colour: colourful(w)}
	switch one := len(quilts) == 1; {
	case one && format == "json":
		return reports.WriteJSON(w, quilts[0])
	case one:
		return reports.WriteText(w, quilts[0], options)
	case format == "json":
		return reports.WriteSizesJSON(w, quilts)
	}
	return reports.WriteSizes(w, quilts, options)
}

// colourful reports whether a writer is a terminal that may have colour.
func colourful(w io.Writer) bool {
	return terminal(w) && os.Getenv("NO_COLOR") == ""
}
