package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
)

func text(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// holds checks that a folder holds one file with the given content, or none.
func holds(t *testing.T, path, content string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	if content == "" {
		if len(entries) != 0 {
			t.Errorf("left behind: %v", entries)
		}
		return
	}
	if got, err := os.ReadFile(path); len(entries) != 1 || err != nil || string(got) != content {
		t.Errorf("%v, %q, %v; want one file with %q", entries, got, err, content)
	}
}

func TestTargetFailsWhole(t *testing.T) {
	broken := errors.New("broken")
	half := func(w io.Writer) error {
		return errors.Join(text("half a workbook")(w), broken)
	}
	path := filepath.Join(t.TempDir(), "out.xlsx")
	if err := (target{path: path}).write(half); !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	holds(t, path, "")

	if err := (target{path: path}).write(text("first")); err != nil {
		t.Fatal(err)
	}
	if err := (target{path: path, replace: true}).write(half); !errors.Is(err, broken) {
		t.Errorf("got %v, want %v", err, broken)
	}
	holds(t, path, "first")
}

// A file that another program makes while the plans are made is not lost.
func TestTargetTakenMeanwhile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out.xlsx")
	err := (target{path: path}).write(func(w io.Writer) error {
		return os.WriteFile(path, []byte("theirs"), 0o666)
	})
	if _, ok := errors.AsType[*helpful](err); !ok {
		t.Errorf("got %v, want an error with a hint", err)
	}
	holds(t, path, "theirs")

	if err := (target{path: path, replace: true}).write(text("ours")); err != nil {
		t.Error(err)
	}
	holds(t, path, "ours")
}

// Where a file system has no links, the name is claimed first.
func TestTargetClaim(t *testing.T) {
	folder := t.TempDir()
	path, from := filepath.Join(folder, "out.xlsx"), filepath.Join(folder, "from")
	if err := os.WriteFile(from, []byte("ours"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := (target{path: path}).claim(from); err != nil {
		t.Error(err)
	}
	holds(t, path, "ours")

	if err := (target{path: path}).claim(from); !errors.Is(err, os.ErrExist) {
		t.Errorf("got %v, want %v", err, os.ErrExist)
	}
	holds(t, path, "ours")

	free := filepath.Join(t.TempDir(), "out.xlsx")
	if err := (target{path: free}).claim(from); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("got %v, want %v", err, os.ErrNotExist)
	}
	holds(t, free, "")
}

// The workbook is as readable as any other new file.
func TestTargetMode(t *testing.T) {
	folder := t.TempDir()
	other := filepath.Join(folder, "other")
	if err := os.WriteFile(other, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "out.xlsx")
	if err := (target{path: path}).write(text("x")); err != nil {
		t.Fatal(err)
	}
	want, err := os.Stat(other)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.Stat(path); err != nil || got.Mode() != want.Mode() {
		t.Errorf("mode %v, %v; want %v", got.Mode(), err, want.Mode())
	}
}
