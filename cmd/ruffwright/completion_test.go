package main

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
)

// TestCompleted: verbs, flags, demos, fields and choices where they may stand, and
// nothing that does not begin as typed.
func TestCompleted(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"che|", "check"},
		{"help sh|", "sheets share"},
		{"help check s|", ""},
		{"--v|", "--version"},
		{"--no|", "--no-browser --notices"},
		{"check so|", "sound"},
		{"check --dra|", "--drawn"},
		{"check sound --units |", "mm cm in"},
		{"check --set ruff.se|", "ruff.sets="},
		{"check --set ruff.sets=|", ""},
		{"compare a b --change pleat.first=|", "pleat.first=trough pleat.first=crest"},
		{"check --set pleat.first = c|", "pleat.first=crest"}, // as bash parts it
		{"check --set pleat.first =|", "pleat.first=trough pleat.first=crest"},
		{"draw --view h|", "hand"},
		{"draw --out h|", ""},
		{"solve --json so|", "sound"}, // --json takes no value
		{"sheets --grid |", "coarse fine finest"},
		{"batch --scheme cu|", "cuff"},
		{"completion |", "bash fish zsh"},
		{"--port 80 --no-b|", "--no-browser"},
		{"nonsense |", ""},
		{"nonsense|", ""},
	} {
		words := strings.Split(strings.TrimSuffix(c.typed, "|"), " ")
		var got []string
		for _, w := range completed(words) {
			got = append(got, w.word)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %q, want %q", c.typed, got, c.want)
		}
	}
	if got := completed(nil); got != nil {
		t.Errorf("nothing is completed to %v", got)
	}
}

// TestCompletionsAreTaken: every value that is offered behind a flag or for a field is
// taken there; every field is offered.
func TestCompletionsAreTaken(t *testing.T) {
	offered := completed([]string{"check", "--set", ""})
	for _, f := range scheme.Fields() {
		if !slices.ContainsFunc(offered, func(c completion) bool { return c.word == f.Key+"=" }) {
			t.Errorf("%s is not offered", f.Key)
		}
		for _, c := range completed([]string{"check", "--set", f.Key + "="}) {
			s := scheme.Default()
			if err := s.Set(f.Key, strings.TrimPrefix(c.word, f.Key+"=")); err != nil {
				t.Error(err)
			}
		}
	}
	for _, v := range verbs() {
		for _, f := range flagWords(v) {
			for _, c := range v.next([]string{f.word, ""}) {
				if strings.HasSuffix(c.word, "=") || !strings.HasPrefix(f.word, "--") {
					continue
				}
				if _, _, complaint := typed(t, "", v.name, f.word, c.word, "--no-such-flag"); strings.Contains(complaint, "invalid value") {
					t.Errorf("%s %s %s: %s", v.name, f.word, c.word, complaint)
				}
			}
		}
	}
}
