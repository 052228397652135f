//go:build !js

package dom

import (
	"slices"
	"strings"
	"testing"

	"ruffwright/wasm/doc"
	"ruffwright/wasm/wire"
)

// hands are the numbers of the workers that were asked for a task, "" the first.
func (k *desk) hands(task wire.Task) map[string]int {
	of := map[string]int{}
	for _, p := range k.Solver {
		what, n, _ := strings.Cut(p.Name, " ")
		if what != "ask" {
			continue
		}
		r, err := wire.ReadRequest(p.Value, p.Body)
		if err != nil {
			k.t.Fatal(err)
		}
		if r.Task == task {
			of[n]++
		}
	}
	return of
}

// starts are the workers that were started, in their order, and those that were ended.
func (k *desk) starts() (out []string) {
	for _, p := range k.Solver {
		if !strings.HasPrefix(p.Name, "ask") {
			out = append(out, p.Name)
		}
	}
	return out
}

// TestTwoHands: where the device has two cores a second worker comes when there are
// remedies to try, does its share, and says the same; a change goes to the first at once,
// whatever that does, and ends what the other does; without work for long the second is
// ended. On one core there is one.
func TestTwoHands(t *testing.T) {
	var said [2]string
	for i, cores := range []string{"1", "2"} {
		k := seated(t)
		k.send(1, doc.Cores, "", cores)
		k.until(func() bool { return k.hands(wire.Solve)[""] > 0 })
		if got := k.starts(); !slices.Equal(got, []string{"start"}) {
			t.Errorf("%s cores: with the ruff alone to solve: %q", cores, got)
		}
		k.send(1, doc.Do, "demo", "flaps-up")
		k.done()
		said[i] = k.Words("advice") + k.Words("findings")
		tries := k.hands(wire.Try)
		if (tries["1"] > 0) != (cores == "2") || tries[""] == 0 || k.hands(wire.Solve)["1"] > 0 {
			t.Errorf("%s cores: remedies were tried by %v", cores, tries)
		}
		if cores == "1" {
			continue
		}
		k.send(1, doc.Set, "ruff.sets", "44")
		k.until(func() bool { h := k.p.Findings(); return len(h) > 0 && k.hands(wire.Try)["1"] > tries["1"] })
		was := len(k.Solver)
		k.send(1, doc.Set, "ruff.sets", "48")
		var asked []string
		for _, p := range k.Solver[was:] {
			r, err := wire.ReadRequest(p.Value, p.Body)
			if err != nil {
				t.Fatal(err)
			}
			asked = append(asked, p.Name+" "+string(r.Task))
		}
		if !slices.Equal(asked, []string{"ask solve", "ask 1 cancel"}) {
			t.Errorf("a change while both work: %q", asked)
		}
		k.done()
		k.send(29000, doc.Timer, "spare", "")
		k.send(29000, doc.Timer, "spare", "")
		if got := k.starts(); !slices.Equal(got, []string{"start", "start 1", "end 1"}) {
			t.Errorf("at last: %q", got)
		}
	}
	if said[0] != said[1] {
		t.Errorf("one worker says\n%s\ntwo say\n%s", said[0], said[1])
	}
}

// TestHelperDies: without its helper the first does all, and none is started again.
func TestHelperDies(t *testing.T) {
	k := seated(t)
	k.send(1, doc.Cores, "", "8")
	k.send(1, doc.Do, "demo", "flaps-up")
	k.until(func() bool { return k.hands(wire.Try)["1"] > 0 })
	k.send(1, doc.Solver, "died 1", "its program ended by itself")
	k.send(1, doc.Solver, "died 7", "there is none")
	k.done()
	if n := strings.Count(strings.Join(k.starts(), ","), "start 1"); n != 1 {
		t.Errorf("workers: %q", k.starts())
	}
	if got := k.Words("advice"); !strings.Contains(got, "Do this") {
		t.Errorf("to do: %s", got)
	}
}
