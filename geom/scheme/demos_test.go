package scheme

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The demo schemes are whole documents as JSON writes them, valid, and each
// code is short enough to send.
func TestDemos(t *testing.T) {
	files, err := filepath.Glob("../../assets/demos/*.json")
	if err != nil || len(files) < 9 {
		t.Fatalf("%d demos (%v)", len(files), err)
	}
	for _, file := range files {
		doc, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Parse(doc)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		if !bytes.Equal(s.JSON(), doc) {
			t.Errorf("%s is not as JSON writes it", file)
		}
		if s.Name == "" || !strings.HasPrefix(s.Name, "The ") {
			t.Errorf("%s is called %q", file, s.Name)
		}
		code := s.Code()
		if back, err := FromCode(code); err != nil || len(Differ(s, back)) != 0 {
			t.Errorf("%s: code %v", file, err)
		}
		if len(code) > 600 {
			t.Errorf("%s: a code of %d characters", file, len(code))
		}
	}
}
