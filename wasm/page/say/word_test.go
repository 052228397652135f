package say

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"
)

var placed = regexp.MustCompile(`\{(\w+)\}`)

// places are the names of a text's places, in order, each once.
func places(text string) []string {
	var out []string
	for _, m := range placed.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestWords reads the source of the page: every key that the code and index.html
// name is in the table with the places it is called with, every key of the
// table is named somewhere, and no other text in the source could be meant for a
// reader: words with a space between them, or a word handed to what speaks.
func TestWords(t *testing.T) {
	used := map[string]bool{}
	prefixes := []string{} // of keys that end in a name: word("view." + ...)
	use := func(at fmt.Stringer, key string, given []string, open bool) {
		text, ok := words[key]
		if !ok {
			t.Errorf("%s: no words for %q", at, key)
			return
		}
		used[key] = true
		if want := places(text); !open && !slices.Equal(want, given) {
			t.Errorf("%s: %q has the places %v and is given %v", at, key, want, given)
		}
	}
	set := token.NewFileSet()
	var files []string
	for _, room := range []string{"..", "../*"} {
		found, err := filepath.Glob(filepath.Join(room, "*.go"))
		if err != nil || len(found) == 0 {
			t.Fatalf("%s: %v", room, err)
		}
		files = append(files, found...)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") || strings.Contains(name, "words") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		spoken := map[ast.Node]bool{} // literals that a reader may see, or that are keys
		ast.Inspect(file, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			callee := ""
			switch f := call.Fun.(type) {
			case *ast.Ident:
				callee = f.Name
			case *ast.SelectorExpr:
				callee = f.Sel.Name
			}
			at := set.Position(call.Pos())
			switch callee {
			case "Word", "Many":
				given, open := []string{}, call.Ellipsis.IsValid()
				from := 1
				if callee == "Many" {
					from = 2
				}
				for i := from; i < len(call.Args) && !open; i += 2 {
					name, ok := literal(call.Args[i])
					if !ok {
						t.Errorf("%s: the name of a place must be written out", at)
						continue
					}
					given = append(given, name)
					spoken[call.Args[i]] = true
				}
				slices.Sort(given)
				key, whole := literal(call.Args[0])
				switch {
				case whole && callee == "Many":
					for _, form := range []string{".one", ".many"} {
						own := slices.Clone(given)
						for _, number := range []string{"n", "N"} {
							if slices.Contains(places(words[key+form]), number) {
								own = append(own, number)
							}
						}
						slices.Sort(own)
						use(at, key+form, own, open)
					}
				case whole:
					use(at, key, given, open)
				default:
					if head, ok := head(call.Args[0]); ok {
						prefixes = append(prefixes, head)
					}
				}
				spoken[call.Args[0]] = true
			case "Say", "Soon", "First", "Notice", "Text": // a list's Text has the element before the words
				if s, ok := literal(call.Args[len(call.Args)-1]); ok && hasLetter(s) {
					t.Errorf("%s: %s says %q, which is not in the table of words", at, callee, s)
				}
			case "Attr":
				if name, ok := literal(call.Args[1]); ok && slices.Contains(saidAttributes, name) {
					if s, ok := literal(call.Args[2]); ok && hasLetter(s) {
						t.Errorf("%s: the attribute %s says %q, which is not in the table of words", at, name, s)
					}
				}
			case "With", "El", "Errorf", "New", "Fields": // attributes and markup; errors for developers
				for i, a := range call.Args {
					s, ok := literal(a)
					if callee == "With" && i == 1 && ok && hasLetter(s) && slices.Contains(saidAttributes, first(call)) {
						t.Errorf("%s: the attribute says %q, which is not in the table of words", at, s)
					}
					if lit, ok := a.(*ast.BasicLit); ok {
						spoken[lit] = true
					}
				}
			}
			return true
		})
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.ImportSpec:
				return false
			case *ast.Field: // tags
				return n.Tag == nil
			case *ast.BasicLit:
				s, ok := literal(n)
				if _, known := words[s]; known && strings.Contains(s, ".") {
					used[s] = true // picked first, said later
				}
				if ok && !spoken[n] && sayable(s) {
					t.Errorf("%s: %q is not in the table of words", set.Position(n.Pos()), s)
				}
			}
			return true
		})
	}
	html, err := os.ReadFile(filepath.Join("..", "..", "..", "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`\{([^{}\n]*)\}`).FindAllStringSubmatch(string(html), -1) {
		use(indexHTML{}, m[1], nil, strings.HasPrefix(m[1], "fail.")) // the loader fills the places of those
	}
	body := regexp.MustCompile(`(?s)<!-- unbuilt -->.*?<!-- /unbuilt -->|<!--.*?-->|<(code|h1 translate)[^>]*>.*?</(code|h1)>|<title>ruffwright: `).ReplaceAllString(string(html), "<>")
	for _, m := range regexp.MustCompile(`>([^<]*)<|(?:aria-label|title|alt|placeholder|data-label)="([^"]*)"`).FindAllStringSubmatch(body, -1) {
		left := strings.TrimSpace(placed.ReplaceAllString(regexp.MustCompile(`\{[^{}]*\}`).ReplaceAllString(m[1]+m[2], ""), ""))
		if hasLetter(left) && left != "mm" && left != "cm" {
			t.Errorf("index.html: %q is not in the table of words", left)
		}
	}
	for key, text := range words {
		if !used[key] && !slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(key, p) }) {
			t.Errorf("nothing says %q", key)
		}
		if text == "" || !utf8.ValidString(text) || strings.Count(text, "{") != strings.Count(text, "}") {
			t.Errorf("%q is %q", key, text)
		}
	}
}

// saidAttributes are those that a reader sees or hears.
var saidAttributes = []string{"aria-label", "aria-valuetext", "title", "alt", "placeholder"}

type indexHTML struct{}

func (indexHTML) String() string { return "index.html" }

func literal(e ast.Node) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(lit.Value)
	return s, err == nil
}

// head is the literal that a sum of strings begins with.
func head(e ast.Expr) (string, bool) {
	for {
		sum, ok := e.(*ast.BinaryExpr)
		if !ok {
			return literal(e)
		}
		e = sum.X
	}
}

func first(call *ast.CallExpr) string { s, _ := literal(call.Args[0]); return s }

func hasLetter(s string) bool { return regexp.MustCompile(`\pL`).MatchString(s) }

// sayable reports that a text reads like something for a reader: two words with
// a space between them.
func sayable(s string) bool {
	s = regexp.MustCompile(`%[-+.\d]*[a-z]`).ReplaceAllString(s, "")
	return regexp.MustCompile(`[\pL.,;:!?’”] +[\pL“]`).MatchString(s) && !regexp.MustCompile(`\w=`).MatchString(s)
}

// TestLong: the language of the tests has no plain vowel, keeps its places, and
// is two fifths longer wherever there are vowels enough to say so.
func TestLong(t *testing.T) {
	defer Speak("en")
	Speak(Long)
	for key, english := range words {
		got := Word(key)
		if !slices.Equal(places(got), places(english)) {
			t.Errorf("%s: places %v became %v", key, places(english), places(got))
		}
		plain := placed.ReplaceAllString(got, "")
		if strings.ContainsAny(plain, "aeiouyAEIOUY") {
			t.Errorf("%s: %q has plain vowels", key, got)
		}
		n, m := utf8.RuneCountInString(placed.ReplaceAllString(english, "")), utf8.RuneCountInString(plain)
		if n >= 12 && (float64(m) < 1.25*float64(n) || float64(m) > 1.5*float64(n)) {
			t.Errorf("%s: %d letters became %d", key, n, m)
		}
		if again := long(got); again != got {
			t.Errorf("%s: %q becomes %q the second time", key, got, again)
		}
	}
	if got := Word("view.said", "view", "aeiou"); !strings.Contains(got, "aeiou") {
		t.Errorf("a place's own text was changed: %q", got)
	}
	if got := Many("verdict.stop", 2); !strings.HasPrefix(got, "Twó") {
		t.Errorf("many: %q", got)
	}
}

// TestFill: words in HTML are escaped, and a key that is not there is an error.
func TestFill(t *testing.T) {
	got, err := Fill(`<p title="{form.how}">{undo}</p>`)
	if err != nil || !strings.Contains(got, "1/2&#34;.") || !strings.HasSuffix(got, ">Undo</p>") {
		t.Errorf("%q, %v", got, err)
	}
	for _, bad := range []string{"{no such}", "{undo", "{}"} {
		if got, err := Fill(bad); err == nil {
			t.Errorf("%q becomes %q", bad, got)
		}
	}
}
