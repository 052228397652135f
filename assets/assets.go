// Package assets holds embedded data and nothing else. It imports nothing of
// the project.
package assets

import "embed"

//go:embed demos/*.json
var demos embed.FS

// gallery is the order in which the demos are shown: the sound ruff first, then
// the faults that everybody meets, then other kinds of ruff.
var gallery = []string{
	"sound", "floppy", "ends-up", "flaps-up", "short", "uneven",
	"early", "wide", "tall", "untucked", "portrait", "cuff",
}

// Demos gives the names of the demo schemes, in the order of the gallery.
func Demos() []string { return append([]string(nil), gallery...) }

// Demo gives the document of the demo scheme of that name, as a scheme is saved.
func Demo(name string) ([]byte, bool) {
	for _, known := range gallery {
		if known == name {
			document, err := demos.ReadFile("demos/" + name + ".json")
			return document, err == nil
		}
	}
	return nil, false
}
