package site

import (
	"fmt"
	"testing"
	"time"
)

// TestTrialSet types the readings of a trial set: a bad one is told where it stands, good
// ones are answered with intervals, and one button carries the answer into the scheme as
// one step; at the desk and in the hand.
func TestTrialSet(t *testing.T) {
	t.Parallel()
	for _, s := range []screen{{width: 1366, height: 768}, {width: 390, height: 844, touch: true}} {
		b := open(t, site(t), s).drawn()
		b.await(state + ` === "done"`)
		b.run(`document.getElementById("trial").open = true`)
		b.enter("trial.over", "4x")
		b.await(`document.getElementById("f-trial-over-wrong").textContent && document.querySelector("#f-trial-over[aria-invalid=true]")`)
		for key, text := range map[string]string{"trial.height": "44,5", "trial.tipped": "-34", "trial.hanging": "0.5", "trial.over": "46", "trial.weight": "4.1"} {
			b.enter(key, text)
		}
		start := time.Now()
		b.run(`document.getElementById("trial-go").click()`)
		b.await(`document.getElementById("trial-take")`)
		t.Logf("%d px: %.1f s", s.width, time.Since(start).Seconds())
		b.run(`document.getElementById("trial").scrollIntoView({block: "start"})`)
		b.frames()
		b.picture(fmt.Sprintf("trial-%d", s.width), false)
		b.run(`document.getElementById("trial-take").click()`)
		b.await(`!document.getElementById("trial-take") && document.getElementById("f-starch-quality").value !== "1"`)
		b.run(`document.getElementById("undo").click()`)
		b.await(`document.getElementById("f-starch-quality").value === "1"`)
		b.clean()
	}
}
