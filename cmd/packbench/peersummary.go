package main

import "math"

// peerSummary compares us with one solver on one model, over the instances
// that it was given.
type peerSummary struct {
	Peer      string `json:"peer"`
	Model     string `json:"model"`
	Instances int    `json:"instances"`
	// Proven by it and by us.
	Proven int `json:"proven"`
	Ours   int `json:"ours_proven"`
	// Worse are the instances where its plan is longer than ours or it has
	// none, Better those where it is shorter.
	Worse  int `json:"plans_worse"`
	Better int `json:"plans_better"`
	// Ratio is the geometric mean of its time by ours.
	Ratio float64 `json:"ratio"`
	// Failed are the instances that it fell over or that were too large.
	Failed int `json:"failed"`
}

// summarisePeers gives a summary for every solver and model in the order in
// which they were run.
func summarisePeers(rows []row) []peerSummary {
	var all []peerSummary
	place := map[[2]string]int{}
	logs := map[int]float64{}
	for _, r := range rows {
		for _, p := range r.Peers {
			key := [2]string{p.Peer, p.Model}
			i, ok := place[key]
			if !ok {
				i = len(all)
				place[key] = i
				all = append(all, peerSummary{Peer: p.Peer, Model: p.Model})
			}
			all[i].add(r, p)
			logs[i] += math.Log(p.Ratio)
		}
	}
	for i := range all {
		all[i].Ratio = math.Exp(logs[i] / float64(all[i].Instances))
	}
	return all
}

func (s *peerSummary) add(r row, p peerRow) {
	s.Instances++
	if p.Proven {
		s.Proven++
	}
	if r.Proven {
		s.Ours++
	}
	switch {
	case p.Length == 0 || p.Length > r.Length:
		s.Worse++
	case p.Length < r.Length:
		s.Better++
	}
	if p.Note != "" {
		s.Failed++
	}
}
