// Package disk writes files whole or not at all.
package disk

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Unfinished begins the names of files that are being written.
const Unfinished = ".ruffwright-"

// Write writes a file: under a name of its own beside it, to the disk, and only then
// under its name. Whatever fails on the way (a full disk, a pull of the plug), what
// stood there before stands there still, and nothing is left beside it. An earlier
// file's permissions stay; a link is followed, and what it leads to is written.
// What is no file (a pipe, /dev/stdout) is written straight into.
func Write(name string, text []byte) error {
	return write(name, func(to io.Writer) error {
		_, err := io.Copy(to, bytes.NewReader(text))
		return err
	})
}

// write is Write for what fill puts into the file.
func write(name string, fill func(io.Writer) error) error {
	if real, err := filepath.EvalSymlinks(name); err == nil {
		name = real
	}
	mode := fs.FileMode(0o644)
	switch at, err := os.Stat(name); {
	case err == nil && at.Mode().IsRegular():
		mode = at.Mode().Perm()
	case err == nil && at.IsDir():
		return fmt.Errorf("%s is a folder, not a file", name)
	case err == nil:
		f, err := os.OpenFile(name, os.O_WRONLY, 0)
		if err != nil {
			return err
		}
		return errors.Join(fill(f), f.Close())
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	fresh, err := os.CreateTemp(filepath.Dir(name), Unfinished+"*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, err)
	}
	err = errors.Join(fill(fresh), fresh.Chmod(mode), fresh.Sync())
	if err = errors.Join(err, fresh.Close()); err == nil {
		err = os.Rename(fresh.Name(), name)
	}
	if err != nil {
		os.Remove(fresh.Name()) // what it holds is not whole
		return fmt.Errorf("%s was not written: %w", name, err)
	}
	return nil
}

// Taken gives an error where a file of that name stands already. A pipe or a
// device may be written to as often as one likes.
func Taken(name string) error {
	at, err := os.Stat(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case at.Mode().IsRegular():
		return fmt.Errorf("%s is there already: name another, or write over it with --over", name)
	}
	return nil
}
