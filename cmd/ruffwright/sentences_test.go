package main

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// mostWords is how many words a sentence on the screen may have.
const mostWords = 25

// screened are the rooms whose words the page and the sheets show.
var screened = []string{"wasm", "sim/paper", "sim/check", "geom/scheme", "geom/figure", "geom/picture", "geom/portrait", "sim/measure", "sim/cloth", "sim/trial"}

var (
	sentenceEnd = regexp.MustCompile(`[.!?:]['’”)*~]*(\s+|$)`)
	inBraces    = regexp.MustCompile(`\{([^{}]*)\}`)
)

// longSentences are the sentences of a text with more words than may be. A place in a
// template counts as a word; what is divided by a colon, as a list is, counts apart.
func longSentences(text string) (long []string) {
	for _, s := range sentenceEnd.Split(text, -1) {
		if len(strings.Fields(s)) > mostWords {
			long = append(long, s)
		}
	}
	return long
}

// screenTexts are all texts that the page can show: every literal of the rooms above that
// reads as words, the page's own, and the lessons'.
func screenTexts(t *testing.T) map[string]string {
	t.Helper()
	root := filepath.Join("..", "..")
	texts := map[string]string{}
	add := func(text, where string) {
		if strings.Contains(text, " ") {
			texts[text] = where
		}
	}
	for _, room := range screened {
		err := filepath.WalkDir(filepath.Join(root, room), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			files := token.NewFileSet()
			file, err := parser.ParseFile(files, path, nil, 0)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.Field: // a tag is no text
					return n.Tag == nil
				case *ast.CompositeLit: // how a limit is held, and its source: for the schema
					name, _ := n.Type.(*ast.Ident)
					return name == nil || name.Name != "Rule"
				case *ast.BasicLit:
					if text, err := strconv.Unquote(n.Value); err == nil && n.Kind == token.STRING {
						add(text, files.Position(n.Pos()).String())
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	html, err := os.ReadFile(filepath.Join(root, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range inBraces.FindAllStringSubmatch(string(html), -1) {
		add(m[1], "index.html")
	}
	lessons, _ := filepath.Glob(filepath.Join(root, "assets", "lessons", "*.json"))
	for _, name := range lessons {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var all any
		if err := json.Unmarshal(text, &all); err != nil {
			t.Fatal(err)
		}
		stringsIn(all, func(s string) { add(s, name) })
	}
	return texts
}

func stringsIn(v any, add func(string)) {
	switch v := v.(type) {
	case string:
		add(v)
	case []any:
		for _, x := range v {
			stringsIn(x, add)
		}
	case map[string]any:
		for _, x := range v {
			stringsIn(x, add)
		}
	}
}

// TestSentences: no sentence on the screen is longer than 25 words.
func TestSentences(t *testing.T) {
	texts := screenTexts(t)
	if len(texts) < 500 {
		t.Fatalf("%d texts: most are not seen", len(texts))
	}
	for text, where := range texts {
		for _, s := range longSentences(text) {
			t.Errorf("%s: %d words: %s", where, len(strings.Fields(s)), s)
		}
	}
	if len(longSentences(strings.Repeat("word ", 26))) != 1 || len(longSentences(strings.Repeat("word ", 20)+". "+strings.Repeat("word ", 20))) != 0 {
		t.Error("a long sentence is not seen, or two short ones are")
	}
}
