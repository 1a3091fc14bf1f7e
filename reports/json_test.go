package reports

import (
	"bytes"
	"encoding/json"
	"testing"

	"crossgrain/model"
)

func jsonOf(t *testing.T, q Quilt) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteJSON(&b, q); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestJSONGolden(t *testing.T) {
	golden(t, "harbour.json", jsonOf(t, harbour(t)))
	golden(t, "dunes.json", jsonOf(t, dunes(t)))
}

// A quilt without fabrics, and a fabric without pieces, give empty lists and
// never null.
func TestJSONHasNoNull(t *testing.T) {
	for _, q := range []Quilt{{}, harbour(t)} {
		out := jsonOf(t, q)
		if bytes.Contains(out, []byte("null")) || !json.Valid(out) || !bytes.HasSuffix(out, []byte("}\n")) {
			t.Errorf("not as it should be:\n%s", out)
		}
	}
}

func TestShare(t *testing.T) {
	for _, c := range []struct {
		used, cut model.Area
		want      string
	}{
		{0, 0, "0"}, {0, 5, "0"}, {5, 5, "1"}, {93, 100, "0.93"}, {2, 3, "0.6667"},
		{1, 20000, "0.0001"}, {1, 20001, "0"}, // half a place goes up, less goes down
		{3 << 60, 1 << 62, "0.75"}, // far beyond what a product of areas would hold
	} {
		if got := share(c.used, c.cut); got != c.want {
			t.Errorf("share(%d, %d) = %s, want %s", c.used, c.cut, got, c.want)
		}
	}
}
