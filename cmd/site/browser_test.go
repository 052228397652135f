package site

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// patience is how long a test waits for the page. The machine may be busy; a
// test that passes does not wait for it.
const patience = 5 * time.Minute

// chromium finds the browser, or fails the test: a missing browser is never a
// pass.
func chromium(t *testing.T) string {
	t.Helper()
	names := []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable"}
	for _, set := range []string{"CHROMIUM", "CHROME"} {
		if named := os.Getenv(set); named != "" {
			names = []string{named}
		}
	}
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Fatalf("no browser: none of %s is on the PATH (set CHROMIUM to one, or install chromium)", strings.Join(names, ", "))
	return ""
}

var browser struct {
	once sync.Once
	ctx  context.Context
	end  func()
	err  error
}

// startBrowser starts the one browser of all tests. Without a graphics card the pages are
// put together by the processor itself: put together by it in a card's stead they take half
// as much again. WebGL, which the stage draws by, is there all the same.
func startBrowser(path, dir string) {
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.UserDataDir(dir), chromedp.NoSandbox,
		chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true),
		chromedp.Flag("ignore-gpu-blocklist", true), chromedp.Flag("disable-quic", true),
		chromedp.Flag("disable-gpu-compositing", true),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true), chromedp.WindowSize(1280, 800))
	allocated, endAll := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, end := chromedp.NewContext(allocated)
	browser.ctx, browser.end = ctx, func() { end(); endAll() }
	browser.err = chromedp.Do(ctx, chromedp.Navigate("about:blank"))
}

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "ruffwright-browser-")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	profile = dir
	code := m.Run()
	if browser.end != nil {
		browser.end()
	}
	os.RemoveAll(dir)
	os.Exit(code)
}

var profile string

// measuring says that times are wanted: RUFFWRIGHT_MEASURE.
var measuring = os.Getenv("RUFFWRIGHT_MEASURE") != ""

// built is the site, built once for all tests.
var built = sync.OnceValues(func() (string, error) { return Build(context.Background(), "") })

func siteDir(t *testing.T) string {
	t.Helper()
	dir, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

// homes are addresses of the built site. What a page stores belongs to its address,
// so a test that runs beside others has one to itself; and the browser compiles the
// programs of an address once, so there are few, and the first is taken first.
var homes struct {
	mu   sync.Mutex
	free []string
	of   map[string]string // by the test that has it
}

// site is the address of the built site for a test and its subtests.
func site(t *testing.T) string {
	t.Helper()
	dir := siteDir(t)
	homes.mu.Lock()
	defer homes.mu.Unlock()
	test, _, _ := strings.Cut(t.Name(), "/")
	if home := homes.of[test]; home != "" {
		return home
	}
	if len(homes.free) == 0 {
		handler, err := Handler(dir)
		if err != nil {
			t.Fatal(err)
		}
		homes.free = []string{httptest.NewServer(handler).URL + "/"}
	}
	last := len(homes.free) - 1
	home := homes.free[last]
	homes.free = homes.free[:last]
	if homes.of == nil {
		homes.of = map[string]string{}
	}
	homes.of[test] = home
	t.Cleanup(func() {
		homes.mu.Lock()
		defer homes.mu.Unlock()
		delete(homes.of, test)
		homes.free = append(homes.free, home)
	})
	return home
}

// alone is the page as one file, written once for all tests, beside the
// browser's profile.
var alone = sync.OnceValues(func() (string, error) {
	name := filepath.Join(profile, "ruffwright.html")
	_, err := Single(context.Background(), name)
	return "file://" + name, err
})

// single is the address of the page that is one file.
func single(t *testing.T) string {
	t.Helper()
	url, err := alone()
	if err != nil {
		t.Fatal(err)
	}
	return url
}

// serve serves a site for the length of a test, at an address of its own.
// meddle, where given, may answer in its place.
func serve(t *testing.T, dir string, meddle func(http.ResponseWriter, *http.Request) bool) string {
	t.Helper()
	handler, err := Handler(dir)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if meddle == nil || !meddle(w, r) {
			handler.ServeHTTP(w, r)
		}
	}))
	t.Cleanup(server.Close)
	return server.URL + "/"
}
