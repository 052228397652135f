package site

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestFaults: the solver's own program hangs, or panics, over one request: the
// comparison's. It is started again once, the page then says so, and what was
// solved before stays, on the page and on the drawing.
func TestFaults(t *testing.T) {
	dir := siteDir(t)
	m, err := ReadManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	worker, err := os.ReadFile(filepath.Join(dir, m.Files["worker"]))
	if err != nil {
		t.Fatal(err)
	}
	// The second scheme that a worker is asked to solve is the comparison's.
	const count = `let schemes = []; let bad = false; addEventListener("message", (e) => {
		if (!e.data.head) return;
		const s = JSON.stringify(JSON.parse(e.data.head).scheme);
		if (s && !schemes.includes(s)) schemes.push(s);
		bad = schemes.length > 1;
	}); `
	for name, c := range map[string]struct{ fault, says string }{
		"hangs":  {count + `addEventListener("message", () => { while (bad) {} }); `, "fell silent"},
		"panics": {count + `const post = postMessage; postMessage = (m, ...more) => { if (bad && m.head) throw new Error("the line is cut"); post(m, ...more); }; `, "ended by itself"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			home := serve(t, dir, func(w http.ResponseWriter, r *http.Request) bool {
				if r.URL.Path != "/"+m.Files["worker"] {
					return false
				}
				w.Header().Set("Content-Type", types[".js"])
				w.Write([]byte(strings.Replace(string(worker), "\"use strict\";\n", "\"use strict\";\n"+c.fault, 1)))
				return true
			})
			const alone = `Object.defineProperty(Navigator.prototype, "hardwareConcurrency", {get: () => 1}); ` // one core: one solver
			b := open(t, home+untucked(t), screen{width: 800, height: 600, before: alone + counted}).ready()
			const solved = `[...document.querySelectorAll("#numbers tr")].map((e) => e.textContent).join("\n")`
			if got := eval[string](b, solved); !strings.Contains(got, "Moves when the wearer bows") {
				t.Fatalf("not solved at first: %s", got)
			}
			was, workers := eval[string](b, solved), eval[int](b, "workers")
			b.click("#twin")
			b.await(state + ` === "gone"`)
			if n := eval[int](b, "workers") - workers; n != 1 {
				t.Errorf("started %d times again, want once", n)
			}
			if got := b.text("#solving"); !strings.Contains(got, c.says) || !strings.Contains(got, "What was solved until then is shown") {
				t.Errorf("the page says %q", got)
			}
			if got := eval[string](b, solved); got != was {
				t.Errorf("the numbers were\n%s\nand are\n%s", was, got)
			}
			b.picture("fault-"+name, false)
		})
	}
}

// TestContextLost: when the drawing's context is lost the ruff, its findings, the
// steps back and what was solved are still there.
func TestContextLost(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), screen{width: 800, height: 600}).ready()
	b.enter("ruff.sets", "42")
	b.await(`document.querySelector("#finding-quarters")`)
	b.await(still)
	numbers := eval[string](b, `document.getElementById("numbers").textContent`)
	b.run(`globalThis.same = true; document.querySelector("#canvas canvas:last-child").getContext("webgl2").getExtension("WEBGL_lose_context").loseContext()`)
	b.await(unstaged)
	if !eval[bool](b, "globalThis.same === true") {
		t.Error("the page was loaded again")
	}
	if got := eval[string](b, `document.querySelector("#f-ruff-sets").value`); got != "42" {
		t.Errorf("%s sets", got)
	}
	if got := eval[string](b, `document.getElementById("numbers").textContent`); got != numbers {
		t.Errorf("the numbers were\n%s\nand are\n%s", numbers, got)
	}
	if !eval[bool](b, `document.querySelector("#finding-quarters") !== null`) {
		t.Error("the finding is gone")
	}
	b.click("#undo")
	b.await(`document.querySelector("#f-ruff-sets").value === "40" && !document.querySelector("#finding-quarters")`)
	b.click("#redo")
	b.await(`document.querySelector("#f-ruff-sets").value === "42"`)
}

// hostPage is a page of a course with the page in a frame.
func hostPage(sandbox string) string {
	return `<!doctype html><meta charset="utf-8"><title>Course</title><link rel="icon" href="data:,"><h1>Week 3: the ruff</h1><iframe id="frame" title="ruffwright" width="760" height="500" sandbox="` + sandbox + `" src="./"></iframe>`
}

// TestFrame: in a course page's frame that leaves the page its own address it
// works, without storage too.
func TestFrame(t *testing.T) {
	t.Parallel()
	home := serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		if r.URL.Path == "/course.html" {
			w.Header().Set("Content-Type", types[".html"])
			w.Write([]byte(hostPage("allow-scripts allow-same-origin")))
		}
		return r.URL.Path == "/course.html"
	})
	for name, before := range map[string]string{
		"storage":    "",
		"no storage": `for (const what of ["localStorage", "sessionStorage", "caches", "indexedDB"]) Object.defineProperty(globalThis, what, {get() { throw new DOMException("denied", "SecurityError"); }});`,
	} {
		t.Run(name, func(t *testing.T) {
			b := open(t, home+"course.html", screen{width: 800, height: 620, before: before, kept: true})
			b.home = home
			const in = `document.getElementById("frame").contentDocument`
			b.await(in + `.documentElement.dataset.stage === "drawn" && ` + in + `.documentElement.dataset.program === "runs"`)
			b.run(`{ const e = ` + in + `.querySelector("#f-ruff-sets"); e.value = "42"; e.dispatchEvent(new Event("change", {bubbles: true})); }`)
			b.await(in + `.querySelector("#finding-quarters")`)
			b.await(in + `.getElementById("solving").textContent.startsWith("Solved")`)
			if eval[bool](b, in+`.querySelector(".boxed").checkVisibility()`) {
				t.Error("the page says that its program was kept away")
			}
			b.picture("frame-"+strings.ReplaceAll(name, " ", "-"), false)
			b.clean()
		})
	}
}

// TestSandbox: where a frame takes the page's own address from it (here by the
// header that does what the attribute sandbox="allow-scripts" does) the page says
// that its program was kept away and offers a tab of its own, whether the host
// lets the loader through or not; the page that is one file works there.
func TestSandbox(t *testing.T) {
	t.Parallel()
	dir := siteDir(t)
	box := func(w http.ResponseWriter, policy string) {
		w.Header().Set("Content-Security-Policy", strings.TrimPrefix(policy+", sandbox allow-scripts", ", "))
	}
	for name, home := range map[string]string{
		"this server": serve(t, dir, func(w http.ResponseWriter, r *http.Request) bool {
			if r.URL.Path != "/" {
				return false
			}
			box(w, Policy)
			w.Header().Set("Content-Type", types[".html"])
			http.ServeFile(w, r, filepath.Join(dir, "index.html"))
			return true
		}),
		"a plain host": serve(t, dir, func(w http.ResponseWriter, r *http.Request) bool {
			box(w, "")
			http.FileServer(http.Dir(dir)).ServeHTTP(w, r)
			return true
		}),
	} {
		t.Run(name, func(t *testing.T) {
			b := open(t, home+"#to-form", screen{width: 800, height: 600})
			if got := eval[string](b, "self.origin"); got != "null" {
				t.Fatalf("the page keeps its address: %s", got)
			}
			b.await(`document.querySelector(".boxed").checkVisibility({checkVisibilityCSS: true})`)
			if got := b.text(".boxed"); !strings.Contains(got, "tab of its own") {
				t.Errorf("the page says %q", got)
			}
			if eval[bool](b, `document.getElementById("failure").checkVisibility()`) {
				t.Error("it says that its program fails as well")
			}
			if got := eval[string](b, `(() => { const a = document.getElementById("own-tab"); return a.target + " " + a.rel + " " + a.href.split("#")[0]; })()`); got != "_blank noopener "+home {
				t.Errorf("the link is %q", got)
			}
			if eval[string](b, `document.querySelector("#f-wearer-girth").value`) != "395" {
				t.Error("the plain start is gone")
			}
			b.picture("sandbox-"+strings.ReplaceAll(name, " ", "-"), false)
		})
	}
	t.Run("one file", func(t *testing.T) {
		file := strings.TrimPrefix(single(t), "file://")
		home := serve(t, dir, func(w http.ResponseWriter, r *http.Request) bool {
			box(w, "")
			http.ServeFile(w, r, file)
			return true
		})
		b := open(t, home+untucked(t), screen{width: 800, height: 600}).ready()
		if got := eval[string](b, "self.origin"); got != "null" {
			t.Fatalf("the page keeps its address: %s", got)
		}
		if got := b.text("#solving"); !strings.HasPrefix(got, "Solved") {
			t.Errorf("the page says %q", got)
		}
		b.clean()
	})
}

// TestNoLoader: when the loader itself does not come the page says so after a
// while, without a script.
func TestNoLoader(t *testing.T) {
	t.Parallel()
	home := serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		if strings.HasPrefix(r.URL.Path, "/loader.") {
			http.Error(w, "gone", http.StatusNotFound)
		}
		return strings.HasPrefix(r.URL.Path, "/loader.")
	})
	b := open(t, home, screen{width: 800, height: 600})
	b.await(`document.querySelector(".boxed").checkVisibility({checkVisibilityCSS: true})`)
	b.do(chromedp.Click(chromedp.CSS("#f-wearer-girth"))) // the form is there
}

// TestSingleFaults: the page that is one file, in a browser without workers: the
// program is unpacked on the page's own thread; damaged, it says so.
func TestSingleFaults(t *testing.T) {
	b := open(t, single(t), screen{width: 800, height: 600, unsolved: true}).drawn()
	b.enter("ruff.sets", "42")
	b.await(`document.querySelector("#finding-quarters")`)
	b.clean()

	text, err := os.ReadFile(strings.TrimPrefix(single(t), "file://"))
	if err != nil {
		t.Fatal(err)
	}
	at := strings.Index(string(text), `id="packed">`)
	end := at + strings.Index(string(text)[at:], "</script>")
	hurt := filepath.Join(t.TempDir(), "hurt.html")
	if err := os.WriteFile(hurt, append(append([]byte{}, text[:at+100000]...), text[end:]...), 0o644); err != nil {
		t.Fatal(err)
	}
	b = open(t, "file://"+hurt, screen{width: 800, height: 600})
	b.await(`!document.getElementById("failure").hidden`)
	if got := b.text("#failure-why"); !strings.Contains(got, "packed") {
		t.Errorf("the page says %q", got)
	}
}

// TestLastGood: an entry that cannot be used is said beside the verdict and on the
// picture, in sight; the mark on a closed part of the form leads to it; Save asks
// first, with the focus on the question, and the field is one press away.
func TestLastGood(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1280, height: 800, unsolved: true}, {width: 390, height: 844, touch: true, unsolved: true}} {
		b := open(t, site(t), s).drawn()
		b.enter("wearer.ratio", "9")
		b.enter("wearer.girth", "120")
		b.run(`document.getElementById("group-wearer").open = false; document.getElementById("view-hand").focus()`)
		b.top()
		b.await(`document.querySelectorAll("#state li").length === 2 && document.getElementById("stage-of").checkVisibility()`)
		b.picture(fmt.Sprintf("last-good-%d", s.width), false)
		b.run(`document.getElementById("state").scrollIntoView({block: "end"})`)
		b.picture(fmt.Sprintf("last-good-banner-%d", s.width), false)
		b.run(`document.getElementById("group-wearer").scrollIntoView({block: "center"})`)
		b.picture(fmt.Sprintf("last-good-form-%d", s.width), false)
		b.click("#to-keep")
		b.click("#save")
		b.await(`document.activeElement.id === "save-last"`)
		if !eval[bool](b, `(() => { const r = document.getElementById("news").getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; })()`) {
			t.Errorf("%d px: the question is out of sight", s.width)
		}
		b.picture(fmt.Sprintf("asks-%d", s.width), false)
		b.run(`document.querySelector('#state [data-with="wearer.ratio"]').click()`)
		b.await(`document.activeElement.id === "f-wearer-ratio" && document.getElementById("group-wearer").open`)
		b.clean()
	}
}

// TestNoProgram: when the program does not come, is not a program, or the
// browser has no WebAssembly, the page says so in plain words, and form and
// picture of the plain start are still there.
func TestNoProgram(t *testing.T) {
	t.Parallel()
	isProgram := func(r *http.Request) bool { return strings.HasSuffix(r.URL.Path, ".wasm") }
	for name, c := range map[string]struct {
		screen
		meddle func(http.ResponseWriter, *http.Request) bool
		says   string
	}{
		"missing": {screen{}, func(w http.ResponseWriter, r *http.Request) bool {
			if isProgram(r) {
				http.Error(w, "gone", http.StatusNotFound)
			}
			return isProgram(r)
		}, "404"},
		"garbled": {screen{}, func(w http.ResponseWriter, r *http.Request) bool {
			if isProgram(r) {
				w.Header().Set("Content-Type", "application/wasm")
				w.Write([]byte("not a program"))
			}
			return isProgram(r)
		}, "WebAssembly"},
		"old browser": {screen{before: "delete globalThis.WebAssembly"}, nil, "WebAssembly"},
	} {
		t.Run(name, func(t *testing.T) {
			c.screen.width, c.screen.height = 640, 480
			b := open(t, serve(t, siteDir(t), c.meddle), c.screen)
			b.await(`!document.getElementById("failure").hidden`)
			if got := b.text("#failure"); !strings.Contains(got, c.says) || !strings.Contains(got, "Reload") {
				t.Errorf("the page says %q", got)
			}
			if got := b.text("body"); strings.Contains(got, "being solved") || strings.Contains(got, "Stop solving") || strings.Contains(got, "will be saved") {
				t.Errorf("without a program the page says %q", got)
			}
			if got := b.text("#state"); !strings.Contains(got, "nothing is solved") {
				t.Errorf("the state is %q", got)
			}
			b.enter("wearer.girth", "372") // has no effect, and seems to have none
			if eval[string](b, `document.querySelector("#f-wearer-girth").value`) != "395" || !strings.Contains(eval[string](b, `document.getElementById("numbers").textContent`), "415 mm") {
				t.Error("form or numbers of the plain start are gone")
			}
			if !eval[bool](b, `document.getElementById("picture").complete && document.getElementById("picture").naturalWidth > 0`) {
				t.Error("the picture of the plain start is gone")
			}
			b.picture("no-program-"+strings.ReplaceAll(name, " ", "-"), false)
		})
	}
}

// TestStopped: when the program dies it is said where the eye is, nothing can be
// entered any more, nothing is called saved, and the last ruff is offered: as a
// file, as a link, and as a reload that brings it back.
func TestStopped(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1280, height: 800, unsolved: true}, {width: 390, height: 844, unsolved: true, touch: true}} {
		t.Run(fmt.Sprint(s.width), func(t *testing.T) {
			b := open(t, site(t), s).drawn()
			b.enter("ruff.sets", "44")
			b.await(`document.getElementById("kept").dataset.state === "saved"`)
			b.run(`document.querySelector("#f-hand-pace").scrollIntoView()`)
			b.run(`const e = document.querySelector("#f-strip-bolt"); e.focus(); e.value = "15"; ruffwright.fail("a fault made by the test")`)
			b.await(`(() => { const r = document.getElementById("failure").getBoundingClientRect(); return r.top >= 0 && r.top < 5 && r.bottom < innerHeight && r.height > 100; })()`)
			if !eval[bool](b, `(() => { const r = document.getElementById("rescue-reload").getBoundingClientRect(); return document.elementFromPoint(r.left + 5, r.top + 5).id === "rescue-reload"; })()`) {
				t.Error("the way out is covered")
			}
			b.picture(fmt.Sprintf("stopped-%d", s.width), false)
			got := b.text("body")
			for _, never := range []string{"Saved on this device", "is being solved", "Stop solving"} {
				if at := strings.Index(got, never); at >= 0 {
					t.Errorf("after the end the page says %q", got[max(0, at-100):min(len(got), at+100)])
				}
			}
			if !strings.Contains(got, "The program has stopped") {
				t.Errorf("the page says %.300q", got)
			}
			b.press("00")
			b.enter("wearer.girth", "372")
			if got := eval[string](b, `document.querySelector("#f-strip-bolt").value + " " + document.querySelector("#f-wearer-girth").value`); got != "15 395" {
				t.Errorf("after the end the form holds %q", got)
			}
			if free := eval[int](b, `[...document.querySelectorAll("button[data-do], select[data-key]")].filter((e) => !e.disabled).length`); free > 0 {
				t.Errorf("%d controls still seem to work", free)
			}
			if !eval[bool](b, `document.getElementById("rescue-link").href.includes("#1.")`) {
				t.Error("no link to the last ruff")
			}
			b.run(`document.querySelector("#failure").scrollIntoView()`)
			b.run(`document.getElementById("rescue-reload").click()`)
			b.await(`document.documentElement && document.documentElement.dataset.program === "runs" && document.querySelector("#f-ruff-sets").value === "44" && document.getElementById("failure").hidden`)
			b.clean()
		})
	}
}

// unstaged is true when the plain canvas shows the ruff, and nothing else does.
const unstaged = `document.documentElement.dataset.stage === "picture" && document.querySelectorAll("#canvas canvas").length === 1 && document.querySelector("#canvas canvas").checkVisibility()`

// textureLimit leaves a page a graphics card that has small textures.
const textureLimit = `const get = WebGL2RenderingContext.prototype.getParameter; WebGL2RenderingContext.prototype.getParameter = function (what) { return what === this.MAX_TEXTURE_SIZE ? 256 : get.call(this, what); };`

// TestNoWebGL: without WebGL 2, on a screen too large for the stage's program, without
// that program, where it ends, and when its context is lost, a plain canvas takes its
// place, looks the same, and follows every change; nothing else of the page is touched.
func TestNoWebGL(t *testing.T) {
	t.Parallel()
	desk := screen{width: 1000, height: 600, unsolved: true}
	b := open(t, site(t), desk).drawn()
	b.top()
	drawn := b.pixels()
	gone := func(w http.ResponseWriter, r *http.Request) bool {
		if !strings.HasPrefix(r.URL.Path, "/stage.") {
			return false
		}
		http.Error(w, "gone", http.StatusNotFound)
		return true
	}
	for name, c := range map[string]struct {
		home, before, lose string
	}{
		"no WebGL":   {site(t), `const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...a) { return /webgl/.test(kind) ? null : get.call(this, kind, ...a); };`, ""},
		"too large":  {site(t), textureLimit, ""},
		"no program": {serve(t, siteDir(t), gone), "", ""},
		"lost":       {site(t), "", `document.querySelector("#canvas canvas:last-child").getContext("webgl2").getExtension("WEBGL_lose_context").loseContext()`},
		"ended":      {site(t), "", `ruffwrightStage.onmessage({data: {head: "end"}})`},
	} {
		t.Run(name, func(t *testing.T) {
			s := desk
			s.before = c.before
			b := open(t, c.home, s)
			if c.lose != "" {
				b.drawn()
				b.run(c.lose)
			}
			b.await(unstaged)
			b.top()
			was := b.pixels()
			if d := differ(drawn, was); d > 0.03 {
				t.Errorf("%.1f %% of the pixels are unlike the stage's", 100*d)
			}
			b.enter("ruff.sets", "48")
			b.click("#view-above")
			b.await(`document.getElementById("view-above").getAttribute("aria-pressed") === "true"`)
			b.top()
			if differ(was, b.pixels()) < 0.05 {
				t.Error("the picture did not follow")
			}
			if !eval[bool](b, unstaged+` && document.documentElement.dataset.program === "runs"`) {
				t.Error("something else stands there")
			}
			b.picture("plain-"+strings.ReplaceAll(name, " ", "-"), false)
		})
	}
}
