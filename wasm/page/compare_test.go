package page

import (
	"strings"
	"testing"

	"ruffwright/wasm/doc"
)

// two is a page that compares its start with a lower ruff.
func two(t *testing.T) *Page {
	t.Helper()
	p, err := New()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range []doc.Event{{Kind: doc.Begin}, {Kind: doc.Do, Name: "compare-keep"}, {Kind: doc.Set, Name: "ruff.height", Value: "40"}} {
		p.Handle(e)
	}
	if !p.work.Compares() || p.work.Scheme.Ruff.Height != 40 || p.work.B.Scheme.Ruff.Height == 40 {
		t.Fatalf("A %g, B %+v", p.work.Scheme.Ruff.Height, p.work.B.Scheme)
	}
	return p
}

// TestComparedLinks: old links of one are read as before; a pair opens the compare; a
// broken one changes nothing, and says so.
func TestComparedLinks(t *testing.T) {
	p := two(t)
	a, b := p.work.Asked, p.work.B.Asked
	code, codeA, codeB := p.work.Code(), p.work.Scheme.Code(), p.work.B.Scheme.Code()
	if code != codeA+"~"+codeB {
		t.Fatalf("the code is %s", code)
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "compare-stop"})
	p.Handle(doc.Event{Kind: doc.Do, Name: "fresh"})
	if got := p.work.Code(); strings.Contains(got, "~") {
		t.Errorf("the code of one is %s", got)
	}
	p.Handle(doc.Event{Kind: doc.Address, Value: "#" + code})
	if p.work.Asked != a || p.work.B.Asked != b {
		t.Errorf("opened: %s and %s", p.work.Asked, p.work.B.Asked)
	}
	p.Handle(doc.Event{Kind: doc.Address, Value: "#" + code})
	p.Handle(doc.Event{Kind: doc.Do, Name: "undo"})
	if p.work.Asked == a {
		t.Error("the same link again is a step")
	}
	p.Handle(doc.Event{Kind: doc.Do, Name: "redo"})
	back, _ := p.work.Ways()
	for _, bad := range []string{"#" + code + "~" + codeB, "#" + codeA + "~", "#" + codeA + "~2.AAAA", "#" + codeA + "~<b>"} {
		p.Handle(doc.Event{Kind: doc.Address, Value: bad})
		if now, _ := p.work.Ways(); p.work.Asked != a || p.work.B.Asked != b || p.voice.Line() == "" || now != back {
			t.Errorf("%s: %s and %s, %q", bad, p.work.Asked, p.work.B.Asked, p.voice.Line())
		}
	}
}
