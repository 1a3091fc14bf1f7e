// Crossgrain works out what a quilt takes of each fabric and how to cut it.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"crossgrain/pack"
)

func main() {
	pack.CollectSeldom()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// The first Ctrl-C ends the search, a second one the program.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
