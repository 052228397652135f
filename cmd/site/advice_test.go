package site

import (
	"fmt"
	"testing"
)

// TestWhatToDo: the page leads with the fewest changes that leave nothing to stop for or to
// mend; a finding shows how it looks now and then; at the desk the picture, the verdict,
// what to do and the first two findings are seen without scrolling. Applied, what is told
// first leaves nothing, and is one step to undo.
func TestWhatToDo(t *testing.T) {
	b := open(t, site(t)+linkOf(t, "floppy"), desk).drawn()
	b.await(`document.querySelector("#advice .way") && ` + state + ` === "done"`)
	for _, s := range []screen{desk, hand} {
		b.resize(s)
		b.frames()
		if s.width > 1000 {
			const low = `Math.max(...[...document.querySelectorAll("#stage, #verdict, #advice .way, #findings > .findings")].map((e) => e.getBoundingClientRect().bottom))`
			if at := eval[float64](b, low); at > float64(s.height) {
				t.Errorf("the first screen of %d px ends above %.0f", s.height, at)
			}
		} else {
			b.run(`document.getElementById("to-findings").scrollIntoView({block: "start"})`)
		}
		b.frames()
		b.picture(fmt.Sprintf("advice-%d", s.width), false)
		if n := eval[int](b, `document.querySelectorAll("#finding-bow .glimpse path.cloth").length`); n != 2 {
			t.Errorf("%d px: the finding is drawn %d times, not now and then", s.width, n)
		}
		if eval[float64](b, `document.querySelector(".glimpse path").getBoundingClientRect().height`) < 5 {
			t.Errorf("%d px: its lines are no lines of a drawing", s.width)
		}
	}
	b.run(`document.querySelector("#advice .way .apply").click()`)
	b.await(`!document.querySelector("#advice .way") && ` + state + ` === "done"`)
	if eval[bool](b, `document.querySelector('#findings [data-severity="stop"], #findings [data-severity="mend"]') !== null`) {
		t.Error("applied, something is still wrong")
	}
	b.click("#undo")
	b.await(`document.querySelector("#finding-bow")`)
	b.clean()
}
