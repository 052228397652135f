package site

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestLesson follows a teacher's link: the lesson is open beside the stage, says
// what is still wrong, and, once the change that the findings offer is made and
// solved, that it is solved; 'start again' takes it back. Then another is opened
// from the list, and the gallery's pictures come when they are looked at.
func TestLesson(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+"#lesson=ends-up", screen{width: 1280, height: 800}).ready()
	stands := func(state string) {
		t.Helper()
		b.await(`!document.getElementById("lesson").hidden && document.getElementById("lesson-stands").dataset.state === "` + state + `"`)
	}
	stands("open")
	if at := eval[string](b, where); at != "lesson" {
		t.Errorf("the link leads to %q", at)
	}
	if !eval[bool](b, `(() => { const r = document.getElementById("lesson").getBoundingClientRect(); return r.top >= 0 && r.top < innerHeight / 2; })()`) {
		t.Error("the lesson is out of sight")
	}
	b.picture("lesson-open", false)
	const offered = `document.querySelectorAll('#findings [data-do="apply"], .finding').length`
	if n := eval[int](b, offered); n > 0 {
		t.Errorf("%d findings and changes are shown before anything was said", n)
	}
	b.click(`[data-do="lesson-claim"][data-with="trough"]`)
	b.await(`document.getElementById("claim-reply").textContent.startsWith("No.")`)
	if at := eval[string](b, where); !strings.HasPrefix(at, "claim-") || eval[int](b, offered) > 0 {
		t.Errorf("after a wrong answer the focus is on %q", at)
	}
	b.picture("lesson-wrong", false)
	b.click(`[data-do="lesson-claim"][data-with="crest"]`)
	b.await(offered + " > 0")
	b.picture("lesson-said", false)
	b.click("#finding-ends .apply")
	b.settle()
	stands("solved")
	b.top()
	b.picture("lesson-solved", false)
	b.click(`[data-do="lesson-again"]`)
	stands("open")
	b.click("#undo")
	stands("open") // begun again, it is to be said again
	b.click(`[data-do="lesson-claim"][data-with="crest"]`)
	stands("solved")
	b.click(`[data-do="lesson-away"]`)
	b.await(`document.getElementById("lesson").hidden`)
	if at := eval[string](b, where); at != "to-lessons" {
		t.Errorf("put away, the focus is on %q", at)
	}
	b.press("\r") // the list opens
	b.await(`document.querySelector(".course").open`)
	b.do(chromedp.Evaluate[chromedp.Void](`document.querySelector("[id='lesson=no-tucks']").closest("details").open = true`))
	b.picture("lessons-list", true)
	b.click(`[data-do="lesson"][data-with="no-tucks"]`)
	b.settle()
	stands("open")

	if n := eval[int](b, `[...document.querySelectorAll(".from img")].filter((i) => i.complete && i.naturalWidth > 0).length`); n > 0 {
		t.Errorf("%d pictures of the gallery were loaded before anybody looks", n)
	}
	b.click(".from > summary")
	b.await(`[...document.querySelectorAll(".from img")].every((i) => { i.scrollIntoView(); return i.complete && i.naturalWidth === 276; })`)
	b.top()
	b.picture("gallery", true)
	b.click(`[data-do="demo"][data-with="wide"]`)
	b.await(`document.getElementById("lesson").hidden && document.getElementById("f-ruff-sets").value === "120"`)
	b.clean()
}
