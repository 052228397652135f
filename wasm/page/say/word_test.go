package say

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
)

// TestFill: words in HTML are put into the page's language and escaped, with their own
// places left alone; a brace without its other is an error.
func TestFill(t *testing.T) {
	defer Speak("en")
	Speak(word.Long.Tag)
	got, err := Fill(`<p title="{A "b" {status}}">{Undo} <b>`)
	if want := `<p title="Áá &#34;b&#34; {status}">Úúndóó <b>`; err != nil || got != want {
		t.Errorf("%q, %v; want %q", got, err, want)
	}
	for _, bad := range []string{"{undo", "undo}", "{a {b}"} {
		if got, err := Fill(bad); err == nil {
			t.Errorf("%q becomes %q", bad, got)
		}
	}
}

// TestIndex: all words of index.html stand in braces.
func TestIndex(t *testing.T) {
	html, err := os.ReadFile(filepath.Join("..", "..", "..", "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Fill(string(html)); err != nil {
		t.Error(err)
	}
	letter := regexp.MustCompile(`\pL`)
	body := regexp.MustCompile(`(?s)<!-- unbuilt -->.*?<!-- /unbuilt -->|<!--.*?-->|<(code|h1 translate)[^>]*>.*?</(code|h1)>|<title>ruffwright: `).ReplaceAllString(string(html), "<>")
	body = regexp.MustCompile(`\{[^{}]*(\{[^{}]*\}[^{}]*)*\}`).ReplaceAllString(body, "")
	for _, m := range regexp.MustCompile(`>([^<]*)<|(?:aria-label|title|alt|placeholder|data-label)="([^"]*)"`).FindAllStringSubmatch(body, -1) {
		if left := strings.TrimSpace(m[1] + m[2]); letter.MatchString(left) && left != "mm" && left != "cm" {
			t.Errorf("index.html: %q stands without braces", left)
		}
	}
}

// TestFaults: what is wrong with a scheme is told field by field, by labels, and not
// without end; the field that it is told beside is not named.
func TestFaults(t *testing.T) {
	depth := scheme.Error{Field: "ruff.depth", Value: word.Name("1 mm"), Why: word.Say("is too little for %s", word.Key("pleat.panel")), Allowed: word.Say("more")}
	stray := scheme.Error{Field: "tea", Why: word.Say("is no field")}
	for _, c := range []struct {
		err  error
		own  string
		want string
	}{
		{depth, "ruff.depth", "1 mm is too little for “Fold to fold”; allowed: more."},
		{fmt.Errorf("file: %w", scheme.Errors{depth, stray}), "", "Depth: 1 mm is too little for “Fold to fold”; allowed: more. “tea”: is no field."},
		{scheme.Errors{stray, stray, stray, stray, stray, stray, stray}, "", strings.Repeat("“tea”: is no field. ", 5) + "And 2 more."},
		{errors.New("no ruff"), "", "No ruff."},
	} {
		if got := Faults(c.err, c.own); got != c.want {
			t.Errorf("%v: %q, want %q", c.err, got, c.want)
		}
	}
	if got := Why(scheme.Error{Field: "pleat.panel, ruff.depth", Why: word.Say("do not fit")}); got != "“Fold to fold”, “Depth”: do not fit." {
		t.Errorf("%q", got)
	}
}

// TestCount: counts are words up to ten, and the plural is the language's.
func TestCount(t *testing.T) {
	for n, want := range map[int]string{0: "No folds", 1: "One fold", 10: "Ten folds", 11: "11 folds"} {
		if got := Count(n, "%s fold", "%s folds", Capital(Number(n))); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}
