package site

import (
	"fmt"
	"os"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// slide puts the slider of the fold-through to a place, as a hand does.
func (b *tab) slide(at int) {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`(() => { const e = document.getElementById("fold"); e.value = %d; e.dispatchEvent(new Event("input", {bubbles: true})); })()`, at)))
	b.settle()
}

// TestStage dyes the cloth, lights it and folds the strip up, on a phone: each changes the
// picture and says in words what it shows; play runs to its end by itself and
// then nothing is drawn; without motion it goes step by step.
func TestStage(t *testing.T) {
	screens := []screen{{width: 390, height: 844, touch: true}}
	if os.Getenv("RUFFWRIGHT_SHOTS") != "" { // the others differ in nothing but their looks
		screens = append(screens, screen{width: 1280, height: 800}, screen{width: 1280, height: 800, dark: true}, screen{width: 390, height: 844, touch: true, dark: true})
	}
	for _, s := range screens {
		s.moves = true // it plays
		s.before = `globalThis.drawn = 0; for (const name of ["drawElements", "drawArrays"]) {
			const draw = WebGL2RenderingContext.prototype[name];
			WebGL2RenderingContext.prototype[name] = function (...a) { globalThis.drawn++; return draw.apply(this, a); };
		}`
		b := open(t, easy(t), s).ready()
		light := "day"
		if s.dark {
			light = "candle"
		}
		shot := func(name string) { b.picture(fmt.Sprintf("stage-%d-%s-%s", s.width, light, name), false) }
		b.top()
		was := b.pixels()
		for _, colour := range []string{"droop", "contact"} {
			b.click("#colour-" + colour)
			b.await(fmt.Sprintf(`document.getElementById("colour-%s").getAttribute("aria-pressed") === "true" && document.getElementById("description").textContent.includes("Dyed by %s")`, colour, colour))
			b.top()
			now := b.pixels()
			if differ(was, now) < 0.05 {
				t.Errorf("dyed by %s, the cloth looks as before", colour)
			}
			was = now
			shot(colour)
		}
		b.click("#colour-cloth")
		for _, by := range []string{"against", "day", "candle"} {
			pressed := fmt.Sprintf(`document.getElementById("light-%s").getAttribute("aria-pressed") === "true"`, by)
			had := eval[bool](b, pressed)
			b.click("#light-" + by)
			b.await(pressed)
			b.top()
			now := b.pixels()
			if !had && differ(was, now) < 0.05 {
				t.Errorf("seen %s, the ruff looks as before", by)
			}
			was = now
			shot("light-" + by)
		}
		for _, step := range []struct {
			at   int
			name string
		}{{0, "Laid flat"}, {17, "Being pleated"}, {33, "Pleated"}, {50, "Being drawn up"}, {67, "Drawn up to the band"}, {100, "Released"}} {
			b.slide(step.at)
			b.await(fmt.Sprintf(`document.getElementById("fold-name").textContent === %q && document.getElementById("fold").getAttribute("aria-valuetext").startsWith(%q)`, step.name, step.name))
			b.top()
			now := b.pixels()
			if differ(was, now) < 0.01 {
				t.Errorf("%s looks as the step before", step.name)
			}
			was = now
			shot(fmt.Sprintf("fold-%d", step.at))
		}
		b.click("#fold-play")
		b.await(`document.getElementById("fold-play").getAttribute("aria-label") === "Pause"`)
		b.await(`document.getElementById("fold-name").textContent !== "Released"`)
		b.await(`document.getElementById("fold-name").textContent === "Released"`)
		b.settle()
		// The last frame may come late on a busy machine; after it there is none.
		for deadline, was := time.Now().Add(patience), -1; ; {
			frames := eval[int](b, "drawn")
			if frames == was && frames > 0 {
				break
			}
			if time.Now().After(deadline) {
				t.Fatalf("%d drawing calls, %d a second before: the drawing never ends", frames, was)
			}
			was = frames
			time.Sleep(time.Second)
		}
		b.media(s.dark, true)
		b.await(`document.getElementById("fold-play").title.startsWith("Next step")`)
		for _, name := range []string{"Laid flat", "Pleated"} {
			b.click("#fold-play")
			b.await(fmt.Sprintf(`document.getElementById("fold-name").textContent === %q`, name))
		}
		b.clean()
	}
}
