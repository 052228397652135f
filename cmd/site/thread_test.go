package site

import (
	"regexp"
	"strings"
	"testing"
)

// TestThread is the page's first use: load, enter a neck and 42 sets, read the
// finding about quarters, apply its remedy, see number and picture change; cut
// the strip short and read by how many sets. On the site, and on the page that is
// one file, opened from the disk.
func TestThread(t *testing.T) {
	for _, s := range []struct {
		name string
		home func(*testing.T) string
		screen
	}{
		{"desktop", site, screen{width: 1280, height: 800}},
		{"phone", easy, screen{width: 390, height: 844, ratio: 2, touch: true}},
		{"file", func(t *testing.T) string { return single(t) + untucked(t) }, screen{width: 1000, height: 600}},
	} {
		t.Run(s.name, func(t *testing.T) {
			b := open(t, s.home(t), s.screen).ready()
			b.settle()
			first := b.pixels()
			b.enter("wearer.girth", "372")
			b.enter("ruff.sets", "42")
			b.settle()
			if got := eval[string](b, `document.getElementById("numbers").textContent`); !strings.Contains(got, "42") || !strings.Contains(got, "392 mm") {
				t.Errorf("the numbers do not show 42 sets on a neckline of 392 mm:\n%s", got)
			}
			b.await(`document.querySelector("#finding-quarters")`)
			if got := b.text("#finding-quarters"); !strings.Contains(got, "Note") || !strings.Contains(got, "42") {
				t.Errorf("the finding about quarters says %q", got)
			}
			with42 := b.pixels()
			if differ(first, with42) < 0.01 {
				t.Error("the picture did not change with the neck and the sets")
			}
			b.picture("thread-"+s.name+"-quarters", false)
			b.click("#finding-quarters .apply")
			b.await(`["40", "44"].includes(document.querySelector("#f-ruff-sets").value)`)
			b.settle()
			if differ(with42, b.pixels()) < 0.01 {
				t.Error("the picture did not change with the remedy")
			}
			b.click("#undo")
			b.await(`document.querySelector("#f-ruff-sets").value === "42"`)
			b.enter("strip.have", "3000")
			b.await(`document.querySelector("#finding-strip-short")`)
			if got := b.text("#finding-strip-short"); !strings.Contains(got, "Stop") || !regexp.MustCompile(`\d+(\.\d+)? sets`).MatchString(got) {
				t.Errorf("the finding about the short strip says %q", got)
			}
			b.click("#hand-strip-short")
			b.await(`document.querySelector("#hand-strip-short").getAttribute("aria-pressed") === "true"`)
			b.picture("thread-"+s.name+"-short", false)
			b.clean()
		})
	}
}
