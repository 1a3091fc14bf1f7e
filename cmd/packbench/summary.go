package main

import (
	"cmp"
	"fmt"
	"slices"

	"crossgrain/pack"
)

// summary is what a set's rows come to.
type summary struct {
	Instances    int `json:"instances"`
	LengthProven int `json:"length_proven"`
	FewestStrips int `json:"fewest_strips"`
	// BuyProven is of those of which something is bought.
	BuyProven int `json:"buy_proven"`
	Bought    int `json:"bought"`
	// Of the instances whose buy or length is proven, see row.BuySeconds and
	// row.LengthSeconds.
	MedianBuySeconds    float64 `json:"median_buy_seconds"`
	MaxBuySeconds       float64 `json:"max_buy_seconds"`
	MedianLengthSeconds float64 `json:"median_length_seconds"`
	MaxLengthSeconds    float64 `json:"max_length_seconds"`

	MedianSeconds float64  `json:"median_seconds"`
	MaxSeconds    float64  `json:"max_seconds"`
	TotalSeconds  float64  `json:"total_seconds"`
	Slowest       []string `json:"slowest"`
	// The gaps are in percent of the bound.
	MeanGap   float64 `json:"mean_gap_percent"`
	MaxGap    float64 `json:"max_gap_percent"`
	Megabytes int     `json:"megabytes,omitempty"`
	Records   records `json:"records"`
	// Faults are claims that do not hold.
	Faults []string      `json:"faults,omitempty"`
	Peers  []peerSummary `json:"peers,omitempty"`
}

// records compares with what is recorded of shared plans.
type records struct {
	Known   int      `json:"known"`
	Worse   []string `json:"worse,omitempty"`   // longer than the best plan recorded
	Shorter []string `json:"shorter,omitempty"` // shorter than it
	// Optima are recorded as proven, Reached are those that we reach and prove
	// too; of them those that were read in a publication.
	Optima           int `json:"optima"`
	Reached          int `json:"reached"`
	PublishedOptima  int `json:"published_optima"`
	PublishedReached int `json:"published_reached"`
	// Open have no proven optimum on record; Closed are those that we prove.
	Open   int `json:"open"`
	Closed int `json:"closed"`
	// Strips are recorded for some; MoreStrips are plans of the recorded
	// length with more, and StripsReached those of that number, proven.
	Strips        int      `json:"strips"`
	StripsReached int      `json:"strips_reached"`
	MoreStrips    []string `json:"more_strips,omitempty"`
}

func summarise(rows []row, style pack.Style) summary {
	var s summary
	var seconds, buySeconds, lengthSeconds []float64
	singles := slices.DeleteFunc(slices.Clone(rows), func(r row) bool { return r.Whole })
	for _, r := range rows {
		s.Megabytes = max(s.Megabytes, r.Megabytes)
	}
	for _, r := range singles {
		s.Instances++
		seconds = append(seconds, r.Seconds)
		s.TotalSeconds += r.Seconds
		if r.Proven {
			s.LengthProven++
			lengthSeconds = append(lengthSeconds, r.LengthSeconds)
		}
		if r.FewestStrips {
			s.FewestStrips++
		}
		if r.BuyProven != nil {
			s.Bought++
			if *r.BuyProven {
				s.BuyProven++
				buySeconds = append(buySeconds, r.BuySeconds)
			}
		}
		s.MeanGap += r.gap() / float64(len(singles))
		s.MaxGap = max(s.MaxGap, r.gap())
		s.Records.add(r)
		s.Faults = append(s.Faults, r.faults(style)...)
	}
	s.MedianSeconds, s.MaxSeconds = median(seconds), maxOf(seconds)
	s.MedianBuySeconds, s.MaxBuySeconds = median(buySeconds), maxOf(buySeconds)
	s.MedianLengthSeconds, s.MaxLengthSeconds = median(lengthSeconds), maxOf(lengthSeconds)
	s.Slowest = slowest(singles, 3)
	s.Peers = summarisePeers(singles)
	return s
}

// gap is the plan's length over its bound, in percent of it.
func (r row) gap() float64 {
	if r.Bound == 0 {
		return 0
	}
	return 100 * float64(r.Length-r.Bound) / float64(r.Bound)
}

func (s *records) add(r row) {
	known := r.Recorded
	if known == nil {
		return
	}
	s.Known++
	switch over := r.Length - known.Length; {
	case over > 0:
		s.Worse = append(s.Worse, fmt.Sprintf("%s +%d", r.Name, over))
	case over < 0:
		s.Shorter = append(s.Shorter, fmt.Sprintf("%s %d", r.Name, over))
	case known.Strips > 0 && r.Strips > known.Strips:
		s.MoreStrips = append(s.MoreStrips, fmt.Sprintf("%s +%d", r.Name, r.Strips-known.Strips))
	}
	if known.Strips > 0 {
		s.Strips++
		if r.FewestStrips && r.Length == known.Length && r.Strips == known.Strips {
			s.StripsReached++
		}
	}
	if !known.optimal() {
		s.Open++
		if r.Proven {
			s.Closed++
		}
		return
	}
	s.Optima++
	reached := r.Proven && r.Length == known.Length
	if reached {
		s.Reached++
	}
	if known.Basis == "published" {
		s.PublishedOptima++
		if reached {
			s.PublishedReached++
		}
	}
}

// faults lists claims that another plan disproves: a bound of ours that lies
// above any plan, one that another solver calls the shortest though ours is
// shorter, and a recorded bound above our plan. Records and the other solvers'
// programs are of shared plans, which are nested ones too.
func (r row) faults(style pack.Style) []string {
	var faults []string
	complain := func(format string, args ...any) {
		faults = append(faults, r.Name+": "+fmt.Sprintf(format, args...))
	}
	if known := r.Recorded; known != nil {
		if r.Bound > known.Length {
			complain("our bound %d is above the recorded plan of %d", r.Bound, known.Length)
		}
		least := known.Bound
		if known.optimal() {
			least = known.Length
		}
		if style == pack.Shared && r.Length < least {
			complain("our plan of %d is below the recorded bound %d", r.Length, least)
		}
	}
	for _, p := range r.Peers {
		if p.Length > 0 && r.Bound > p.Length {
			complain("our bound %d is above the plan of %d that %s has on the %s model", r.Bound, p.Length, p.Peer, p.Model)
		}
		if p.Proven && p.Length > r.Length {
			complain("%s calls %d optimal on the %s model, but our plan takes %d", p.Peer, p.Length, p.Model, r.Length)
		}
	}
	return faults
}

func median(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	sorted := slices.Sorted(slices.Values(values))
	middle := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[middle]
	}
	return (sorted[middle-1] + sorted[middle]) / 2
}

func maxOf(values []float64) float64 {
	most := 0.0
	for _, v := range values {
		most = max(most, v)
	}
	return most
}

// slowest names the n instances that took longest.
func slowest(rows []row, n int) []string {
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b row) int { return cmp.Compare(b.Seconds, a.Seconds) })
	var names []string
	for _, r := range sorted[:min(n, len(sorted))] {
		names = append(names, fmt.Sprintf("%s %.2f s", r.Name, r.Seconds))
	}
	return names
}
