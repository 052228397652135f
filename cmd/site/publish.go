package site

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"ruffwright/cmd/disk"
)

// publish copies the site at from into the folder to. An earlier site there works
// until the new one is whole: its page is written last, and then what the new one
// does not name is removed. Where it fails the new files are removed again.
func publish(from, to string) error {
	old, err := published(to)
	if err != nil {
		return err
	}
	m, err := ReadManifest(from)
	if err != nil {
		return err
	}
	names := slices.SortedFunc(maps.Keys(m.Sizes), func(a, b string) int { return cmp.Compare(turn(a), turn(b)) })
	var fresh []string // what no page names yet
	for _, name := range append(names, manifestName) {
		text, err := os.ReadFile(filepath.Join(from, name))
		if err == nil {
			err = disk.Write(filepath.Join(to, name), text)
		}
		if err != nil {
			for _, name := range fresh {
				os.Remove(filepath.Join(to, name))
			}
			return err
		}
		if name == m.Files["page"] {
			fresh = nil
		} else if _, was := old.Sizes[name]; !was {
			fresh = append(fresh, name)
		}
	}
	for name := range old.Sizes {
		if _, is := m.Sizes[name]; is {
			continue
		}
		if err := os.Remove(filepath.Join(to, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

// turn is when a file of the site is written: those named by their content, the
// service worker that lists them, the page that names them all.
func turn(name string) string {
	switch {
	case hashed.MatchString(name):
		return "1 " + name
	case name == "index.html":
		return "3"
	}
	return "2 " + name
}

// published is the manifest of the site in the folder that is to be written, which is
// made where it is missing. A folder with anything else in it is refused.
func published(to string) (Manifest, error) {
	entries, err := os.ReadDir(to)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Manifest{}, os.MkdirAll(to, 0o755)
	case err != nil || len(entries) == 0:
		return Manifest{}, err
	}
	old, err := ReadManifest(to)
	if err != nil {
		return old, fmt.Errorf("%s is not empty and holds no site built earlier: name an empty folder", to)
	}
	for name := range old.Sizes {
		if filepath.Base(name) != name {
			return old, fmt.Errorf("%s: %s names a file outside the site", to, manifestName)
		}
	}
	return old, nil
}
