package site

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// Manifest lists what a build wrote.
type Manifest struct {
	Version int               `json:"version"` // of this manifest
	Files   map[string]string `json:"files"`   // what it is → its hashed name
	Sizes   map[string]int    `json:"bytes"`   // hashed name → bytes
}

// manifestName is written last: a folder without it is not a whole site.
const manifestName = "manifest.json"

// whole reports whether dir holds a finished site.
func whole(dir string) bool {
	m, err := ReadManifest(dir)
	if err != nil {
		return false
	}
	for name, size := range m.Sizes {
		if at, err := os.Stat(filepath.Join(dir, name)); err != nil || at.Size() != int64(size) {
			return false
		}
	}
	return true
}

// ReadManifest reads the manifest of the site in dir.
func ReadManifest(dir string) (Manifest, error) {
	var m Manifest
	text, err := os.ReadFile(filepath.Join(dir, manifestName))
	if err != nil {
		return m, err
	}
	if err := json.Unmarshal(text, &m); err != nil {
		return m, fmt.Errorf("%s: %w", manifestName, err)
	}
	if m.Version != 1 || m.Files["page"] == "" {
		return m, fmt.Errorf("%s: not a site of this version", manifestName)
	}
	return m, nil
}
