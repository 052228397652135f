package disk

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// holds fails unless the folder holds these files alone, each with its text.
func holds(t *testing.T, dir string, want map[string]string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		text, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if should, ok := want[e.Name()]; err != nil || !ok || string(text) != should {
			t.Errorf("%s: %q, %v; want %q", e.Name(), text, err, should)
		}
	}
	if len(entries) != len(want) {
		t.Errorf("%d files, want %d", len(entries), len(want))
	}
}

// TestWriteFails: where the disk is full half way, the file that stood there is as it
// was, a new one is not there, and nothing is left beside them.
func TestWriteFails(t *testing.T) {
	full := errors.New("no space left on device")
	half := func(to io.Writer) error {
		if _, err := io.WriteString(to, "half of it"); err != nil {
			return err
		}
		return full
	}
	dir := t.TempDir()
	old := filepath.Join(dir, "sheets.pdf")
	if err := Write(old, []byte("good")); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{old, filepath.Join(dir, "new.pdf")} {
		if err := write(name, half); !errors.Is(err, full) || !strings.Contains(err.Error(), name) {
			t.Errorf("%s: %v", name, err)
		}
	}
	holds(t, dir, map[string]string{"sheets.pdf": "good"})
	if err := Write(filepath.Join(dir, "nowhere", "new.pdf"), nil); err == nil {
		t.Error("a folder that is not there was written to")
	}
	if err := Write(dir, nil); err == nil {
		t.Error("a folder was written over")
	}
}

// TestWrite: new and over an earlier file, whose permissions stay; through a link.
func TestWrite(t *testing.T) {
	dir := t.TempDir()
	name := filepath.Join(dir, "a")
	if err := Write(name, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(name, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("a", filepath.Join(dir, "b")); err != nil {
		t.Skip("no links here: ", err)
	}
	if err := Write(filepath.Join(dir, "b"), []byte("two")); err != nil {
		t.Fatal(err)
	}
	holds(t, dir, map[string]string{"a": "two", "b": "two"})
	if at, err := os.Lstat(name); err != nil || at.Mode() != 0o600 {
		t.Errorf("%v, %v", at.Mode(), err)
	}
	if at, err := os.Lstat(filepath.Join(dir, "b")); err != nil || at.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is %v, %v", at.Mode(), err)
	}
	if Taken(name) == nil || Taken(filepath.Join(dir, "c")) != nil {
		t.Error("a file that is there may be taken, or one that is not may not")
	}
}

// TestDevice: a device is written into and stays one; a full one says so.
func TestDevice(t *testing.T) {
	const full = "/dev/full"
	if _, err := os.Stat(full); err != nil {
		t.Skip("no ", full, " here")
	}
	if err := Taken(full); err != nil {
		t.Error(err)
	}
	if err := Write(full, []byte("x")); err == nil {
		t.Error("a full disk took a file")
	}
	if at, err := os.Stat(full); err != nil || at.Mode()&os.ModeDevice == 0 {
		t.Errorf("%s is now %v, %v", full, at.Mode(), err)
	}
}
