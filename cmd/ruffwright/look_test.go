package main

import (
	"strings"
	"testing"
)

// TestLookExample: the README's example is what it says it is, and the scheme takes it.
func TestLookExample(t *testing.T) {
	code, out, complaint := typed(t, "", "look", "testdata/look/falconer.json", "sound")
	if code != exitWell || complaint != "" || !strings.Contains(out, "--set ruff.sets=40") {
		t.Errorf("exit code %d: %s%s", code, out, complaint)
	}
}
