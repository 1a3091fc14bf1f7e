package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// target is a file to be written whole or not at all.
type target struct {
	path    string
	replace bool // whether it may take the place of a file
}

// check reports now what would keep the file from being written later.
func (t target) check() error {
	switch info, err := os.Lstat(t.path); {
	case err == nil && info.IsDir():
		return &helpful{err: fmt.Errorf("%q is a folder", t.path), hint: "write the name of a file in it"}
	case err == nil && !t.replace:
		return t.exists()
	}
	switch info, err := os.Stat(t.path); {
	case errors.Is(err, fs.ErrNotExist) && t.file() == t.path && isLink(t.path):
		return &helpful{err: fmt.Errorf("%q is a link to a file that is not there", t.path), hint: "write another name"}
	case err == nil && info.IsDir():
		return &helpful{err: fmt.Errorf("%q is a folder", t.path), hint: "write the name of a file in it"}
	case err == nil && info.Mode().Perm()&0o222 == 0:
		return &helpful{err: fmt.Errorf("%q is write-protected", t.path),
			hint: "write another name, or take the protection off first"}
	}
	temporary, err := t.temporary()
	if err != nil {
		return err
	}
	return errors.Join(temporary.Close(), os.Remove(temporary.Name()))
}

// file is where the file goes: what a link leads to, if it is to be replaced.
func (t target) file() string {
	if t.replace {
		if path, err := filepath.EvalSymlinks(t.path); err == nil {
			return path
		}
	}
	return t.path
}

func isLink(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.Mode()&fs.ModeSymlink != 0
}

// write writes the file beside its place, then puts it there in one step. If
// anything fails, nothing is left of it, and a file that was there stays.
func (t target) write(content func(io.Writer) error) (err error) {
	temporary, err := t.temporary()
	if err != nil {
		return err
	}
	defer func() {
		// After a rename there is nothing to remove.
		if e := os.Remove(temporary.Name()); e != nil && !errors.Is(e, fs.ErrNotExist) {
			err = errors.Join(err, e)
		}
	}()
	err = content(temporary)
	if err == nil {
		err = temporary.Sync()
	}
	if err := errors.Join(err, temporary.Close()); err != nil {
		return fmt.Errorf("%q could not be written: %w", t.path, reason(err))
	}
	return t.place(temporary.Name())
}

// place moves a finished file to its place. A link fails where a file is
// already, so that one made since check is not lost.
func (t target) place(from string) error {
	var err error
	if t.replace {
		err = os.Rename(from, t.file())
	} else {
		err = os.Link(from, t.path)
	}
	if !t.replace && linkless(err) {
		err = t.claim(from)
	}
	switch {
	case errors.Is(err, fs.ErrExist):
		return t.exists()
	case err != nil:
		return fmt.Errorf("%q could not be written: %w", t.path, reason(err))
	}
	return nil
}

// linkless reports whether a file system has no links.
func linkless(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EPERM) || errors.Is(err, syscall.EMLINK)
}

// claim does what a link does where there are none: it takes the name with an
// empty file, if it is free, and moves the finished one over it.
func (t target) claim(from string) error {
	empty, err := os.OpenFile(t.path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	if err := errors.Join(empty.Close(), os.Rename(from, t.path)); err != nil {
		return errors.Join(err, os.Remove(t.path))
	}
	return nil
}

func (t target) exists() error {
	return &helpful{err: fmt.Errorf("%q is there already", t.path),
		hint: "write another name, or add --replace to write over it"}
}

// temporary makes an empty file in the target's folder.
func (t target) temporary() (*os.File, error) {
	folder := filepath.Dir(t.file())
	for n := os.Getpid(); ; n++ {
		name := filepath.Join(folder, fmt.Sprintf(".crossgrain-%d.tmp", n))
		file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		switch {
		case err == nil:
			return file, nil
		case !errors.Is(err, fs.ErrExist):
			return nil, folderProblem(folder, err)
		}
	}
}

// folderProblem says why no file can be made in a folder.
func folderProblem(folder string, err error) error {
	switch info, statErr := os.Stat(folder); {
	case errors.Is(statErr, fs.ErrNotExist):
		return &helpful{err: fmt.Errorf("the folder %q is not there", folder),
			hint: "make it first, or write to another folder"}
	case errors.Is(statErr, syscall.ENOTDIR) || statErr == nil && !info.IsDir():
		return &helpful{err: fmt.Errorf("%q is not a folder", folder), hint: "write to another folder"}
	}
	return &helpful{err: fmt.Errorf("no file can be made in the folder %q: %w", folder, reason(err)),
		hint: "write to another folder"}
}

// reason is an error without the name of a temporary file, which would tell a
// maker nothing.
func reason(err error) error {
	if e, ok := errors.AsType[*fs.PathError](err); ok {
		return e.Err
	}
	if e, ok := errors.AsType[*os.LinkError](err); ok {
		return e.Err
	}
	return err
}
