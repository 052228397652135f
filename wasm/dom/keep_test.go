//go:build !js

package dom

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page"
)

const workKey = "ruffwright.work"

// visit is a page on a device: its storage, and the address's fragment.
func visit(t *testing.T, name string, storage *Storage, fragment string) (*Document, *page.Page) {
	t.Helper()
	p, err := page.New()
	if err != nil {
		t.Fatal(err)
	}
	d := Open()
	d.Listen(p.Handle)
	d.Begin(name, storage, fragment)
	if d.Failure != "" {
		t.Fatal(d.Failure)
	}
	return d, p
}

// saved is the document that stands in the storage.
func saved(t *testing.T, s *Storage, key string) scheme.Scheme {
	t.Helper()
	var w struct{ Scheme string }
	if err := json.Unmarshal([]byte(s.Texts[key]), &w); err != nil {
		t.Fatalf("%s holds %q: %v", key, s.Texts[key], err)
	}
	out, err := scheme.Parse([]byte(w.Scheme))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// aside are the numbers of sets of what stands aside.
func aside(t *testing.T, s *Storage) string {
	t.Helper()
	var sets []string
	for key := range s.Texts {
		if strings.HasPrefix(key, "ruffwright.aside.") && !strings.Contains(key, "unread") {
			sets = append(sets, fmt.Sprint(saved(t, s, key).Ruff.Sets))
		}
	}
	return strings.Join(sets, " ")
}

// state is how it stands with saving; the document begins with none.
func state(d *Document) string { return cmp.Or(d.Attr["kept"]["data-state"], "none") }

// buttons are the commands on offer.
func buttons(d *Document) string {
	var all []string
	for _, n := range d.Children["offers"] {
		all = append(all, n.Attr["data-do"])
	}
	return strings.Join(all, " ")
}

// TestSavedAndRestored: every change is saved and read back; the next visit
// begins with it and says so; starting afresh is one click that can be undone,
// and what was there stands aside.
func TestSavedAndRestored(t *testing.T) {
	device := &Storage{}
	d, _ := visit(t, "a", device, "")
	if len(device.Texts) != 0 || state(d) != "none" {
		t.Fatalf("before any change: %v, %s", device.Texts, d.Text["kept"])
	}
	for _, typed := range []string{"4", "44", "448"} { // 4 and 448 cannot be used
		d.Send(100, doc.Typing, "ruff.sets", typed)
	}
	if got := saved(t, device, workKey).Ruff.Sets; got != 44 || state(d) != "old" {
		t.Fatalf("while it is typed: %d sets, %s: %s", got, state(d), d.Text["kept"])
	}
	d.Send(100, doc.Set, "ruff.sets", "48")
	d.Send(100, doc.Do, "units", "in")
	d.Close()

	d, p := visit(t, "b", device, "")
	if p.Scheme().Ruff.Sets != 48 || d.Control["f-ruff-sets"] != "48" || d.Attr["units-in"]["aria-pressed"] != "true" {
		t.Fatalf("the next visit begins with %s sets", d.Control["f-ruff-sets"])
	}
	if got := d.Text["news"]; !strings.Contains(got, "48 sets") || buttons(d) != "fresh" || state(d) != "saved" || !strings.Contains(d.Text["said"], "last time") {
		t.Errorf("it says %q, offers %s, %s", got, buttons(d), state(d))
	}
	d.Send(2000, doc.Do, "fresh", "")
	if p.Scheme().Ruff.Sets != 40 || d.Text["news"] != "" || aside(t, device) != "48" || saved(t, device, workKey).Ruff.Sets != 40 {
		t.Errorf("afresh: %d sets, %q, aside %q", p.Scheme().Ruff.Sets, d.Text["news"], aside(t, device))
	}
	d.Send(100, doc.Do, "undo", "")
	if p.Scheme().Ruff.Sets != 48 || saved(t, device, workKey).Ruff.Sets != 48 || aside(t, device) != "" {
		t.Errorf("undone: %d sets, aside %q", p.Scheme().Ruff.Sets, aside(t, device))
	}
	d.Close()
	if _, p = visit(t, "c", device, ""); p.Scheme().Ruff.Sets != 48 {
		t.Errorf("the third visit begins with %d sets", p.Scheme().Ruff.Sets)
	}
}

// TestSavedPair: what is compared is saved with it, and there again.
func TestSavedPair(t *testing.T) {
	device := &Storage{}
	d, p := visit(t, "a", device, "")
	d.Send(100, doc.Do, "twin", "")
	d.Send(100, doc.Set, "ruff.sets", "48")
	words := d.Words("compare")
	d.Close()
	d, again := visit(t, "b", device, "")
	if again.Scheme().Code() != p.Scheme().Code() || words == "" || d.Words("compare") != words {
		t.Errorf("the comparison is not there again: %q", d.Words("compare"))
	}
	d.Send(100, doc.Do, "compare-stop", "")
	d.Close()
	if d, _ = visit(t, "c", device, ""); d.Words("compare") != "" {
		t.Error("what was put away is there again")
	}
}

// TestNotSaved: where nothing can be stored the page starts, says why, and goes
// on; where there is room again, the next try saves.
func TestNotSaved(t *testing.T) {
	for name, c := range map[string]struct {
		device *Storage
		says   string
		again  bool
	}{
		"denied from the start": {&Storage{Denied: "SecurityError"}, "lets this page store nothing", false},
		"no storage at all":     {nil, "lets this page store nothing", false},
		"full":                  {&Storage{Most: 100}, "full", true},
		"lies":                  {&Storage{Lies: true}, "not what was written", true},
	} {
		t.Run(name, func(t *testing.T) {
			d, p := visit(t, "a", c.device, "")
			d.Send(100, doc.Set, "ruff.sets", "48")
			d.Send(100, doc.Set, "wearer.girth", "372")
			if p.Scheme().Ruff.Sets != 48 || p.Scheme().Wearer.Girth != 372 || d.Words("numbers") == "" {
				t.Error("the page does not go on")
			}
			if got := d.Text["kept"]; state(d) != "not" || !strings.HasPrefix(got, "Not saved: ") || !strings.Contains(got, c.says) {
				t.Errorf("it says %q (%s)", got, state(d))
			}
			if _, asks := d.Attr["kept"]["data-unsaved"]; !asks {
				t.Error("leaving the page is not asked about")
			}
			d.Send(100, doc.Do, "save", "")
			if _, asks := d.Attr["kept"]["data-unsaved"]; asks {
				t.Error("leaving the page is asked about with the ruff in a file")
			}
			if strings.Contains(buttons(d), "keep-again") != c.again {
				t.Errorf("offers %q", buttons(d))
			}
			if !c.again {
				return
			}
			c.device.Most, c.device.Lies = 0, false
			d.Send(100, doc.Do, "keep-again", "")
			if state(d) != "saved" || saved(t, c.device, workKey).Wearer.Girth != 372 {
				t.Errorf("with room again: %s", d.Text["kept"])
			}
		})
	}
}

// TestUnread: what cannot be read stands aside, to the letter, before anything
// is saved over it, and can be had as a file; where it cannot be moved, nothing
// is saved.
func TestUnread(t *testing.T) {
	device := &Storage{}
	d, _ := visit(t, "a", device, "")
	d.Send(100, doc.Set, "ruff.sets", "48")
	d.Close()
	good := device.Texts[workKey]
	for name, bad := range map[string]string{
		"nonsense": "\x00ruff", "cut short": good[:len(good)/2], "altered": strings.Replace(good, "70", "71", 1),
		"newer form":    strings.Replace(good, `"ruffwright":1`, `"ruffwright":2,"more":[]`, 1),
		"another's":     `{"ruffwright":1,"scheme":"<script>"}`,
		"hostile names": strings.Replace(good, `"by":"a"`, `"by":"../../work"`, 1),
		"too long":      strings.Repeat("x", 3<<20),
	} {
		t.Run(name, func(t *testing.T) {
			device := &Storage{Texts: map[string]string{workKey: bad}}
			d, p := visit(t, "b", device, "")
			if p.Scheme().Ruff.Sets != 40 || !strings.Contains(d.Text["news"], "cannot be read") || name == "newer form" && !strings.Contains(d.Text["news"], "newer ruffwright") {
				t.Fatalf("begins with %d sets and says %q", p.Scheme().Ruff.Sets, d.Text["news"])
			}
			if device.Texts[workKey] != bad {
				t.Error("it was written over without a change")
			}
			d.Send(100, doc.Set, "ruff.sets", "52")
			if saved(t, device, workKey).Ruff.Sets != 52 || len(device.Texts) != 2 {
				t.Errorf("then %d texts", len(device.Texts))
			}
			found := d.Children["offers"][0].Attr["data-with"]
			if device.Texts[found] != bad {
				t.Errorf("aside stands %.40q", device.Texts[found])
			}
			d.Send(100, doc.Do, "aside-save", found)
			if _, text := file(t, d); string(text) != bad {
				t.Errorf("the file holds %.40q", text)
			}
			d.Send(100, doc.Do, "unread-leave", "")
			d.Send(100, doc.Do, "aside-drop", found)
			if device.Texts[found] != bad {
				t.Fatal("one click throws it away")
			}
			d.Send(100, doc.Do, "aside-drop", found)
			if device.Texts[found] != "" || d.Text["news"] != "" {
				t.Errorf("it is not thrown away, or still told of: %q", d.Text["news"])
			}
		})
	}
	full := &Storage{Texts: map[string]string{workKey: "nonsense"}, Most: 10}
	d, _ = visit(t, "b", full, "")
	d.Send(100, doc.Set, "ruff.sets", "52")
	if full.Texts[workKey] != "nonsense" || state(d) != "not" || !strings.Contains(d.Text["news"], "stays where it is") {
		t.Errorf("what cannot be moved: %v, %q, %q", full.Texts, d.Text["kept"], d.Text["news"])
	}
}

// TestTwoTabs: the second tab's change is told in the first, neither ruff is
// lost, and either way of deciding leads to one that both know.
func TestTwoTabs(t *testing.T) {
	for _, keeps := range []bool{true, false} {
		device := &Storage{}
		a, pa := visit(t, "a", device, "")
		a.Send(100, doc.Set, "ruff.sets", "44")
		b, pb := visit(t, "b", device, "")
		if pb.Scheme().Ruff.Sets != 44 || a.Text["news"] != "" {
			t.Fatalf("the second tab begins with %d sets, the first says %q", pb.Scheme().Ruff.Sets, a.Text["news"])
		}
		b.Send(100, doc.Set, "ruff.sets", "48")
		if got := a.Text["news"]; !strings.Contains(got, "48 sets") || buttons(a) != "other-take other-leave" || pa.Scheme().Ruff.Sets != 44 {
			t.Fatalf("the first tab says %q, offers %s", got, buttons(a))
		}
		if aside(t, device) != "44" {
			t.Errorf("the first tab's ruff does not stand aside: %q", aside(t, device))
		}
		a.Send(100, doc.Set, "ruff.sets", "52") // undecided, and goes on
		if saved(t, device, workKey).Ruff.Sets != 48 || aside(t, device) != "52" || state(a) != "beside" {
			t.Errorf("undecided: %d saved, aside %q, %s", saved(t, device, workKey).Ruff.Sets, aside(t, device), state(a))
		}
		if keeps {
			a.Send(100, doc.Do, "other-leave", "")
			if saved(t, device, workKey).Ruff.Sets != 52 || aside(t, device) != "48" || state(a) != "saved" || !strings.Contains(b.Text["news"], "52 sets") {
				t.Errorf("kept: %d saved, aside %q, the second says %q", saved(t, device, workKey).Ruff.Sets, aside(t, device), b.Text["news"])
			}
			b.Send(100, doc.Do, "other-take", "")
			if pb.Scheme().Ruff.Sets != 52 || state(b) != "saved" || b.Text["news"] != "" {
				t.Errorf("the second tab takes it: %d sets, %s, %q", pb.Scheme().Ruff.Sets, state(b), b.Text["news"])
			}
			continue
		}
		a.Send(100, doc.Do, "other-take", "")
		if pa.Scheme().Ruff.Sets != 48 || state(a) != "saved" || a.Text["news"] != "" || aside(t, device) != "52" {
			t.Errorf("taken: %d sets, %s, aside %q", pa.Scheme().Ruff.Sets, state(a), aside(t, device))
		}
		a.Send(100, doc.Do, "undo", "") // it is a step as others are
		if pa.Scheme().Ruff.Sets != 52 || saved(t, device, workKey).Ruff.Sets != 52 || !strings.Contains(b.Text["news"], "52 sets") {
			t.Errorf("undone: %d sets, %d saved", pa.Scheme().Ruff.Sets, saved(t, device, workKey).Ruff.Sets)
		}
	}
}

// TestUnheard: a tab that missed the other's change (a sleeping tab may) does
// not write over it either.
func TestUnheard(t *testing.T) {
	device := &Storage{}
	a, _ := visit(t, "a", device, "")
	a.Send(100, doc.Set, "ruff.sets", "44")
	a.Close()
	b, _ := visit(t, "b", device, "")
	b.Send(100, doc.Set, "ruff.sets", "48")
	a.Send(100, doc.Set, "ruff.sets", "52")
	if saved(t, device, workKey).Ruff.Sets != 48 || !strings.Contains(a.Text["news"], "48 sets") || aside(t, device) != "52" {
		t.Errorf("%d saved, aside %q, %q", saved(t, device, workKey).Ruff.Sets, aside(t, device), a.Text["news"])
	}
	device.Texts = map[string]string{}
	a.Send(100, doc.Elsewhere, "", "")
	if state(a) != "not" || !strings.Contains(a.Text["kept"], "taken away") {
		t.Errorf("emptied: %s", a.Text["kept"])
	}
	a.Send(100, doc.Set, "ruff.sets", "56")
	if saved(t, device, workKey).Ruff.Sets != 56 || state(a) != "saved" {
		t.Errorf("after it was emptied: %s", a.Text["kept"])
	}
}

// TestLinkKeepsWork: a link's ruff is shown and not saved; one click leads back;
// once it is changed it is saved, and the work before it stands aside.
func TestLinkKeepsWork(t *testing.T) {
	link := func(sets int) string {
		s := scheme.Default()
		s.Ruff.Sets = sets
		return "#" + s.Code()
	}
	device := &Storage{}
	d, _ := visit(t, "a", device, "")
	d.Send(100, doc.Set, "ruff.sets", "44")
	d.Close()
	work := device.Texts[workKey]

	d, p := visit(t, "b", device, link(60))
	if p.Scheme().Ruff.Sets != 60 || device.Texts[workKey] != work || !strings.Contains(d.Text["news"], "44 sets") || buttons(d) != "own-back link-take" {
		t.Fatalf("the link: %d sets, %q, offers %s", p.Scheme().Ruff.Sets, d.Text["news"], buttons(d))
	}
	d.Send(100, doc.Do, "own-back", "")
	if p.Scheme().Ruff.Sets != 44 || d.Text["news"] != "" || d.Fragment != "" || device.Texts[workKey] != work || state(d) != "saved" {
		t.Errorf("back: %d sets, %q, address %q, %s", p.Scheme().Ruff.Sets, d.Text["news"], d.Fragment, state(d))
	}
	d.Send(100, doc.Do, "undo", "")
	if p.Scheme().Ruff.Sets != 60 || device.Texts[workKey] != work {
		t.Errorf("undone, the link's ruff is saved")
	}
	d.Send(100, doc.Address, "", link(64))
	d.Send(100, doc.Do, "own-back", "")
	if p.Scheme().Ruff.Sets != 44 {
		t.Errorf("back from a second link: %d sets", p.Scheme().Ruff.Sets)
	}
	d.Send(100, doc.Address, "", link(64))
	d.Send(100, doc.Set, "ruff.sets", "68")
	if saved(t, device, workKey).Ruff.Sets != 68 || aside(t, device) != "44" || d.Text["news"] != "" {
		t.Errorf("changed: %d saved, aside %q, %q", saved(t, device, workKey).Ruff.Sets, aside(t, device), d.Text["news"])
	}
	key := d.Children["asides-list"][0].Nodes[1].Nodes[0].Attr["data-with"]
	d.Send(100, doc.Do, "aside-take", key)
	if p.Scheme().Ruff.Sets != 44 || saved(t, device, workKey).Ruff.Sets != 44 || aside(t, device) != "68" {
		t.Errorf("taken up again: %d sets, aside %q", p.Scheme().Ruff.Sets, aside(t, device))
	}
	d.Send(100, doc.Address, "", link(72))
	d.Send(100, doc.Do, "link-take", "")
	if saved(t, device, workKey).Ruff.Sets != 72 || state(d) != "saved" {
		t.Errorf("made the reader's: %d saved, %s", saved(t, device, workKey).Ruff.Sets, state(d))
	}
	// A lesson is a guest as well, and is there again with its ruff once it was
	// worked on.
	d.Send(100, doc.Do, "lesson", "top-only")
	if saved(t, device, workKey).Ruff.Sets != 72 {
		t.Error("opening a lesson saves it")
	}
	d.Send(100, doc.Set, "wearer.girth", "377")
	d.Close()
	d, p = visit(t, "c", device, "")
	if _, hidden := d.Attr["lesson"]["hidden"]; hidden || p.Scheme().Wearer.Girth != 377 {
		t.Errorf("the lesson is not there again: girth %g", p.Scheme().Wearer.Girth)
	}
}

// TestAsideFew: what stands aside does not grow without end.
func TestAsideFew(t *testing.T) {
	device := &Storage{}
	d, _ := visit(t, "a", device, "")
	for i := range 14 {
		d.Send(100, doc.Do, "fresh", "")
		d.Send(100, doc.Set, "ruff.sets", fmt.Sprint(44+4*i))
	}
	if n := len(device.Texts); n != 1+8 {
		t.Errorf("%d texts stand in the storage, want the work and 8 aside", n)
	}
	if got := aside(t, device); strings.Contains(got, "44 ") || !strings.Contains(got, "92") {
		t.Errorf("aside are the ruffs of %s sets", got)
	}
	if d.Text["asides-label"] != "Set aside on this device: 8" {
		t.Errorf("it says %q", d.Text["asides-label"])
	}
}
