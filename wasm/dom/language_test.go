//go:build !js

package dom

import (
	"regexp"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/opening"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
)

// plainWord is a word of two letters and more with a vowel that has no accent.
var plainWord = regexp.MustCompile(`(?i)\pL+[aeiouy]\pL*|[aeiouy]\pL+`)

// bare reports words that bypass the page's language, or places that do not fit: in
// texts, in the names of elements, in the picture.
func bare(t *testing.T, state string, d *Document, p *page.Page, names ...string) {
	t.Helper()
	let := strings.NewReplacer(append(names, "go run ./cmd/ruffwright", "")...)
	look := func(at, text string) {
		if strings.Contains(text, "%!") {
			t.Errorf("%s: %s says %q", state, at, text)
		}
		if found := plainWord.FindAllString(let.Replace(text), -1); found != nil {
			t.Errorf("%s: %s says %q in no language: %.900q", state, at, found, text)
		}
	}
	spoken := func(at string, attr map[string]string) {
		for _, name := range []string{"aria-label", "aria-valuetext", "title", "alt", "placeholder"} {
			look(at+" "+name, attr[name])
		}
	}
	var walk func(at string, nodes []doc.Node)
	walk = func(at string, nodes []doc.Node) {
		for _, n := range nodes {
			if n.Attr["translate"] != "no" {
				look(at, n.Text)
				spoken(at, n.Attr)
				walk(at, n.Nodes)
			}
		}
	}
	for id, text := range d.Text {
		look(id, text)
	}
	for id, attr := range d.Attr {
		spoken(id, attr)
	}
	for id, nodes := range d.Children {
		walk(id, nodes)
	}
	picture, _, _, err := p.Look.Picture()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range picture.Labels() {
		look("the picture", l.Text)
	}
}

// TestLanguage: in a made-up language no word of the page stays English, in any of
// its states; nor does one of what the site is built with.
func TestLanguage(t *testing.T) {
	say.Speak(word.Long.Tag)
	defer say.Speak("en")
	p, err := page.New()
	if err != nil {
		t.Fatal(err)
	}
	d := Open()
	for mark, html := range p.Marks() {
		d.Text[mark] = regexp.MustCompile(`(?s)<textarea.*?</textarea>| (?:alt|title|aria-label|placeholder)="([^"]*)"|<[^>]*>`).ReplaceAllString(html, " $1 ")
	}
	for _, demo := range page.Demos() {
		d.Text["demo "+demo.Name] = demo.Title + " " + demo.Shows
	}
	bare(t, "as built", d, p, "0 trough bottom; 30.5 crest top; …", "")

	k := seated(t)
	see := func(state string, names ...string) {
		t.Helper()
		bare(t, state, k.Document, k.p, append([]string{"CalculiX", "", "(mm, cm, m, in, yd)", ""}, names...)...)
		clear(k.Text) // what is said next is said anew
	}
	k.send(10, doc.Do, "demo", "floppy")
	see("a demo")
	k.done()
	see("solved")
	for _, do := range [][2]string{{"hand", "bow"}, {"pose", "bow"}, {"colour", "droop"}, {"colour", "contact"}, {"fold", ""}, {"view", "section"}, {"view", "strip"}, {"camera", "+"}, {"units", "cm"}, {"copy", ""}, {"proof", ""}, {"twin", ""}} {
		k.send(2000, doc.Do, do[0], do[1])
		see(do[0] + " " + do[1])
	}
	k.send(2000, doc.Do, "undo", "")
	see("undone")
	k.send(2000, doc.Do, "solver", "")
	see("stopped")
	k.send(10, doc.Typing, "ruff.depth", "2 x")
	see("being typed", "2 x", "")
	k.send(10, doc.Set, "ruff.depth", "2 x")
	k.send(10, doc.Set, "strip.bolt", "9 tea")
	k.send(10, doc.Do, "save", "")
	see("entries that cannot be used", "2 x", "", "tea", "")
	k.send(10, doc.Do, "sheets", "make")
	see("no sheets of them", "2 x", "", "tea", "")
	k.send(10, doc.Do, "fresh", "")
	k.send(10, doc.Set, "pleat.panel", "3")
	k.until(func() bool { return k.state() == "none" })
	see("cannot be solved")
	k.send(10, doc.Address, "", "#"+scheme.Default().Code()[:9])
	see("a broken link")
	paint(k.Document)
	see("a portrait on the easel", "falconer.png", "")
	k.send(10, doc.Do, "easel", "take")
	see("what it tells is taken")
	k.send(10, doc.Do, "easel", "lay")
	see("the ruff over it")
	k.send(10, doc.Easel, "paint-died", "")
	see("which cannot be painted")
	k.send(10, doc.Do, "easel", "low")
	see("the low ends beside it")
	k.send(10, doc.Do, "compare-stop", "")
	k.send(10, doc.Set, "easel.turn", "x")
	k.send(10, doc.Set, "easel.at-1-0", "x")
	see("entries on the easel", "“x”", "")
	k.send(10, doc.Set, "easel.turn", "90")
	k.send(10, doc.Set, "easel.at-1-0", "700 355")
	see("out of range")
	k.send(10, doc.Easel, "chosen", "3 x.gif")
	head, _ := opening.Open([]byte("GIF"))
	k.send(10, doc.Easel, "said", head)
	see("no picture", "x.gif", "")
	k.send(10, doc.Do, "easel", "wearer")
	see("the wearer’s picture")
	k.send(10, doc.Do, "easel", "close")
	k.send(10, doc.Do, "lesson", "ends-up")
	see("a lesson")
	k.dead = true
	for range 2 {
		k.send(10, doc.Solver, "died", "")
	}
	see("the solver died")
	k.send(10, doc.Do, "sheets", "make")
	k.send(10, doc.Press, "died", "")
	see("the press died")
}
