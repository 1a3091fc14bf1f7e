// Crossgrain works out what a quilt takes of each fabric and how to cut it.
package main

import (
	"context"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
)

func main() {
	collectSeldom()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// The first Ctrl-C ends the search, a second one the program.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// collectSeldom lets the heap grow further than Go does by default before it is
// collected, as a search makes much that is soon of no use; the variables GOGC and
// GOMEMLIMIT still say otherwise.
func collectSeldom() {
	const percent, limit = 400, 256 << 20
	if os.Getenv("GOGC") == "" && os.Getenv("GOMEMLIMIT") == "" {
		debug.SetGCPercent(percent)
		debug.SetMemoryLimit(limit)
	}
}
