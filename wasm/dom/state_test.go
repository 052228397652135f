//go:build !js

package dom

import (
	"cmp"
	"strings"
	"testing"

	"ruffwright/wasm/doc"
)

// standing is what the page's one state is, and the banner beside the verdict.
func standing(d *Document) (kind, banner string) {
	return cmp.Or(d.Attr["state"]["data-state"], "solving"), d.Words("state") // as the page is built
}

// TestLastGood: an entry that cannot be used is told wherever the last good ruff
// is shown in its place: banner, verdict, picture, numbers, findings, what is
// saved, the closed part of the form; and Save and Link ask before they give the
// last good ruff away.
func TestLastGood(t *testing.T) {
	device := &Storage{}
	d, p := visit(t, "a", device, "")
	d.Send(2000, doc.Set, "ruff.sets", "44")
	if kind, banner := standing(d); kind != "solving" || banner != "" || state(d) != "saved" {
		t.Fatalf("as typed: %s %q, %s", kind, banner, d.Text["kept"])
	}
	d.Send(2000, doc.Typing, "wearer.girth", "15")
	if kind, _ := standing(d); kind != "typing" || !strings.Contains(d.Text["verdict"], "Girth 395 mm: “15” cannot be used") || d.Attr["stage"]["data-old"] == "" {
		t.Errorf("while it is typed: %s, %s", kind, d.Text["verdict"])
	}
	d.Send(2000, doc.Set, "wearer.girth", "120")
	d.Send(2000, doc.Set, "wearer.ratio", "9")
	kind, banner := standing(d)
	for _, want := range []string{"last good ruff", "Girth: 120 mm is too small; allowed: 130 to 560 mm.", "Breadth ÷ depth: 9 is too large", "Go to: Girth"} {
		if kind != "last" || !strings.Contains(banner, want) {
			t.Errorf("%s: the banner %q lacks %q", kind, banner, want)
		}
	}
	if !strings.HasPrefix(d.Text["verdict"], "Of the last good ruff, not of what is typed: ") {
		t.Errorf("verdict: %s", d.Text["verdict"])
	}
	for panel, line := range map[string]string{"to-numbers": "numbers-of", "to-findings": "findings-of"} {
		if d.Attr[panel]["data-old"] == "" || !strings.Contains(d.Text[line], "Girth 395 mm; Breadth ÷ depth 1;") {
			t.Errorf("%s: old %q, says %q", panel, d.Attr[panel]["data-old"], d.Text[line])
		}
	}
	if d.Attr["stage"]["data-old"] == "" || d.Text["stage-of"] == "" {
		t.Errorf("the picture is not marked: %q", d.Text["stage-of"])
	}
	if state(d) != "old" || strings.Contains(d.Text["kept"], "Saved on this device") {
		t.Errorf("kept: %s %s", state(d), d.Text["kept"])
	}
	if got := d.Text["told-wearer"]; got != "✕ one entry in it cannot be used" {
		t.Errorf("the closed part of the form says %q", got)
	}

	d.Send(2000, doc.Do, "save", "")
	if len(d.Saved) != 0 || buttons(d) != "save-last goto" || d.Focus != "save-last" || !strings.Contains(d.Text["news"], "Girth: 120 mm") {
		t.Errorf("Save: %d files, offers %q, focus %q, %s", len(d.Saved), buttons(d), d.Focus, d.Text["news"])
	}
	d.Send(2000, doc.Do, "share", "")
	if d.Clip != "" || d.Fragment != "" || buttons(d) != "share-last goto" {
		t.Errorf("Link: %q, offers %q", d.Clip, buttons(d))
	}
	d.Send(2000, doc.Do, "goto", "wearer.girth")
	if d.Focus != "f-wearer-girth" || strings.Contains(buttons(d), "last") {
		t.Errorf("focus %q, still asks %q", d.Focus, buttons(d))
	}
	d.Send(2000, doc.Do, "share", "")
	d.Send(2000, doc.Do, "share-last", "")
	d.Send(2000, doc.Do, "save", "")
	d.Send(2000, doc.Do, "save-last", "")
	if d.Clip != "#"+p.Scheme().Code() || len(d.Saved) != 1 || !strings.Contains(d.Text["said"], "the last good ruff, not what is typed") {
		t.Errorf("after Yes: %q, %d files, says %q", d.Clip, len(d.Saved), d.Text["said"])
	}
	d.Send(2000, doc.Do, "copy", "")
	if !strings.Contains(strings.Join(strings.SplitN(d.Clip, "\n", 3)[:2], ""), "Of the last good ruff") {
		t.Errorf("the numbers as text do not say whose they are: %.120s", d.Clip)
	}

	d.Send(2000, doc.Set, "wearer.ratio", "1")
	d.Send(2000, doc.Set, "wearer.girth", "395")
	if kind, banner := standing(d); kind == "last" || banner != "" || d.Text["numbers-of"] != "" || d.Attr["stage"]["data-old"] != "" || state(d) != "saved" {
		t.Errorf("mended, but %s %q, %q, %s", kind, banner, d.Text["numbers-of"], d.Text["kept"])
	}
	d.Send(2000, doc.Do, "save", "")
	if len(d.Saved) != 2 {
		t.Error("a good ruff is not saved at once")
	}
}

// TestCannotBeSolved: where the half set has no mechanics, state and verdict say
// so, in labels and not in keys, and nothing says that nothing stops it.
func TestCannotBeSolved(t *testing.T) {
	k := seated(t)
	for key, v := range map[string]string{"ruff.depth": "14", "ruff.height": "40", "band.height": "20", "pleat.tuck_top": "12", "pleat.tuck_bottom": "12"} {
		k.send(2000, doc.Set, key, v)
	}
	k.until(func() bool { kind, _ := standing(k.Document); return kind == "cannot" })
	_, banner := standing(k.Document)
	if !strings.HasPrefix(strings.TrimSpace(banner), "✕ How this cloth hangs cannot be solved.") || len(banner) < 60 {
		t.Errorf("the banner says %q", banner)
	}
	for _, at := range []string{"verdict", "solving"} {
		if strings.Contains(k.Text[at], "nothing stops") || strings.Contains(k.Text[at], "This ruff will stand") {
			t.Errorf("%s: %s", at, k.Text[at])
		}
	}
	for _, text := range []string{banner, k.Text["solving"], k.Text["verdict"], k.Words("findings")} {
		for _, key := range []string{"pleat.", "ruff.", "band."} {
			if strings.Contains(text, key+"p") || strings.Contains(text, key+"d") || strings.Contains(text, key+"h") || strings.Contains(text, key+"t") {
				t.Errorf("a key reaches a person: %s", text)
			}
		}
	}
}

// TestLaterWord: a depth typed after a picture's ratio counts, and the ratio is
// put aside, as one step; a ratio typed after a depth shows what follows, at the
// depth itself.
func TestLaterWord(t *testing.T) {
	d, p := opened(t)
	d.Send(2000, doc.Set, "wearer.face", "118")
	d.Send(2000, doc.Set, "look.depth_ratio", "0.55")
	if d.Control["f-ruff-depth"] != "64.9" || !strings.Contains(d.Text["f-ruff-depth-decided"], "“Depth ÷ face” times the wearer’s face height") {
		t.Errorf("the field shows %q and says %q", d.Control["f-ruff-depth"], d.Text["f-ruff-depth-decided"])
	}
	if !strings.Contains(d.Text["said"], "Depth 70 counts no longer: Depth ÷ face decides now, 64.9.") {
		t.Errorf("says %q", d.Text["said"])
	}
	for _, typed := range []string{"9", "95"} {
		d.Send(2000, doc.Typing, "ruff.depth", typed)
	}
	d.Send(2000, doc.Set, "ruff.depth", "95")
	if s := p.Scheme().Looked(); s.Ruff.Depth != 95 || s.Look.DepthRatio != 0 || d.Control["f-look-depth_ratio"] != "0" {
		t.Errorf("depth %g, ratio %g, the form shows %q", s.Ruff.Depth, s.Look.DepthRatio, d.Control["f-look-depth_ratio"])
	}
	if got := d.Text["f-ruff-depth-decided"]; got != "Yours counts now: Depth ÷ face 0.55 is put aside." {
		t.Errorf("at the depth: %q", got)
	}
	d.Send(2000, doc.Do, "undo", "")
	if s := p.Scheme(); s.Looked().Ruff.Depth < 64.89 || s.Looked().Ruff.Depth > 64.91 || s.Look.DepthRatio != 0.55 || d.Control["f-ruff-depth"] != "64.9" {
		t.Errorf("undone: depth %g, ratio %g", s.Looked().Ruff.Depth, s.Look.DepthRatio)
	}
	for range 3 { // leaving the field untouched changes nothing
		d.Send(2000, doc.Set, "ruff.depth", d.Control["f-ruff-depth"])
	}
	if p.Scheme().Look.DepthRatio != 0.55 {
		t.Error("a field that was left untouched put the ratio aside")
	}
}

// TestShowWhere: the button brings the drawing into view and turns the ruff until
// the finding's own mark faces the reader; a view that does not show the place
// gives way to one that does.
func TestShowWhere(t *testing.T) {
	d, _ := opened(t)
	d.Send(2000, doc.Set, "hand.drift", "3")
	d.Send(2000, doc.Set, "ruff.sets", "42")
	turned := func(finding string) string {
		d.Send(2000, doc.Do, "hand", finding)
		said := d.Shown
		d.Shown = ""
		d.Send(2000, doc.Key, "ArrowUp", "") // says how the ruff is held
		d.Send(2000, doc.Do, "hand", finding)
		if said != "stage" {
			t.Errorf("%s: scrolled to %q", finding, said)
		}
		return d.Text["said"]
	}
	drift, quarters := turned("drift"), turned("quarters")
	if !strings.HasPrefix(drift, "Turned ") || !strings.HasPrefix(quarters, "Turned ") || drift == quarters {
		t.Errorf("at the strip's end: %q; at its first quarter: %q", drift, quarters)
	}
	d.Send(2000, doc.Do, "view", "set")
	d.Send(2000, doc.Set, "strip.have", "2000")
	d.Send(2000, doc.Do, "hand", "strip-short")
	if d.Attr["view-flat"]["aria-pressed"] != "true" {
		t.Error("one set still stands for the whole strip")
	}
}
