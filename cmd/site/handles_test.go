package site

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"ruffwright/geom/scheme"
	"ruffwright/testdata/demos"
)

// grip is the handle of a field.
func grip(key string) string { return "#h-" + field(key)[3:] }

// worth is the value at which the handle of a field stands.
func (b *tab) worth(key string) float64 {
	b.t.Helper()
	v, err := strconv.ParseFloat(eval[string](b, fmt.Sprintf(`document.querySelector(%q).getAttribute("aria-valuenow")`, grip(key))), 64)
	if err != nil {
		b.t.Fatal(err)
	}
	return v
}

// at is where the middle of an element lies on the screen.
func (b *tab) at(selector string) (x, y float64) {
	b.t.Helper()
	v := eval[[]float64](b, fmt.Sprintf(`(() => { const r = document.querySelector(%q).getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2]; })()`, selector))
	return v[0], v[1]
}

func (b *tab) mouse(kind input.DispatchMouseEventType, x, y float64) {
	b.t.Helper()
	b.do(chromedp.MouseEvent(kind, x, y, chromedp.ButtonLeft))
}

// pulls pulls a handle by so many pixels, in steps, and does not let it go.
func (b *tab) pulls(key string, dx, dy float64) (x, y float64) {
	b.t.Helper()
	x, y = b.at(grip(key))
	b.mouse(input.DispatchMouseEventTypeMousePressed, x, y)
	const steps = 8
	for i := 1; i <= steps; i++ {
		b.mouse(input.DispatchMouseEventTypeMouseMoved, x+dx*float64(i)/steps, y+dy*float64(i)/steps)
	}
	b.frames()
	b.frames()
	return x + dx, y + dy
}

// shows shows a view, and waits until its handles are there.
func (b *tab) shows(view, key string) {
	b.t.Helper()
	b.click("#view-" + view)
	b.await(fmt.Sprintf(`!document.querySelector(%q).hidden`, grip(key)))
	b.settle()
}

// named are the keys of a slider, as the browser's driver knows them.
var named = map[string]string{
	"ArrowRight": kb.ArrowRight, "ArrowUp": kb.ArrowUp, "ArrowDown": kb.ArrowDown, "PageUp": kb.PageUp, "PageDown": kb.PageDown, "Home": kb.Home, "End": kb.End,
}

// TestHandles pulls the measures of the flat views: a handle follows the pointer, the
// field and the picture follow it, one drag is one step, Escape puts the old value back,
// keys step and go to the limits, which are said, and numbers are typed at their place.
func TestHandles(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+linkOf(t, "sound"), screen{width: 1366, height: 768, unsolved: true}).drawn()
	b.shows("side", "ruff.depth")
	was := b.worth("ruff.depth")
	b.picture("handles-side", false)

	x, y := b.pulls("ruff.depth", 40, 0)
	now := b.worth("ruff.depth")
	if gx, gy := b.at(grip("ruff.depth")); math.Hypot(gx-x, gy-y) > 4 {
		t.Errorf("the handle lies at %.1f %.1f, the pointer that pulls it at %.1f %.1f", gx, gy, x, y)
	}
	if now < was+10 {
		t.Errorf("pulled by 40 px, the depth is %g, it was %g", now, was)
	}
	if got := eval[string](b, `document.getElementById("f-ruff-depth").value`); got != strconv.FormatFloat(now, 'f', -1, 64) {
		t.Errorf("the field says %s, the handle %g", got, now)
	}
	b.picture("handles-side-pulled", false)
	b.mouse(input.DispatchMouseEventTypeMouseReleased, x, y)
	b.settle()
	if got := eval[string](b, `document.getElementById("undo").title`); got != "Undo: Depth" {
		t.Errorf("after one drag undo says %q", got)
	}
	b.click("#undo")
	b.settle()
	if got := b.worth("ruff.depth"); got != was || eval[string](b, `document.getElementById("undo").title`) == "Undo: Depth" {
		t.Errorf("one step back, the depth is %g, it was %g", got, was)
	}

	b.pulls("ruff.height", 0, -30)
	if b.worth("ruff.height") == 45 {
		t.Error("the crest was pulled up and the height is as before")
	}
	b.press("\u001b")
	b.settle()
	if got := b.worth("ruff.height"); got != 45 || eval[string](b, `document.getElementById("redo").title`) != "Redo: Depth" {
		t.Errorf("Escape leaves a height of %g, and redo %q", got, eval[string](b, `document.getElementById("redo").title`))
	}
	b.mouse(input.DispatchMouseEventTypeMouseReleased, 5, 5)

	b.run(fmt.Sprintf(`document.querySelector(%q).focus()`, grip("ruff.depth")))
	b.steps(t, "ruff.depth", was)
	b.typed(t)
	b.clean()
}

// steps presses the keys of a slider.
func (b *tab) steps(t *testing.T, key string, was float64) {
	t.Helper()
	f, _ := scheme.Lookup(key)
	for _, c := range []struct {
		name string
		want float64
	}{{"ArrowRight", was + 1}, {"ArrowUp", was + 2}, {"ArrowDown", was + 1}, {"PageUp", was + 6}, {"PageDown", was + 1}, {"Home", f.Min}} {
		b.press(named[c.name])
		if got := b.worth(key); got != c.want {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
	if got := eval[string](b, fmt.Sprintf(`document.querySelector(%q).getAttribute("aria-valuetext")`, grip(key))); got != "10 mm. This is the least." {
		t.Errorf("at its least it says %q", got)
	}
	b.picture("handles-least", false)
	b.press(named["End"])
	if got := eval[string](b, fmt.Sprintf(`document.querySelector(%q).innerText`, grip(key))); got == "" {
		t.Error("beside the handle that has the focus nothing is said")
	}
	b.press("\t")
	b.click("#undo")
	b.settle()
	if got := b.worth(key); got != was {
		t.Errorf("all keys are one step: back, it is %g, was %g", got, was)
	}
}

// typed types a number at its place: a press on it opens the box, what cannot be used is
// said, Enter takes it and leads to the handle, Escape leaves it as it was.
func (b *tab) typed(t *testing.T) {
	t.Helper()
	const focus = `document.activeElement.id`
	x, y := b.at("#n-ruff-depth")
	b.do(chromedp.MouseClickXY(x, y))
	b.await(focus + ` === "type"`)
	b.press("999")
	b.press("\r")
	b.await(`document.getElementById("type-why").textContent.includes("too large")`)
	b.picture("handles-typed-wrong", false)
	b.run(`document.getElementById("type").select()`)
	b.press("64")
	b.press("\r")
	b.await(focus + ` === "h-ruff-depth"`)
	if got := b.worth("ruff.depth"); got != 64 {
		t.Errorf("typed 64, the depth is %g", got)
	}
	b.press("\r")
	b.await(focus + ` === "type"`)
	if got := eval[string](b, `document.getElementById("type").value + " " + document.getElementById("type").getAttribute("aria-label")`); got != "64 Depth, in mm" {
		t.Errorf("the box holds %q", got)
	}
	b.press("70")
	b.press("\u001b")
	b.await(focus + ` === "h-ruff-depth"`)
	if got := b.worth("ruff.depth"); got != 64 || !eval[bool](b, `document.getElementById("typing").hidden`) {
		t.Errorf("Escape in the box leaves a depth of %g", got)
	}
}

// TestHandlesLook looks at the handles of every flat view on a desk and on a phone, by
// day and by candle: no two that can be pressed lie nearer than 28 px, and all on the
// stage; the checker finds nothing.
func TestHandlesLook(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1366, height: 768}, {width: 390, height: 844, touch: true}, {width: 320, height: 568, touch: true}} {
		s.unsolved = true
		b := open(t, site(t)+linkOf(t, "sound"), s).drawn()
		for _, demo := range []string{"sound", "floppy", "cuff"} {
			b.follow(linkOf(t, demo))
			if demo == "floppy" {
				b.run(`(() => { const e = document.getElementById("f-support-kind"); e.value = "supporter"; e.dispatchEvent(new Event("change", {bubbles: true})); })()`)
			}
			for _, view := range []string{"above", "front", "side", "set", "cut", "flat"} {
				b.click("#view-" + view)
				b.settle()
				near := eval[string](b, `(() => {
					const s = document.getElementById("stage").getBoundingClientRect();
					const all = [...document.querySelectorAll(".grip")].filter((e) => !e.hidden && !("near" in e.dataset)).map((e) => { const r = e.getBoundingClientRect(); return [e.id, r.left + r.width / 2, r.top + r.height / 2]; });
					let out = all.length ? "" : "none";
					for (const [a, x, y] of all) {
						if (x < s.left || x > s.right || y < s.top || y > s.bottom) out += " " + a + " off";
						for (const [b, u, v] of all) if (a < b && Math.hypot(x - u, y - v) < 28) out += " " + a + "/" + b;
					}
					return out;
				})()`)
				if near != "" {
					t.Errorf("%d px, %s, %s: %s", s.width, demo, view, near)
				}
				b.picture(fmt.Sprintf("handles-%d-%s-%s", s.width, demo, view), false)
			}
			if demo == "sound" {
				for _, v := range b.axe("#stage", true, everyRule...) {
					t.Errorf("%d px: %s: %v", s.width, v.Help, v.Nodes)
				}
				if s.width == 1366 {
					b.media(true, true)
					b.settle()
					b.shows("side", "ruff.depth")
					b.run(fmt.Sprintf(`document.querySelector(%q).focus()`, grip("ruff.height")))
					b.press(named["ArrowUp"])
					b.settle()
					b.picture("handles-candle", false)
				}
			}
			b.clean()
		}
	}
}

// linkOf is the link of a demo.
func linkOf(t *testing.T, name string) string {
	t.Helper()
	return "#" + demos.Scheme(t, name).Code()
}
