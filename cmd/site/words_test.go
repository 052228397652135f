package site

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"ruffwright/geom/word"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
)

// longSite is the built site in the language of the tests: the same programs, the
// page's source filled with other words.
func longSite(t *testing.T) string {
	t.Helper()
	from, to := siteDir(t), t.TempDir()
	m, err := ReadManifest(from)
	if err != nil {
		t.Fatal(err)
	}
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	source, err := os.ReadFile(filepath.Join(root, "index.html"))
	if err != nil {
		t.Fatal(err)
	}
	say.Speak(word.Long.Tag)
	defer say.Speak("en")
	start, err := page.Start()
	if err != nil {
		t.Fatal(err)
	}
	text, err := assemble(source, start, m.Files)
	if err != nil {
		t.Fatal(err)
	}
	for name := range m.Sizes {
		if name == m.Files["page"] {
			continue
		}
		if err := os.Symlink(filepath.Join(from, name), filepath.Join(to, name)); err != nil {
			t.Fatal(err)
		}
	}
	m.Sizes[m.Files["page"]] = len(text)
	list, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string][]byte{m.Files["page"]: text, manifestName: list} {
		if err := os.WriteFile(filepath.Join(to, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return to
}

// plain finds the texts and names that have a plain vowel: they bypass the table
// of words. What is not to be translated says so (translate=no, code).
const plain = `(() => {
	const out = new Set(), vowel = {test: (s) => /[aeiouy]/i.test(s.replace(/\bA\b|“0 trough[^”]*”/g, ""))}, // A is a name, as B; marks are typed so
		 kept = (e) => e.closest("code, pre, noscript, script, [translate=no]");
	const walk = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT);
	for (let n; (n = walk.nextNode());) if (vowel.test(n.data) && !kept(n.parentElement) && n.parentElement.tagName !== "TITLE") out.add(n.data.trim());
	for (const e of document.querySelectorAll("*")) for (const name of ["aria-label", "title", "alt", "placeholder", "aria-roledescription", "aria-valuetext"])
		if (vowel.test(e.getAttribute(name) || "") && !kept(e)) out.add(name + " " + e.getAttribute(name));
	return [...out];
})()`

// cut finds what is too narrow for its text: letters outside their control, and a
// choice that its list does not show whole.
const cut = `(() => {
	const out = [], pen = document.createElement("canvas").getContext("2d");
	const tell = (e, why) => out.push(why + ": " + e.tagName + "#" + e.id + " " + e.textContent.trim().slice(0, 40));
	for (const e of document.querySelectorAll("button, summary, legend, label, h1, h2, h3, th, td, a, p, li")) {
		if (!e.checkVisibility() || e.closest(".hidden, .skips") || !e.textContent.trim()) continue;
		const s = getComputedStyle(e);
		if (s.display !== "inline" && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 3 && s.overflowY !== "visible")) tell(e, e.scrollWidth + " in " + e.clientWidth + " px");
		if (e.matches("button, summary, legend, label, h2, h3, th, td") && !e.children.length && s.display !== "inline") {
			pen.font = s.font;
			const widest = Math.max(...e.textContent.split(/[\s-]+/).map((w) => pen.measureText(w).width));
			if (widest > e.clientWidth - parseFloat(s.paddingLeft) - parseFloat(s.paddingRight) + 1) tell(e, "a word is broken");
		}
		const box = e.getBoundingClientRect();
		if (box.left < -1 || box.right > document.documentElement.clientWidth + 1) tell(e, "beyond the page");
	}
	for (const e of document.querySelectorAll("select")) {
		if (!e.checkVisibility()) continue;
		const s = getComputedStyle(e);
		pen.font = s.font;
		const need = pen.measureText(e.selectedOptions[0].text).width, room = e.clientWidth - parseFloat(s.paddingLeft) - parseFloat(s.paddingRight) - 16;
		if (need > room) out.push("a choice of " + Math.round(need) + " in " + Math.round(room) + " px: " + e.id + " " + e.selectedOptions[0].text);
	}
	return out;
})()`

// TestLongWords: in a language two fifths longer than English nothing scrolls
// sideways, nothing is cut and everything can be hit, at 320 px and on a desktop, in every state; and no
// text in any state bypasses the table of words.
func TestLongWords(t *testing.T) {
	t.Parallel()
	b := open(t, serve(t, longSite(t), nil), screen{width: 1280, height: 800}).ready()
	if lang := eval[string](b, "document.documentElement.lang"); lang != word.Long.Tag {
		t.Fatalf("the page is in %q", lang)
	}
	seen := map[string]bool{}
	for _, state := range states {
		state.reach(b)
		for _, text := range eval[[]string](b, plain) {
			if !seen[text] {
				t.Errorf("%s: not from the table of words: %.80s", state.name, text)
			}
			seen[text] = true
		}
		for _, s := range []screen{{width: 320, height: 568, touch: true}, {width: 1280, height: 800}} {
			b.resize(s)
			b.frames()
			if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
				t.Errorf("%s, %d px: %d px too wide", state.name, s.width, over)
			}
			b.hittable(s)
			for _, what := range eval[[]string](b, cut) {
				if !seen[what] {
					t.Errorf("%s, %d px: cut: %s", state.name, s.width, what)
				}
				seen[what] = true
			}
			b.run(fmt.Sprintf("document.querySelector(%q).scrollIntoView()", state.within))
			b.picture(fmt.Sprintf("long-%s-%d", strings.ReplaceAll(state.name, " ", "-"), s.width), false)
		}
	}
	b.run(`document.getElementById("copy").textContent = "Copy"; document.getElementById("copy").style.cssText = "width: 3px; min-width: 0"`)
	if p, c := eval[[]string](b, plain), eval[[]string](b, cut); len(p) == 0 || len(c) == 0 {
		t.Errorf("plain words and a narrow button are not seen: %q, %q", p, c)
	}
	b.clean()
}
