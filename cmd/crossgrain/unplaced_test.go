package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Blocks and units that stand in no size are told of, and no others: not what
// stands between, inside a block, as a colourway, or in another size.
func TestUnplacedIsTold(t *testing.T) {
	const quilt = `title: Spares
unit: in
fabrics: {ink: {}, foam: {}}
units:
  s: {square: 2, fabric: ink}
  heart: {square: 2, fabric: ink}
  spare: {square: 4, fabric: ink}
  lost: {square: 4, fabric: ink}
blocks:
  small: {finished: 2, rows: [[s]], colourways: {pale: {ink: foam}}}
  ring: {finished: 4, centre: {unit: heart}, rounds: [{kind: logs around, width: 1, fabric: foam}]}
  large: {finished: 4, rows: [[small, small/pale], [s, s]]}
  other: {finished: 4, rows: [[s, s], [s, s]]}
  extra: {finished: 4, rows: [[spare]]}
setting: {rows: 2, columns: 2, layout: [[large, ring, extra]]}
sizes:
  one: {rows: 1, columns: 1}
  two: {rows: 1, columns: 2, layout: [[ring, other]]}
`
	path := filepath.Join(t.TempDir(), "spares.yaml")
	for _, test := range []struct{ from, to, want string }{
		{"", "", "crossgrain: the block \"extra\" stands nowhere in the quilt: nothing is cut for it\n" +
			"crossgrain: the units \"spare\", \"lost\" stand nowhere in the quilt: nothing is cut for them\n"},
		{"  lost: {square: 4, fabric: ink}\n", "", "crossgrain: the block \"extra\" stands nowhere in the quilt: nothing is cut for it\n" +
			"crossgrain: the unit \"spare\" stands nowhere in the quilt: nothing is cut for it\n"},
	} {
		if err := os.WriteFile(path, []byte(strings.Replace(quilt, test.from, test.to, 1)), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"pieces", path}, {"pieces", path, "--size", "one"}} {
			if status, _, stderr := try(t.Context(), args...); status != 0 || stderr != test.want {
				t.Errorf("%v ended with %d and said\n%s", args, status, stderr)
			}
		}
	}
	whole := strings.NewReplacer("  lost: {square: 4, fabric: ink}\n", "", "  spare: {square: 4, fabric: ink}\n", "",
		"  extra: {finished: 4, rows: [[spare]]}\n", "", ", extra]]", "]]").Replace(quilt)
	if err := os.WriteFile(path, []byte(whole), 0o600); err != nil {
		t.Fatal(err)
	}
	if status, _, stderr := try(t.Context(), "pieces", path); status != 0 || stderr != "" {
		t.Errorf("ended with %d and said\n%s", status, stderr)
	}
}
