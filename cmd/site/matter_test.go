package site

import (
	"fmt"
	"testing"
)

// TestWhatMatters: in the real page the button draws which decisions matter most; a slider
// sets its field while it is dragged and keeps its place, and one step takes it back; for
// one screen at the desk and one in the hand.
func TestWhatMatters(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1366, height: 768}, {width: 390, height: 844, touch: true}} {
		b := open(t, site(t)+linkOf(t, "floppy"), s).drawn()
		b.await(state + ` === "done"`)
		b.run(`document.getElementById("matter-go").click()`)
		b.await(`document.querySelectorAll(".chart svg path").length >= 27 && !document.getElementById("what-if-2").hidden`)
		b.run(`document.getElementById("matter-go").scrollIntoView({block: "start"})`)
		b.frames()
		b.picture(fmt.Sprintf("matters-%d", s.width), false)
		b.run(`const slider = document.getElementById("what-if-1"); slider.value = "90";
			slider.dispatchEvent(new Event("input", {bubbles: true})); slider.dispatchEvent(new Event("change", {bubbles: true}))`)
		b.await(`document.getElementById("f-ruff-depth").value === "90" && document.getElementById("what-if-1").value === "90" && ` + state + ` === "done"`)
		b.frames()
		b.picture(fmt.Sprintf("matters-tried-%d", s.width), false)
		b.run(`document.querySelector("[data-do=undo]").click()`)
		b.await(`document.getElementById("f-ruff-depth").value === "75" && document.getElementById("what-if-1").value === "75"`)
		b.clean()
	}
}
