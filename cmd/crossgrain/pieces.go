package main

import (
	"fmt"
	"io"

	"github.com/urfave/cli/v2"

	"crossgrain/model/design"
	"crossgrain/reports"
)

func piecesCommand(s streams) *cli.Command {
	formats := []string{"text", "json"}
	return &cli.Command{
		Name:      "pieces",
		Usage:     "print every piece to cut, and what units are trimmed to",
		ArgsUsage: "FILE",
		Description: "Prints every piece with its cut size, count, fabric and use, and of a design\n" +
			"what its units and rounds are trimmed to, step by step. It plans nothing. Of\n" +
			"a quilt in several sizes it prints the counts in each, side by side.\n" + fileHelp,
		Flags: append(fileFlags(),
			&cli.StringFlag{Name: "as", Value: "text", Usage: "print the results as `FORMAT`, text or json"}),
		OnUsageError: badUsage,
		Action: func(c *cli.Context) error {
			o, err := newFileOrder(c)
			if err != nil {
				return err
			}
			format, err := choice("as", c.String("as"), formats)
			if err != nil {
				return err
			}
			wholes, err := s.wholes(o)
			if err != nil {
				return err
			}
			if err := writePieces(s.out, wholes, formats[format]); err != nil {
				return fmt.Errorf("the results could not be written: %w", err)
			}
			return nil
		},
	}
}

// writePieces prints the pieces of one quilt, or of its sizes side by side.
func writePieces(w io.Writer, wholes []design.Whole, format string) error {
	options := reports.TextOptions{Colour: colourful(w)}
	switch {
	case format == "json":
		return reports.WritePiecesJSON(w, wholes)
	case len(wholes) == 1:
		return reports.WritePieces(w, wholes[0], options)
	}
	return reports.WritePieceSizes(w, wholes, options)
}
