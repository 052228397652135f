package site

import "testing"

// TestWhatMatters: in the real page the button draws which decisions matter most; a slider
// sets its field while it is dragged and keeps its place, and one step takes it back. It
// is looked at at the desk and in the hand.
func TestWhatMatters(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+linkOf(t, "floppy"), desk).drawn()
	b.run(`document.getElementById("matter-go").click()`)
	b.await(`document.querySelectorAll(".chart svg path").length >= 27 && !document.getElementById("what-if-2").hidden`)
	b.seen("matter-go", "matters")
	b.run(`const slider = document.getElementById("what-if-1"); slider.value = "90";
		slider.dispatchEvent(new Event("input", {bubbles: true})); slider.dispatchEvent(new Event("change", {bubbles: true}))`)
	b.await(`document.getElementById("f-ruff-depth").value === "90" && document.getElementById("what-if-1").value === "90"`)
	b.seen("matter-go", "matters-tried")
	b.run(`document.querySelector("[data-do=undo]").click()`)
	b.await(`document.getElementById("f-ruff-depth").value === "75" && document.getElementById("what-if-1").value === "75"`)
	b.clean()
}
