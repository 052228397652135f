package site

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	cdpbrowser "github.com/chromedp/cdproto/browser"
	"github.com/chromedp/chromedp"
)

// kept is the line that says whether the ruff is saved.
const kept = `document.getElementById("kept").textContent`

// quick is a screen for tests of what is neither drawn nor solved; desk and hand are those
// that most pages are looked at on.
var (
	quick = screen{width: 640, height: 480, unsolved: true}
	desk  = screen{width: 1366, height: 768}
	hand  = screen{width: 390, height: 844, touch: true}
)

// TestReload: what was decided is there again after the page is loaded again,
// and in a second tab; a change in the second is told in the first, which can
// take it; Ctrl and Z leads back outside the fields. Once a link's ruff is
// changed its code leaves the address, so that the next load brings back the
// change.
func TestReload(t *testing.T) {
	t.Parallel()
	a := open(t, site(t), quick).drawn()
	a.enter("ruff.sets", "48")
	a.await(kept + ` === "Saved on this device."`)
	a.do(chromedp.Reload())
	a.drawn()
	a.await(`document.querySelector("#f-ruff-sets").value === "48" && document.getElementById("news").textContent.includes("48 sets")`)
	a.picture("kept-restored", false)

	second := quick
	second.kept = true
	b := open(t, site(t), second).drawn()
	b.await(`document.querySelector("#f-ruff-sets").value === "48"`)
	b.enter("ruff.sets", "52")
	a.await(`document.getElementById("news").textContent.includes("52 sets")`)
	a.picture("kept-two-tabs", false)
	a.click("#other-take")
	a.await(`document.querySelector("#f-ruff-sets").value === "52" && ` + kept + ` === "Saved on this device."`)
	a.do(chromedp.Evaluate[chromedp.Void](`document.getElementById("save").focus()`))
	a.press("z", chromedp.KeyModifiers(chromedp.ModifierCtrl))
	a.await(`document.querySelector("#f-ruff-sets").value === "48"`)
	b.await(`document.getElementById("news").textContent.includes("48 sets")`)
	a.press("Z", chromedp.KeyModifiers(chromedp.ModifierCtrl|chromedp.ModifierShift))
	a.await(`document.querySelector("#f-ruff-sets").value === "52"`)
	a.press("z", chromedp.KeyModifiers(chromedp.ModifierCtrl))
	a.press("y", chromedp.KeyModifiers(chromedp.ModifierCtrl))
	a.await(`document.querySelector("#f-ruff-sets").value === "52"`)
	b.clean()

	a.click("#share")
	a.await(`location.hash.length > 4`)
	a.enter("ruff.sets", "56")
	a.await(`location.hash === ""`)
	a.do(chromedp.Reload())
	a.drawn()
	a.await(`document.querySelector("#f-ruff-sets").value === "56"`)
	a.clean()
}

// TestShadeKept: by candle, chosen on the page, holds after loading it again, and so does
// going back to the system's choice.
func TestShadeKept(t *testing.T) {
	a := open(t, site(t), quick).drawn()
	color := func() string { return eval[string](a, `getComputedStyle(document.body).backgroundColor`) }
	day := color()
	for _, c := range []struct {
		shade string
		dark  bool
	}{{"candle", true}, {"", false}} {
		a.run(`document.getElementById("shade-` + c.shade + `").click()`)
		a.do(chromedp.Reload())
		a.drawn()
		a.await(`document.getElementById("shade-` + c.shade + `").getAttribute("aria-pressed") === "true"`)
		if got := color(); (got != day) != c.dark {
			t.Errorf("%q chosen, the page loaded again is %s, by day %s", c.shade, got, day)
		}
	}
	a.clean()
}

// TestNotStored: with storage denied, and with storage full, the page starts,
// says that nothing is saved, and goes on.
func TestNotStored(t *testing.T) {
	t.Parallel()
	for name, before := range map[string]string{
		"denied": `Object.defineProperty(window, "localStorage", { get() { throw new DOMException("no", "SecurityError"); } });`,
		"full":   `Storage.prototype.setItem = () => { throw new DOMException("no", "QuotaExceededError"); };`,
	} {
		s := quick
		s.before = before
		b := open(t, site(t), s).drawn()
		b.enter("ruff.sets", "42")
		b.await(kept + `.startsWith("Not saved: ")`)
		b.await(`document.querySelector("#finding-quarters")`)
		b.picture("kept-not-"+name, false)
		b.clean()
	}
}

// TestFiles saves the ruff, opens the file, and saves it again: the same to the
// byte. A view is saved as PNG and as SVG, and the numbers are on the clipboard.
func TestFiles(t *testing.T) {
	b := open(t, site(t), quick).drawn()
	dir := t.TempDir()
	if _, err := chromedp.Call(b.ctx, cdpbrowser.SetDownloadBehavior, cdpbrowser.SetDownloadBehaviorParams{
		Behavior: cdpbrowser.SetDownloadBehaviorBehaviorAllow, DownloadPath: dir,
	}); err != nil {
		t.Fatal(err)
	}
	// arrives waits for the file that a click brings, and takes it away.
	arrives := func(click, name string) []byte {
		t.Helper()
		b.click(click)
		for deadline := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
			text, err := os.ReadFile(filepath.Join(dir, name))
			if err == nil && len(text) > 0 {
				os.Remove(filepath.Join(dir, name))
				return text
			}
			if time.Now().After(deadline) {
				there, _ := os.ReadDir(dir)
				t.Fatalf("%s brings no %s: %v; %v", click, name, err, there)
			}
		}
	}
	b.enter("name", "The Cooper’s ruff")
	b.enter("ruff.sets", "52")
	const file = "the-coopers-ruff.json"
	first := arrives("#save", file)
	from := filepath.Join(t.TempDir(), file)
	if err := os.WriteFile(from, first, 0o600); err != nil {
		t.Fatal(err)
	}
	b.enter("ruff.sets", "40")
	b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{from}))
	b.await(`document.querySelector("#f-ruff-sets").value === "52"`)
	if again := arrives("#save", file); !bytes.Equal(first, again) {
		t.Errorf("saved again it differs:\n%s\n%s", first, again)
	}
	if err := os.WriteFile(from, bytes.Replace(first, []byte("52"), []byte("5200"), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	b.do(chromedp.SetUploadFiles(chromedp.CSS("#file"), []string{from}))
	b.await(`document.getElementById("notice").textContent.includes("Sets: 5200 sets is too large") && document.querySelector("#f-ruff-sets").value === "52"`)
	b.picture("kept-bad-file", false)

	if img, err := png.Decode(bytes.NewReader(arrives("#png", "the-coopers-ruff-in-the-hand.png"))); err != nil || img.Bounds().Dx() < 1000 {
		t.Errorf("the PNG: %v", err)
	}
	b.click("#view-set")
	for read := xml.NewDecoder(bytes.NewReader(arrives("#svg", "the-coopers-ruff-one-set.svg"))); ; {
		if _, err := read.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("the SVG: %v", err)
		}
	}
	b.do(chromedp.Evaluate[chromedp.Void](`navigator.clipboard.writeText = (words) => { globalThis.clip = words; return Promise.resolve(); }`))
	b.click("#copy")
	b.await(`(globalThis.clip || "").startsWith("The Cooper’s ruff\t")`)
	b.do(chromedp.Evaluate[chromedp.Void](`navigator.clipboard.writeText = () => Promise.reject(); document.execCommand = () => false`))
	b.click("#copy")
	b.await(`document.activeElement.id === "by-hand" && document.activeElement.value === globalThis.clip`)
	b.click("#share")
	b.await(fmt.Sprintf("location.href.startsWith(%q)", b.home+"#1."))
	b.clean()
	if strings.Contains(strings.Join(b.requests, " "), ".png") {
		t.Error("the picture was asked of the server")
	}
}
