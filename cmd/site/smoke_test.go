package site

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// TestOtherBrowsers: in Firefox and WebKit the page comes to the very numbers and verdict
// of Chromium; a drag turns the ruff, an entry counts and is taken back, the form is right
// after another page and Back, a small texture limit leaves the plain picture and a page
// that works, and the sheets are made.
func TestOtherBrowsers(t *testing.T) {
	t.Parallel()
	const answer = `["numbers", "verdict", "findings"].map((id) => document.getElementById(id).textContent).join("\n")`
	b := open(t, easy(t), screen{width: 1280, height: 800}).ready()
	b.settle()
	want := eval[string](b, answer)
	if !strings.Contains(want, "24 × 12") {
		t.Fatalf("Chromium's own answer is not solved: %s", want)
	}
	for name, start := range map[string]func(*testing.T) *foreigner{"Firefox": firefox, "WebKit": webkit} {
		t.Run(name, func(t *testing.T) {
			f := start(t)
			var limited atomic.Bool
			home := serve(t, siteDir(t), limiting(t, &limited))
			f.visit(home + untucked(t))
			f.await(`document.documentElement.dataset.program === "runs" && document.documentElement.dataset.stage === "drawn"`)
			f.await(state + ` === "done"`)
			if got := holds[string](f, answer); got != want {
				t.Errorf("it says\n%s\nChromium\n%s", got, want)
			}
			was := f.stage()
			f.drag(120)
			for deadline := time.Now().Add(patience); differ(was, f.stage()) < 0.01; {
				if time.Now().After(deadline) {
					t.Fatal("a drag does not turn the ruff")
				}
			}
			f.enter("ruff.sets", "48")
			f.await(`document.getElementById("numbers").textContent.includes("48 top folds")`)
			holds[any](f, `document.getElementById("undo").click()`)
			f.await(`document.getElementById("numbers").textContent.includes("40 top folds") && document.querySelector("#f-ruff-sets").value === "40"`)
			f.visit(home) // without the link, which would be opened again
			f.await(`document.documentElement.dataset.program === "runs"`)
			f.enter("ruff.sets", "44")
			f.await(`document.getElementById("kept").dataset.state === "saved"`)
			f.visit("about:blank")
			f.back()
			f.await(`document.querySelector("#f-ruff-sets")?.value === "44" && document.getElementById("numbers").textContent.includes("44 top folds")`)
			f.enter("ruff.sets", "42")
			f.await(`document.querySelector("#finding-quarters")`)

			limited.Store(true)
			f.visit(home + "?limited" + untucked(t))
			f.await(unstaged)
			f.enter("ruff.sets", "46")
			f.await(`document.getElementById("numbers").textContent.includes("46 top folds")`)
			if d := differ(was, f.stage()); d > 0.5 {
				t.Errorf("%.0f %% of the plain picture are unlike the stage's", 100*d)
			}
			holds[any](f, `document.getElementById("make-sheets").click()`)
			f.await(`document.getElementById("press").dataset.state === "done" && !document.getElementById("save-sheets").hidden`)
		})
	}
}

// limiting gives the page, when it is on, a graphics card with small textures: the first
// script is sent with that before it.
func limiting(t *testing.T, on *atomic.Bool) func(http.ResponseWriter, *http.Request) bool {
	return func(w http.ResponseWriter, r *http.Request) bool {
		if !on.Load() || !strings.HasPrefix(r.URL.Path, "/loader.") {
			return false
		}
		text, err := os.ReadFile(filepath.Join(siteDir(t), r.URL.Path))
		if err != nil {
			t.Error(err)
			return false
		}
		w.Header().Set("Content-Type", "text/javascript")
		w.Header().Set("Cache-Control", "no-store")
		fmt.Fprintf(w, "{ %s }\n%s", textureLimit, text)
		return true
	}
}
