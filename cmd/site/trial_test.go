package site

import (
	"testing"
	"time"
)

// TestTrialSet types the readings of a trial set: a bad one is told where it stands, good
// ones are answered with intervals, and one button carries the answer into the scheme as
// one step. It is looked at at the desk and in the hand.
func TestTrialSet(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), desk).drawn()
	b.run(`document.getElementById("trial").open = true`)
	b.enter("trial.over", "4x")
	b.await(`document.getElementById("f-trial-over-wrong").textContent && document.querySelector("#f-trial-over[aria-invalid=true]")`)
	for key, text := range map[string]string{"trial.height": "44,5", "trial.tipped": "-34", "trial.hanging": "0.5", "trial.over": "46", "trial.weight": "4.1"} {
		b.enter(key, text)
	}
	start := time.Now()
	b.run(`document.getElementById("trial-go").click()`)
	b.await(`document.getElementById("trial-take")`)
	t.Logf("%.1f s", time.Since(start).Seconds())
	b.seen("trial", "trial")
	b.run(`document.getElementById("trial-take").click()`)
	b.await(`!document.getElementById("trial-take") && document.getElementById("f-starch-quality").value !== "1"`)
	b.run(`document.getElementById("undo").click()`)
	b.await(`document.getElementById("f-starch-quality").value === "1"`)
	b.clean()
}
