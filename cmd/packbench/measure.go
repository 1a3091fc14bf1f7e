package main

import (
	"cmp"
	"context"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"time"

	"crossgrain/pack"
)

// row is what is known of one instance after its run. Lengths are in its unit.
type row struct {
	Name     string  `json:"name"`
	Types    int     `json:"types"`
	Pieces   int     `json:"pieces"`
	Bound    int     `json:"bound"`
	Length   int     `json:"length"`
	Strips   int     `json:"strips"`
	Recorded *record `json:"recorded,omitempty"`
	Proven   bool    `json:"proven"`
	// FewestStrips: the length is proven, and no plan as short has fewer.
	FewestStrips bool `json:"fewest_strips"`
	// BuyProven is nil where nothing is bought.
	BuyProven *bool `json:"buy_proven,omitempty"`
	// BuySeconds and LengthSeconds are the times after which the buy and the length
	// were proven, as the search told; Seconds has what came after, too.
	BuySeconds    float64 `json:"buy_seconds,omitempty"`
	LengthSeconds float64 `json:"length_seconds,omitempty"`
	Seconds       float64 `json:"seconds"`
	Columns       int     `json:"columns"`
	Nodes         int     `json:"nodes"`
	// Megabytes is the most memory that the program held during the run; 0
	// where the system does not tell.
	Megabytes int       `json:"megabytes,omitempty"`
	Whole     bool      `json:"whole,omitempty"` // sums up the other rows
	Peers     []peerRow `json:"peers,omitempty"`
}

// lengthWork may go into the length of a shared plan once the purchase is proven:
// more than any search takes. A nested plan takes the usual part, or else the
// search of the shared plan that it starts from would take all the time.
func (o order) lengthWork() int64 {
	if o.style == pack.Nested {
		return 0
	}
	return 1 << 62
}

// measure solves one instance.
func measure(ctx context.Context, in instance, o order) (row, error) {
	p, err := in.problem()
	if err != nil {
		return row{}, err
	}
	buy, bought, settled := in.purchase(), 0.0, 0.0
	watch := func(p pack.Progress) {
		if p.Style != o.style {
			return
		}
		if bought == 0 && buy != nil && buy(p.Bound) == buy(p.Best) {
			bought = p.Elapsed.Seconds()
		}
		if settled == 0 && p.Bound == p.Best {
			settled = p.Elapsed.Seconds()
		}
	}
	watchMemory()
	start := time.Now()
	result, err := pack.Solve(ctx, p, pack.Options{
		Style: o.style, TimeLimit: o.limit, Work: o.work, LengthWork: o.lengthWork(), Purchase: buy, Progress: watch,
	})
	if err != nil {
		return row{}, err
	}
	r := newRow(in, result)
	r.Seconds = time.Since(start).Seconds()
	r.Megabytes = peakMemory()
	if r.BuyProven != nil && *r.BuyProven {
		r.BuySeconds = cmp.Or(bought, r.Seconds)
	}
	if r.Proven {
		r.LengthSeconds = cmp.Or(settled, r.Seconds)
	}
	return r, nil
}

func newRow(in instance, result pack.Result) row {
	r := row{
		Name:     in.Name,
		Types:    len(in.sizes()),
		Pieces:   in.pieceCount(),
		Bound:    in.units(result.Bound),
		Length:   in.units(result.Plan.Length()),
		Strips:   result.Plan.StripCount(),
		Recorded: in.AsGiven,
		Proven:   result.LengthProven(),

		FewestStrips: result.FewestStrips,
		Columns:      result.Columns,
		Nodes:        result.Nodes,
	}
	if buy := in.purchase(); buy != nil {
		proven := buy(result.Bound) == buy(result.Plan.Length())
		r.BuyProven = &proven
	}
	return r
}

// watchMemory begins a new watch on the most memory that the program holds:
// Linux forgets the peak so far if a 5 is written to this file.
func watchMemory() {
	debug.FreeOSMemory()
	// Elsewhere there is no such file, and peakMemory does not know either.
	_ = os.WriteFile("/proc/self/clear_refs", []byte("5"), 0)
}

// peakMemory is the peak since watchMemory in megabytes.
func peakMemory() int {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0
	}
	_, rest, _ := strings.Cut(string(status), "VmHWM:")
	fields := strings.Fields(rest)
	if len(fields) == 0 {
		return 0
	}
	kilobytes, err := strconv.Atoi(fields[0])
	if err != nil {
		return 0
	}
	return (kilobytes + 999) / 1000
}
