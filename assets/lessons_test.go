package assets

import (
	"io/fs"
	"testing"
)

// Every lesson that is embedded is in the course once, and every name leads to
// one.
func TestLessons(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range Lessons() {
		if text, ok := Lesson(name); !ok || len(text) == 0 || seen["lessons/"+name+".json"] {
			t.Errorf("lesson %q: found %v, %d bytes, or twice", name, ok, len(text))
		}
		seen["lessons/"+name+".json"] = true
	}
	files, err := fs.Glob(lessons, "lessons/*.json")
	if err != nil || len(files) != len(seen) || len(files) < 7 {
		t.Errorf("%d lessons in the course, %d embedded (%v), want the same and 7 at least", len(seen), len(files), err)
	}
	for _, file := range files {
		if !seen[file] {
			t.Errorf("%s is not in the course", file)
		}
	}
	for _, name := range []string{"", "Top-only", "../demos/sound", "top-only.json"} {
		if _, ok := Lesson(name); ok {
			t.Errorf("lesson %q should not be there", name)
		}
	}
	Lessons()[0] = "changed"
	if Lessons()[0] == "changed" {
		t.Error("a caller can change the course")
	}
}
