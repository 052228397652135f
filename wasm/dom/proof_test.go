//go:build !js

package dom

import (
	"fmt"
	"strings"
	"testing"

	"ruffwright/sim/shell/known"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// TestProof: asked for, the worker solves what is known from elsewhere when the
// ruff is done; a change comes first, and the trial begins again; an answer
// that is missed is said, in words and by the mark of its row.
func TestProof(t *testing.T) {
	k := seated(t)
	k.done()
	if got := k.Text["proof-stands"] + k.Words("proof-rows"); got != "" {
		t.Errorf("before it is asked for: %q", got)
	}
	rows := func() int { return strings.Count(k.Words("proof-rows"), "Known:") }
	k.send(50, doc.Do, "proof", "")
	if k.Attr["proof-go"]["aria-disabled"] != "true" {
		t.Error("it can be asked for twice")
	}
	k.until(func() bool { return rows() >= 3 })
	if got := k.Text["proof-stands"]; !strings.Contains(got, "all within what is allowed") || !strings.Contains(k.Text["solving"], "known answers") {
		t.Errorf("half-way: %q, %q", got, k.Text["solving"])
	}

	k.send(50, doc.Set, "ruff.sets", "42")
	all := k.asked()
	if last := all[len(all)-1]; last.Task != wire.Solve {
		t.Errorf("a change asks for %s", last.Task)
	}
	k.done()
	quick := 0
	for _, p := range known.All() {
		if !p.Slow {
			quick++
		}
	}
	if n := rows(); n != quick || !strings.Contains(k.Text["proof-stands"], fmt.Sprintf("All %d known answers", quick)) {
		t.Errorf("%d problems of %d: %s", n, quick, k.Text["proof-stands"])
	}
	for _, want := range []string{"CalculiX", "elliptic integrals", "Off by"} {
		if !strings.Contains(k.Words("proof-rows"), want) {
			t.Errorf("the rows lack %q", want)
		}
	}

	k.send(50, doc.Do, "proof", "")
	all = k.asked()
	miss := wire.Reply{ID: all[len(all)-1].ID, Last: true, Checked: &wire.Checked{
		Name: "a plank", Source: "a book", Unit: "mm", Reference: 2, Value: 3, Deviation: 0.5, Allowed: 0.01, Relative: true, Took: 1,
	}}
	head, body, err := miss.Encode()
	if err != nil {
		t.Fatal(err)
	}
	k.Hear(20, "", head, body)
	k.carry()
	if got := k.Text["proof-stands"]; !strings.Contains(got, "do not sew") || k.Attr["proof-stands"]["data-state"] != "missed" {
		t.Errorf("a missed answer is told as %q", got)
	}
	if got := k.Words("proof-rows"); !strings.Contains(got, "a plank: 3 mm. Known: 2 mm (a book). Off by 50 %; 1 % allowed.") {
		t.Errorf("its row: %q", got)
	}

	k.send(50, doc.Do, "proof", "")
	k.send(50, doc.Do, "solver", "") // stopped
	if got := k.Text["proof-stands"] + k.Words("proof-rows"); got != "" || k.Attr["proof-go"]["aria-disabled"] == "true" {
		t.Errorf("stopped, and still %q", got)
	}
}
