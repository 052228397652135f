package site

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"image/color"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"ruffwright/assets"
	"ruffwright/geom/draw"
)

// get asks the handler as a client with the given method and host would.
func get(t *testing.T, h http.Handler, method, path, host string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, "http://127.0.0.1/", nil)
	r.URL.Path = path
	r.Host = host
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

// TestServer: reading only, this machine's names only, listed files only, with
// the right types and the page's policy on every answer.
func TestServer(t *testing.T) {
	dir := siteDir(t)
	m, err := ReadManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	h, err := Handler(dir)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasSuffix(served, "; frame-ancestors 'self'") {
		t.Errorf("anybody may show the page in a frame: %s", served)
	}
	for _, c := range []struct {
		method, path, host string
		status             int
		kind               string
	}{
		{"GET", "/", "127.0.0.1:8080", 200, "text/html; charset=utf-8"},
		{"HEAD", "/", "localhost:8080", 200, "text/html; charset=utf-8"},
		{"GET", "/" + m.Files["program"], "[::1]:8080", 200, "application/wasm"},
		{"GET", "/" + m.Files["style"], "127.0.0.1", 200, "text/css; charset=utf-8"},
		{"GET", "/" + m.Files["loader"], "127.0.0.1", 200, "text/javascript; charset=utf-8"},
		{"GET", "/" + m.Files["notices"], "127.0.0.1", 200, "text/plain; charset=utf-8"},
		{"POST", "/", "127.0.0.1:8080", 405, ""},
		{"PUT", "/" + m.Files["style"], "127.0.0.1:8080", 405, ""},
		{"GET", "/", "elsewhere.example:8080", 421, ""},
		{"GET", "/", "127.0.0.1.elsewhere.example", 421, ""},
		{"GET", "/", "", 421, ""},
		{"GET", "/../manifest.json", "127.0.0.1", 404, ""},
		{"GET", "/" + manifestName, "127.0.0.1", 404, ""},
		{"GET", "//" + m.Files["style"], "127.0.0.1", 404, ""},
		{"GET", "/..%2fgo.mod", "127.0.0.1", 404, ""},
		{"GET", "/etc/passwd", "127.0.0.1", 404, ""},
	} {
		r := get(t, h, c.method, c.path, c.host)
		body, _ := io.ReadAll(r.Body)
		if r.StatusCode != c.status || c.kind != "" && r.Header.Get("Content-Type") != c.kind {
			t.Errorf("%s %s at %q: %d %s, want %d %s", c.method, c.path, c.host, r.StatusCode, r.Header.Get("Content-Type"), c.status, c.kind)
		}
		if c.method == "HEAD" && len(body) > 0 {
			t.Errorf("HEAD answers %d bytes", len(body))
		}
		for name, want := range map[string]string{"Content-Security-Policy": served, "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"} {
			if got := r.Header.Get(name); got != want {
				t.Errorf("%s %s: %s is %q", c.method, c.path, name, got)
			}
		}
	}
}

// TestServe serves for real: only on this machine, and ends with its context.
func TestServe(t *testing.T) {
	dir := siteDir(t)
	for _, addr := range []string{"0.0.0.0:0", "192.168.1.2:80", "example.org:80", ":0", "no port"} {
		ctx, cancel := context.WithTimeout(context.Background(), time.Second)
		if err := Serve(ctx, dir, addr, nil); err == nil {
			t.Errorf("serves at %s", addr)
		}
		cancel()
	}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	at, ended := make(chan string, 1), make(chan error, 1)
	go func() { ended <- Serve(ctx, dir, "", func(url string) { at <- url }) }()
	var url string
	select {
	case url = <-at:
	case err := <-ended:
		t.Fatal(err)
	}
	if !strings.HasPrefix(url, "http://127.0.0.1:") {
		t.Errorf("serves at %s", url)
	}
	r, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || r.StatusCode != 200 || !bytes.Contains(text, []byte("f-wearer-girth")) {
		t.Errorf("the page: %d, %v", r.StatusCode, err)
	}
	// Headers without end are cut off.
	c, err := net.Dial("tcp", strings.TrimSuffix(strings.TrimPrefix(url, "http://"), "/"))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: %s\r\n\r\n", strings.Repeat("a", 100<<10))
	c.SetReadDeadline(time.Now().Add(10 * time.Second))
	answer := make([]byte, 12)
	if _, err := io.ReadFull(c, answer); err != nil || string(answer) != "HTTP/1.1 431" {
		t.Errorf("a header of 100 KiB: %q, %v", answer, err)
	}
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(10 * time.Second):
		t.Error("the server does not end with its context")
	}
}

// TestBuiltPage: nothing is left unfilled, everything named is there, nothing
// inline that the policy would refuse, and one policy in page and server.
func TestBuiltPage(t *testing.T) {
	dir := siteDir(t)
	m, err := ReadManifest(dir)
	if err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(dir, m.Files["page"]))
	if err != nil {
		t.Fatal(err)
	}
	html := string(text)
	for _, bad := range []string{"<!-- fill", "unbuilt", "assets/", " style=", " onclick", "<script>", "http://", "https://"} {
		if strings.Contains(html, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	if !strings.Contains(html, `content="`+Policy+`"`) {
		t.Error("the page's policy is not the server's")
	}
	for _, ref := range regexp.MustCompile(`(?:href|src|srcset|data-program)="([^"#:]+)"`).FindAllStringSubmatch(html, -1) {
		if _, ok := m.Sizes[ref[1]]; !ok {
			t.Errorf("the page names %s, which is not in the site", ref[1])
		}
	}
	ids := map[string]bool{}
	for _, id := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(html, -1) {
		if ids[id[1]] {
			t.Errorf("id %s stands twice", id[1])
		}
		ids[id[1]] = true
	}
}

// TestUnbuilt: the source, opened from the disk, says how to build.
func TestUnbuilt(t *testing.T) {
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	b := open(t, "file://"+filepath.Join(root, "index.html"), screen{width: 1280, height: 800})
	if got := b.text("body"); !strings.Contains(got, "go run ./cmd/ruffwright open") {
		t.Errorf("the source says %q", got)
	}
	if got := eval[string](b, `getComputedStyle(document.body).backgroundColor`); got != "rgb(248, 243, 231)" {
		t.Errorf("the source's ground is %s: its style sheet was not read", got)
	}
	b.picture("unbuilt", false)
}

// TestColours: the style sheet's colours are the drawings' own, by day and by
// candle, so that they are chosen in one place.
func TestColours(t *testing.T) {
	css, _ := assets.PageFile("page.css")
	blocks := regexp.MustCompile(`(?s):root \{(.*?)\}`).FindAllStringSubmatch(string(css), -1)
	var palettes [][]string
	for _, b := range blocks {
		if strings.Contains(b[1], "--madder") {
			palettes = append(palettes, b)
		}
	}
	if len(palettes) != 2 {
		t.Fatalf("%d palettes in the style sheet, want 2", len(palettes))
	}
	for i, p := range []draw.Palette{draw.Light(), draw.Dark()} {
		for name, c := range map[string]color.NRGBA{"ground": p.Ground, "ink": p.Ink, "quiet": p.Quiet, "rule": p.Rule, "ghost": p.Ghost, "wash": p.Wash,
			"madder": p.Madder, "weld": p.Weld, "woad": p.Woad, "walnut": p.Walnut} {
			if want := fmt.Sprintf("--%s: #%02x%02x%02x;", name, c.R, c.G, c.B); !strings.Contains(palettes[i][1], want) {
				t.Errorf("palette %d lacks %s", i, want)
			}
		}
	}
}

// TestPublish: a site goes into an empty or missing folder or over an earlier
// site, and over nothing else.
func TestPublish(t *testing.T) {
	from := siteDir(t)
	to := filepath.Join(t.TempDir(), "new", "site")
	for range 2 {
		if err := publish(from, to); err != nil {
			t.Fatal(err)
		}
		if !whole(to) {
			t.Fatal("what was published is not a whole site")
		}
	}
	other := t.TempDir()
	if err := os.WriteFile(filepath.Join(other, "letter.txt"), []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := publish(from, other); err == nil {
		t.Error("a folder with other things in it was written to")
	}
	evil := t.TempDir()
	list, _ := json.Marshal(Manifest{Version: 1, Files: map[string]string{"page": "index.html"}, Sizes: map[string]int{"../letter.txt": 1}})
	if err := os.WriteFile(filepath.Join(evil, manifestName), list, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := publish(from, evil); err == nil {
		t.Error("a manifest that names files outside the site was followed")
	}
}

// TestPublishFails: where a new site cannot be written whole, the earlier one is as
// it was, and nothing of the new one is left.
func TestPublishFails(t *testing.T) {
	site := func(files map[string]string) string {
		dir := t.TempDir()
		m := Manifest{Version: 1, Files: map[string]string{"page": "index.html"}, Sizes: map[string]int{}}
		for name, text := range files {
			m.Sizes[name] = len(text)
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		list, _ := json.Marshal(m)
		if err := os.WriteFile(filepath.Join(dir, manifestName), list, 0o644); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	const oldStyle, newStyle = "page.000000000001.css", "page.000000000002.css"
	to := filepath.Join(t.TempDir(), "site")
	if err := publish(site(map[string]string{"index.html": "old", "offline.js": "old", oldStyle: "old"}), to); err != nil {
		t.Fatal(err)
	}
	from := site(map[string]string{"index.html": "newer", "offline.js": "newer", newStyle: "newer"})
	if err := os.Remove(filepath.Join(from, "offline.js")); err != nil { // the disk fails half way
		t.Fatal(err)
	}
	names := func() string {
		entries, _ := os.ReadDir(to)
		var all []string
		for _, e := range entries {
			all = append(all, e.Name())
		}
		return strings.Join(all, " ")
	}
	if err := publish(from, to); err == nil || !whole(to) || names() != "index.html manifest.json offline.js "+oldStyle {
		t.Errorf("%v; whole %v; %s", err, whole(to), names())
	}
	if err := os.WriteFile(filepath.Join(from, "offline.js"), []byte("newer"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := publish(from, to); err != nil || !whole(to) || names() != "index.html manifest.json offline.js "+newStyle {
		t.Errorf("%v; whole %v; %s", err, whole(to), names())
	}
}

// TestNoSource: elsewhere than in a clone the error says what to do.
func TestNoSource(t *testing.T) {
	t.Chdir(t.TempDir())
	if _, err := Build(context.Background(), ""); !errors.Is(err, ErrNoSource) {
		t.Errorf("error %v", err)
	}
}

// TestReproducible: the same source in another folder gives the same program
// and the same page, byte for byte.
func TestReproducible(t *testing.T) {
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	copied := filepath.Join(t.TempDir(), "another", "place")
	for _, part := range sourceRooms {
		from, to := filepath.Join(root, part), filepath.Join(copied, part)
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			t.Fatal(err)
		}
		if text, err := exec.Command("cp", "-R", from, to).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
	}
	if measuring { // nothing of the first build may help the second
		t.Setenv("GOCACHE", filepath.Join(t.TempDir(), "cache"))
	}
	dir := t.TempDir()
	if err := compile(context.Background(), copied, dir); err != nil {
		t.Fatal(err)
	}
	var manifests [2]string
	for i, at := range []string{siteDir(t), dir} {
		text, err := os.ReadFile(filepath.Join(at, manifestName))
		if err != nil {
			t.Fatal(err)
		}
		manifests[i] = string(text)
	}
	if manifests[0] != manifests[1] {
		t.Errorf("two folders, two sites:\n%s\n%s", manifests[0], manifests[1])
	}
}
