package site

import (
	"testing"
	"time"
)

// TestWhatHolds: in the real page the button finds ways that hold, each with its price,
// and taking one leaves nothing to stop for or to mend. It is looked at at the desk and in
// the hand.
func TestWhatHolds(t *testing.T) {
	t.Parallel()
	b := open(t, site(t)+linkOf(t, "flaps-up"), desk).drawn()
	start := time.Now()
	b.run(`document.getElementById("hold-go").click()`)
	b.await(`document.querySelectorAll("#hold-ways > ol > li").length >= 2`)
	t.Logf("%.1f s", time.Since(start).Seconds())
	b.seen("hold-go", "holds")
	b.run(`document.getElementById("hold-take-0").click()`)
	b.await(`!document.querySelector("#hold-ways li") && ` + state + ` === "done"`)
	b.await(`!document.querySelector('#findings [data-severity="stop"], #findings [data-severity="mend"]')`)
	b.clean()
}
