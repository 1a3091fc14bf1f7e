package quiltfile

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"testing"

	"crossgrain/model"
	"crossgrain/model/design"
	"crossgrain/model/geometry"
)

const published = "../../testdata/published"

// The cut lists of published quilts come out of their designs, piece for piece.
// Full-width strips and those of a set are counted, as the sources count them,
// whole or not. The sources are named in the files.
func TestPublishedDesigns(t *testing.T) {
	for _, test := range []struct {
		file string
		// times is how many fabrics of a scrappy quilt a line of the list
		// stands for, likes which of ours are one of its.
		times map[string]int
		likes map[string]string
		// ours is what we cut where the source cuts more, and why says it.
		ours map[string]int
		why  string
		only []string // the fabrics that the list has, if it lacks some
	}{
		{file: "rail-fence-63x81"},
		{file: "log-cabin-60x70", times: map[string]int{"eighth-strips": 8, "eighth-logs": 22},
			ours: map[string]int{"eighth-strips strip 2 1/2": 22, "eighth-logs 4 1/2 x 1 1/2": 42, "eighth-logs 5 1/2 x 1 1/2": 42,
				"eighth-logs 6 1/2 x 1 1/2": 42, "eighth-logs 7 1/2 x 1 1/2": 42, "eighth-logs 8 1/2 x 1 1/2": 42, "eighth-logs 9 1/2 x 1 1/2": 42},
			why: "all fat eighths are cut alike there: 22 of them give 44 logs of a size for 42 blocks, and 8 give 24 strips, " +
				"12 sets of 8 sections, for 84 sections, which take 11 sets"},
		{file: "nine-patch-on-point-77x85", likes: map[string]string{"eighth-1": "eighth", "eighth-2": "eighth", "eighth-3": "eighth",
			"eighth-4": "eighth", "eighth-5": "eighth", "eighth-6": "eighth", "eighth-7": "eighth"}, times: map[string]int{"eighth": 7}},
		{file: "four-patch-on-point-34x35", only: []string{"cheddar", "tan", "cream", "red"}},
		{file: "sawtooth-star-sashed-50x52", times: map[string]int{"quarter": 8}},
		{file: "stars-and-sashing-50"},
		{file: "square-in-square-star-sashing-46"},
		{file: "hst-wall-quilt-48"},
	} {
		t.Run(test.file, func(t *testing.T) {
			q, err := Read(filepath.Join(published, "quilts", test.file+".yaml"))
			if err != nil {
				t.Fatal(err)
			}
			list, err := q.CutList()
			if err != nil {
				t.Fatal(err)
			}
			want := counted(list, test.times, nil, nil)
			for key, n := range test.ours {
				if want[key] <= n {
					t.Errorf("%s: the source has %d, no more than our %d", key, want[key], n)
				}
				want[key] = n
			}
			whole := worked(t, test.file, "")
			var area geometry.Surd
			for _, s := range whole.Shapes() {
				area = area.Add(s.Outline.Area())
			}
			if !area.Equal(whole.Width.Mul(whole.Height)) {
				t.Errorf("the finished pieces have %v, the quilt %v x %v", area, whole.Width, whole.Height)
			}
			if list, err = whole.Quilt.CutList(); err != nil {
				t.Fatal(err)
			}
			got := counted(list, nil, test.likes, want)
			if test.only != nil {
				maps.DeleteFunc(got, func(key string, _ int) bool {
					return !slices.ContainsFunc(test.only, func(id string) bool { return len(key) > len(id) && key[:len(id)+1] == id+" " })
				})
			}
			for _, key := range slices.Sorted(maps.Keys(got)) {
				if got[key] != want[key] {
					t.Errorf("%s: %d, the source has %d", key, got[key], want[key])
				}
				delete(want, key)
			}
			for key, n := range want {
				t.Errorf("%s: none, the source has %d", key, n)
			}
		})
	}
}

// worked is a published quilt worked out from its design.
func worked(t *testing.T, file, size string) design.Whole {
	t.Helper()
	d, err := ReadDesign(filepath.Join(published, "designs", file+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	whole, err := d.Work(size)
	if err != nil {
		t.Fatal(err)
	}
	return whole
}

// counted is how many of each piece and strip there are of each fabric, times
// what a fabric stands for, under the name of the one that it is like. Halving
// counts where the list that it is compared with has it. A piece
// that the list it is compared with does not have takes a strip of its own if
// it is longer than half of one.
func counted(list model.CutList, times map[string]int, likes map[string]string, compared map[string]int) map[string]int {
	counts := map[string]int{}
	for _, f := range list.Fabrics {
		id, n, usable := f.Fabric.ID, 1, f.Fabric.UsableWidths[0]
		if times[id] > 0 {
			n = times[id]
		}
		if likes[id] != "" {
			id = likes[id]
		}
		strip := func(height model.Length) string { return id + " strip " + height.Format(model.Inches) }
		for _, p := range f.Pieces {
			along, across := max(p.Along, p.Across), min(p.Along, p.Across)
			key := id + " " + model.FormatSize(along, across, model.Inches)
			const halfWidth = 21 * model.Inch // of the sources' half-width strips
			if halved := fmt.Sprintf("%s halved %v", key, p.Halve); p.Halve != model.NotHalved && (compared == nil || compared[halved] > 0) {
				key = halved // as far as the source says it
			}
			_, known := compared[key]
			if along == usable || along == halfWidth || p.Use == "strip sets" || compared != nil && !known && 2*along > usable {
				key = strip(across)
			}
			counts[key] += n * p.Count
		}
		for _, s := range f.Strips {
			counts[strip(s.Height)] += n * s.Strips(usable)
		}
	}
	return counts
}

// The sections and strips of an Irish chain's strip sets, by colour (Gigi's
// Thimble, January 2020, weeks 3 and 4: sets A and B of the twin size take 12
// and 18, 12 and 8 strips, those of the queen size 16 and 24, 18 and 12).
func TestPublishedStripSets(t *testing.T) {
	for _, test := range []struct {
		size          string
		sections      [2]int
		colour, white int
	}{{"twin", [2]int{96, 64}, 18 + 8, 12 + 12}, {"queen", [2]int{123, 82}, 24 + 12, 16 + 18}} {
		whole := worked(t, "irish-chain-strip-sets", test.size)
		sets := whole.Charts[0].Sets
		if len(sets) != 2 || [2]int{sets[0].Count, sets[1].Count} != test.sections {
			t.Errorf("%s: the sets are %+v, want sections %v", test.size, sets, test.sections)
		}
		strips := map[string]int{}
		for _, s := range whole.Quilt.Strips {
			strips[s.Fabric] += s.Strips(40 * model.Inch)
		}
		if strips["colour"] != test.colour || strips["white"] != test.white {
			t.Errorf("%s: %v strips, want %d and %d", test.size, strips, test.colour, test.white)
		}
	}
}
