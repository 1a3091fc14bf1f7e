package main

import (
	"fmt"
	"io"
	"os"

	"github.com/urfave/cli/v2"

	"crossgrain/reports"
	"crossgrain/yardage"
)

func planCommand(s streams) *cli.Command {
	formats := []string{"text", "json"}
	return &cli.Command{
		Name:      "plan",
		Usage:     "print what to buy and the cutting list",
		ArgsUsage: "FILE",
		Description: "Prints what to buy of each fabric at each usable width, then how to cut it,\n" +
			"strip by strip. Ctrl-C ends the search and prints the best plans so far.\n" + fileHelp,
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
			q, err := s.plan(c, o)
			if err != nil {
				return err
			}
			if err := write(s.out, q, formats[format]); err != nil {
				return fmt.Errorf("the results could not be written: %w", err)
			}
			return stopped(c, "the plans printed are the best found so far")
		},
	}
}

func write(w io.Writer, q yardage.Quilt, format string) error {
	if format == "json" {
		return reports.WriteJSON(w, q)
	}
	return reports.WriteText(w, q, reports.TextOptions{Colour: colourful(w)})
}

// colourful reports whether a writer is a terminal that may have colour.
func colourful(w io.Writer) bool {
	return terminal(w) && os.Getenv("NO_COLOR") == ""
}
