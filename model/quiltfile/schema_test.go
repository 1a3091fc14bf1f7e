package quiltfile

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"
	"pgregory.net/rapid"

	"crossgrain/model"
	"crossgrain/model/block"
	"crossgrain/model/setting"
)

// compiled is the schema, ready to check files.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("quilt.json", document); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("quilt.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// satisfies checks a quilt file as an editor would.
func satisfies(s *jsonschema.Schema, data []byte) error {
	var value any
	if err := yaml.Load(data, &value); err != nil {
		return err
	}
	return s.Validate(value)
}

// object is what the schema says of a group of keys.
type object struct {
	Required             []string
	AdditionalProperties json.RawMessage
	Properties           map[string]json.RawMessage
	Defs                 map[string]json.RawMessage `json:"$defs"`
}

func readObject(t *testing.T, data []byte) (o object) {
	t.Helper()
	if err := json.Unmarshal(data, &o); err != nil {
		t.Fatal(err)
	}
	if string(o.AdditionalProperties) != "false" {
		t.Errorf("unknown keys are allowed: %s", o.AdditionalProperties)
	}
	return o
}

func TestSchemaKeys(t *testing.T) {
	root := readObject(t, Schema())
	def := func(name string) object { return readObject(t, root.Defs[name]) }
	for _, test := range []struct {
		name            string
		object          object
		known, required []string
	}{
		{"quilt", root, names(topKeys(true), false), names(topKeys(true), true)},
		{"fabric_defaults", readObject(t, root.Properties[fieldFabricDefaults]), names(defaultKeys, false), names(defaultKeys, true)},
		{"fabric", def("fabric"), names(fabricKeys, false), names(fabricKeys, true)},
		{"cut", def("cut"), names(cutKeys, false), names(cutKeys, true)},
		{"unit", def("unit"), kindKeys(unitKinds), nil},
		{"flip_corner", def("flip_corner"), names(flipCornerKeys, false), names(flipCornerKeys, true)},
		{"block", def("block"), names(blockKeys, false), names(blockKeys, true)},
		{"centre", def("centre"), names(centreKeys, false), names(centreKeys, true)},
		{"round", def("round"), names(roundKeys, false), names(roundKeys, true)},
		{"cutout", def("cutout"), kindKeys(cutoutKinds), []string{model.FieldCount, model.FieldFabric}},
		{"setting", def("setting"), names(settingKeys, false), names(settingKeys, true)},
		{"triangles", def("triangles"), names(triangleKeys, false), names(triangleKeys, true)},
		{"sashing", def("sashing"), names(sashingKeys, false), names(sashingKeys, true)},
		{"border", def("border"), names(borderKeys, false), names(borderKeys, true)},
		{"binding", def("binding"), names(bindingKeys, false), names(bindingKeys, true)},
		{"backing", def("backing"), names(backingKeys, false), names(backingKeys, true)},
		{"batting", def("batting"), names(battingKeys, false), names(battingKeys, true)},
		{"size", def("size"), names(sizeKeys, false), names(sizeKeys, true)},
	} {
		var keys []string
		for k := range test.object.Properties {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		slices.Sort(test.object.Required)
		if !slices.Equal(keys, test.known) {
			t.Errorf("%s: the schema has the keys %v, the reader %v", test.name, keys, test.known)
		}
		if !slices.Equal(test.object.Required, test.required) {
			t.Errorf("%s: the schema requires %v, the reader %v", test.name, test.object.Required, test.required)
		}
	}
}

// The words that the schema lists are those that the program knows.
func TestSchemaWords(t *testing.T) {
	root := readObject(t, Schema())
	words := func(last uint8, word func(i uint8) string) []string {
		var all []string
		for i := range last + 1 {
			all = append(all, word(i))
		}
		return all
	}
	var beds []string
	for _, m := range setting.Mattresses() {
		beds = append(beds, m.Name)
	}
	for _, test := range []struct {
		def, key string
		want     []string
	}{
		{"unit", "method", words(uint8(block.StripSets), func(i uint8) string { return block.Method(i).String() })[1:]},
		{"round", "kind", words(uint8(block.CornerTriangles), func(i uint8) string { return block.RoundKind(i).String() })},
		{"flip_corner", "corner", words(uint8(block.LowerLeft), func(i uint8) string { return block.Corner(i).String() })},
		{"setting", "way", words(uint8(setting.OnPoint), func(i uint8) string { return setting.Way(i).String() })},
		{"border", "corners", words(uint8(setting.CornerSquares), func(i uint8) string { return setting.Corners(i).String() })},
		{"border", "cut", words(uint8(setting.LengthwiseCut), func(i uint8) string { return setting.BorderCut(i).String() })},
		{"binding", "join", []string{joinDiagonal, joinStraight}},
		{"size", "bed", beds},
	} {
		var property struct{ Enum []string }
		if err := json.Unmarshal(readObject(t, root.Defs[test.def]).Properties[test.key], &property); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(property.Enum, test.want) {
			t.Errorf("%s of a %s: the schema has %q, the program %q", test.key, test.def, property.Enum, test.want)
		}
	}
}

// kindKeys are the keys of all the kinds, in alphabetical order.
func kindKeys[U any](kinds []kind[U]) []string {
	var found []string
	for _, k := range kinds {
		found = append(found, k.keys...)
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// names are the keys of a table in alphabetical order, or only those required.
func names[T any](keys []key[T], required bool) []string {
	var found []string
	for _, k := range keys {
		if k.required || !required {
			found = append(found, k.name)
		}
	}
	slices.Sort(found)
	return found
}

func TestSchemaTakesDemoQuilts(t *testing.T) {
	s := compiled(t)
	files, err := filepath.Glob(filepath.Join(quilts, "*.yaml"))
	if err != nil || len(files) < 2 {
		t.Fatalf("demo quilts: %v, %v", files, err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := satisfies(s, data); err != nil {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// An editor finds no fault with what Write writes.
func TestSchemaTakesWrittenQuilts(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(rt *rapid.T) {
		var b bytes.Buffer
		if err := Write(&b, anyQuilt().Draw(rt, "quilt")); err != nil {
			rt.Fatal(err)
		}
		if err := satisfies(s, b.Bytes()); err != nil {
			rt.Fatalf("%v\n%s", err, b.Bytes())
		}
	})
}

func TestSchemaRefuses(t *testing.T) {
	s := compiled(t)
	good := "unit: in\nfabrics: {ink: }\ncuts: [{name: A, fabric: ink, size: 2 1/2, count: 3}]\n"
	if err := satisfies(s, []byte(good)); err != nil {
		t.Fatal(err)
	}
	for _, change := range [][2]string{
		{"unit: in", "unit: ft"}, {"unit: in\n", ""}, {"unit: in", "unit: in\ncolour: red"},
		{"{ink: }", "[ink]"}, {"{ink: }", "{}"}, {"{ink: }", "{ink: {sold_by: 1/8}}"}, {"{ink: }", "{ink: {one_way: maybe}}"},
		{"{ink: }", "{ink: {usable_widths: 40}}"}, {"{ink: }", "{ink: {shrinkage: 2}}"}, {"{ink: }", "{ink: {shrinkage: 0.02}}"},
		{"2 1/2", "wide"}, {"count: 3", "count: 0"}, {"count: 3", "count: 2.5"}, {"count: 3", "count: 3, halve: thrice"},
		{", count: 3", ""}, {"name: A", "name: [A]"}, {"count: 3", "count: 3, grain: bias"}, {"count: 3", "count: 3, turn: 1"},
	} {
		bad := strings.Replace(good, change[0], change[1], 1)
		if satisfies(s, []byte(bad)) == nil {
			t.Errorf("the schema takes %q", bad)
		}
		if _, err := Parse("bad.yaml", []byte(bad)); err == nil {
			t.Errorf("Parse takes %q", bad)
		}
	}
}
