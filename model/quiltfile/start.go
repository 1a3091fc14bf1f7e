package quiltfile

import _ "embed" // for the files that a maker begins with

//go:embed start/cuts.yaml
var startCuts []byte

//go:embed start/design.yaml
var startDesign []byte

// Start is a quilt file to begin with: a small cutting list that can be
// planned, with notes on what to write.
func Start() []byte { return startCuts }

// StartDesign is the same for a quilt file that describes a design.
func StartDesign() []byte { return startDesign }
