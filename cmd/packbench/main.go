// Packbench measures package pack on the instances of testdata/bench, alone or
// beside other solvers that are given the same problems as integer programs.
//
// It prints a line for each instance and a summary, and fails if a bound of
// ours lies above a plan that anyone has found. Lengths are in the unit of the
// instances: 1/16 in for quilts, the published numbers for the classics.
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
	// The first Ctrl-C ends the run with a summary of what is done, a second
	// one the program.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}
