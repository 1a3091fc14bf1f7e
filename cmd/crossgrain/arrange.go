package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"crossgrain/model/quiltfile"
)

// arrange puts the flags of a command line before its file names, where the
// flag parser looks for them, and tells of commands and flags that there are
// not.
func arrange(app *cli.App, args []string) ([]string, error) {
	if len(args) == 0 {
		return nil, usage("try: crossgrain --help", "no command given")
	}
	if args[0] == "help" {
		args = append(args[1:], "--help")
	}
	name := args[0]
	if slices.Contains([]string{"--help", "-h", "--version", "-v"}, name) {
		return args[:1], nil
	}
	command := app.Command(name)
	if command == nil {
		if strings.HasPrefix(name, "-") {
			return nil, usage("try: crossgrain --help", "the command comes first, not %q", name)
		}
		return nil, usage(commandHint(app, name), "there is no command %q", name)
	}
	flags, files, err := split(command, args[1:])
	if err != nil {
		return nil, err
	}
	return slices.Concat([]string{name}, flags, []string{"--"}, files), nil
}

// commandHint lists the commands, the likely one first.
func commandHint(app *cli.App, name string) string {
	var names []string
	for _, c := range app.Commands {
		names = append(names, c.Name)
	}
	last := len(names) - 1
	all := "the commands are " + strings.Join(names[:last], ", ") + " and " + names[last]
	if near := quiltfile.Nearest(name, names); near != "" {
		return fmt.Sprintf("did you mean %q? %s", near, all)
	}
	return all
}

// split sorts a command's arguments into flags, each with its value, and the
// rest.
func split(command *cli.Command, args []string) (flags, files []string, err error) {
	for len(args) > 0 {
		arg := args[0]
		args = args[1:]
		if arg == "--" {
			return flags, append(files, args...), nil
		}
		if !strings.HasPrefix(arg, "-") || arg == "-" {
			files = append(files, arg)
			continue
		}
		name, _, valued := strings.Cut(strings.TrimLeft(arg, "-"), "=")
		takesValue, known := flagOf(command, name)
		switch {
		case !known:
			return nil, nil, unknownFlag(command, name)
		case !takesValue || valued:
			flags = append(flags, arg)
		case len(args) == 0:
			return nil, nil, usage(helpHint(command), "--%s needs a value", name)
		default:
			flags = append(flags, arg, args[0])
			args = args[1:]
		}
	}
	return flags, files, nil
}

func flagOf(command *cli.Command, name string) (takesValue, known bool) {
	for _, f := range append(command.Flags, cli.HelpFlag) {
		if slices.Contains(f.Names(), name) {
			_, isBool := f.(*cli.BoolFlag)
			return !isBool, true
		}
	}
	return false, false
}

func unknownFlag(command *cli.Command, name string) error {
	hint := helpHint(command)
	var names []string
	for _, f := range command.Flags {
		names = append(names, f.Names()...)
	}
	if near := quiltfile.Nearest(name, names); near != "" {
		hint = fmt.Sprintf("did you mean --%s? %s", near, hint)
	}
	return usage(hint, "crossgrain %s has no flag --%s", command.Name, name)
}

func helpHint(command *cli.Command) string {
	return fmt.Sprintf("try: crossgrain %s --help", command.Name)
}
