package main

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"crossgrain/pack"
)

func TestSummarise(t *testing.T) {
	yes, no := true, false
	rows := []row{
		{Name: "optimum", Bound: 100, Length: 100, Strips: 5, Proven: true, BuyProven: &yes, BuySeconds: 0.5, LengthSeconds: 0.8, Seconds: 1, Megabytes: 30,
			Recorded: &record{Length: 100, Strips: 4, Basis: "published"}},
		{Name: "worse", Bound: 100, Length: 102, Seconds: 4, BuyProven: &no, Megabytes: 10,
			Recorded: &record{Length: 101, Basis: "computed"}},
		{Name: "closed", Bound: 50, Length: 50, Proven: true, BuyProven: &yes, BuySeconds: 1.5, LengthSeconds: 1.8, Seconds: 2,
			Recorded: &record{Length: 52, Bound: 49, Basis: "open"}},
		{Name: "unknown", Bound: 40, Length: 42, Seconds: 9},
		{Name: "sum", Whole: true, Bound: 290, Length: 294, Seconds: 12, Megabytes: 50},
	}
	want := summary{
		Instances: 4, LengthProven: 2, BuyProven: 2, Bought: 3,
		MedianBuySeconds: 1, MaxBuySeconds: 1.5, MedianLengthSeconds: 1.3, MaxLengthSeconds: 1.8,
		MedianSeconds: 3, MaxSeconds: 9, TotalSeconds: 16,
		Slowest: []string{"unknown 9.00 s", "worse 4.00 s", "closed 2.00 s"},
		MeanGap: (0 + 2 + 0 + 5) / 4.0, MaxGap: 5, Megabytes: 50,
		Records: records{
			Known: 3, Worse: []string{"worse +1"}, Shorter: []string{"closed -2"},
			Optima: 2, Reached: 1, PublishedOptima: 1, PublishedReached: 1,
			Open: 1, Closed: 1, Strips: 1, MoreStrips: []string{"optimum +1"},
		},
	}
	if diff := cmp.Diff(want, summarise(rows, pack.Shared)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if diff := cmp.Diff(summary{}, summarise(nil, pack.Shared)); diff != "" {
		t.Errorf("of nothing (-want +got):\n%s", diff)
	}
}

// Claims that a plan disproves are told, and only those.
func TestFaults(t *testing.T) {
	peer := func(length int, proven bool) []peerRow {
		return []peerRow{{Peer: "cbc", Model: "level", Length: length, Proven: proven}}
	}
	for name, c := range map[string]struct {
		row   row
		style pack.Style
		want  string
	}{
		"our bound above a record":     {row{Bound: 11, Length: 12, Recorded: &record{Length: 10}}, pack.Nested, "above the recorded plan"},
		"our plan below an optimum":    {row{Bound: 9, Length: 9, Recorded: &record{Length: 10}}, pack.Shared, "below the recorded bound 10"},
		"our plan below a bound":       {row{Bound: 7, Length: 7, Recorded: &record{Length: 10, Bound: 8}}, pack.Shared, "below the recorded bound 8"},
		"a nested plan may be":         {row{Bound: 9, Length: 9, Recorded: &record{Length: 10}}, pack.Nested, ""},
		"our plan inside an interval":  {row{Bound: 7, Length: 9, Recorded: &record{Length: 10, Bound: 8}}, pack.Shared, ""},
		"our bound above a plan":       {row{Bound: 11, Length: 12, Peers: peer(10, false)}, pack.Shared, "above the plan of 10"},
		"a wrong optimum":              {row{Bound: 9, Length: 10, Peers: peer(11, true)}, pack.Shared, "calls 11 optimal"},
		"another plan that is worse":   {row{Bound: 9, Length: 10, Peers: peer(11, false)}, pack.Shared, ""},
		"another plan that is shorter": {row{Bound: 9, Length: 10, Peers: peer(9, true)}, pack.Shared, ""},
		"another solver without one":   {row{Bound: 9, Length: 10, Peers: peer(0, false)}, pack.Shared, ""},
	} {
		got := strings.Join(c.row.faults(c.style), "; ")
		if !strings.Contains(got, c.want) || (c.want == "") != (got == "") {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// The ratio counts a program that has proven nothing with its whole limit, and
// the mean of ratios is the geometric one.
func TestPeerSummary(t *testing.T) {
	o := order{limit: 20 * time.Second, peerTime: 40 * time.Second}
	rows := []row{
		{Name: "both prove", Length: 10, Proven: true, LengthSeconds: 0.5, Seconds: 3},
		{Name: "we prove", Length: 10, Proven: true, LengthSeconds: 2, Seconds: 2},
		{Name: "it proves", Length: 10, Seconds: 3},
		{Name: "too quick to tell", Length: 10, Proven: true, LengthSeconds: 0.00001, Seconds: 1},
	}
	peers := []peerRow{
		{Peer: "cbc", Model: "level", Length: 10, Proven: true, Seconds: 4},
		{Peer: "cbc", Model: "level", Note: "fell over"},
		{Peer: "cbc", Model: "level", Length: 9, Proven: true, Seconds: 10},
		{Peer: "cbc", Model: "level", Length: 11, Seconds: 1},
	}
	ratios := []float64{8, 20, 0.5, 40_000}
	for i := range rows {
		peers[i].Ratio = rows[i].ratio(peers[i], o)
		if math.Abs(peers[i].Ratio-ratios[i]) > 1e-9*ratios[i] {
			t.Errorf("%s: ratio %v, want %v", rows[i].Name, peers[i].Ratio, ratios[i])
		}
		rows[i].Peers = peers[i : i+1]
	}
	got := summarisePeers(rows)
	want := []peerSummary{{Peer: "cbc", Model: "level", Instances: 4, Proven: 2, Ours: 3, Worse: 2, Better: 1, Failed: 1}}
	if len(got) != 1 || math.Abs(got[0].Ratio-math.Pow(8*20*0.5*40_000, 0.25)) > 1e-9 {
		t.Fatalf("%+v", got)
	}
	got[0].Ratio = 0
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}
