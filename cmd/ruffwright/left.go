package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"ruffwright/cmd/disk"
)

// leftName is the list of the files that runs of batch wrote into a folder.
const leftName = "batch.json"

// left is that list, as it is saved. It is written before the first of its files, so
// that a run that is stopped has its files listed too.
type left struct {
	Version int      `json:"version"` // of this list
	Files   []string `json:"files"`   // below the folder, with / between
}

// readLeft reads the list in the folder; a folder without one has an empty list.
func readLeft(folder string) (left, error) {
	name := filepath.Join(folder, leftName)
	text, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return left{}, nil
	}
	if err != nil {
		return left{}, err
	}
	var l left
	if err := json.Unmarshal(text, &l); err != nil || l.Version != 1 {
		return left{}, fmt.Errorf("%s is no list of what batch wrote: name another folder", name)
	}
	for _, f := range l.Files {
		if !filepath.IsLocal(filepath.FromSlash(f)) {
			return left{}, fmt.Errorf("%s names %q, which is outside the folder: name another folder", name, f)
		}
	}
	return l, nil
}

// write saves the list in the folder.
func (l left) write(folder string) error {
	text, err := json.MarshalIndent(left{1, slices.Compact(slices.Sorted(slices.Values(l.Files)))}, "", "  ")
	if err != nil {
		return err
	}
	return disk.Write(filepath.Join(folder, leftName), append(text, '\n'))
}

// strangers are the files of the plan that are there already and that no run of
// batch wrote.
func (l left) strangers(folder string, plan []string) []string {
	var found []string
	for _, f := range plan {
		if _, err := os.Lstat(filepath.Join(folder, filepath.FromSlash(f))); err == nil && !slices.Contains(l.Files, f) {
			found = append(found, f)
		}
	}
	return found
}

// remove removes those of its files that are not to be kept, and the folders of
// wearers that are empty then. Nothing outside the folder is reached, not through a
// link either.
func (l left) remove(folder string, keep []string) error {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer root.Close()
	for _, f := range l.Files {
		if slices.Contains(keep, f) {
			continue
		}
		name := filepath.FromSlash(f)
		if err := root.Remove(name); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if dir := filepath.Dir(name); dir != "." {
			_ = root.Remove(dir) // it stays where something else lies in it
		}
	}
	return nil
}
