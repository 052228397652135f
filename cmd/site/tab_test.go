package site

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// tab is one page in the browser and what it complained of.
type tab struct {
	t    *testing.T
	ctx  context.Context
	home string

	mu        sync.Mutex
	complains []string // console errors, exceptions, violations
	requests  []string
}

// screen is what a tab is looked at on.
type screen struct {
	width, height int64
	ratio         float64 // 0 = 1
	dark, touch   bool
	moves         bool   // what can move does: else the reader wants less motion, and fewer frames are drawn
	unsolved      bool   // a browser without workers: what is drawn is the closed form, at once
	kept          bool   // what earlier tabs stored on the device is there
	stocks        bool   // the page may keep itself for use without a network
	before        string // script that runs before the page's
}

// emptied empties the device's storage once in a tab's life, not when its page
// is loaded again: tests share one address.
const emptied = `try { if (!sessionStorage.begun) { localStorage.clear(); sessionStorage.begun = "yes"; } } catch { /* of no address yet */ } `

// open opens url in a new tab.
func open(t *testing.T, url string, s screen) *tab {
	t.Helper()
	browser.once.Do(func() { startBrowser(chromium(t), profile) })
	if browser.err != nil {
		t.Fatal("the browser does not start: ", browser.err)
	}
	ctx, end := chromedp.NewContext(browser.ctx)
	t.Cleanup(end)
	b := &tab{t: t, ctx: ctx, home: strings.Split(url, "#")[0]}
	if err := chromedp.Listen(ctx, b.hear); err != nil {
		t.Fatal(err)
	}
	b.resize(s)
	b.media(s.dark, !s.moves)
	if _, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true}); err != nil {
		t.Fatal(err)
	}
	if s.unsolved {
		s.before = "delete globalThis.Worker; " + s.before
	}
	if !s.kept {
		s.before = emptied + s.before
	}
	if !s.stocks {
		s.before = "if (globalThis.ServiceWorkerContainer) delete ServiceWorkerContainer.prototype.register; " + s.before
	}
	s.before = `addEventListener("securitypolicyviolation", (e) => console.error("the policy refused", e.violatedDirective, e.blockedURI)); ` + s.before
	if s.before != "" {
		if _, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: s.before}); err != nil {
			t.Fatal(err)
		}
	}
	b.do(chromedp.Navigate(url))
	return b
}

// resize gives the page another screen.
func (b *tab) resize(s screen) {
	b.t.Helper()
	if s.ratio == 0 {
		s.ratio = 1
	}
	size := []chromedp.EmulateViewportOption{chromedp.EmulateScale(s.ratio)}
	if s.touch {
		size = append(size, chromedp.EmulateMobile, chromedp.EmulateTouch)
	}
	b.do(chromedp.EmulateViewport(s.width, s.height, size...))
}

func (b *tab) media(dark, still bool) {
	b.t.Helper()
	pick := func(yes bool, a, c string) string {
		if yes {
			return a
		}
		return c
	}
	_, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
		{Name: "prefers-color-scheme", Value: pick(dark, "dark", "light")},
		{Name: "prefers-reduced-motion", Value: pick(still, "reduce", "no-preference")},
	}})
	if err != nil {
		b.t.Fatal(err)
	}
}

func (b *tab) hear(ev any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	switch ev := ev.(type) {
	case *runtime.EventExceptionThrown:
		b.complains = append(b.complains, "exception: "+exception(ev.ExceptionDetails))
	case *runtime.EventConsoleAPICalled:
		if ev.Type == "error" || ev.Type == "warning" || ev.Type == "assert" {
			var words []string
			for _, a := range ev.Args {
				words = append(words, string(a.Value)+a.Description)
			}
			b.complains = append(b.complains, "console."+string(ev.Type)+": "+strings.Join(words, " "))
		}
	case *cdplog.EventEntryAdded: // what a worker's policy refuses is told here alone
		if strings.Contains(ev.Entry.Text, "Content Security Policy") {
			b.complains = append(b.complains, "policy: "+ev.Entry.Text)
		}
	case *network.EventRequestWillBeSent:
		b.requests = append(b.requests, ev.Request.URL)
	}
}

func exception(e *runtime.ExceptionDetails) string {
	if e.Exception != nil && e.Exception.Description != "" {
		return e.Exception.Description
	}
	return e.Text
}

func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, actions...); err != nil {
		b.t.Fatalf("%v\n%s", err, b.complaints())
	}
}

// eval runs script and returns its value.
func eval[T any](b *tab, script string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script))
	if err != nil {
		b.t.Fatalf("%s: %v\n%s", script, err, b.complaints())
	}
	return v
}

// await waits until script is true. (The library's own polling compiles text
// in the page, which the page's policy refuses.)
func (b *tab) await(script string) {
	b.t.Helper()
	for deadline := time.Now().Add(patience); ; time.Sleep(40 * time.Millisecond) {
		if eval[bool](b, "!!("+script+")") {
			return
		}
		if time.Now().After(deadline) {
			b.t.Fatalf("waited in vain for %s\n%s\nthe page says: %s", script, b.complaints(), b.text("body")[:min(1500, len(b.text("body")))])
		}
	}
}

func (b *tab) text(selector string) string {
	b.t.Helper()
	return eval[string](b, fmt.Sprintf("(document.querySelector(%q) || {innerText: ''}).innerText", selector))
}

// ready waits until the program runs, the stage has drawn, and the solver has
// come to an end.
func (b *tab) ready() *tab {
	b.t.Helper()
	b.drawn()
	b.await(still)
	return b
}

// drawn waits until the program runs and the stage has drawn.
func (b *tab) drawn() *tab {
	b.t.Helper()
	b.await(`document.documentElement.dataset.program === "runs" && document.documentElement.dataset.stage === "drawn"`)
	return b
}

// still is true when the solver has nothing to do.
const still = `document.getElementById("solver").dataset.state !== "busy"`

// enter types text into the field of a key, as a person would, and leaves it.
func (b *tab) enter(key, text string) {
	b.t.Helper()
	id := field(key)
	b.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`(() => { const e = document.querySelector(%q); const d = e.closest("details"); if (d) d.open = true; e.focus(); if (e.select) e.select(); })()`, id)))
	if text == "" {
		b.press("\b")
	}
	b.do(chromedp.KeyEvent(text), chromedp.KeyEvent("\t"))
}

func field(key string) string { return "#f-" + strings.ReplaceAll(key, ".", "-") }

// click scrolls to an element and clicks its middle. The page puts what it tells anew when
// its figures come: where the element was put anew between finding and pressing it, it is
// looked for once more.
func (b *tab) click(selector string) {
	b.t.Helper()
	b.await(fmt.Sprintf("document.querySelector(%q)", selector))
	b.run(fmt.Sprintf(`(() => { const e = document.querySelector(%q), d = e.closest("details:not([open])"); if (d && d.firstElementChild !== e) d.open = true; })()`, selector)) // as a person would, by its summary
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	err := chromedp.Do(ctx, chromedp.Click(chromedp.CSS(selector)))
	for err != nil && strings.Contains(err.Error(), "Could not find node") {
		err = chromedp.Do(ctx, chromedp.Click(chromedp.CSS(selector)))
	}
	if err != nil {
		b.t.Fatalf("%s: %v\n%s", selector, err, b.complaints())
	}
}

func (b *tab) press(keys string, options ...chromedp.KeyOption) {
	b.t.Helper()
	b.do(chromedp.KeyEvent(keys, options...))
}

// pixels is the stage as the browser shows it.
func (b *tab) pixels() image.Image {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Screenshot(chromedp.CSS("#stage")))
	if err != nil {
		b.t.Fatal(err)
	}
	picture, err := png.Decode(bytes.NewReader(text))
	if err != nil {
		b.t.Fatal(err)
	}
	return picture
}

// differ is the share of pixels that differ by more than a twelfth of full
// scale in a channel. (The graphics card may round the same drawing otherwise
// by a step or two the second time.) Pictures of two sizes differ wholly.
func differ(a, b image.Image) float64 {
	if a.Bounds().Size() != b.Bounds().Size() {
		return 1
	}
	n, size := 0, a.Bounds().Size()
	for y := range size.Y {
		for x := range size.X {
			r, g, bl, _ := a.At(a.Bounds().Min.X+x, a.Bounds().Min.Y+y).RGBA()
			R, G, BL, _ := b.At(b.Bounds().Min.X+x, b.Bounds().Min.Y+y).RGBA()
			if far(r, R) || far(g, G) || far(bl, BL) {
				n++
			}
		}
	}
	return float64(n) / float64(size.X*size.Y)
}

func far(a, b uint32) bool { return max(a, b)-min(a, b) > 0xffff/12 }

// top scrolls everything back to its beginning and takes focus and pointer off
// the stage, so that two pictures of the stage may be compared.
func (b *tab) top() {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](`document.activeElement.blur(); scrollTo({top: 0, behavior: "instant"})`),
		chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, 5, 5))
	b.settle()
}

// settle waits until the solver is still and the stage has drawn what it was
// told, in full: frames of the browser, and the time in which cloth settles.
func (b *tab) settle() {
	b.t.Helper()
	b.await(still)
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(true), 300))))`, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatal(err)
	}
	b.await(`!document.getElementById("stage").hasAttribute("data-painting")`)
}

func (b *tab) complaints() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return strings.Join(b.complains, "\n")
}

// clean fails the test if the page complained or asked anything of another
// host.
func (b *tab) clean() {
	b.t.Helper()
	if c := b.complaints(); c != "" {
		b.t.Errorf("the page complained:\n%s", c)
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.requests) == 0 {
		b.t.Error("no request was seen at all: the test is blind")
	}
	for _, r := range b.requests {
		if !strings.HasPrefix(r, b.home) && !strings.HasPrefix(r, "data:") && !strings.HasPrefix(r, "blob:") && !strings.HasPrefix(r, "about:") {
			b.t.Errorf("a request went to %s", r)
		}
	}
}

// seen takes pictures of an element of the page on desk and in hand, and leaves it on the
// desk.
func (b *tab) seen(id, name string) {
	b.t.Helper()
	for _, s := range []screen{hand, desk} {
		b.resize(s)
		b.run(fmt.Sprintf(`document.getElementById(%q).scrollIntoView({block: "start"})`, id))
		b.frames()
		b.picture(fmt.Sprintf("%s-%d", name, s.width), false)
		if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			b.t.Errorf("%s: %d px too wide for %d", name, over, s.width)
		}
	}
}

// picture writes a screenshot, where RUFFWRIGHT_SHOTS names a folder.
func (b *tab) picture(name string, whole bool) {
	b.t.Helper()
	dir := os.Getenv("RUFFWRIGHT_SHOTS")
	if dir == "" {
		return
	}
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	take := chromedp.CaptureScreenshot()
	if whole {
		take = chromedp.FullScreenshot(100)
	}
	shot, err := chromedp.Run(ctx, take)
	if err == nil {
		err = errors.Join(os.MkdirAll(dir, 0o755), os.WriteFile(filepath.Join(dir, name+".png"), shot, 0o644))
	}
	if err != nil {
		b.t.Error(err)
	}
}
