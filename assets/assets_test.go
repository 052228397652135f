package assets

import (
	"io/fs"
	"strings"
	"testing"
)

// Every demo that is embedded is in the gallery once, and every name leads to one.
func TestDemos(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range Demos() {
		if document, ok := Demo(name); !ok || len(document) == 0 || seen[name] {
			t.Errorf("demo %q: found %v, %d bytes, seen before %v", name, ok, len(document), seen[name])
		}
		seen[name] = true
	}
	files, err := fs.Glob(demos, "demos/*.json")
	if err != nil || len(files) != len(seen) {
		t.Errorf("%d demos in the gallery, %d embedded (%v)", len(seen), len(files), err)
	}
	for _, file := range files {
		if name := strings.TrimSuffix(strings.TrimPrefix(file, "demos/"), ".json"); !seen[name] {
			t.Errorf("%s is not in the gallery", file)
		}
	}
	for _, name := range []string{"", "Sound", "../assets", "sound.json"} {
		if _, ok := Demo(name); ok {
			t.Errorf("demo %q should not be there", name)
		}
	}
	Demos()[0] = "changed"
	if Demos()[0] != "sound" {
		t.Error("a caller can change the gallery")
	}
}
