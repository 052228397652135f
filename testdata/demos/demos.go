// Package demos reads the demos of assets as schemes. It is for tests.
package demos

import (
	"strings"
	"testing"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
)

// Scheme is the demo of that name, with changes as "key value".
func Scheme(t testing.TB, name string, changes ...string) scheme.Scheme {
	t.Helper()
	text, ok := assets.Demo(name)
	if !ok {
		t.Fatalf("no demo %s", name)
	}
	s, err := scheme.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range changes {
		key, value, _ := strings.Cut(c, " ")
		if err := s.Set(key, value); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	return s
}
