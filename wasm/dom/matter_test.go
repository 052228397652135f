//go:build !js

package dom

import (
	"strconv"
	"strings"
	"testing"

	"ruffwright/wasm/doc"
)

// TestMatter: asked what matters, the page tells three fields with their charts once the
// ruff is solved. A slider moves its field, in one step that can be taken back, and the
// charts stay; another field's change puts an end to them.
func TestMatter(t *testing.T) {
	k := seated(t)
	k.done()
	k.send(10, doc.Do, "demo", "floppy")
	k.done()
	k.send(20, doc.Do, "matter", "")
	if k.Attr["matter-go"]["aria-disabled"] != "true" {
		t.Error("asked, it can be asked again")
	}
	k.done()
	for n, want := range []string{"Fold to fold from 52", "Depth from 75 mm to 82.5 mm. That changes the height by ", " from "} {
		words := k.Words("matter-" + strconv.Itoa(n))
		if !strings.Contains(words, want) || !strings.Contains(words, "Swing at a bow ") {
			t.Errorf("%d: no %q in %s", n, want, words)
		}
	}
	if got := k.Attr["what-if-1"]; got["min"] != "52.5" || got["max"] != "97.5" || got["aria-label"] != "What if: Depth" || got["aria-valuetext"] != "75 mm" {
		t.Errorf("the slider of the depth: %v", got)
	}
	before := k.Control[doc.Control("ruff.depth")]
	swing := func() string {
		_, after, _ := strings.Cut(k.Words("matter-1"), "Swing at a bow ")
		return after
	}
	was := swing()
	k.send(30, doc.Typing, "what-if-1", "80")
	k.send(31, doc.Typing, "what-if-1", "90")
	k.send(32, doc.Set, "what-if-1", "90")
	k.done()
	if got := k.Control[doc.Control("ruff.depth")]; got != "90" || before == got {
		t.Errorf("the depth is %q, was %q", got, before)
	}
	if swing() == was || k.Words("matter-0") == "" {
		t.Errorf("the charts stand at %q, as before", was)
	}
	k.send(40, doc.Do, "undo", "")
	k.done()
	if got := k.Control[doc.Control("ruff.depth")]; got != before {
		t.Errorf("undone, the depth is %q, was %q", got, before)
	}
	if swing() != was {
		t.Errorf("undone: %q, was %q", swing(), was)
	}
	k.send(50, doc.Set, "ruff.sets", "44")
	k.done()
	if got := k.Words("matter-0"); got != "" {
		t.Errorf("of another ruff: %s", got)
	}
}
