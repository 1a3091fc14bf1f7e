package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/quiltfile"
	"crossgrain/pack"
)

const readme = "../../README.md"

func document(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// fence is a block of code: its language and its lines.
var fence = regexp.MustCompile("(?ms)^```(\\w+)\n(.*?)^```$")

// examples puts every quilt file of the README, which begins with a comment
// with its name, into a folder and makes that the current one.
func examples(t *testing.T) {
	t.Helper()
	name := regexp.MustCompile(`^# (\S+\.yaml)\n`)
	blocks := fence.FindAllStringSubmatch(document(t, readme), -1)
	t.Chdir(t.TempDir())
	for _, b := range blocks {
		if file := name.FindStringSubmatch(b[2]); b[1] == "yaml" && file != nil {
			if err := os.WriteFile(file[1], []byte(b[2]), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// What the README shows of the program is what it prints, to the byte.
func TestReadmeExamples(t *testing.T) {
	path, err := filepath.Abs(readme)
	if err != nil {
		t.Fatal(err)
	}
	before := document(t, path)
	examples(t)
	ran := 0
	after := fence.ReplaceAllStringFunc(before, func(block string) string {
		line, _, _ := strings.Cut(strings.TrimPrefix(block, "```console\n"), "\n")
		command, ok := strings.CutPrefix(line, "$ crossgrain ")
		if !ok {
			return block
		}
		ran++
		_, stdout, stderr := try(t.Context(), strings.Fields(command)...)
		return "```console\n" + line + "\n" + stderr + stdout + "```"
	})
	if ran == 0 {
		t.Fatal("the README runs nothing")
	}
	if *update {
		if err := os.WriteFile(path, []byte(after), 0o666); err != nil {
			t.Fatal(err)
		}
	} else if diff := cmp.Diff(before, after); diff != "" {
		t.Errorf("README.md is not what the program prints (-readme +program):\n%s", diff)
	}
}

// section is what stands under a heading, down to the next one like it.
func section(t *testing.T, heading string) string {
	t.Helper()
	_, rest, found := strings.Cut(document(t, readme), "\n"+heading+"\n")
	if !found {
		t.Fatalf("README.md has no heading %q", heading)
	}
	level, _, _ := strings.Cut(heading, " ")
	text, _, _ := strings.Cut(rest, "\n"+level+" ")
	return text
}

// tables are the tables of a text whose first heading is the one given: the
// cells of each row, without the headings.
func tables(text, first string) [][]string {
	var rows [][]string
	in := false
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		switch {
		case !strings.HasPrefix(line, "|"):
			in = false
		case strings.HasPrefix(line, "| "+first+" |"):
			in = true
		case in && !strings.HasPrefix(line, "|--"):
			var cells []string
			for cell := range strings.SplitSeq(strings.Trim(line, "|"), "|") {
				cells = append(cells, strings.TrimSpace(cell))
			}
			rows = append(rows, cells)
		}
	}
	return rows
}

var code = regexp.MustCompile("`([^`]+)`")

// coded lists what a text has in backticks.
func coded(text string) []string {
	var words []string
	for _, m := range code.FindAllStringSubmatch(text, -1) {
		words = append(words, strings.Join(strings.Fields(m[1]), " "))
	}
	return words
}

// flagRow is a flag as the README and the help have it.
type flagRow struct{ goesWith, standard string }

// The README has every command and flag, with its default, and no others.
func TestReadmeCommands(t *testing.T) {
	text := section(t, "## Commands")
	option := regexp.MustCompile(`(?m)^   (--.*?)(?:  .*?)?(?: \(default: "(.*)"\))?$`)
	commands := []string{"alone"}
	for _, c := range newApp(streams{}).Commands {
		commands = append(commands, c.Name)
		if !strings.Contains(text, "`crossgrain "+c.Name+" ") {
			t.Errorf("README.md does not tell of crossgrain %s", c.Name)
		}
	}
	for _, m := range regexp.MustCompile(`crossgrain (\w+) [A-Z]`).FindAllStringSubmatch(text, -1) {
		if !slices.Contains(commands, m[1]) {
			t.Errorf("README.md tells of crossgrain %s, which there is not", m[1])
		}
	}
	want := map[string]flagRow{}
	for _, c := range commands {
		args := []string{c, "--help"}
		if c == "alone" {
			args = args[1:]
		}
		_, help, _ := try(t.Context(), args...)
		for _, m := range option.FindAllStringSubmatch(help, -1) {
			row := flagRow{c, m[2]}
			if before := want[m[1]].goesWith; before != "" {
				row.goesWith = before + ", " + c
			}
			want[m[1]] = row
		}
	}
	got := map[string]flagRow{}
	for _, row := range tables(text, "flag") {
		got[strings.Trim(row[0], "`")] = flagRow{row[1], strings.Trim(row[2], "`")}
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(flagRow{})); diff != "" {
		t.Errorf("flags (-help +README.md):\n%s", diff)
	}
}

// keyTables are the README's tables of the keys of a quilt, a fabric and a cut.
func keyTables(t *testing.T) [3]map[string]string {
	t.Helper()
	var all [3]map[string]string
	parts := strings.Split(section(t, "## The quilt file"), "\n| key |")
	if len(parts) != len(all)+1 {
		t.Fatalf("%d tables of keys, want %d", len(parts)-1, len(all))
	}
	for i, part := range parts[1:] {
		all[i] = map[string]string{}
		keyRows(all[i], "| key |"+part)
	}
	return all
}

// keyRows puts the defaults of a table's keys into a map. A row may be about
// several keys.
func keyRows(into map[string]string, text string) {
	for _, row := range tables(text, "key") {
		for _, key := range coded(row[0]) {
			into[key] = row[1]
		}
	}
}

// The README has every key of a quilt file, says which must be there, and has
// no others.
func TestReadmeKeys(t *testing.T) {
	type object struct {
		Required   []string
		Properties map[string]any
	}
	var schema struct {
		object
		Defs struct{ Fabric, Cut object } `json:"$defs"`
	}
	if err := json.Unmarshal(quiltfile.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	got := keyTables(t)
	for i, want := range []object{schema.object, schema.Defs.Fabric, schema.Defs.Cut} {
		if diff := cmp.Diff(slices.Sorted(maps.Keys(want.Properties)), slices.Sorted(maps.Keys(got[i]))); diff != "" {
			t.Errorf("keys (-schema +README.md):\n%s", diff)
		}
		for key, standard := range got[i] {
			if slices.Contains(want.Required, key) != (standard == "required") {
				t.Errorf("README.md has %s: %s, the schema requires %v", key, standard, want.Required)
			}
		}
	}
}

// The chapter on designs has every key of each group, says which must be there,
// and has no others.
func TestReadmeDesignKeys(t *testing.T) {
	var schema struct {
		Defs map[string]struct {
			Required   []string
			Properties map[string]any
		} `json:"$defs"`
	}
	if err := json.Unmarshal(quiltfile.Schema(), &schema); err != nil {
		t.Fatal(err)
	}
	text := section(t, "## The design")
	parts := strings.Split(text, "\n| key |")[1:]
	groups := []string{"unit", "block", "round", "setting", "border", "binding", "backing", "size", "cutout"}
	if len(parts) != len(groups) {
		t.Fatalf("%d tables of keys, want %d", len(parts), len(groups))
	}
	for i, group := range groups {
		got := map[string]string{}
		keyRows(got, "| key |"+parts[i])
		if group == "unit" {
			for _, row := range tables(text, "unit") {
				kind, _, _ := strings.Cut(coded(row[0])[0], ":")
				got[kind] = ""
			}
		}
		want := schema.Defs[group]
		if diff := cmp.Diff(slices.Sorted(maps.Keys(want.Properties)), slices.Sorted(maps.Keys(got))); diff != "" {
			t.Errorf("keys of a %s (-schema +README.md):\n%s", group, diff)
		}
		for key, standard := range got {
			if slices.Contains(want.Required, key) != (standard == "required") {
				t.Errorf("README.md has %s: %s, the schema requires %v", key, standard, want.Required)
			}
		}
	}
	for _, group := range []string{"centre", "sashing", "triangles", "batting", "flip_corner"} {
		for key := range schema.Defs[group].Properties {
			if !regexp.MustCompile(`\b` + key + `\b`).MatchString(text) {
				t.Errorf("README.md does not tell of %s of a %s", key, group)
			}
		}
	}
}

// The methods that the README has for a unit, and no others, are read.
func TestReadmeMethods(t *testing.T) {
	const form = "{unit: in, fabrics: {ink: }, units: {a: {%s, %s%s}}, cuts: [{name: A, fabric: ink, size: 2, count: 1}]}"
	for _, row := range tables(section(t, "## The design"), "unit") {
		kind, methods := coded(row[0])[0], coded(row[2])
		fabrics := "fabric: ink"
		if strings.HasPrefix(kind, "patches") {
			fabrics = "fabrics: [[ink, ink], [ink, ink]]"
		}
		if strings.HasPrefix(kind, "flip") {
			fabrics += ", corners: []"
		}
		for m := block.FromTriangles; m <= block.StripSets; m++ {
			file := fmt.Sprintf(form, kind, fabrics, ", method: "+m.String())
			_, err := quiltfile.ParseDesign("unit.yaml", []byte(file))
			if known := slices.Contains(methods, m.String()); known != (err == nil) {
				t.Errorf("%s: README.md says %v, the program %v", file, known, err)
			}
		}
	}
}

// A default that the README gives, written out, changes nothing.
func TestReadmeDefaults(t *testing.T) {
	keys := keyTables(t)
	for i, unit := range []string{"in", "cm"} {
		var written [3]string
		for j, table := range keys {
			for key, standard := range table {
				if values := coded(standard); len(values) > 0 {
					written[j] += fmt.Sprintf("%s: %s, ", key, values[min(i, len(values)-1)])
				}
			}
		}
		const form = `{unit: %s, %s fabrics: {ink: {%s}}, cuts: [{name: A, fabric: ink, size: 2 x 3, count: 1, %s}]}`
		short := fmt.Sprintf(form, unit, "", "", "")
		long := fmt.Sprintf(form, unit, written[0], written[1], written[2])
		want, err := quiltfile.ParseDesign("short.yaml", []byte(short))
		if err != nil {
			t.Fatal(err)
		}
		got, err := quiltfile.ParseDesign("long.yaml", []byte(long))
		if err != nil {
			t.Fatalf("%s: %v", long, err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("%s\ngives %+v, want %+v", long, got, want)
		}
	}
}

// All the README's ways of writing twelve and a half inches are that.
func TestReadmeLengths(t *testing.T) {
	_, rest, _ := strings.Cut(document(t, readme), "\nTwelve and a half inches may be written ")
	sentence, _, _ := strings.Cut(rest, "A size is")
	lengths := coded(sentence)
	if len(lengths) < 5 {
		t.Fatalf("only %q", lengths)
	}
	for _, text := range lengths {
		if l, err := model.ParseLength(text, model.Inches); err != nil || l != 25*model.Inch/2 {
			t.Errorf("%q is %v, %v", text, l, err)
		}
	}
}

func TestReadmeTallestStrip(t *testing.T) {
	text := strings.Join(strings.Fields(section(t, "## What to buy")), " ")
	want := "A nested strip is at most " + pack.TallestStrip.FormatWithUnit(model.Inches) + " high"
	if !strings.Contains(text, want) {
		t.Errorf("README.md does not say %q", want)
	}
}
