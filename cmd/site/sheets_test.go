package site

import (
	"bytes"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	save "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
)

// TestSheets: without its program the page says so and goes on; with it the reader
// makes the sheets, stops them, makes them again, and saves a PDF that is the
// command's for the same scheme, and the marks and pieces.
func TestSheets(t *testing.T) {
	var missing atomic.Bool
	missing.Store(true)
	home := serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		gone := missing.Load() && strings.HasPrefix(r.URL.Path, "/press.")
		if gone {
			http.Error(w, "gone", http.StatusNotFound)
		}
		return gone
	})
	b := open(t, home, screen{width: 1280, height: 800}).drawn()
	if n := eval[int](b, `performance.getEntriesByType("resource").filter((r) => r.name.includes("/press.")).length`); n != 0 {
		t.Error("the press is fetched before anybody asks for sheets")
	}
	b.run(`document.querySelector('[data-with="cuff"]').click()`)
	const pressing = `document.getElementById("press").dataset.state`
	b.click("#make-sheets")
	b.await(pressing + ` === "gone"`)
	if got := b.text("#pressing"); !strings.Contains(got, "404") || !strings.Contains(got, "works on") {
		t.Errorf("without its program the page says %q", got)
	}

	missing.Store(false)
	// What the page tells, at once and then: noted by an observer, as it changes.
	b.run(`globalThis.told = []; new MutationObserver(() => told.push(document.getElementById("pressing").textContent)).observe(document.getElementById("pressing"), {childList: true, characterData: true, subtree: true});
		globalThis.began = performance.now(); document.getElementById("make-sheets").click(); globalThis.took = performance.now() - began`)
	if told, took := eval[int](b, "told.length"), eval[float64](b, "took"); told != 1 || took > 100 {
		t.Errorf("a click says %d things in %.0f ms; goal: one within 100 ms", told, took)
	}
	b.await(`told.some((w) => w.startsWith("Solving"))`)
	if took := eval[float64](b, `(() => { const t = performance.now(); document.getElementById("stop-sheets").click(); return performance.now() - t; })()`); took > 200 {
		t.Errorf("stopped after %.0f ms; goal: within 200", took)
	}
	if got := b.text("#pressing"); got != "Stopped; no new sheets were made." || eval[bool](b, `!document.getElementById("save-sheets").hidden`) {
		t.Errorf("stopped, and the page says %q", got)
	}
	b.run("globalThis.began = performance.now()")
	b.click("#make-sheets")
	b.await(pressing + ` === "done"`)
	t.Logf("the sheets of a cuff took %.1f s in the browser, program and all; told: %s", eval[float64](b, "(performance.now() - began) / 1000"), eval[string](b, `told.join(" ")`))
	b.run(`document.getElementById("to-sheets").scrollIntoView({behavior: "instant"})`)
	b.picture("sheets-1280", false)
	b.do(chromedp.EmulateViewport(320, 700, chromedp.EmulateMobile, chromedp.EmulateTouch))
	if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
		t.Errorf("with sheets to save the page is %d px too wide for 320", over)
	}
	b.run(`document.getElementById("to-sheets").scrollIntoView({behavior: "instant"})`)
	b.picture("sheets-320", false)
	b.do(chromedp.EmulateViewport(1280, 800))

	folder := t.TempDir()
	if _, err := chromedp.CallBrowser(b.ctx, save.SetDownloadBehavior, save.SetDownloadBehaviorParams{Behavior: save.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder}); err != nil {
		t.Fatal(err)
	}
	saved := map[string][]byte{}
	for _, kind := range []string{"sheets", "marks", "pieces"} {
		name := eval[string](b, `document.getElementById("save-`+kind+`").download`)
		b.click("#save-" + kind)
		saved[kind] = awaitFile(t, filepath.Join(folder, name))
	}
	b.clean()
	if !bytes.HasPrefix(saved["marks"], []byte("mark,")) || !bytes.HasPrefix(saved["pieces"], []byte("PK\x03\x04")) {
		t.Errorf("marks begin with %.40q, pieces with %.4q", saved["marks"], saved["pieces"])
	}
	same(t, saved["sheets"], folder)
}

func awaitFile(t *testing.T, name string) []byte {
	t.Helper()
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(40 * time.Millisecond) {
		if text, err := os.ReadFile(name); err == nil && len(text) > 0 {
			return text
		}
	}
	t.Fatalf("%s was never saved", name)
	return nil
}

// same holds a PDF of the page against the command's of the same day.
func same(t *testing.T, page []byte, folder string) {
	t.Helper()
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(page, []byte("/CreationDate (D:"))
	if at < 0 {
		t.Fatal("the page's PDF has no date")
	}
	d := string(page[at+len("/CreationDate (D:"):][:8])
	name := filepath.Join(folder, "command.pdf")
	run := exec.Command("go", "run", "./cmd/ruffwright", "sheets", "cuff", "--out", name, "--date", d[:4]+"-"+d[4:6]+"-"+d[6:])
	run.Dir = root
	if text, err := run.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, text)
	}
	command, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	a, b := contents(t, page), contents(t, command)
	t.Logf("page %d bytes, command %d, the same bytes: %t; %d sheets", len(page), len(command), bytes.Equal(page, command), len(a))
	if len(a) != len(b) || len(a) < 10 {
		t.Fatalf("the page prints %d sheets, the command %d", len(a), len(b))
	}
	for n := range a {
		p, q := bytes.Fields(a[n]), bytes.Fields(b[n])
		if len(p) != len(q) {
			t.Errorf("sheet %d: the page paints %d things, the command %d", n+1, len(p), len(q))
			continue
		}
		for i := range p {
			x, wrong := strconv.ParseFloat(string(p[i]), 64)
			y, wrongToo := strconv.ParseFloat(string(q[i]), 64)
			// Places of the solved cloth: both solves end where the forces are small,
			// not zero (0.05 mm, as in wasm).
			if wrong == nil && wrongToo == nil && x-y < 0.15 && y-x < 0.15 {
				continue
			}
			if !bytes.Equal(p[i], q[i]) {
				t.Errorf("sheet %d: the page paints %.60q, the command %.60q", n+1, p[i], q[i])
				break
			}
		}
	}
}

// contents are what each page of a PDF paints, as another library reads it.
func contents(t *testing.T, pdf []byte) [][]byte {
	t.Helper()
	api.DisableConfigDir()
	ctx, err := api.ReadValidateAndOptimize(bytes.NewReader(pdf), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatalf("pdfcpu refuses the PDF: %v", err)
	}
	var out [][]byte
	for n := 1; n <= ctx.PageCount; n++ {
		r, err := pdfcpu.ExtractPageContent(ctx, n)
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, text)
	}
	return out
}
