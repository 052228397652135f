package site

import (
	"fmt"
	"testing"
	"time"
)

// TestWhatHolds: in the real page the button finds ways that hold, each with its price,
// and taking one leaves nothing to stop for or to mend; for one screen at the desk and one
// in the hand.
func TestWhatHolds(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1366, height: 768}, {width: 390, height: 844, touch: true}} {
		b := open(t, site(t)+linkOf(t, "flaps-up"), s).drawn()
		b.await(state + ` === "done"`)
		start := time.Now()
		b.run(`document.getElementById("hold-go").click()`)
		b.await(`document.querySelectorAll("#hold-ways > ol > li").length >= 2`)
		t.Logf("%d px: %.1f s", s.width, time.Since(start).Seconds())
		b.run(`document.getElementById("hold-go").scrollIntoView({block: "start"})`)
		b.frames()
		b.picture(fmt.Sprintf("holds-%d", s.width), false)
		b.run(`document.getElementById("hold-take-0").click()`)
		b.await(`!document.querySelector("#hold-ways li") && ` + state + ` === "done"`)
		b.await(`!document.querySelector('#findings [data-severity="stop"], #findings [data-severity="mend"]')`)
		b.clean()
	}
}
