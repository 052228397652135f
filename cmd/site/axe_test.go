package site

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha512"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"ruffwright/geom/portrait"
	"ruffwright/geom/scheme"
)

// The accessibility checker of the tests: axe-core (MPL-2.0), as npm packs it.
const (
	axeVersion = "4.14.1"
	axeSHA512  = "1477dafa598d8d065f273d6af302aa203c02e83131707b7fa648cd41bd3d6b734f8c22a0dab86ee6a6f64b8afbe804b214d36db85a2826965edfb3a0b9d546b5"
)

// axeSource is the checker's script: from the user's cache, else by npm, and only
// if it is the very package that was chosen. Without it the tests fail.
var axeSource = sync.OnceValues(func() (string, error) {
	base, err := os.UserCacheDir()
	if err != nil {
		base = os.TempDir()
	}
	base = filepath.Join(base, "ruffwright")
	kept := filepath.Join(base, "axe-core-"+axeVersion+".tgz")
	packed, err := os.ReadFile(kept)
	if err != nil || !isAxe(packed) {
		if err := os.MkdirAll(base, 0o755); err != nil {
			return "", err
		}
		fresh, err := os.MkdirTemp(base, "axe-")
		if err != nil {
			return "", err
		}
		defer os.RemoveAll(fresh)
		npm := exec.Command("npm", "pack", "--silent", "--ignore-scripts", "axe-core@"+axeVersion)
		npm.Dir = fresh
		if text, err := npm.CombinedOutput(); err != nil {
			return "", fmt.Errorf("npm, which brings the checker axe-core: %w\n%s", err, text)
		}
		at := filepath.Join(fresh, "axe-core-"+axeVersion+".tgz")
		if packed, err = os.ReadFile(at); err != nil {
			return "", err
		}
		if !isAxe(packed) {
			return "", fmt.Errorf("npm's axe-core %s is not the package that was chosen: SHA-512 %x", axeVersion, sha512.Sum512(packed))
		}
		if err := os.Rename(at, kept); err != nil {
			return "", err
		}
	}
	plain, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return "", err
	}
	for files := tar.NewReader(plain); ; {
		file, err := files.Next()
		if err != nil {
			return "", fmt.Errorf("axe-core's package: %w", err)
		}
		if file.Name == "package/axe.min.js" {
			text, err := io.ReadAll(files)
			return string(text), err
		}
	}
})

func isAxe(packed []byte) bool {
	sum := sha512.Sum512(packed)
	return hex.EncodeToString(sum[:]) == axeSHA512
}

// violation is what the checker found, and where.
type violation struct {
	ID, Impact, Help string
	Nodes            []struct {
		Target         []any
		FailureSummary string
	}
}

// axe runs the checker on what a selector finds of the page as it is: the rules
// with these tags, and of them none that looks at colours where colours are not asked for.
func (b *tab) axe(within string, colours bool, tags ...string) []violation {
	b.t.Helper()
	source, err := axeSource()
	if err != nil {
		b.t.Fatal(err)
	}
	if !eval[bool](b, "!!globalThis.axe") {
		b.do(chromedp.Evaluate[chromedp.Void](source + "\n;undefined"))
	}
	list, _ := json.Marshal(tags)
	type answer struct {
		Violations []violation
		Passes     int
	}
	a := promised[answer](b, fmt.Sprintf(`axe.run(%q, {runOnly: {type: "tag", values: %s}, rules: {"color-contrast": {enabled: %t}}, resultTypes: ["violations"]}).then((r) => ({violations: r.violations, passes: r.passes.length}))`, within, list, colours))
	if a.Passes == 0 {
		b.t.Error("the checker passed nothing at all: it is blind")
	}
	return a.Violations
}

// everyRule are the tags of WCAG 2.0 to 2.2, A and AA, and of best practice.
var everyRule = []string{"wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"}

// axeClean fails the test for each violation in what a selector finds, by day on a
// desktop and on the narrowest phone, and by candle on a desktop. What the candle
// changes is colour alone, and colours are the same at every width, so by candle
// the rules on colour are run, and on the phone all but these.
func (b *tab) axeClean(state, within string) {
	b.t.Helper()
	for _, s := range []screen{{width: 1000, height: 600}, {width: 320, height: 568, touch: true}} {
		b.resize(s)
		for _, dark := range []bool{false, true} {
			if dark && s.width == 320 {
				continue
			}
			b.media(dark, true)
			rules, light := everyRule, "day"
			if dark {
				rules, light = []string{"cat.color"}, "candle"
			}
			b.frames()
			for _, v := range b.axe(within, s.width > 320, rules...) {
				for i, n := range v.Nodes {
					if i == 4 {
						b.t.Errorf("… and %d more", len(v.Nodes)-i)
						break
					}
					b.t.Errorf("%s, %d px, %s: %s (%s): %v: %s", state, s.width, light, v.Help, v.Impact, n.Target, n.FailureSummary)
				}
			}
			b.run(fmt.Sprintf("document.querySelector(%q).scrollIntoView()", within))
			b.picture(fmt.Sprintf("axe-%s-%d-%s", strings.ReplaceAll(state, " ", "-"), s.width, light), false)
		}
	}
}

// frames waits until the browser has painted what it was told.
func (b *tab) frames() {
	b.t.Helper()
	promised[bool](b, `new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(() => done(true), 50))))`)
}

// states of the page, each reached from the one before: what is new in it, and
// how to reach it.
var states = []struct {
	name, within string
	reach        func(b *tab)
}{
	{"start, all open", "html", func(b *tab) { b.run(`document.querySelectorAll("details").forEach((d) => d.open = true)`) }},
	{"findings", ".picture, .going", func(b *tab) {
		b.run(`document.querySelectorAll("details:not(#shown)").forEach((d) => d.open = false); document.querySelector('[data-do="demo"][data-with="floppy"]').click()`)
		b.await(still)
		b.run(`document.querySelector('[data-do="hand"]').click()`)
	}},
	{"what to do", ".going", func(b *tab) {
		b.await(`document.querySelector("#advice .way .tried") && document.querySelector(".glimpse svg")`)
		b.run(`for (const id of ["other-ways", "more-findings", "more-plan", "more-hangs"]) document.getElementById(id).open = true`)
	}},
	{"what would hold", ".going", func(b *tab) {
		b.click("#hold-go")
		b.await(`document.querySelectorAll("#hold-ways li").length > 1`)
		b.run(`document.getElementById("hold-not")?.setAttribute("open", "")`)
	}},
	{"known answers", "#proof", func(b *tab) {
		b.run(`document.getElementById("proof").open = true; document.getElementById("proof-go").click()`)
		b.await(`document.querySelectorAll('#proof-rows [data-held="true"]').length > 8`)
	}},
	{"compare", "#to-compare", func(b *tab) {
		b.run(`document.getElementById("twin").click()`)
		b.await(`document.querySelector("#compare table")`)
	}},
	{"for a class", "#class, .picture", func(b *tab) {
		b.run(`document.getElementById("class-show").click()`)
		b.await(`document.body.hasAttribute("data-class")`)
	}},
	{"a portrait on the easel", "#to-easel", func(b *tab) {
		b.run(`document.getElementById("class-leave").click(); document.getElementById("easel-open").click()`)
		b.chooses("1", painted(350, 300))
		b.await(`!document.getElementById("easel-work").hidden`)
		b.resize(screen{width: 1000, height: 600})
		b.frames()
		for _, at := range []portrait.Point{{175, 82}, {175, 165}} {
			b.onPicture(350, 300, at)
		}
		b.tool("edge")
		for _, at := range edgeOf(5) {
			b.onPicture(350, 300, portrait.Point{at[0] / 4, at[1] / 4})
		}
		b.tool("depth")
		for _, at := range []portrait.Point{{175, 245}, {175, 264}} {
			b.onPicture(350, 300, at)
		}
		b.run(`for (const d of document.querySelectorAll("#to-easel details")) d.open = true; document.getElementById("easel-known").querySelector("input").scrollIntoView()`)
		b.await(`document.getElementById("easel-take")`)
	}},
	{"bad entry", "#short", func(b *tab) {
		b.run(`document.getElementById("easel-close").click()`)
		b.enter("wearer.girth", "xx")
		b.await(`document.querySelector("[aria-invalid=true]")`)
	}},
	{"last good ruff", ".picture, .going, .sums", func(b *tab) {
		b.enter("wearer.ratio", "9")
		b.run(`document.getElementById("group-wearer").open = false`)
		b.await(`document.querySelectorAll("#state li").length === 2 && document.querySelector("#group-wearer[data-refused]")`)
	}},
	{"asks at Save", "header, .news", func(b *tab) {
		b.run(`document.getElementById("save").click()`)
		b.await(`document.getElementById("save-last")`)
	}},
	{"a picture's depth", "#short", func(b *tab) {
		b.enter("wearer.ratio", "1")
		b.enter("wearer.girth", "395")
		b.enter("wearer.face", "118")
		b.enter("look.depth_ratio", "0.55")
		b.await(`document.querySelector("#f-ruff-depth-decided").textContent !== ""`)
	}},
	{"cannot be solved", ".picture, .going", func(b *tab) {
		for _, c := range [][2]string{{"look.depth_ratio", "0"}, {"ruff.depth", "14"}, {"ruff.height", "40"}, {"band.height", "20"}, {"pleat.tuck_top", "12"}, {"pleat.tuck_bottom", "12"}} {
			b.enter(c[0], c[1])
		}
		b.await(`document.getElementById("state").dataset.state === "cannot"`)
	}},
	{"broken link", "header", func(b *tab) {
		b.run(`location.hash = "#1.xx"`)
		b.await(`document.getElementById("notice").textContent !== ""`)
	}},
	{"link over own work", "header, .news", func(b *tab) {
		b.enter("wearer.girth", "401")
		b.enter("name", "") // a name is the maker's, in no table of words
		b.run(`location.hash = "#" + ` + strconv.Quote(scheme.Default().Code()))
		b.await(`document.querySelector("#offers button")`)
	}},
	{"lesson", "#lesson, .picture, .going", func(b *tab) {
		b.run(`location.hash = "#lesson=" + document.querySelector('[data-do="lesson"]').dataset.with`)
		b.await(`!document.getElementById("lesson").hidden`)
	}},
}

// calm fails the test for what forced colours hide and for what moves: there the
// view that is chosen, a bad entry, a button that does nothing and the focus are
// still told apart, by lines; and nothing moves by itself.
func (b *tab) calm() {
	b.t.Helper()
	if _, err := chromedp.Call(b.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{
		{Name: "forced-colors", Value: "active"}, {Name: "prefers-reduced-motion", Value: "reduce"},
	}}); err != nil {
		b.t.Fatal(err)
	}
	b.frames()
	b.picture("axe-forced-colours", false)
	line := func(selector, property string) string {
		return eval[string](b, fmt.Sprintf(`getComputedStyle(document.querySelector(%q))[%q]`, selector, property))
	}
	b.run(`document.querySelector('#to-form select').focus()`)
	for _, c := range []struct{ what, selector, property, want string }{
		{"the chosen view", `.views [aria-pressed="true"]`, "outlineStyle", "solid"},
		{"another view", `.views [aria-pressed="false"]`, "outlineStyle", "none"},
		{"a bad entry", `[aria-invalid="true"]`, "borderBottomStyle", "double"},
		{"a good entry", `input:not([aria-invalid="true"])`, "borderBottomStyle", "solid"},
		{"an idle button", `button[aria-disabled="true"]`, "borderTopStyle", "dotted"},
		{"the focus", `:focus`, "outlineStyle", "solid"},
	} {
		if got := line(c.selector, c.property); got != c.want {
			b.t.Errorf("forced colours: %s: %s is %s, want %s", c.what, c.property, got, c.want)
		}
	}
	if moving := eval[int](b, `document.getAnimations().length + [...document.querySelectorAll("*")].filter((e) => { const s = getComputedStyle(e); return parseFloat(s.transitionDuration) > 0 || s.animationName !== "none"; }).length`); moving > 0 {
		b.t.Errorf("%d things move by themselves", moving)
	}
}

// TestVoice: what happens is told politely, as text, and the newest is told in the
// end. (TestVoice in wasm/page/say holds the time between two messages.)
func TestVoice(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), quick).drawn()
	if got := eval[string](b, `["role", "aria-live"].map((n) => document.getElementById("said").getAttribute(n)).join(" ")`); got != "status polite" {
		t.Errorf("the live region is %q", got)
	}
	b.run(`for (const unit of ["cm", "in", "cm"]) document.getElementById("units-" + unit).click()`)
	b.await(`document.getElementById("said").textContent === "Lengths in cm."`)
	b.clean()
}

// TestAxe: the checker finds nothing wrong in any state of the page, by day on a
// desktop and at 320 px, and by candle; and it does find what is made wrong.
func TestAxe(t *testing.T) {
	t.Parallel()
	b := open(t, site(t), screen{width: 1000, height: 600}).ready()
	began := time.Now()
	for _, s := range states {
		s.reach(b)
		b.axeClean(s.name, s.within)
	}
	t.Logf("%.1f s for %d states", time.Since(began).Seconds(), len(states))

	b.media(false, true)
	b.run(`document.getElementById("undo").removeAttribute("aria-label"); document.getElementById("undo").removeAttribute("title"); document.getElementById("undo").textContent = "";
		document.getElementById("kept").style.color = "#7f8899"`)
	found := map[string]bool{}
	for _, v := range b.axe("header", true, everyRule...) {
		found[v.ID] = true
	}
	if !found["button-name"] || !found["color-contrast"] {
		t.Errorf("a button without a name and pale text: the checker finds %v", found)
	}
	b.clean()

	b.resize(screen{width: 1000, height: 600})
	b.enter("wearer.girth", "xx")
	b.calm()

	failed := open(t, serve(t, siteDir(t), func(w http.ResponseWriter, r *http.Request) bool {
		missing := strings.HasSuffix(r.URL.Path, ".wasm")
		if missing {
			http.NotFound(w, r)
		}
		return missing
	}), screen{width: 1000, height: 600})
	failed.await(`!document.getElementById("failure").hidden`)
	failed.axeClean("no program", "body")

	dead := open(t, site(t), screen{width: 1000, height: 600, unsolved: true}).drawn()
	dead.enter("ruff.sets", "44")
	dead.run(`ruffwright.fail("a fault made by the test")`)
	dead.axeClean("program stopped", "body")
}
