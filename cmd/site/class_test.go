package site

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// TestClass: for a class the picture, or both, the verdict of each and three figures stand
// on one screen, in letters that can be read from the back of a room: capitals and numerals
// of the figures at least a twenty-fifth of the screen high. Enter and Escape lead in and
// out; day and candle are chosen on the page, whatever the system says.
func TestClass(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+"#lesson=top-only", screen{width: 1366, height: 768}).ready()
	b.run(`document.querySelector('[data-do="lesson-away"]').click()`)
	fits := func(what string, cells int) {
		t.Helper()
		b.settle()
		if n := eval[int](b, `document.querySelectorAll("#class td").length`); n != cells {
			t.Errorf("%s: %d cells, want %d", what, n, cells)
		}
		if over := eval[int](b, `document.documentElement.scrollHeight - innerHeight`); over > 0 {
			t.Errorf("%s: %d px beyond the screen", what, over)
		}
		for _, e := range eval[[]string](b, `[...document.querySelectorAll("#class *, #stage, #canvas")].filter((e) => { const r = e.getBoundingClientRect(); return !e.closest(".hidden") && (r.bottom > innerHeight + 1 || r.right > innerWidth + 1 || r.top < -1 || e.scrollWidth > e.clientWidth + 1 && e.matches("td, th")); }).map((e) => e.tagName + " " + e.textContent.slice(0, 30))`) {
			t.Errorf("%s: out of sight or cut: %s", what, e)
		}
		for selector, least := range map[string]float64{"#class .figure": 0.04, "#class .short-verdict": 0.03} {
			high := eval[float64](b, fmt.Sprintf(`Math.min(...[...document.querySelectorAll(%q)].map((e) => { const pen = document.createElement("canvas").getContext("2d"), s = getComputedStyle(e); pen.font = s.fontWeight + " " + s.fontSize + " " + s.fontFamily; return pen.measureText("H").actualBoundingBoxAscent; })) / innerHeight`, selector))
			if high < least {
				t.Errorf("%s: %s stands %.3f of the screen high", what, selector, high)
			}
		}
		b.picture("class-"+what, false)
	}
	b.run(`document.getElementById("class-show").focus()`)
	b.press("\r")
	b.await(`document.activeElement.id === "class-leave"`)
	fits("one", 4)
	if left := eval[string](b, `[...document.querySelectorAll("form *, header *, footer *")].filter((e) => e.checkVisibility()).map((e) => e.tagName).join()`); left != "" {
		t.Errorf("seen as well: %s", left)
	}
	day := eval[string](b, `getComputedStyle(document.body).backgroundColor`)
	was := b.pixels()
	b.click("#shade-candle")
	b.settle()
	if now := eval[string](b, `getComputedStyle(document.body).backgroundColor`); now == day || differ(was, b.pixels()) < 0.3 {
		t.Errorf("by candle the page is %s, by day %s", now, day)
	}
	b.picture("class-candle", false)
	b.media(true, true)
	b.click("#shade-day")
	b.settle()
	if now := eval[string](b, `getComputedStyle(document.body).backgroundColor`); now != day || differ(was, b.pixels()) > 0.02 {
		t.Errorf("by day, of a system by candle, the page is %s", now)
	}
	b.media(false, true)
	b.click("#shade-")
	b.press(kb.Escape)
	b.await(`document.activeElement.id === "class-show" && !document.getElementById("class").checkVisibility() && document.getElementById("to-form").checkVisibility()`)
	b.click("#twin")
	b.click("#class-show")
	b.await(`document.querySelectorAll("#class thead th").length === 2`)
	b.await(still)
	fits("pair", 8)
	if got := b.text("#class thead"); got != "A Top edge only\tB Both edges" && eval[string](b, `document.querySelector("#class thead").textContent`) != "A Top edge onlyB Both edges" {
		t.Errorf("titled %q", got)
	}
	b.do(chromedp.Evaluate[chromedp.Void](`document.getElementById("canvas").focus()`))
	b.press(kb.Escape)
	b.await(`!document.body.hasAttribute("data-class")`)
	b.clean()
}
