package site

import (
	"net/http"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
)

// hostile is a name that would do harm wherever text is read as HTML.
const hostile = `<img src=x onerror=harm()><svg onload=harm()>"'>&lt;b&gt;`

// TestHostile: on the site and on the page that is one file, a whole session with
// a hostile name in the link makes no element of it, breaks no rule of the
// policy, and asks nothing of anybody else. (open has every breach of the policy
// told, clean fails on it and on requests elsewhere.)
func TestHostile(t *testing.T) {
	t.Parallel()
	s := scheme.Default()
	s.Name = hostile
	s.Ruff.Sets = 42
	if err := s.Validate(); err != nil {
		t.Fatal(err)
	}
	for name, home := range map[string]func(*testing.T) string{"site": site, "file": single} {
		t.Run(name, func(t *testing.T) {
			b := open(t, home(t)+"#"+s.Code(), screen{width: 640, height: 480, before: `globalThis.harmed = 0; globalThis.harm = () => { harmed++; };`}).ready()
			b.await(`document.querySelector("#finding-quarters")`)
			for _, view := range []string{"above", "side", "set", "flat", "hand"} {
				b.click("#view-" + view)
			}
			b.click("#twin")
			b.await(still)
			b.click("#share")
			b.await(`location.hash.length > 4`)
			b.click("#undo")
			if n := eval[int](b, `harmed + document.querySelectorAll("[onerror], [onload], img[src=x], body svg:not(.drawn, #easel-lines)").length`); n != 0 {
				t.Errorf("%d elements came of the name", n)
			}
			b.clean()
		})
	}
	if n := strings.Count(Policy, "unsafe-"); n != 1 || !strings.Contains(Policy, "'wasm-unsafe-eval'") {
		t.Errorf("the policy allows more than WebAssembly: %s", Policy)
	}
}

// TestPolicySeen: a breach of the policy is noticed by these tests.
func TestPolicySeen(t *testing.T) {
	t.Parallel()
	home := serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		if r.URL.Path == "/breach.html" {
			w.Header().Set("Content-Type", types[".html"])
			w.Header().Set("Content-Security-Policy", Policy)
			w.Write([]byte(`<!doctype html><title>breach</title><p style="color: red">x<script>1</script>`))
		}
		return r.URL.Path == "/breach.html"
	})
	b := open(t, home+"breach.html", screen{width: 300, height: 200})
	b.await("document.readyState === 'complete'")
	if got := b.complaints(); !strings.Contains(got, "the policy refused") {
		t.Errorf("nothing was noticed: %s", got)
	}
}
