package pack

import (
	"os"
	"runtime/debug"
)

// CollectSeldom lets the heap of the program grow further than Go does by default
// before it is collected, as a search makes much that is soon of no use; the variables
// GOGC and GOMEMLIMIT still say otherwise. It is for a program to call that is there
// to search.
func CollectSeldom() {
	const percent, limit = 400, 256 << 20
	if os.Getenv("GOGC") == "" && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}
