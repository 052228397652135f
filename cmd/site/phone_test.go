package site

import (
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// TestPhone: on a phone the whole page with its groups folded does not grow longer than it is;
// the numbers that make a ruff go up and down by a thumb; and a lesson is read with the
// ruff in sight.
func TestPhone(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 390, height: 844, touch: true}).ready()
	b.picture("phone-start", true)
	parts := func() string {
		return eval[string](b, `[...document.querySelectorAll("header, main > *, .picture > *, .sums > *, footer")].map((e) => (e.id || e.className) + " " + Math.round(e.getBoundingClientRect().height)).filter((s) => !s.endsWith(" 0")).join("; ")`)
	}
	if high := eval[int](b, `document.documentElement.scrollHeight`); high > 3500 {
		t.Errorf("the page is %d px long: %s", high, parts())
	} else {
		t.Logf("the page is %d px long: %s", high, parts())
	}
	for _, key := range []string{"ruff.depth", "ruff.sets"} {
		was := eval[float64](b, `Number(document.querySelector("`+field(key)+`").value)`)
		for sign, by := range map[string]float64{"+1": 1, "-1": -1} {
			id := field(key)[1:] + sign
			if small := eval[string](b, `(() => { const r = document.getElementById("`+id+`").getBoundingClientRect(); return r.width >= 44 && r.height >= 44 ? "" : r.width + " × " + r.height; })()`); small != "" {
				t.Errorf("%s is %s px", id, small)
			}
			b.click(`[id="` + id + `"]`)
			if got := eval[float64](b, `Number(document.querySelector("`+field(key)+`").value)`); got != was+by {
				t.Errorf("%s: %g from %g", id, got, was)
			}
			was += by
		}
	}
	b.run(`document.getElementById("undo").click(); document.getElementById("undo").click()`)
	b.run(`location.hash = "#lesson=top-only"`)
	b.await(`!document.getElementById("lesson").hidden && document.activeElement.id === "lesson"`)
	b.settle()
	b.picture("phone-lesson", false)
	const beside = `(() => { const s = document.getElementById("stage").getBoundingClientRect(), q = document.getElementById("claim-asks").getBoundingClientRect(); return s.top >= -1 && s.bottom < innerHeight && q.top >= s.bottom - 1 && q.bottom <= innerHeight; })()`
	b.run(`document.getElementById("claim-asks").scrollIntoView({block: "end", behavior: "instant"})`)
	if !eval[bool](b, beside) {
		t.Error("the question and the ruff are not in sight together")
	}
	b.run(`document.getElementById("claim-0").scrollIntoView({block: "end", behavior: "instant"})`)
	b.frames()
	b.picture("phone-lesson-asks", false)
	b.clean()

	fine := open(t, site(t), screen{width: 1366, height: 768, unsolved: true})
	if _, err := chromedp.Call(fine.ctx, emulation.SetTouchEmulationEnabled, emulation.SetTouchEmulationEnabledParams{Enabled: false}); err != nil {
		t.Fatal(err)
	}
	if fine.drawn(); eval[bool](fine, `matchMedia("(pointer: fine)").matches && document.querySelector(".step").checkVisibility()`) {
		t.Error("with a mouse the steppers take room")
	}
}
