package site

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"ruffwright/testdata/demos"
)

// state is how it stands with the solver.
const state = `document.getElementById("solver").dataset.state`

// run runs a script in the page.
func (b *tab) run(script string) {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](script))
}

// promised runs a script that gives a promise and returns what it holds.
func promised[T any](b *tab, script string) T {
	b.t.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		b.t.Fatalf("%s: %v\n%s", script, err, b.complaints())
	}
	return v
}

// counted counts the solvers that the page starts and what it asks of them.
const counted = `globalThis.workers = 0; globalThis.asks = []; {
	const Real = Worker;
	globalThis.Worker = class extends Real {
		postMessage(m, ...rest) {
			if (m.role === "solver") { globalThis.workers++; this.solves = true; }
			if (m.head && this.solves) globalThis.asks.push(JSON.parse(m.head));
			return super.postMessage(m, ...rest);
		}
	};
}`

// TestSolved: the page opens on geometry, the solver's worker then changes the
// picture, tells how the cloth hangs, and tries the remedies; the wearer bows;
// then nothing moves any more.
func TestSolved(t *testing.T) {
	t.Parallel()
	screens := []screen{{width: 1280, height: 800, before: counted}, {width: 390, height: 844, ratio: 2, touch: true, dark: true, before: counted}}
	if os.Getenv("RUFFWRIGHT_SHOTS") == "" {
		screens = screens[:1] // the other differs in its looks alone
	}
	for _, s := range screens {
		t.Run(fmt.Sprint(s.width), func(t *testing.T) {
			b := open(t, site(t), s).drawn()
			b.await(state + ` === "done"`)
			b.enter("ruff.sets", "42")
			b.await(`document.querySelector("#finding-quarters .tried")`)
			b.settle()
			if got := b.text("#finding-quarters"); !strings.Contains(got, "Gone: sets do not divide into quarters") {
				t.Errorf("the remedies are not marked: %s", got)
			}
			if got := b.text("#solving"); !strings.HasPrefix(got, "Solved: how the cloth hangs.") {
				t.Errorf("the page says %q", got)
			}
			if got := b.text("#verdict"); strings.Contains(got, "solved") {
				t.Errorf("solved, and still %q", got)
			}
			if got := eval[string](b, `document.getElementById("numbers").textContent`); !strings.Contains(got, "Moves when the wearer bows") || !strings.Contains(got, "24 × 12") {
				t.Errorf("the numbers do not tell of it: %s", got)
			}
			if n := eval[int](b, "workers"); n < 1 || n > 3 {
				t.Errorf("%d workers", n)
			}
			b.picture(fmt.Sprintf("solved-%d", s.width), true)
			b.run(`document.querySelector('[data-with="floppy"]').click()`)
			b.await(`document.getElementById("pose-bow").getAttribute("aria-disabled") === "true"`)
			b.await(`document.getElementById("pose-other").getAttribute("aria-disabled") === "false"`)
			b.top()
			rest := b.pixels()
			for _, pose := range []string{"bow", "other"} {
				b.click("#pose-" + pose)
				b.top()
				if differ(rest, b.pixels()) < 0.01 {
					t.Errorf("pose %s looks like the ruff at rest", pose)
				}
				b.picture(fmt.Sprintf("solved-%d-%s", s.width, pose), false)
			}
			b.click("#pose-rest")
			b.top()
			if differ(rest, b.pixels()) > 0.002 {
				t.Error("at rest again it looks otherwise")
			}
			b.clean()
		})
	}
}

// easy is the page with a ruff that is solved in a sixth of the time that the first
// one takes: for tests that ask nothing of tucked cloth.
func easy(t *testing.T) string { return site(t) + untucked(t) }

// untucked is the link of the demo without tucks, without its name: the head of a table
// of two names takes more lines.
func untucked(t *testing.T) string {
	s := demos.Scheme(t, "untucked")
	s.Name = ""
	return "#" + s.Code()
}

// TestCompare: one click puts the same ruff sewn the other way beside it: both on
// the stage, a sentence and a table, at two widths; a link holds both; the step can
// be taken back.
func TestCompare(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), screen{width: 1000, height: 600}).ready() // its two ways of sewing differ beyond doubt
	for _, s := range []screen{{width: 1000, height: 600}, {width: 320, height: 568, touch: true}} {
		b.resize(s)
		b.top()
		was := b.pixels()
		b.click("#twin")
		b.await(`document.querySelector("#compare table")`)
		b.await(`!document.querySelector("#compare").textContent.includes("not solved yet")`)
		b.settle()
		got := b.text("#compare")
		for _, want := range []string{"A is better", "(sewn at the top edge only)", "Height at the outer edge", "Difference", "A better"} {
			if !strings.Contains(got, want) {
				t.Errorf("the comparison lacks %q: %s", want, got)
			}
		}
		if over := eval[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); over > 0 {
			t.Errorf("%d px: %d px too wide", s.width, over)
		}
		// No word of the head is broken: of its cells, which are as high as the ruffs'
		// titles, the last one's text stands on one line.
		if lines := eval[int](b, `(() => { const r = document.createRange(); r.selectNodeContents([...document.querySelectorAll("#compare thead th")].pop()); return new Set([...r.getClientRects()].map((q) => Math.round(q.top))).size; })()`); lines != 1 {
			t.Errorf("%d px: the head of the differences takes %d lines", s.width, lines)
		}
		b.run(`document.getElementById("to-compare").scrollIntoView({behavior: "instant"})`)
		b.picture(fmt.Sprintf("compare-%d", s.width), false)
		b.top()
		b.picture(fmt.Sprintf("compared-%d", s.width), false)
		both := b.pixels()
		if differ(was, both) < 0.01 {
			t.Error("B is not on the drawing")
		}
		b.click("#share")
		b.await(`location.hash.includes("~")`)
		b.click("#compare-swap")
		b.await(`document.querySelector("#f-pleat-anchor").value === "top" && document.querySelector("#compare").textContent.includes("B is better")`)
		b.click("#undo")
		b.await(`document.querySelector("#f-pleat-anchor").value === "both"`)
		b.click("#compare-stop")
		b.await(`!document.querySelector("#compare table")`)
		b.clean()
	}
}

// TestNewestChangeWins: while a field is typed coarse ruffs are asked for, when
// it is left a fine one; a slow solve is stopped by a change and by the button,
// within 200 ms.
func TestNewestChangeWins(t *testing.T) {
	b := open(t, easy(t), screen{width: 640, height: 480, before: counted}).ready()
	was := eval[int](b, "asks.length")
	b.run(`{ const e = document.querySelector("#f-wearer-girth"); e.focus(); for (const v of ["401", "402", "403"]) { e.value = v; e.dispatchEvent(new Event("input", {bubbles: true})); } }`)
	coarse := fmt.Sprintf("asks.slice(%d)", was)
	b.await(coarse + `.length === 4 && ` + coarse + `.slice(0, 3).every((a) => a.coarse) && !` + coarse + `[3].coarse`)
	b.await(state + ` === "done"`)
	if got := eval[string](b, `document.getElementById("numbers").textContent`); !strings.Contains(got, "423 mm") || !strings.Contains(got, "24 × 12") {
		t.Errorf("the last change is not what is shown: %s", got)
	}
	b.enter("wearer.ratio", "1.25") // twenty half sets: a second and more
	b.await(state + ` === "busy"`)
	b.enter("wearer.ratio", "1")
	b.await(state + ` === "done"`)
	b.enter("wearer.ratio", "1.25")
	b.await(`document.getElementById("solving").textContent.includes("half set")`)
	took := promised[float64](b, `new Promise((done) => {
		const at = performance.now(), button = document.getElementById("halt");
		button.click();
		const look = () => `+state+` === "halted" ? done(performance.now() - at) : setTimeout(look, 5);
		look();
	})`)
	t.Logf("stopped after %.0f ms", took)
	if took > 200 {
		t.Errorf("stopped after %.0f ms", took)
	}
	if got := b.text("#halt"); got != "Solve again" {
		t.Errorf("the button says %q", got)
	}
	b.click("#halt")
	b.await(state + ` === "done"`)
	b.clean()
}

// TestNoSolver: when the worker's program is not handed to it, ends, or never speaks
// again, or the browser has no workers, the page starts it again
// once, then says so, and goes on by geometry.
func TestNoSolver(t *testing.T) {
	is := func(part string) func(*http.Request) bool {
		return func(r *http.Request) bool { return strings.HasPrefix(r.URL.Path, "/"+part) }
	}
	// mute is a worker that says it is alive and then nothing (deaf to all) or
	// ends.
	mute := func(then string) string {
		return `globalThis.workers = 0; globalThis.Worker = class {
			postMessage(m) {
				if (m.role === "solver") { globalThis.workers++; setTimeout(() => this.onmessage({data: {head: '{"id":0,"alive":true}'}})); }
				if (m.head) { ` + then + ` }
			}
			terminate() {}
		};`
	}
	for name, c := range map[string]struct {
		screen
		meddle func(http.ResponseWriter, *http.Request) bool
		says   string
		starts int
	}{
		"no module": {screen{before: `globalThis.workers = 0; {
			const post = Worker.prototype.postMessage;
			Worker.prototype.postMessage = function (m, ...rest) { if (m.module) { globalThis.workers += m.role === "solver"; throw new Error("it cannot be handed over"); } return post.call(this, m, ...rest); };
		}`}, nil, "handed over", 2},
		"no script": {screen{before: counted}, func(w http.ResponseWriter, r *http.Request) bool {
			if is("worker.")(r) {
				http.Error(w, "gone", http.StatusNotFound)
			}
			return is("worker.")(r)
		}, "did not arrive", 2},
		"no workers": {screen{before: `globalThis.workers = 2; delete globalThis.Worker`}, nil, "Worker", 2},
		"ends":       {screen{before: mute(`setTimeout(() => this.onmessage({data: {dead: "its program ended by itself"}}))`)}, nil, "ended by itself", 2},
		"hangs":      {screen{before: mute(``)}, nil, "silent", 2},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			c.screen.width, c.screen.height = 640, 480
			b := open(t, serve(t, siteDir(t), c.meddle), c.screen).drawn()
			b.await(state + ` === "gone"`)
			if got := b.text("#solving"); !strings.Contains(got, c.says) || !strings.Contains(got, "geometry") {
				t.Errorf("the page says %q", got)
			}
			if n := eval[int](b, "workers"); n != c.starts {
				t.Errorf("%d workers were started, want %d", n, c.starts)
			}
			b.enter("ruff.sets", "42")
			b.await(`document.querySelector("#finding-quarters")`)
			if got := b.text("#verdict"); !strings.Contains(got, "not solved") {
				t.Errorf("the verdict hides that nothing is solved: %s", got)
			}
			if eval[string](b, `document.getElementById("halt").getAttribute("aria-disabled")`) != "false" {
				t.Error("it cannot be tried again")
			}
			b.picture("no-solver-"+strings.ReplaceAll(name, " ", "-"), false)
		})
	}
}

// TestSettles: the solved shape comes with a short movement, and without one for
// readers who want none. The timers of its frames are counted.
func TestSettles(t *testing.T) {
	b := open(t, easy(t), screen{width: 700, height: 500, before: `globalThis.frames = 0; {
		const real = setTimeout;
		globalThis.setTimeout = (f, ms, ...a) => { if (ms === 16) globalThis.frames++; return real(f, ms, ...a); };
	}`}).ready()
	b.settle()
	for i, calm := range []bool{false, true, false} {
		b.media(false, calm)
		was := eval[int](b, "frames")
		b.enter("wearer.girth", fmt.Sprint(400+i))
		b.settle()
		if n := eval[int](b, "frames") - was; calm && n != 0 || !calm && (n < 1 || n > 60) {
			t.Errorf("reduced motion %v: %d frames", calm, n)
		}
	}
	b.clean()
}

// TestSolverTimes tells how long the page takes from a change to the drawn ruff,
// to the solver's first word, to the solved shape and to all of it. Nothing is
// judged, so it runs where times are wanted.
func TestSolverTimes(t *testing.T) {
	if !measuring {
		t.Skip("RUFFWRIGHT_MEASURE is not set")
	}
	slow := `globalThis.longest = 0; {
		const Real = Worker;
		globalThis.Worker = class extends Real {
			set onmessage(f) { super.onmessage = (e) => { const at = performance.now(); f(e); globalThis.longest = Math.max(globalThis.longest, performance.now() - at); }; }
		};
	}`
	// A small stage without movement, for a machine whose processor draws: it
	// would have to draw and solve at once.
	b := open(t, site(t), screen{width: 400, height: 380, before: slow}).ready()
	b.settle()
	mark := func(name string) float64 {
		return eval[float64](b, fmt.Sprintf(`performance.getEntriesByName("ruffwright-%s")[0].startTime`, name))
	}
	t.Logf("from navigation to the first findings %.0f ms, to the stage's first frame %.0f, to the first solved shape %.0f, to everything %.0f",
		mark("findings"), mark("stage"), mark("shape"), mark("solved"))
	// One change after the other, each when the last is solved: from the event
	// to the page's answer, to the solver's first word, to the shape, to all.
	script := func(key string, values []string, kind string) string {
		return fmt.Sprintf(`(async () => {
			const e = document.querySelector(%q), out = {answer: [], word: [], shape: [], all: []};
			const until = (test) => new Promise((done) => { const look = () => test() ? done(performance.now()) : setTimeout(look, 10); look(); });
			const count = (name) => performance.getEntriesByName(name).length;
			for (const v of %s) {
				await new Promise((done) => setTimeout(done, 350));
				const shapes = count("ruffwright-shape"), alls = count("ruffwright-solved");
				const at = performance.now();
				e.value = v;
				e.dispatchEvent(new Event(%q, {bubbles: true}));
				out.answer.push(performance.now() - at);
				out.word.push(await until(() => document.getElementById("solving").textContent.startsWith("Solving")) - at);
				await until(() => count("ruffwright-shape") > shapes);
				out.shape.push(performance.getEntriesByName("ruffwright-shape").at(-1).startTime - at);
				await until(() => count("ruffwright-solved") > alls);
				out.all.push(performance.getEntriesByName("ruffwright-solved").at(-1).startTime - at);
			}
			return out;
		})()`, field(key), "["+strings.Join(values, ",")+"]", kind)
	}
	numbers := func(from, n int) (list []string) {
		for i := range n {
			list = append(list, fmt.Sprintf("%q", fmt.Sprint(from+i)))
		}
		return list
	}
	type times struct{ Answer, Word, Shape, All []float64 }
	tell := func(what string, m times) {
		for _, v := range []*[]float64{&m.Answer, &m.Word, &m.Shape, &m.All} {
			*v = (*v)[1:] // the first comes from far off
			slices.Sort(*v)
		}
		line := func(v []float64) string {
			return fmt.Sprintf("%.0f (p95 %.0f)", v[len(v)/2], v[min(len(v)-1, len(v)*95/100)])
		}
		t.Logf("%s: answer %s, told %s, shape %s, everything %s ms", what, line(m.Answer), line(m.Word), line(m.Shape), line(m.All))
	}
	tell("starch left at another value, fine", promised[times](b, script("starch.bend", numbers(60, 20), "change")))
	tell("girth left at another value, fine", promised[times](b, script("wearer.girth", numbers(380, 20), "change")))
	tell("starch typed, coarse", promised[times](b, script("starch.bend", numbers(60, 40), "input")))
	tell("girth typed, coarse", promised[times](b, script("wearer.girth", numbers(380, 40), "input")))
	b.enter("wearer.ratio", "1.15")
	b.settle()
	tell("girth left at another value, an oval neck, fine", promised[times](b, script("wearer.girth", numbers(400, 5), "change")))
	b.enter("wearer.ratio", "1")
	b.run(`document.querySelector('[data-with="floppy"]').click()`)
	at := time.Now()
	b.await(state + ` === "busy"`)
	b.await(state + ` === "done"`)
	t.Logf("the floppy demo with its other equilibrium and all remedies tried: %v", time.Since(at).Round(10*time.Millisecond))
	t.Logf("the page's longest work on a message of its worker: %.0f ms (goal 50)", eval[float64](b, "longest"))
}
