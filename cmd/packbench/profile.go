package main

import (
	"errors"
	"os"
	"runtime/pprof"
)

// profiled does something and writes to a file where its time went, for go tool pprof.
// It just does it if there is no file.
func profiled(file string, do func() error) error {
	if file == "" {
		return do()
	}
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	if err = pprof.StartCPUProfile(f); err == nil {
		err = do()
		pprof.StopCPUProfile()
	}
	return errors.Join(err, f.Close())
}
