package site

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestComesBack: a browser that brings the page back from its memory with the form as
// it was first (and tells of no change) shows the ruff at hand in it, and later entries
// count.
func TestComesBack(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1000, height: 600, unsolved: true}).drawn()
	b.enter("wearer.girth", "420")
	b.enter("ruff.sets", "48")
	b.run(`document.getElementById("find").value = "tuck"; document.getElementById("find").dispatchEvent(new Event("input", {bubbles: true}))`)
	b.await(`document.getElementById("f-ruff-sets-row").hasAttribute("hidden")`)
	b.run(`document.getElementById("to-form").reset(); dispatchEvent(new PageTransitionEvent("pageshow", {persisted: true}))`)
	if got := eval[string](b, `["f-wearer-girth", "f-ruff-sets", "find"].map((id) => document.getElementById(id).value).join()`); got != "420,48," {
		t.Errorf("the form shows %q", got)
	}
	if eval[bool](b, `document.getElementById("f-ruff-sets-row").hasAttribute("hidden")`) {
		t.Error("fields are hidden, and the search is empty")
	}
	b.enter("ruff.sets", "44")
	b.await(`document.getElementById("numbers").textContent.includes("44 top folds")`)
	b.clean()
}

// TestPrints: a page printed holds a picture of dots, the verdict, the numbers and the
// link, on two sheets at most, and nothing to press.
func TestPrints(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), screen{width: 1280, height: 800}).ready()
	b.enter("ruff.sets", "44")
	b.settle()
	printed := func() {
		b.t.Helper()
		b.run(`document.querySelector("#canvas canvas").width = 1; dispatchEvent(new Event("beforeprint"))`)
		if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
			t.Fatal(err)
		}
	}
	printed()
	b.picture("printed", true)
	if left := eval[string](b, `[...document.querySelectorAll("button, input, select, textarea, summary")].filter((e) => e.checkVisibility()).map((e) => e.id || e.textContent).join(", ")`); left != "" {
		t.Errorf("printed as well: %s", left)
	}
	const raster = `(() => { const all = [...document.querySelectorAll("#canvas canvas")].filter((e) => e.checkVisibility()); if (all.length !== 1) return -all.length;
		const pen = all[0].getContext("2d"); if (!pen) return -9;
		const d = pen.getImageData(0, 0, all[0].width, all[0].height).data, seen = new Set(); for (let i = 0; i < d.length; i += 4) seen.add(d[i] + 256 * d[i + 1]); return seen.size; })()`
	if n := eval[int](b, raster); n < 50 {
		t.Errorf("the picture has %d colours: it is no picture of dots", n)
	}
	if link := b.text("#printed"); !strings.HasPrefix(link, b.home+"#1.") {
		t.Errorf("its link is %q", link)
	}
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	file, err := chromedp.Call(ctx, page.PrintToPDF, page.PrintToPDFParams{})
	if err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(string(file.Data), "/Type /Page\n"); n < 1 || n > 2 {
		t.Errorf("%d sheets", n)
	}
	b.clean()
}

// TestNoScripts: without scripts, and without WebAssembly, nothing is promised that the
// page cannot do then.
func TestNoScripts(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]screen{"scripts": {}, "WebAssembly": {before: "delete globalThis.WebAssembly"}} {
		t.Run(name, func(t *testing.T) {
			s.width, s.height = 1000, 700
			b := open(t, site(t), s)
			if name == "scripts" {
				if _, err := chromedp.Call(b.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true}); err != nil {
					t.Fatal(err)
				}
				b.do(chromedp.Navigate(site(t)))
			} else {
				b.await(`!document.getElementById("failure").hidden`)
			}
			got := b.text("body")
			for _, never := range []string{"being solved", "Stop solving", "will be saved", "Drag to turn", "you are told", "Make the sheets", "Keep this ruff", "It takes some seconds"} {
				if strings.Contains(got, never) {
					t.Errorf("the page promises %q", never)
				}
			}
			for _, want := range []string{"415 mm", "Girth", "Lessons"} {
				if !strings.Contains(got, want) {
					t.Errorf("no %q", want)
				}
			}
			b.picture("without-"+name, false)
		})
	}
}

// TestTurnsPlain: on the plain canvas, where there is no WebGL, the picture takes the
// focus, turns by keys and by a drag, and so says its help.
func TestTurnsPlain(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1000, height: 600, unsolved: true, before: `const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...a) { return /webgl/.test(kind) ? null : get.call(this, kind, ...a); };`})
	b.await(unstaged)
	b.settle()
	if help := b.text("#view-help"); !strings.Contains(help, "Drag to turn") {
		t.Errorf("the help is %q", help)
	}
	b.run(`document.getElementById("canvas").focus()`)
	if at := eval[string](b, where); at != "canvas" {
		t.Errorf("the focus is on %q", at)
	}
	was := b.pixels()
	b.press(kb.ArrowRight)
	b.settle()
	turned := b.pixels()
	if differ(was, turned) < 0.01 {
		t.Error("the arrow does not turn it")
	}
	at := eval[[2]float64](b, `(() => { const r = document.getElementById("canvas").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`)
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, at[0], at[1], chromedp.ButtonType(input.MouseButtonLeft)),
		chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, at[0]+90, at[1], chromedp.ButtonType(input.MouseButtonLeft)),
		chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, at[0]+90, at[1], chromedp.ButtonType(input.MouseButtonLeft)))
	b.settle()
	if differ(turned, b.pixels()) < 0.01 {
		t.Error("a drag does not turn it")
	}
}

// TestScrollersNamed: what scrolls by itself may be a stop of the keyboard, in one
// browser or another: it has a role and a name.
func TestScrollersNamed(t *testing.T) {
	t.Parallel()
	for _, width := range []int64{1366, 390, 320} {
		b := open(t, site(t), screen{width: width, height: 844, unsolved: true}).drawn()
		b.run(`document.querySelectorAll("details:not(.panel)").forEach((d) => d.open = true)`)
		const unnamed = `[...document.querySelectorAll("body *")].filter((e) => { const s = getComputedStyle(e); return /auto|scroll/.test(s.overflowX + s.overflowY) && !e.matches("textarea, input, select") && !(e.getAttribute("role") && (e.getAttribute("aria-label") || document.getElementById(e.getAttribute("aria-labelledby"))?.textContent)); }).map((e) => e.tagName + "#" + e.id + "." + e.className)`
		for _, e := range eval[[]string](b, unnamed) {
			t.Errorf("%d px: %s scrolls and has no name", width, e)
		}
		b.run(`document.getElementById("notice").style.overflow = "auto"`)
		if len(eval[[]string](b, unnamed)) != 1 {
			t.Error("one that has no name is not seen")
		}
	}
}

// TestStocksNothing: where the browser denies storage and refuses to keep the page, no
// error is left to nobody.
func TestStocksNothing(t *testing.T) {
	t.Parallel()
	const deny = `const denied = () => new DOMException("denied", "SecurityError");
		for (const what of ["localStorage", "sessionStorage", "caches", "indexedDB"]) Object.defineProperty(globalThis, what, {get() { throw denied(); }});
		Object.defineProperty(navigator, "serviceWorker", {value: {register: () => Promise.reject(denied()), get ready() { return Promise.reject(denied()); }}});
		addEventListener("unhandledrejection", (e) => console.error("unhandled", e.reason));`
	b := open(t, easy(t), screen{width: 800, height: 600, before: deny, kept: true, stocks: true}).ready()
	b.await(`performance.getEntriesByName("ruffwright-solved").length`)
	b.settle()
	if got := b.text("#kept"); !strings.Contains(got, "store nothing") {
		t.Errorf("the page says %q", got)
	}
	b.clean()
}

// TestRemembers: the paper chosen is there after a reload; and what was copied is seen
// as well as said, for a moment.
func TestRemembers(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1280, height: 800, unsolved: true, before: `navigator.clipboard.writeText = () => Promise.resolve();`}).drawn()
	b.run(`{ const e = document.getElementById("f-sheets-paper"); e.value = "Letter"; e.dispatchEvent(new Event("change", {bubbles: true})); }`)
	b.do(chromedp.Reload())
	b.drawn()
	if got := eval[string](b, `document.getElementById("f-sheets-paper").value`); got != "Letter" {
		t.Errorf("the paper is %q after a reload", got)
	}
	b.click("#to-keep")
	b.click("#share")
	b.await(`document.getElementById("done").checkVisibility() && document.getElementById("done").textContent === "Link copied."`)
	b.picture("copied", false)
	b.await(`!document.getElementById("done").checkVisibility()`)
	b.clean()
}

// TestTitled: the two that are compared are titled by what they are, before and after
// either is changed.
func TestTitled(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+"#lesson=top-only", screen{width: 1280, height: 800, unsolved: true}).drawn()
	titles := func(a, other string) {
		t.Helper()
		b.await(fmt.Sprintf(`[...document.querySelectorAll("#compare thead th[data-of]")].map((e) => e.textContent).join() === "A %s,B %s"`, a, other))
	}
	b.click("#twin")
	titles("Top edge only", "Both edges")
	b.click("#compare-swap")
	titles("Both edges", "Top edge only")
	b.click("#compare-keep")
	b.await(`document.querySelector("#compare thead th[data-of=A]").textContent === "A"`)
	b.enter("ruff.depth", "62")
	titles("Depth 62 mm", "Depth 75 mm")
	b.clean()
}

// TestGlossary: a trade word is asked for beside the fields and in the numbers; its entry
// has a drawing and a sentence, takes the focus, and Escape leads back to who asked.
func TestGlossary(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1366, height: 768, unsolved: true}).drawn()
	entry := func(name string) {
		t.Helper()
		b.await(fmt.Sprintf(`document.activeElement.id === "word-%s" && document.activeElement.checkVisibility() && document.activeElement.querySelector("svg path").getBoundingClientRect().width > 5`, name))
		if !eval[bool](b, `(() => { const r = document.activeElement.getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; })()`) {
			t.Errorf("%s is out of sight", name)
		}
		if said := b.text("#word-" + name); len(strings.Fields(said)) < 6 {
			t.Errorf("%s is said to be %q", name, said)
		}
	}
	b.picture("header", false)
	if high := eval[float64](b, `document.querySelector(".head").getBoundingClientRect().height`); high > 70 {
		t.Errorf("the header is %.0f px high: more than one row", high)
	}
	b.run(`document.getElementById("group-pleat").open = true; document.getElementById("in-pleat-tuck").focus()`)
	b.press("\r")
	entry("tuck")
	b.picture("glossary", false)
	b.press(kb.Escape)
	b.await(`document.activeElement.id === "in-pleat-tuck" && !document.getElementById("words").open`)
	b.run(`document.getElementById("more-plan").open = true`)
	b.click(`#numbers [data-with="slack"]`)
	entry("slack")
	if eval[string](b, `getComputedStyle(document.querySelector("#word-set path:last-child")).stroke`) != "rgb(36, 88, 143)" {
		t.Error("the drawing is not in the page's colours")
	}
	b.clean()
}
