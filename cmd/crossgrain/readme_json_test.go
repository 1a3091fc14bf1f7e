package main

import (
	"encoding/json"
	"maps"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The README has every field of the JSON, and no others.
func TestReadmeJSON(t *testing.T) {
	weir, err := filepath.Abs("../../testdata/quilts/weir.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := section(t, "## JSON")
	plan, whole, pieces := fieldsIn(tables(text, "in")), fieldsIn(tables(text, "of a design, in")), fieldsIn(tables(text, "of pieces, in"))
	unpriced := without(plan, "buy.cost")
	examples(t)
	for _, test := range []struct {
		args []string
		want []map[string]bool
	}{
		{[]string{"plan", "lantern-row.yaml"}, []map[string]bool{plan}},
		{[]string{"plan", weir}, []map[string]bool{unpriced, without(whole, ".size", ".sizes")}},
		{[]string{"plan", "ferry.yaml"}, []map[string]bool{within("sizes", unpriced), {".title": true, ".unit": true},
			within("sizes", without(whole, ".batting", ".sizes", "batting.width", "batting.height")), {".sizes": true}}},
		{[]string{"pieces", weir}, []map[string]bool{{".title": true, ".unit": true, ".fabrics": true}, pieces, without(whole, ".size", ".sizes")}},
	} {
		_, stdout, _ := try(t.Context(), append(test.args, "--as", "json")...)
		var value any
		if err := json.Unmarshal([]byte(stdout), &value); err != nil {
			t.Fatal(err)
		}
		got, want := map[string]bool{}, map[string]bool{}
		walkFields(got, "", value)
		for _, fields := range test.want {
			maps.Copy(want, fields)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("fields of %v (-README.md +JSON):\n%s", test.args, diff)
		}
	}
}

// fieldsIn are the fields of a table, each behind what it is in.
func fieldsIn(rows [][]string) map[string]bool {
	fields := map[string]bool{}
	for _, row := range rows {
		groups := coded(row[0])
		if len(groups) == 0 {
			groups = []string{""}
		}
		for _, group := range groups {
			for _, field := range coded(row[1]) {
				fields[group+"."+field] = true
			}
		}
	}
	return fields
}

// within puts the outermost fields into a group.
func within(group string, fields map[string]bool) map[string]bool {
	moved := map[string]bool{}
	for field := range fields {
		if strings.HasPrefix(field, ".") {
			field = group + field
		}
		moved[field] = true
	}
	return moved
}

func without(fields map[string]bool, left ...string) map[string]bool {
	kept := maps.Clone(fields)
	for _, field := range left {
		delete(kept, field)
	}
	return kept
}

// walkFields finds the fields of a JSON value.
func walkFields(found map[string]bool, in string, value any) {
	switch value := value.(type) {
	case []any:
		for _, v := range value {
			walkFields(found, in, v)
		}
	case map[string]any:
		for field, v := range value {
			found[in+"."+field] = true
			walkFields(found, field, v)
		}
	}
}

// The README has every column of the tables, and no others.
func TestReadmeCSV(t *testing.T) {
	rows := tables(section(t, "## Tables for spreadsheets"), "table")
	examples(t)
	for _, table := range []string{buyTable, piecesTable} {
		want := map[string]bool{}
		for _, row := range rows {
			if row[0] == "both" || row[0] == "`"+table+"`" {
				for _, column := range coded(row[1]) {
					want[column] = true
				}
			}
		}
		out := table + ".csv"
		if status, _, stderr := try(t.Context(), "export", "lantern-row.yaml", "--to", out, "--table", table); status != 0 {
			t.Fatal(stderr)
		}
		headings, _, _ := strings.Cut(document(t, out), "\r\n")
		got := map[string]bool{}
		for column := range strings.SplitSeq(headings, ",") {
			got[column] = true
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("columns of %s (-README.md +table):\n%s", table, diff)
		}
	}
}
