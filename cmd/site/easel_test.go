package site

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/heapprofiler"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"ruffwright/geom/portrait"
)

// painted is a face above a ruff of forty sets, drawn by the test: a picture to open.
func painted(w, h int) []byte {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	k := float64(w) / 1400
	for y := range h {
		for x := range w {
			u, v := float64(x)/k, float64(y)/k
			c := color.RGBA{70, 58, 50, 255}
			if r := math.Hypot((u-700)/360, (v-905)/155); r < 1 {
				fold := math.Cos(40 * math.Atan2((v-905)/155, (u-700)/360))
				c = color.RGBA{uint8(215 + 30*fold), uint8(210 + 30*fold), uint8(195 + 30*fold), 255}
				if r < 0.45 {
					c = color.RGBA{120, 100, 85, 255}
				}
			}
			if math.Hypot((u-755)/157, (v-480)/190) < 1 || u > 690 && u < 830 && v > 600 && v < 880 {
				c = color.RGBA{222, 184, 160, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	var file bytes.Buffer
	if err := png.Encode(&file, m); err != nil {
		panic(err)
	}
	return file.Bytes()
}

// chooses gives the easel a file, as the dialogue of the browser would.
func (b *tab) chooses(name string, file []byte) {
	b.t.Helper()
	b.run(fmt.Sprintf(`(() => { const d = new DataTransfer(), e = document.getElementById("easel-file");
		d.items.add(new File([Uint8Array.from(atob(%q), (c) => c.charCodeAt(0))], %q, { type: "image/png" }));
		e.files = d.files; e.dispatchEvent(new Event("change")); })()`, base64.StdEncoding.EncodeToString(file), name))
}

// onPicture presses a place of a picture w by h px that is seen whole.
func (b *tab) onPicture(w, h float64, at portrait.Point) {
	b.t.Helper()
	pad := eval[[]float64](b, `(() => { const e = document.getElementById("easel-pad"); e.scrollIntoView({block: "center", behavior: "instant"}); const r = e.getBoundingClientRect(); return [r.left, r.top, e.clientWidth, e.clientHeight]; })()`)
	k := min(pad[2]/w, pad[3]/h)
	b.do(chromedp.MouseClickXY(pad[0]+(pad[2]-k*w)/2+k*at[0], pad[1]+(pad[3]-k*h)/2+k*at[1]))
}

// tool chooses what is placed.
func (b *tab) tool(kind string) {
	b.run(fmt.Sprintf(`document.getElementById("easel-tool-%s").click()`, kind))
}

// placed are the points in the list, by the name of their row.
func (b *tab) placed() map[string][]portrait.Point {
	b.t.Helper()
	rows := eval[[][]string](b, `[...document.querySelectorAll("#easel-list li")].map((e) => [e.firstElementChild.textContent.split(":")[0], ...[...e.querySelectorAll("input[data-key*='.at-']")].map((i) => i.value)])`)
	out := map[string][]portrait.Point{}
	for _, row := range rows {
		for _, text := range row[1:] {
			x, y, _ := strings.Cut(text, " ")
			u, err := strconv.ParseFloat(x, 64)
			v, also := strconv.ParseFloat(y, 64)
			if err != nil || also != nil {
				b.t.Fatalf("%s: %q", row[0], text)
			}
			out[row[0]] = append(out[row[0]], portrait.Point{u, v})
		}
	}
	return out
}

// edgeOf are points on the edge of the painted ruff.
func edgeOf(n int) (all []portrait.Point) {
	for i := range n {
		s, c := math.Sincos(-0.3 + float64(i)*(math.Pi+0.6)/float64(n-1))
		all = append(all, portrait.Point{700 + 360*c, 905 + 155*s})
	}
	return all
}

// places puts a face, nine points of the edge, a depth and a run of twenty sets on the
// painted ruff: the depth by keys, the others by the mouse.
func (b *tab) places() {
	b.t.Helper()
	for _, at := range []portrait.Point{{700, 330}, {700, 660}} {
		b.onPicture(1400, 1200, at)
	}
	b.tool("edge")
	for _, at := range edgeOf(9) {
		b.onPicture(1400, 1200, at)
	}
	b.tool("depth")
	b.run(`document.getElementById("easel-canvas").focus()`)
	for _, key := range []string{"\r", "\r"} { // the first end: at the middle, let go
		b.press(key)
	}
	for range 8 {
		b.press(kb.ArrowDown, chromedp.KeyModifiers(chromedp.ModifierShift))
	}
	b.press("\r")
	b.press(kb.ArrowRight)
	b.await(`document.querySelectorAll("#easel-told .measured li").length > 0`)
	b.tool("sets")
	for _, at := range []portrait.Point{{700 - 360, 905}, {700 + 360, 905}} {
		b.onPicture(1400, 1200, at)
	}
	b.await(`document.querySelector("[data-key^='easel.count-']")`)
	b.run(`(() => { const e = document.querySelector("[data-key^='easel.count-']"); e.value = "20"; e.dispatchEvent(new Event("change", {bubbles: true})); })()`)
	b.await(`document.querySelector("#easel-told .measured").textContent.includes("Sets")`)
}

// TestEasel opens a picture, places points on it by mouse and by keys, reads numbers that are
// those of the very points, and takes them into the scheme as one step; what is typed
// afterwards holds, and the measured word stands beside it.
func TestEasel(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), desk).drawn()
	b.click("#easel-open")
	b.chooses("falconer.png", painted(1400, 1200))
	b.await(`!document.getElementById("easel-work").hidden && document.activeElement.id === "easel-canvas"`)
	b.frames()
	b.places()

	at := b.placed()
	var sheet portrait.Sheet
	line := func(name string) portrait.Line {
		if len(at[name]) != 2 {
			t.Fatalf("%s has %d points of %v", name, len(at[name]), at)
		}
		return portrait.Line{From: at[name][0], To: at[name][1]}
	}
	sheet.Source.References = []portrait.Reference{{Kind: portrait.FaceHeight, Line: line("Face height")}}
	sheet.Source.Depths = []portrait.Line{line("Depth")}
	sheet.Source.Sets = []portrait.Arc{{Count: 20, From: line("Sets").From, To: line("Sets").To}}
	for i := range 9 {
		sheet.Source.Edge = append(sheet.Source.Edge, at[fmt.Sprintf("Outer edge %d", i+1)]...)
	}
	want, err := portrait.Measure(sheet)
	if err != nil {
		t.Fatal(err)
	}
	told := want.Depth_mm.Told_mm()
	said := b.text("#easel-told")
	for _, w := range []string{
		fmt.Sprintf("Depth: %g mm, likely %g mm to %g mm", told.Value, told.Low, told.High),
		fmt.Sprintf("Sets all the way round: %.0f, likely %.0f to %.0f", want.Sets.Value, want.Sets.Low, want.Sets.High),
	} {
		if !strings.Contains(said, w) {
			t.Errorf("the page lacks %q: %s", w, said)
		}
	}
	b.seen("to-easel", "easel")

	b.run(`document.getElementById("easel-lay-go").click()`)
	b.await(`(() => { const c = document.getElementById("easel-over"); if (c.hidden || !c.width) return false;
		const p = c.getContext("2d").getImageData(0, 0, c.width, c.height).data; let n = 0; for (let i = 3; i < p.length; i += 4) if (p[i]) n++; return n > 5000; })()`)
	b.run(`document.getElementById("easel-pad").scrollIntoView({block: "center", behavior: "instant"})`)
	b.frames()
	b.picture("easel-over", false)

	const deep = `document.getElementById("f-ruff-depth").value`
	before := eval[string](b, deep)
	b.run(`document.getElementById("easel-take").click()`)
	taken := fmt.Sprint(told.Value)
	b.await(deep + ` === "` + taken + `" && document.getElementById("f-ruff-depth-measured").textContent.includes("as typed")`)
	b.enter("ruff.depth", "61")
	b.await(`document.querySelector("#f-ruff-depth-measured s").textContent === "` + taken + ` mm as measured"`)
	b.seen("short", "easel-form")
	b.run(`document.getElementById("f-ruff-depth-measured-again").click()`)
	b.await(deep + ` === "` + taken + `"`)
	b.run(`for (let i = 0; i < 3; i++) document.getElementById("undo").click()`)
	b.await(deep + ` === "` + before + `"`)
	b.run(`document.getElementById("easel-close").click()`)
	b.await(`document.getElementById("to-easel").hidden && document.getElementById("easel-canvas").width === 0 && document.getElementById("easel-over").width === 0`)
	b.clean()
}

// TestEaselTab walks through the easel with Tab: every control of it once, with a visible
// ring, and out again.
func TestEaselTab(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), hand).drawn()
	b.click("#easel-open")
	b.chooses("falconer.png", painted(350, 300))
	b.await(`!document.getElementById("easel-work").hidden && document.activeElement.id === "easel-canvas"`)
	b.press("\r") // a point, so that there is a row
	b.press("\r")
	b.run(`document.getElementById("easel-known").open = true; document.getElementById("to-easel").focus()`)
	const stops = `[...document.querySelectorAll("#to-easel :is(button, input, select, summary, canvas)")].filter((e) => e.tabIndex === 0 && e.checkVisibility()).map((e) => e.id || e.dataset.with)`
	want := eval[[]string](b, stops)
	var on []string
	for range want {
		b.press("\t")
		on = append(on, eval[string](b, `document.activeElement.id || document.activeElement.dataset.with`))
		if ring := eval[string](b, `getComputedStyle(document.activeElement).outlineStyle`); ring == "none" {
			t.Errorf("%s has no visible ring", on[len(on)-1])
		}
	}
	if !slices.Equal(on, want) || len(want) < 25 {
		t.Errorf("Tab walks over %q, want %q", on, want)
	}
	b.press("\t")
	if eval[bool](b, `document.activeElement.closest("#to-easel") !== null`) {
		t.Error("the easel keeps the focus")
	}
	b.clean()
}

// TestEaselForgets opens and closes ten pictures: the page's memory is back within 5 % of
// what it was after the first, and every worker that opened one has ended.
func TestEaselForgets(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), screen{width: 640, height: 480, before: `globalThis.openers = 0;
		globalThis.Worker = class extends Worker {
			constructor(...all) { super(...all); openers++; }
			terminate() { super.terminate(); openers--; }
		};
		globalThis.canvases = [];
		const create = document.createElement.bind(document);
		document.createElement = (tag) => { const made = create(tag); if (tag === "canvas") canvases.push(made); return made; };
		globalThis.memories = [];
		const instantiate = WebAssembly.instantiate;
		WebAssembly.instantiate = async (...all) => { const made = await instantiate(...all); memories.push(made.exports.mem); return made; };`}).ready()
	file := painted(1400, 1200)
	workers := eval[int](b, "openers")
	if workers < 1 {
		t.Fatal("no worker is counted: the test is blind")
	}
	used := func() (held float64) {
		if _, err := chromedp.Call(b.ctx, heapprofiler.CollectGarbage, cdp.Empty{}); err != nil {
			t.Fatal(err)
		}
		heap, err := chromedp.Call(b.ctx, runtime.GetHeapUsage, cdp.Empty{})
		if err != nil {
			t.Fatal(err)
		}
		programs := eval[float64](b, `memories.reduce((sum, m) => sum + m.buffer.byteLength, 0)`)
		pictures := eval[float64](b, `canvases.concat([...document.querySelectorAll("#to-easel canvas")]).reduce((sum, c) => sum + 4 * c.width * c.height, 0)`)
		return heap.UsedSize + heap.BackingStorageSize + programs + pictures
	}
	var first, open float64
	for i := range 11 {
		b.run(`document.getElementById("easel-open").click()`)
		b.chooses("falconer.png", file)
		b.await(`!document.getElementById("easel-work").hidden`)
		if i == 10 {
			open = used()
		}
		b.run(`document.getElementById("easel-close").click()`)
		b.await(`document.getElementById("to-easel").hidden`)
		if i == 0 {
			first = used()
		}
	}
	last := used()
	t.Logf("after one %.1f MB, with the eleventh open %.1f MB, after it %.1f MB", first/1e6, open/1e6, last/1e6)
	if open < first+4*1400*1200 {
		t.Errorf("an open picture of %d bytes is not seen: the test is blind", 4*1400*1200)
	}
	if last > 1.05*first {
		t.Errorf("after one picture the page holds %.1f MB, after eleven %.1f MB", first/1e6, last/1e6)
	}
	if n := eval[int](b, "openers"); n > workers {
		t.Errorf("%d workers live, %d before", n, workers)
	}
	b.clean()
}
