package site

import (
	"fmt"
	"testing"
)

// TestWhatToDo: the page leads with the fewest changes that leave nothing to stop for or to
// mend, for one screen at the desk and one in the hand; a finding shows how it looks now
// and then; and applying what is told first is one step that leaves nothing.
func TestWhatToDo(t *testing.T) {
	for _, s := range []screen{{width: 1366, height: 768}, {width: 390, height: 844, touch: true}} {
		for _, demo := range []string{"flaps-up", "floppy", "ends-up"} {
			b := open(t, site(t)+linkOf(t, demo), s).drawn()
			b.await(`document.querySelector("#todo .way") && ` + state + ` === "done"`)
			if s.width < 500 {
				b.run(`document.getElementById("to-findings").scrollIntoView({block: "start"})`)
			}
			b.frames()
			b.picture(fmt.Sprintf("todo-%s-%d", demo, s.width), true)
			b.clean()
		}
	}
}
