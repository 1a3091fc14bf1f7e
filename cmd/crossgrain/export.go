package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"crossgrain/reports"
)

func exportCommand(s streams) *cli.Command {
	return &cli.Command{
		Name:      "export",
		Usage:     "write what to buy and the cutting list to a workbook",
		ArgsUsage: "FILE",
		Description: "Writes an .xlsx workbook with what to buy, the cutting list, the pieces, how\n" +
			"the units of a design are made, and what was assumed. Of a quilt in several\n" +
			"sizes it has one table of what to buy in each; with --size it has all of one.\n" +
			"It is written whole or not at all.\n" + fileHelp,
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "to", Usage: "write the workbook to `OUT.xlsx`"},
			&cli.BoolFlag{Name: "replace", Usage: "write over a workbook that is there", DisableDefaultText: true},
		}, planningFlags()...),
		OnUsageError: badUsage,
		Action: func(c *cli.Context) error {
			o, err := newOrder(c)
			if err != nil {
				return err
			}
			out, err := workbookPath(c, o)
			if err != nil {
				return err
			}
			// A long search must not end at a folder that cannot be written to.
			if err := out.check(); err != nil {
				return err
			}
			quilts, err := s.plan(c, o)
			if err != nil {
				return err
			}
			if err := stopped(c, fmt.Sprintf("%s was not written", out.path)); err != nil {
				return err
			}
			if err := out.write(func(w io.Writer) error { return workbook(w, quilts) }); err != nil {
				return err
			}
			s.say("wrote " + out.path)
			return nil
		},
	}
}

// workbook writes one quilt, or what to buy for its sizes.
func workbook(w io.Writer, quilts []reports.Quilt) error {
	if len(quilts) == 1 {
		return reports.WriteWorkbook(w, quilts[0])
	}
	return reports.WriteSizesWorkbook(w, quilts)
}

// workbookPath is the file that --to names, which is never the quilt file.
func workbookPath(c *cli.Context, o order) (target, error) {
	path := c.String("to")
	if path == "" {
		return target{}, usage("add: --to OUT.xlsx", "no workbook to write to named")
	}
	if !strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return target{}, usage("write a name that ends in .xlsx", "--to %q is not the name of a workbook", path)
	}
	in, errIn := os.Stat(o.file)
	out, errOut := os.Stat(path)
	if errIn == nil && errOut == nil && os.SameFile(in, out) {
		return target{}, usage("write another name", "--to %q is the quilt file itself", path)
	}
	return target{path, c.Bool("replace")}, nil
}
