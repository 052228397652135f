package main

import (
	"flag"
	"strings"
	"testing"
)

func TestWrapped(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", ""},
		{"  one\n two ", "> one two\n"},
		{"the strip is short", "> the strip\n> is short\n"},
		{"averyverylongwordindeed x", "> averyverylongwordindeed\n> x\n"},
		{"½½½½½ ½½½½½", "> ½½½½½\n> ½½½½½\n"}, // columns are letters, not bytes
	} {
		if got := wrapped(c.text, 12, "> "); got != c.want {
			t.Errorf("%q: got %q, want %q", c.text, got, c.want)
		}
	}
}

// TestInterspersed: flags may stand before, between and after arguments; after
// "--" nothing is a flag; "-" is standard input.
func TestInterspersed(t *testing.T) {
	for _, c := range []struct {
		words, rest string
		json        bool
	}{
		{"sound", "sound", false},
		{"--json sound", "sound", true},
		{"sound --json", "sound", true},
		{"sound --json floppy", "sound floppy", true},
		{"- --json", "-", true},
		{"-- --json", "--json", false},
		{"sound -- --json -x", "sound --json -x", false},
		{"--json -- sound", "sound", true},
		{"", "", false},
	} {
		flags := flag.NewFlagSet("", flag.ContinueOnError)
		json := flags.Bool("json", false, "")
		rest, err := interspersed(flags, strings.Fields(c.words))
		if err != nil || strings.Join(rest, " ") != c.rest || *json != c.json {
			t.Errorf("%q: %q, json %v, %v", c.words, rest, *json, err)
		}
	}
}

// TestEveryVerbIsExplained: help fits a terminal, names every verb and says of
// every flag what it is.
func TestEveryVerbIsExplained(t *testing.T) {
	_, overview, _ := typed(t, "", "help")
	for _, v := range verbs() {
		if !strings.Contains(overview, "  "+v.name+" ") {
			t.Errorf("help does not name %s", v.name)
		}
		code, text, _ := typed(t, "", v.name, "-h")
		if code != exitWell {
			t.Errorf("%s -h: exit code %d", v.name, code)
		}
		flags := flag.NewFlagSet("", flag.ContinueOnError)
		v.flags(flags)
		flags.VisitAll(func(f *flag.Flag) {
			if f.Usage == "" || !strings.Contains(text, "--"+f.Name) {
				t.Errorf("%s does not explain --%s", v.name, f.Name)
			}
		})
		for line := range strings.Lines(overview + text) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 92 && !strings.Contains(line, "The demos:") {
				t.Errorf("%s: a line of help has %d columns: %s", v.name, n, line)
			}
		}
	}
}
