package site

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// TestKept: the service worker's list is the site's, digest by digest, and
// changes with the site; it and the page are asked for anew each time, all else
// never again.
func TestKept(t *testing.T) {
	dir := siteDir(t)
	m, err := ReadManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	script, err := os.ReadFile(filepath.Join(dir, "offline.js"))
	if err != nil {
		t.Fatal(err)
	}
	h, err := Handler(dir)
	if err != nil {
		t.Fatal(err)
	}
	for name := range m.Sizes {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if listed := strings.Contains(string(script), `"`+name+`": "`+digest(text)+`"`); listed != (name != "offline.js") {
			t.Errorf("%s is listed: %v", name, listed)
		}
		r := get(t, h, "GET", "/"+name, "127.0.0.1")
		want := "public, max-age=31536000, immutable"
		if name == "index.html" || name == "offline.js" {
			want = "no-cache"
		}
		if got := r.Header.Get("Cache-Control"); got != want {
			t.Errorf("%s: Cache-Control %q, want %q", name, got, want)
		}
		if name == "offline.js" && r.Header.Get("Content-Type") != types[".js"] {
			t.Errorf("the service worker comes as %q", r.Header.Get("Content-Type"))
		}
	}
	m.Sizes = map[string]int{"index.html": 1}
	fewer, err := offline(dir, m)
	if err != nil || strings.Split(string(fewer), "\n")[1] == strings.Split(string(script), "\n")[1] {
		t.Errorf("another site has the same name: %v", err)
	}
	m.Sizes["gone.css"] = 1
	if _, err := offline(dir, m); err == nil {
		t.Error("a file that is not there is listed")
	}
}

// newer copies the site in dir with a style sheet of its own, as a later version.
func newer(t *testing.T, dir string) string {
	t.Helper()
	to := filepath.Join(t.TempDir(), "site")
	if err := publish(dir, to); err != nil {
		t.Fatal(err)
	}
	m, err := ReadManifest(to)
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string) []byte {
		text, err := os.ReadFile(filepath.Join(to, name))
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	write := func(name string, text []byte) {
		m.Sizes[name] = len(text)
		if err := os.WriteFile(filepath.Join(to, name), text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	old := m.Files["style"]
	style := append(read(old), "\nh1 { letter-spacing: 3px; }\n"...)
	delete(m.Sizes, old)
	m.Files["style"] = "page.0123456789ab.css"
	write(m.Files["style"], style)
	write("index.html", []byte(strings.ReplaceAll(string(read("index.html")), old, m.Files["style"])))
	delete(m.Sizes, "offline.js")
	script, err := offline(to, m)
	if err != nil {
		t.Fatal(err)
	}
	write("offline.js", script)
	list, err := json.Marshal(m)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(to, manifestName), list, 0o644); err != nil {
		t.Fatal(err)
	}
	return to
}

// told is true when the page says that it opens without a network.
const told = `getComputedStyle(document.getElementById("stocked")).visibility === "visible"`

// TestOffline: visited once, the page opens and solves without its server; a
// newer version comes whole, with nothing of the old one, and takes its place; a
// version of which one file is another is not kept at all.
func TestOffline(t *testing.T) {
	first := siteDir(t)
	second := newer(t, first)
	var mu sync.Mutex
	dir, down, meddled := first, false, ""
	served := map[string]http.Handler{}
	for _, d := range []string{first, second} {
		h, err := Handler(d)
		if err != nil {
			t.Fatal(err)
		}
		served[d] = h
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		mu.Lock()
		h, gone, bad := served[dir], down, meddled
		mu.Unlock()
		switch {
		case gone:
			if c, _, err := w.(http.Hijacker).Hijack(); err == nil {
				c.Close()
			}
		case bad != "" && strings.HasPrefix(r.URL.Path, "/"+bad):
			w.Header().Set("Content-Type", types[".css"])
			w.Write([]byte("h1 { color: red; }"))
		default:
			h.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(server.Close)
	set := func(d string, gone bool, bad string) {
		mu.Lock()
		defer mu.Unlock()
		dir, down, meddled = d, gone, bad
	}
	const spacing = `getComputedStyle(document.querySelector("h1")).letterSpacing`
	const stores = `caches.keys().then((k) => k.filter((n) => n.startsWith("ruffwright ")).length)`

	b := open(t, server.URL+"/"+untucked(t), screen{width: 800, height: 600, stocks: true}).ready()
	promised[bool](b, `navigator.serviceWorker.ready.then((r) => new Promise((done) => { const look = () => r.active && r.active.state === "activated" ? done(true) : setTimeout(look, 20); look(); }))`)
	b.await(told) // and the reader is told
	old := eval[string](b, spacing)

	set(first, true, "")
	b.do(chromedp.Navigate("about:blank"), chromedp.Navigate(server.URL+"/"+untucked(t)))
	b.ready()
	if !eval[bool](b, `navigator.serviceWorker.controller !== null`) {
		t.Error("without a network, and nobody answers: the test is blind")
	}
	if got := b.text("#solving"); !strings.HasPrefix(got, "Solved") {
		t.Errorf("without a network the page says %q", got)
	}
	b.clean()

	// A newer version, but one file of it is not what the build wrote.
	set(second, false, "page.0123")
	update := `navigator.serviceWorker.ready.then((r) => r.update().then((r) => new Promise((done) => {
		const look = () => r.installing ? setTimeout(look, 20) : done(r.waiting !== null);
		look();
	})))`
	if promised[bool](b, update) {
		t.Error("a version with a foreign file in it is kept")
	}
	if n := promised[int](b, stores); n != 1 {
		t.Errorf("%d stores, want the old one alone", n)
	}

	// The newer version, whole.
	set(second, false, "")
	b.do(chromedp.Navigate(server.URL + "/"))
	b.drawn()
	if got := eval[string](b, spacing); got == old {
		t.Error("with a network the old page is shown")
	}
	if !promised[bool](b, update) {
		t.Error("the newer version is not kept")
	}
	if n := promised[int](b, stores); n != 2 {
		t.Errorf("%d stores while an old page is open, want 2", n)
	}
	set(second, true, "")
	b.do(chromedp.Navigate(server.URL + "/")) // still by the old worker: wholly of the old version
	b.drawn()
	if got := eval[string](b, spacing); got != old {
		t.Errorf("the old worker shows a page of which the style is the new one's")
	}
	// No page of the old version is open: the browser changes over in its own time.
	for deadline := time.Now().Add(patience); ; {
		b.do(chromedp.Navigate("about:blank"))
		time.Sleep(time.Second)
		b.do(chromedp.Navigate(server.URL + "/"))
		b.await(`document.documentElement.dataset.loader === "runs"`)
		if eval[string](b, spacing) != old {
			break
		}
		if time.Now().After(deadline) {
			t.Fatal("the newer version never takes over")
		}
	}
	b.drawn()
	if n := promised[int](b, stores); n != 1 {
		t.Errorf("%d stores when the newer version has taken over, want 1", n)
	}
}

// TestStoreWhole: a browser may drop a file of what it keeps. While one is missing the
// page does not say that it opens without a network; it is fetched again when there
// is one, and then the page says so again.
func TestStoreWhole(t *testing.T) {
	t.Parallel()
	dir := siteDir(t)
	m, err := ReadManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	gone := false
	home := serve(t, dir, func(w http.ResponseWriter, r *http.Request) bool {
		mu.Lock()
		defer mu.Unlock()
		if gone && r.URL.Path == "/" {
			http.Error(w, "no network", http.StatusServiceUnavailable)
			return true
		}
		return false
	})
	b := open(t, home, screen{width: 800, height: 600, stocks: true}).drawn()
	b.await(told)
	count := `caches.keys().then((k) => caches.open(k.find((n) => n.startsWith("ruffwright ")))).then((c) => c.keys()).then((k) => k.length)`
	all := promised[int](b, count)
	if all != len(m.Sizes)-1 { // the service worker itself is not kept
		t.Errorf("%d files are kept of %d", all, len(m.Sizes)-1)
	}
	mu.Lock()
	gone = true
	mu.Unlock()
	drop := `caches.keys().then((k) => caches.open(k.find((n) => n.startsWith("ruffwright ")))).then((c) => c.delete("./"))` // what has a name by content the browser's own cache may bring back
	if !promised[bool](b, drop) {
		t.Fatal("nothing was dropped: the test is blind")
	}
	b.run(`dispatchEvent(new Event("offline"))`)
	b.await("!(" + told + ")")
	mu.Lock()
	gone = false
	mu.Unlock()
	b.run(`dispatchEvent(new Event("online"))`)
	b.await(told)
	if n := promised[int](b, count); n != all {
		t.Errorf("%d files are kept again, want %d", n, all)
	}
}

// TestOfflineDenied: a browser that refuses to keep anything changes nothing.
func TestOfflineDenied(t *testing.T) {
	t.Parallel()
	b := open(t, easy(t), screen{width: 640, height: 480, stocks: true,
		before: `globalThis.asked = 0; ServiceWorkerContainer.prototype.register = () => { globalThis.asked++; throw new DOMException("denied", "SecurityError"); };`}).ready()
	b.await("asked === 1")
	if eval[bool](b, told) {
		t.Error("the reader is told that the page is kept")
	}
	b.enter("ruff.sets", "42")
	b.await(`document.querySelector("#finding-quarters")`)
	b.clean()
}
