package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/urfave/cli/v2"

	"crossgrain/model/quiltbook"
	"crossgrain/model/quiltfile"
)

func startCommand(s streams) *cli.Command {
	return &cli.Command{
		Name:      "start",
		Usage:     "write a file to begin with: a workbook to fill in, or YAML to change",
		ArgsUsage: "FILE",
		Description: "Writes a workbook to fill in, if FILE ends in .xlsx: sheets for the quilt, its\n" +
			"fabrics and its cuts, with drop-down lists and notes. If FILE ends in .yaml it is\n" +
			"a quilt file with an example and notes, of a cutting list or of a design. The\n" +
			"other commands read what you make of either. It is written whole or not at all.",
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "design", Usage: "begin with a design, in YAML", DisableDefaultText: true},
			&cli.BoolFlag{Name: "replace", Usage: "write over a file that is there", DisableDefaultText: true},
		},
		OnUsageError: badUsage,
		Action: func(c *cli.Context) error {
			path, err := startPath(c)
			if err != nil {
				return err
			}
			content, next := starter(c, path)
			out := target{path, c.Bool("replace")}
			if err := out.check(); err != nil {
				return err
			}
			if err := out.write(content); err != nil {
				return err
			}
			s.say("wrote " + path)
			fmt.Fprintf(s.err, "%s, save it, and then: crossgrain plan %s\n", next, asTyped(path))
			return nil
		},
	}
}

// startPath is the file to write.
func startPath(c *cli.Context) (string, error) {
	files := c.Args().Slice()
	switch {
	case len(files) == 0 || files[0] == "":
		return "", usage("write a name that ends in .xlsx or .yaml", "no file to write named")
	case len(files) > 1:
		return "", usage(helpHint(c.Command), "one file at a time, not %d: %s", len(files), quoted(files))
	}
	path := files[0]
	switch {
	case !isBook(path) && !isYAML(path):
		return "", usage("write a name that ends in .xlsx or .yaml", "%q is the name of neither a workbook nor a quilt file", path)
	case isBook(path) && c.Bool("design"):
		return "", usage("write a name that ends in .yaml", "a design is written in YAML, not in a workbook")
	}
	return path, nil
}

// asTyped is a file's name as it is typed on a command line.
func asTyped(path string) string {
	if strings.ContainsAny(path, " \t'\"$&;()<>|*?`\\") {
		return "'" + strings.ReplaceAll(path, "'", `'\''`) + "'"
	}
	return path
}

func isBook(path string) bool { return strings.EqualFold(filepath.Ext(path), ".xlsx") }

func isYAML(path string) bool {
	ext := filepath.Ext(path)
	return strings.EqualFold(ext, ".yaml") || strings.EqualFold(ext, ".yml")
}

// starter is what to write, and what to do with it.
func starter(c *cli.Context, path string) (content func(io.Writer) error, next string) {
	if isBook(path) {
		return quiltbook.WriteStart, "open it in a spreadsheet program, fill it in"
	}
	text := quiltfile.Start()
	if c.Bool("design") {
		text = quiltfile.StartDesign()
	}
	return func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	}, "put your quilt in place of the example"
}
