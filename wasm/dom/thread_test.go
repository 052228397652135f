//go:build !js

package dom

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page"
)

// opened is a page in its document's twin.
func opened(t *testing.T) (*Document, *page.Page) {
	t.Helper()
	p, err := page.New()
	if err != nil {
		t.Fatal(err)
	}
	d := Open()
	d.Listen(p.Handle)
	d.Send(0, doc.Begin, "", "")
	return d, p
}

// TestThread is the page's first use without a browser: a neck, 42 sets, the
// finding about quarters, its remedy, undo, a short strip.
func TestThread(t *testing.T) {
	d, p := opened(t)
	if d.Failure != "" || d.Control["f-ruff-sets"] != "40" {
		t.Fatalf("the page opens with %q sets, failure %q", d.Control["f-ruff-sets"], d.Failure)
	}
	for _, typed := range []string{"3", "37", "372"} {
		d.Send(100, doc.Typing, "wearer.girth", typed)
	}
	d.Send(100, doc.Set, "wearer.girth", "372")
	d.Send(100, doc.Set, "ruff.sets", "42")
	if s := p.Scheme(); s.Wearer.Girth != 372 || s.Ruff.Sets != 42 {
		t.Fatalf("girth %g, sets %d", s.Wearer.Girth, s.Ruff.Sets)
	}
	if got := d.Words("findings"); !strings.Contains(got, "42") || !strings.Contains(got, "quarter") {
		t.Errorf("no finding about quarters: %s", got)
	}
	d.Send(100, doc.Do, "apply", "quarters 0")
	if n := p.Scheme().Ruff.Sets; n%4 != 0 {
		t.Errorf("after the remedy there are %d sets", n)
	}
	for _, want := range []string{"42", "40"} {
		d.Send(100, doc.Do, "undo", "")
		if got := d.Control["f-ruff-sets"]; got != want {
			t.Errorf("undo gives %s sets, want %s", got, want)
		}
	}
	d.Send(100, doc.Do, "undo", "")
	if got := d.Control["f-wearer-girth"]; got != "395" {
		t.Errorf("the typed neck is not one step: undo gives %s", got)
	}
	d.Send(100, doc.Do, "redo", "")
	if got := d.Control["f-wearer-girth"]; got != "372" {
		t.Errorf("redo gives a neck of %s", got)
	}
	d.Send(100, doc.Set, "strip.have", "3000")
	if got := d.Words("findings"); !strings.Contains(got, "sets") || !strings.Contains(d.Text["verdict"], "stop") {
		t.Errorf("a short strip: %s %s", d.Text["verdict"], got)
	}
}

// TestBadEntries: on every field every bad entry leaves the last good scheme,
// is marked, and says why; a good one takes the mark away again.
func TestBadEntries(t *testing.T) {
	for _, f := range scheme.Fields() {
		bad := []string{"NaN", "Inf", "-Inf", "1e999", "abc", "12 parsecs", "1 2 3", "-1e5"}
		switch f.Kind {
		case scheme.KindText:
			bad = []string{strings.Repeat("x", 81), "a\u202eb", "a\x07b"}
		case scheme.KindChoice:
			bad = []string{"", "nothing of the kind"}
		case scheme.KindMarks:
			bad = []string{"0 crest", "x y z", strings.Repeat("1 crest top;", 3000)}
		default:
			bad = append(bad, "", fmt.Sprint(f.Max+1))
			if f.Min > 0 && f.Zero == "" {
				bad = append(bad, fmt.Sprint(f.Min/2))
			}
		}
		d, p := opened(t)
		id := "f-" + strings.ReplaceAll(f.Key, ".", "-")
		was := p.Scheme().Code()
		for _, text := range bad {
			d.Send(2000, doc.Typing, f.Key, text)
			d.Send(2000, doc.Set, f.Key, text)
			if d.Failure != "" || p.Scheme().Code() != was {
				t.Fatalf("%s %.20q: changed the scheme or failed: %s", f.Key, text, d.Failure)
			}
			if d.Attr[id]["aria-invalid"] != "true" || d.Text[id+"-wrong"] == "" || d.Control[id] != "" && d.Control[id] != text && d.Control[id] != f.Show(p.Scheme(), scheme.Millimetres) {
				t.Errorf("%s %.20q: invalid %q, says %q, shows %.20q", f.Key, text, d.Attr[id]["aria-invalid"], d.Text[id+"-wrong"], d.Control[id])
			}
		}
		d.Send(2000, doc.Set, f.Key, f.Get(p.Scheme()))
		if d.Attr[id]["aria-invalid"] != "" || d.Text[id+"-wrong"] != "" {
			t.Errorf("%s: still marked after a good entry: %q", f.Key, d.Text[id+"-wrong"])
		}
	}
}

// TestUnits: a hundred switches of the unit, every field left in each, change
// nothing.
func TestUnits(t *testing.T) {
	d, p := opened(t)
	d.Send(10, doc.Set, "wearer.girth", `15 1/2"`)
	d.Send(10, doc.Set, "ruff.depth", "6,85 cm")
	was := p.Scheme()
	if was.Wearer.Girth != 393.7 || was.Ruff.Depth != 68.5 {
		t.Fatalf("girth %g, depth %g mm", was.Wearer.Girth, was.Ruff.Depth)
	}
	for i := range 100 {
		d.Send(10, doc.Do, "units", []string{"cm", "in", "mm"}[i%3])
		for _, f := range scheme.Fields() {
			d.Send(10, doc.Set, f.Key, d.Control["f-"+strings.ReplaceAll(f.Key, ".", "-")])
		}
	}
	if p.Scheme().Code() != was.Code() || p.Scheme().Wearer.Girth != was.Wearer.Girth {
		t.Errorf("switching units changed the scheme: %s to %s", was.Code(), p.Scheme().Code())
	}
}

// TestTogether: two entries that fit only together may come one after the
// other.
func TestTogether(t *testing.T) {
	d, p := opened(t)
	d.Send(10, doc.Set, "look.depth_ratio", "0.6") // asks for the wearer's face
	if d.Attr["f-look-depth_ratio"]["aria-invalid"] != "true" {
		t.Fatalf("a picture's proportion without a face: %q", d.Text["f-look-depth_ratio-wrong"])
	}
	d.Send(10, doc.Set, "wearer.face", "118")
	if d.Attr["f-look-depth_ratio"]["aria-invalid"] != "" || p.Scheme().Look.DepthRatio != 0.6 {
		t.Errorf("the proportion was not taken with the face: %q", d.Text["f-look-depth_ratio-wrong"])
	}
}

// TestVoice: at most one message a second, and the newest is not lost.
func TestVoice(t *testing.T) {
	d, _ := opened(t)
	d.Send(5000, doc.Set, "ruff.sets", "44")
	first := d.Text["said"]
	d.Send(100, doc.Do, "view", "above")
	d.Send(100, doc.Do, "units", "cm")
	voices := slices.DeleteFunc(slices.Clone(d.Timers), func(p doc.Patch) bool { return p.Name != "voice" })
	if d.Text["said"] != first || len(voices) != 1 {
		t.Fatalf("said %q within a second, %d timers", d.Text["said"], len(voices))
	}
	d.Send(voices[0].MS, doc.Timer, voices[0].Name, "")
	if d.Text["said"] != "Lengths in cm." {
		t.Errorf("said %q at last", d.Text["said"])
	}
}

// TestLinks: a link opens as a step that can be undone, a bad one says so and
// changes nothing, and what is copied opens again.
func TestLinks(t *testing.T) {
	d, p := opened(t)
	start := p.Scheme().Code()
	for _, bad := range []string{"#!!", "#1.AAAA", "#" + start[:len(start)/2] + "~", "#" + strings.Repeat("A", 20000)} {
		d.Text["notice"] = ""
		d.Send(2000, doc.Address, "", bad)
		if p.Scheme().Code() != start || d.Text["notice"] == "" {
			t.Errorf("%.20s: notice %q, scheme %s", bad, d.Text["notice"], p.Scheme().Code())
		}
	}
	d.Send(2000, doc.Set, "ruff.sets", "48")
	d.Send(2000, doc.Do, "share", "")
	if d.Fragment == "" || d.Clip != d.Fragment {
		t.Fatalf("copied %q, address %q", d.Clip, d.Fragment)
	}
	link := d.Clip
	d.Send(2000, doc.Do, "undo", "")
	d.Send(2000, doc.Address, "", link)
	if p.Scheme().Ruff.Sets != 48 || d.Text["notice"] != "" {
		t.Errorf("the link gives %d sets, notice %q", p.Scheme().Ruff.Sets, d.Text["notice"])
	}
	d.Send(2000, doc.Do, "undo", "")
	if p.Scheme().Ruff.Sets != 40 {
		t.Errorf("opening the link cannot be undone: %d sets", p.Scheme().Ruff.Sets)
	}
	for _, inner := range []string{"", "#", "#to-form", "#to-numbers"} {
		d.Send(2000, doc.Address, "", inner)
		if d.Text["notice"] != "" {
			t.Errorf("%q is a place in the page, and says %q", inner, d.Text["notice"])
		}
	}
}

// TestPanic: a fault in one event is told, not swallowed.
func TestPanic(t *testing.T) {
	d := Open()
	d.Listen(func(doc.Event) []doc.Patch { panic("a fault") })
	d.Send(0, doc.Begin, "", "")
	if !strings.Contains(d.Failure, "a fault") {
		t.Errorf("failure %q", d.Failure)
	}
}
