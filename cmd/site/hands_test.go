package site

import (
	"fmt"
	"slices"
	"testing"
	"time"
)

// TestHandTimes tells, where times are wanted, how long all remedies of a ruff take on one
// core and on two, in turns (goal: 60 %), and how long a change then waits for the solver's
// first word while remedies are tried, beside one that comes when nothing is done.
func TestHandTimes(t *testing.T) {
	if !measuring {
		t.Skip("RUFFWRIGHT_MEASURE is not set")
	}
	const trying = `document.getElementById("solving").textContent.includes("trying the changes")`
	// word is from a change to the first word of the hand that has it.
	const word = `new Promise((done) => {
		const e = document.querySelector("#f-ruff-sets"), at = performance.now();
		globalThis.heard = (ms) => done(ms - at);
		e.value = %q;
		e.dispatchEvent(new Event("change", {bubbles: true}));
	})`
	took, wait := map[int][]float64{}, map[bool][]float64{}
	for range 3 {
		for _, cores := range []int{1, 2} {
			b := open(t, site(t)+linkOf(t, "floppy"), screen{width: 700, height: 500, before: counted + fmt.Sprintf(`
				Object.defineProperty(Navigator.prototype, "hardwareConcurrency", {get: () => %d});
				{
					const heads = Object.getOwnPropertyDescriptor(Worker.prototype, "onmessage") || Object.getOwnPropertyDescriptor(Object.getPrototypeOf(Worker.prototype), "onmessage");
					Object.defineProperty(Worker.prototype, "onmessage", {configurable: true, get() { return heads.get.call(this); }, set(f) {
						heads.set.call(this, (e) => {
							if (e.data && e.data.head && globalThis.heard && this.solves && JSON.parse(e.data.head).id === globalThis.asks.findLast((a) => a.task === "solve").id) { globalThis.heard(performance.now()); globalThis.heard = null; }
							f(e);
						});
					}});
				}`, cores)}).drawn()
			b.await(trying)
			at := eval[float64](b, "performance.now()")
			b.await("!" + trying)
			took[cores] = append(took[cores], eval[float64](b, "performance.now()")-at)
			b.await(still)
			if n := eval[int](b, "workers"); n != cores {
				t.Errorf("on %d cores %d workers", cores, n)
			}
			for i := range 4 {
				wait[false] = append(wait[false], promised[float64](b, fmt.Sprintf(word, fmt.Sprint(44+4*(i%2)))))
				b.await(trying)
				time.Sleep(time.Duration(100+130*i) * time.Millisecond)
				wait[true] = append(wait[true], promised[float64](b, fmt.Sprintf(word, fmt.Sprint(52+4*(i%2)))))
				b.await(still)
			}
			b.clean()
		}
	}
	middle := func(v []float64) float64 { slices.Sort(v); return v[len(v)/2] }
	one, two := middle(took[1]), middle(took[2])
	t.Logf("all remedies of floppy: one worker %.0f ms, two %.0f ms, %.2f of that (goal 0.60)", one, two, two/one)
	for busy, words := range map[bool]string{false: "nothing is done", true: "remedies are tried"} {
		v := wait[busy]
		t.Logf("from a change to the solver's first word while %s: median %.0f ms, the longest %.0f", words, middle(v), v[len(v)-1])
	}
}
