package site

import (
	"fmt"
	"image/color"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"

	"ruffwright/geom/draw"
	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
)

// where names the element that has the focus.
const where = `(() => { const e = document.activeElement; return !e || e === document.body ? "" : e.id || e.dataset.with || e.textContent.trim().slice(0, 40); })()`

// TestTab walks the whole page with Tab, from the first control to the last and
// through the canvas, and with Shift and Tab back: the same stops in reverse,
// none twice, all in sight and with a visible ring. Escape leaves the canvas.
func TestTab(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1000, height: 600, unsolved: true}, {width: 390, height: 844, unsolved: true}} {
		t.Run(fmt.Sprint(s.width), func(t *testing.T) {
			b := open(t, site(t), s).drawn()
			b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details:not(.panel)").forEach((d) => d.open = true)`))
			b.run(`document.getElementById("view-side").click()`) // a view with handles
			b.await(`!document.getElementById("h-ruff-depth").hidden`)
			if n := eval[int](b, `[...document.querySelectorAll("*")].filter((e) => e.tabIndex > 0).length`); n > 0 {
				t.Errorf("%d elements have a positive tabindex", n)
			}
			want := eval[int](b, `[...document.querySelectorAll("a[href], button, input, select, textarea, summary, canvas, [role=slider]")].filter((e) => e.tabIndex === 0 && e.checkVisibility()).length`)
			var on, hidden []string
			for range want {
				b.press("\t")
				at := eval[string](b, where)
				on = append(on, at)
				if !eval[bool](b, `(() => { const e = document.activeElement, r = e.getBoundingClientRect(), over = document.elementFromPoint(r.left + r.width / 2, r.top + Math.min(r.height / 2, 20)); return over !== null && (e === over || e.contains(over) || over.contains(e)); })()`) {
					hidden = append(hidden, at)
				}
				if ring := eval[string](b, `(() => { const s = getComputedStyle(document.activeElement); return s.outlineStyle + " " + s.outlineWidth; })()`); !regexp.MustCompile(`^(solid|auto) [1-9]`).MatchString(ring) {
					t.Errorf("%s has no visible ring: %s", at, ring)
				}
			}
			if len(hidden) > 0 {
				t.Errorf("the focus is out of sight on %s", strings.Join(hidden, ", "))
			}
			if joined := strings.Join(on, "|"); !strings.Contains(joined, "canvas|h-ruff-depth|") || !strings.Contains(joined, "f-hand-pace") || !strings.Contains(joined, "undo") {
				t.Errorf("the walk misses canvas, the first or the last control: %s", joined)
			}
			b.press("\t") // out at the end, to the browser's own
			seen := map[string]bool{}
			for i := len(on) - 1; i >= 0; i-- {
				b.press("\t", chromedp.KeyModifiers(chromedp.ModifierShift))
				at := eval[string](b, where)
				if at != on[i] {
					t.Fatalf("backwards at stop %d of %d: %q, forwards it was %q", i, want, at, on[i])
				}
				seen[at] = true
			}
			b.do(chromedp.Evaluate[chromedp.Void](`document.getElementById("canvas").focus()`))
			b.press("\u001b")
			if at := eval[string](b, where); !strings.HasPrefix(at, "view-") {
				t.Errorf("Escape on the canvas leads to %q", at)
			}
			b.panels()
			b.clean()
		})
	}
}

// panels opens each panel of the header by its key, goes into it, and leaves it: by
// Escape, which leads back, and by Tab with Shift, which closes it as well.
func (b *tab) panels() {
	b.t.Helper()
	for _, id := range eval[[]string](b, `[...document.querySelectorAll(".panel > summary")].map((e) => e.id)`) {
		open := fmt.Sprintf(`document.getElementById(%q).parentElement.open`, id)
		b.run(fmt.Sprintf(`document.getElementById(%q).focus()`, id))
		for _, leaves := range []func(){
			func() { b.press("\u001b") },
			func() {
				b.press("\t", chromedp.KeyModifiers(chromedp.ModifierShift))
				b.press("\t", chromedp.KeyModifiers(chromedp.ModifierShift))
				b.press("\t")
			},
		} {
			b.press("\r")
			b.await(open)
			b.press("\t")
			if !eval[bool](b, `(() => { const e = document.activeElement, r = e.getBoundingClientRect(), over = document.elementFromPoint(r.left + r.width / 2, r.top + r.height / 2); return e.closest(".sheet") && (e.contains(over) || over.contains(e)); })()`) {
				b.t.Errorf("what comes first in the panel %s is out of sight", id)
			}
			leaves()
			b.await("!" + open)
			if at := eval[string](b, where); at != id {
				b.t.Errorf("out of the panel %s the focus is on %q", id, at)
			}
		}
	}
}

// TestGestures turns and enlarges the ruff by mouse, wheel, touch, keys and
// buttons; Home returns to the very same picture.
func TestGestures(t *testing.T) {
	b := open(t, site(t), screen{width: 1000, height: 600, unsolved: true}).drawn()
	b.settle()
	middle := eval[[]float64](b, `(() => { const r = document.getElementById("stage").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`)
	x, y := middle[0], middle[1]
	b.top()
	home := b.pixels()
	changes := func(what string, act func()) {
		t.Helper()
		was := b.pixels()
		act()
		b.settle()
		if differ(was, b.pixels()) < 0.01 {
			t.Errorf("%s changes nothing", what)
		}
	}
	reset := func() {
		t.Helper()
		b.click(`[data-with="Home"]`)
		b.settle()
		b.top()
		if differ(home, b.pixels()) > 0.002 {
			t.Error("Home does not return to the first picture")
		}
	}
	changes("a drag", func() {
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)),
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+60, y+10, chromedp.ButtonLeft),
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+500, y+20, chromedp.ButtonLeft), // over the form
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, x+500, y+20, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	})
	after := b.pixels()
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x+30, y))
	b.settle()
	if differ(after, b.pixels()) > 0.002 {
		t.Error("a drag released over the form goes on")
	}
	reset()
	wheel := func(down float64, held int64) {
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x, y),
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseWheel, x, y, func(p *input.DispatchMouseEventParams) {
				p.DeltaY, p.DeltaX, p.Modifiers = down, 0.001, held
			}))
	}
	press := func(x, y float64) {
		b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMousePressed, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)),
			chromedp.MouseEvent(input.DispatchMouseEventTypeMouseReleased, x, y, chromedp.ButtonLeft, chromedp.ClickCount(1)))
	}
	scrolls := func(when string) {
		t.Helper()
		was := b.pixels()
		wheel(240, 0)
		b.await(`scrollY > 50`)
		b.top()
		if differ(was, b.pixels()) > 0.002 {
			t.Errorf("%s the wheel turns or enlarges the ruff", when)
		}
	}
	scrolls("before a press")
	changes("Ctrl and the wheel", func() { wheel(-120, 2) })
	reset()
	changes("a press and the wheel", func() { press(x, y); wheel(-120, 0) })
	reset()
	press(x, y)
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x, y+280), chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, x, y))
	scrolls("after the pointer left it")
	for _, key := range []string{"\u0302", "\u0303", "\u0304", "\u0301", "+", "-"} {
		b.do(chromedp.Evaluate[chromedp.Void](`document.getElementById("canvas").focus()`))
		b.settle()
		changes(fmt.Sprintf("key %q", key), func() { b.press(key) })
	}
	reset()
	for _, with := range []string{"ArrowRight", "+"} { // each is its key's other hand
		changes("button "+with, func() { b.click(fmt.Sprintf(`[data-do="camera"][data-with=%q]`, with)) })
	}
	reset()
	touch := func(kind input.DispatchTouchEventType, at ...float64) {
		t.Helper()
		points := []*input.TouchPoint{}
		for i := 0; i+1 < len(at); i += 2 {
			points = append(points, &input.TouchPoint{X: at[i], Y: at[i+1], ID: new(float64(i))})
		}
		if _, err := chromedp.Call(b.ctx, input.DispatchTouchEvent, input.DispatchTouchEventParams{Type: kind, TouchPoints: points}); err != nil {
			t.Fatal(err)
		}
	}
	changes("a pinch", func() {
		touch(input.DispatchTouchEventTypeTouchStart, x-40, y, x+40, y)
		touch(input.DispatchTouchEventTypeTouchMove, x-90, y, x+90, y)
		touch(input.DispatchTouchEventTypeTouchMove, x-120, y, x+120, y)
		touch(input.DispatchTouchEventTypeTouchEnd)
	})
	reset()
	changes("a finger", func() {
		touch(input.DispatchTouchEventTypeTouchStart, x, y)
		touch(input.DispatchTouchEventTypeTouchMove, x+30, y)
		touch(input.DispatchTouchEventTypeTouchMove, x+80, y)
		touch(input.DispatchTouchEventTypeTouchEnd)
	})
	b.clean()
}

// TestIdle: after the last change no frame is asked for, none is drawn and nothing is sent
// to a worker in 5 seconds; and one key draws again. Every call that draws is counted, in
// WebGL itself.
func TestIdle(t *testing.T) {
	count := `globalThis.drawn = 0; for (const name of ["drawElements", "drawArrays"]) {
		const draw = WebGL2RenderingContext.prototype[name];
		WebGL2RenderingContext.prototype[name] = function (...a) { globalThis.drawn++; return draw.apply(this, a); };
	}
	globalThis.frames = 0; { const next = requestAnimationFrame; globalThis.requestAnimationFrame = (step) => { globalThis.frames++; return next(step); }; }
	globalThis.sent = 0; { const post = Worker.prototype.postMessage; Worker.prototype.postMessage = function (...a) { globalThis.sent++; return post.apply(this, a); }; }`
	b := open(t, easy(t), screen{width: 800, height: 600, before: count}).ready()
	b.settle()
	time.Sleep(time.Second)
	was, sent, frames := eval[int](b, "drawn"), eval[int](b, "sent"), eval[int](b, "frames")
	if was == 0 || sent == 0 || frames == 0 {
		t.Fatal("nothing was ever drawn, sent or asked for: the count is blind")
	}
	b.do(chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, 300, 400), chromedp.MouseEvent(input.DispatchMouseEventTypeMouseMoved, 320, 410))
	time.Sleep(5 * time.Second)
	if now := eval[int](b, "drawn"); now != was {
		t.Errorf("%d drawing calls in 5 idle seconds, want 0", now-was)
	}
	if now := eval[int](b, "frames"); now != frames {
		t.Errorf("%d frames asked for in 5 idle seconds, want 0", now-frames)
	}
	if now := eval[int](b, "sent"); now != sent {
		t.Errorf("%d messages to the workers in 5 idle seconds, want 0", now-sent)
	}
	b.click(`[data-with="ArrowLeft"]`)
	b.await(fmt.Sprintf("drawn > %d", was))
}

// TestBadEntries types what cannot be used into each kind of field: the words
// stand beside the field, the entry stays to be mended, the ruff is the last
// good one, and a good entry clears it all.
func TestBadEntries(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), quick).drawn()
	b.settle()
	// What is planned: what is solved comes and goes with every number that is
	// good while it is typed.
	planned := `[...document.querySelectorAll("#numbers tr:not(.solved)")].map((e) => e.textContent).join("\n")`
	numbers := eval[string](b, planned)
	good := map[string]string{"wearer.girth": "395", "ruff.sets": "40", "starch.quality": "1", "strip.shrink_warp": "4", "support.slope": "0", "pleat.marks": "", "hand.stitches": "6"}
	for key, bad := range map[string][]string{
		"wearer.girth":      {"", "abc", "NaN", "Inf", "1e999", "129", "561", "395 kg", "-395"},
		"ruff.sets":         {"7", "401", "40.5", "forty"},
		"starch.quality":    {"1.01", "-0.1", "x"},
		"strip.shrink_warp": {"21", "four"},
		"support.slope":     {"61", "-31", "steep"},
		"hand.stitches":     {"1", "16", "NaN"},
	} {
		for _, text := range bad {
			b.enter(key, text)
			b.await(fmt.Sprintf(`document.querySelector(%q).getAttribute("aria-invalid") === "true" && document.querySelector(%q).textContent.length > 10`, field(key), field(key)+"-wrong"))
			if got := eval[string](b, fmt.Sprintf("document.querySelector(%q).value", field(key))); got != text {
				t.Errorf("%s: %q was typed, %q stands there", key, text, got)
			}
			if got := eval[string](b, planned); got != numbers {
				t.Errorf("%s %q: the numbers changed to\n%s", key, text, got)
			}
			described := eval[string](b, fmt.Sprintf("document.querySelector(%q).getAttribute('aria-describedby')", field(key)))
			if !strings.Contains(described, field(key)[1:]+"-wrong") {
				t.Errorf("%s is described by %q, not by its message", key, described)
			}
		}
		if key == "wearer.girth" {
			b.picture("bad-entry", false)
		}
		b.enter(key, good[key])
		b.await(fmt.Sprintf(`!document.querySelector(%q).hasAttribute("aria-invalid") && document.querySelector(%q).textContent === ""`, field(key), field(key)+"-wrong"))
	}
	b.clean()
}

// TestOpening: until the program is there, what stands on the page is not said to
// be of the ruff that a link brings.
func TestOpening(t *testing.T) {
	t.Parallel()
	come := make(chan struct{})
	home := serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		if strings.HasSuffix(r.URL.Path, ".wasm") {
			<-come
		}
		return false
	})
	s := scheme.Default()
	s.Ruff.Sets = 48
	b := open(t, home+"#"+s.Code(), quick)
	b.await(`document.getElementById("state").textContent.includes("being opened")`)
	if eval[bool](b, `document.getElementById("verdict").checkVisibility()`) {
		t.Error("the start's verdict stands there while a link is opened")
	}
	close(come)
	b.drawn()
	b.await(`document.getElementById("state").textContent === "" && document.getElementById("verdict").checkVisibility()`)
	b.clean()
}

// TestLink opens a link, a broken link, and copies one.
func TestLink(t *testing.T) {
	t.Parallel()
	home := site(t)
	b := open(t, home, quick).drawn()
	b.enter("ruff.sets", "48")
	b.click("#share")
	b.await(`location.hash.length > 4`)
	link := eval[string](b, "location.hash")
	again := open(t, home+link, quick).drawn()
	again.await(`document.querySelector("#f-ruff-sets").value === "48"`)
	again.clean()
	broken := open(t, home+link[:len(link)-3], quick).drawn()
	for _, bad := range []string{"", "#%00%ff", "#1." + strings.Repeat("A", 9000), "#<img src=x onerror=alert(1)>"} {
		if bad != "" {
			broken.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`document.querySelector("#notice").textContent = ""; location.hash = %q`, bad)))
		}
		broken.await(`document.querySelector("#notice").textContent.includes("nothing was changed")`)
		if sets := eval[string](broken, `document.querySelector("#f-ruff-sets").value`); sets != "40" {
			t.Errorf("the broken link %.20q gives %s sets", bad, sets)
		}
	}
	if n := eval[int](broken, `document.querySelectorAll("#notice *, #said *").length`); n != 0 {
		t.Errorf("a link became %d elements", n)
	}
	broken.clean()
}

// hittable fails the test for controls that are too small to hit: 24 px, on a
// touch screen 44.
func (b *tab) hittable(s screen) {
	b.t.Helper()
	least := 24
	if s.touch {
		least = 44
	}
	small := eval[string](b, fmt.Sprintf(`[...document.querySelectorAll("button, input, select, textarea, summary, .from a")].filter((e) => e.checkVisibility() && (e.getBoundingClientRect().height < %d - 0.5 || e.getBoundingClientRect().width < %d - 0.5)).map((e) => e.id || e.textContent.trim()).join(", ")`, least, least))
	if small != "" {
		b.t.Errorf("%d px: smaller than %d px: %s", s.width, least, small)
	}
}

// TestReflow: at 320 px, and with letters twice as large, nothing scrolls
// sideways; controls are large enough to hit.
func TestReflow(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 320, height: 568, touch: true, unsolved: true}).drawn()
	b.do(chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach((d) => d.open = true)`))
	for _, s := range []screen{{width: 320, height: 568, touch: true}, {width: 390, height: 844, touch: true}, {width: 1280, height: 800}} {
		b.resize(s)
		for _, letters := range []string{"100%", "200%"} {
			b.do(chromedp.Evaluate[chromedp.Void](`document.documentElement.style.fontSize = "` + letters + `"`))
			b.settle()
			if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
				who := eval[string](b, `[...document.querySelectorAll("body *")].filter((e) => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map((e) => e.tagName + "#" + e.id + "." + e.className).slice(0, 5).join(" ")`)
				t.Errorf("%d px, letters %s: %d px too wide: %s", s.width, letters, over, who)
			}
		}
		b.do(chromedp.Evaluate[chromedp.Void](`document.documentElement.style.fontSize = ""`))
		b.hittable(s)
	}
}

// TestLook reaches every view and, where RUFFWRIGHT_SHOTS names a folder, takes
// the pictures to look at: day and candle, three widths.
func TestLook(t *testing.T) {
	t.Parallel()
	home := easy(t)
	screens := []screen{
		{width: 1280, height: 800, dark: true}, {width: 320, height: 568, touch: true},
		{width: 1280, height: 800}, {width: 390, height: 844, ratio: 2, touch: true}, {width: 390, height: 844, ratio: 2, touch: true, dark: true},
	}
	if os.Getenv("RUFFWRIGHT_SHOTS") == "" {
		screens = screens[1:2] // the others differ in nothing but their looks
	}
	for _, s := range screens {
		b := open(t, home, s).ready()
		light := "day"
		if s.dark {
			light = "candle"
		}
		for _, v := range figure.Views {
			view := v.Name
			b.click("#view-" + view)
			b.await(fmt.Sprintf(`document.querySelector("#view-%s").getAttribute("aria-pressed") === "true"`, view))
			b.settle()
			b.picture(fmt.Sprintf("look-%d-%s-%s", s.width, light, view), false)
		}
		b.picture(fmt.Sprintf("look-%d-%s-whole", s.width, light), true)
		b.clean()
	}
}

// TestColoursFollow: the stage follows the reader's colours while the page is
// open: day, candle, and forced colours in black and white.
func TestColoursFollow(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1280, height: 800, unsolved: true}).drawn()
	for _, c := range []struct {
		scheme, forced string
		ground         color.Color
	}{
		{"light", "none", draw.Light().Ground}, {"dark", "none", draw.Dark().Ground}, {"light", "active", draw.Contrast().Ground},
	} {
		if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: c.scheme}, {Name: "forced-colors", Value: c.forced},
		}}); err != nil {
			t.Fatal(err)
		}
		b.settle()
		picture := b.pixels()
		r, g, bl, _ := picture.At(picture.Bounds().Min.X+4, picture.Bounds().Max.Y-4).RGBA()
		R, G, BL, _ := c.ground.RGBA()
		if far(r, R) || far(g, G) || far(bl, BL) {
			t.Errorf("%s, forced %s: the stage's ground is %x %x %x, want %x %x %x", c.scheme, c.forced, r>>8, g>>8, bl>>8, R>>8, G>>8, BL>>8)
		}
	}
	b.picture("forced-colours", false)
}
