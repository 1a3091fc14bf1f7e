package quiltfile

import (
	"regexp"
	"testing"

	"crossgrain/model/design"
)

// offered is a line of a file to begin with that is there to have its # taken
// away.
var offered = regexp.MustCompile(`(?m)^( *)# ( *(?:- \{)?[a-z_]+: ?.*|[a-z_]+:)$`)

// A file to begin with can be planned in all its sizes, as it is and with all
// that it offers.
func TestStart(t *testing.T) {
	for name, test := range map[string]struct {
		file         []byte
		offers, size int
	}{
		"cuts":   {Start(), 7, 1},
		"design": {StartDesign(), 19, 3},
	} {
		if n := len(offered.FindAll(test.file, -1)); n != test.offers {
			t.Errorf("%s: %d lines are offered, want %d: %s", name, n, test.offers, offered.FindAll(test.file, -1))
		}
		for _, file := range [][]byte{test.file, offered.ReplaceAll(test.file, []byte("$1$2"))} {
			d, err := ParseDesign(name+".yaml", file)
			if err != nil {
				t.Errorf("%v\n%s", err, file)
				continue
			}
			works(t, d)
		}
		if d, err := ParseDesign(name+".yaml", offered.ReplaceAll(test.file, []byte("$1$2"))); err == nil && len(d.SizeNames()) != test.size {
			t.Errorf("%s: sizes %q", name, d.SizeNames())
		}
	}
}

// works works a design out in all its sizes.
func works(t *testing.T, d design.Design) {
	t.Helper()
	for _, size := range d.SizeNames() {
		whole, err := d.Work(size)
		if err == nil {
			_, err = whole.Quilt.CutList()
		}
		if err != nil {
			t.Errorf("size %q: %v", size, err)
		}
	}
}
