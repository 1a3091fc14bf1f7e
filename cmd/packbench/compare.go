package main

import (
	"context"
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
)

// peerRow is what another solver made of an instance.
type peerRow struct {
	Peer  string `json:"peer"`
	Model string `json:"model"`
	// Length is that of its plan; 0 where it has none.
	Length int `json:"length,omitempty"`
	// Bound is its own, rounded up; 0 where it tells none.
	Bound   int     `json:"bound,omitempty"`
	Proven  bool    `json:"proven"`
	Seconds float64 `json:"seconds"`
	// Ratio is the time that it takes to prove the length by ours, where a program
	// that has not proven it counts with the whole of its limit. The time that we
	// take for strips and layouts after that is not in it: it is not asked for them.
	Ratio float64 `json:"ratio"`
	// Note says why there is nothing to tell.
	Note string `json:"note,omitempty"`
}

// shortest is the least time that counts in a ratio: below it, what is
// measured is the machine's noise.
const shortest = 0.001

// compare gives every model of the instance to every peer. An error is one of
// this program or a peer that is not installed; one that falls over has a row
// that says so.
func (r *row) compare(ctx context.Context, in instance, o order) error {
	if len(o.peers) == 0 {
		return nil
	}
	folder, err := os.MkdirTemp("", "packbench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	problem := state(in)
	for _, m := range o.models {
		file := filepath.Join(folder, m.name+".lp")
		tooLarge := m.variableCount(problem) > mostVariables
		if !tooLarge {
			if err := writeProgram(file, m.write(problem)); err != nil {
				return err
			}
		}
		for _, p := range o.peers {
			pr := peerRow{Peer: p.name, Model: m.name, Note: "the program is too large to write"}
			if !tooLarge {
				a, err := p.run(ctx, file, o.peerTime)
				if ctx.Err() != nil {
					return nil // the run is over
				}
				if errors.Is(err, exec.ErrNotFound) {
					return err
				}
				pr.take(a, err, problem.height)
			}
			pr.Ratio = r.ratio(pr, o)
			r.Peers = append(r.Peers, pr)
		}
	}
	return nil
}

func writeProgram(file string, p *program) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	return errors.Join(p.write(f), f.Close())
}

// take puts in an answer whose lengths are in so many units of the instance.
func (pr *peerRow) take(a answer, err error, units int) {
	pr.Note = ""
	pr.Seconds = a.seconds
	if err != nil {
		pr.Note = err.Error()
		return
	}
	pr.Proven = a.optimal
	if a.feasible {
		pr.Length = a.length * units
	}
	if a.bound > 0 && !math.IsInf(a.bound, 0) {
		pr.Bound = int(math.Ceil(a.bound-1e-6)) * units
	}
}

func (r *row) ratio(pr peerRow, o order) float64 {
	ours, theirs := o.limit.Seconds(), o.peerTime.Seconds()
	if r.Proven {
		ours = r.LengthSeconds
	}
	if pr.Proven {
		theirs = pr.Seconds
	}
	return max(theirs, shortest) / max(ours, shortest)
}
