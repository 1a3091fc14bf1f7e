package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"crossgrain/reports"
)

func exportCommand(s streams) *cli.Command {
	return &cli.Command{
		Name:      "export",
		Usage:     "write what to buy and how to cut it to a file",
		ArgsUsage: "FILE",
		Description: "Writes to a file what its ending says:\n\n" +
			"  .xlsx       a workbook: what to buy and what it costs, the cutting lists,\n" +
			"              the pieces, how the units of a design are made, usable widths\n" +
			"              side by side; purchases follow figures that you may change\n" +
			"  .pdf        a sheet to print: what to buy, the pieces, the cutting with\n" +
			"              drawings, and what units are trimmed to\n" +
			"  .html       a page for a browser: the same, to switch and to tick off\n" +
			"  .svg, .png  drawings: the strips and pieces on the cloth, the finished\n" +
			"              quilt, its blocks, its units as they are cut and trimmed\n" +
			"  .csv        a table for a spreadsheet or a program, of what to buy or, with\n" +
			"              --table pieces, of every piece\n\n" +
			"Of a quilt in several sizes a file has all; with --size it has one. A file is\n" +
			"written whole or not at all.\n" + fileHelp,
		Flags: append([]cli.Flag{
			&cli.StringFlag{Name: "to", Usage: "write to the file `OUT`; its ending says what is written"},
			&cli.StringFlag{Name: "table", Value: buyTable, Usage: "what a .csv holds: `TABLE` buy or pieces"},
			&cli.BoolFlag{Name: "replace", Usage: "write over a file that is there", DisableDefaultText: true},
		}, planningFlags()...),
		OnUsageError: badUsage,
		Action: func(c *cli.Context) error {
			o, err := newOrder(c)
			if err != nil {
				return err
			}
			out, format, err := outputPath(c, o)
			if err != nil {
				return err
			}
			if err := checkTable(c, format); err != nil {
				return err
			}
			// A long search must not end at a folder that cannot be written to.
			if err := out.check(); err != nil {
				return err
			}
			write, err := s.prepare(c, o, format)
			if err != nil {
				return err
			}
			if err := stopped(c, fmt.Sprintf("%s was not written", out.path)); err != nil {
				return err
			}
			if err := out.write(write); err != nil {
				return err
			}
			s.say("wrote " + out.path)
			return nil
		},
	}
}

// prepare reads the quilt, plans it if the format tells of plans, and returns
// what writes the file.
func (s streams) prepare(c *cli.Context, o order, f format) (func(w io.Writer) error, error) {
	if f.ending == csvEnding && c.String("table") == piecesTable {
		wholes, err := s.wholes(o)
		return func(w io.Writer) error { return reports.WritePiecesCSV(w, wholes) }, err
	}
	quilts, err := s.plan(c, o)
	return func(w io.Writer) error { return f.write(w, quilts) }, err
}

// The tables that a .csv may hold.
const (
	csvEnding   = ".csv"
	buyTable    = "buy"
	piecesTable = "pieces"
)

// checkTable checks --table, which other formats than .csv do not have.
func checkTable(c *cli.Context, f format) error {
	if _, err := choice("table", c.String("table"), []string{buyTable, piecesTable}); err != nil {
		return err
	}
	if c.IsSet("table") && f.ending != csvEnding {
		return usage("leave --table out, or write to a name that ends in .csv", "a file that ends in %s has no one table", f.ending)
	}
	return nil
}

// format is a kind of file that export writes.
type format struct {
	ending string
	write  func(w io.Writer, quilts []reports.Quilt) error
}

// formats are all kinds, by the endings of their names.
var formats = []format{
	{".xlsx", reports.WriteWorkbook},
	{".pdf", reports.WriteSheet},
	{".html", reports.WritePage},
	{".svg", reports.WriteSVG},
	{".png", reports.WritePNG},
	{csvEnding, reports.WriteBuyCSV},
}

// endings are those of all formats, in words.
func endings() string {
	var all []string
	for _, f := range formats {
		all = append(all, f.ending)
	}
	last := len(all) - 1
	return strings.Join(all[:last], ", ") + " or " + all[last]
}

// outputPath is the file that --to names, which is never the quilt file, and the
// format that its ending asks for.
func outputPath(c *cli.Context, o order) (target, format, error) {
	path := c.String("to")
	if path == "" {
		return target{}, format{}, usage("add: --to OUT.xlsx, or another name that ends in "+endings(), "no file to write to named")
	}
	i := slices.IndexFunc(formats, func(f format) bool { return strings.EqualFold(filepath.Ext(path), f.ending) })
	if i < 0 {
		return target{}, format{}, usage("write a name that ends in "+endings(), "--to %q: its ending says nothing of what to write", path)
	}
	in, errIn := os.Stat(o.file)
	out, errOut := os.Stat(path)
	if errIn == nil && errOut == nil && os.SameFile(in, out) {
		return target{}, format{}, usage("write another name", "--to %q is the quilt file itself", path)
	}
	return target{path, c.Bool("replace")}, formats[i], nil
}
