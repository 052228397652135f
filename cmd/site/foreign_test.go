package site

import (
	"bufio"
	"bytes"
	"context"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/coder/websocket"
)

// foreigner is a browser of another maker than Chromium, with one page open, spoken to by
// the W3C's protocols: WebDriver, or WebDriver BiDi.
type foreigner struct {
	t *testing.T
	// visit opens an address, back goes to the one before; evaluate gives the JSON text that a promise holds; act
	// presses, moves and types as WebDriver's actions say; shot is a PNG of the window.
	visit    func(url string)
	back     func()
	evaluate func(promise string) string
	act      func(actions ...any)
	shot     func() []byte
}

// installed finds a browser's program, or fails the test: a missing browser is never a pass.
func installed(t *testing.T, name, debian string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Fatalf("no %s on the PATH: install %s (Debian), which .ci/run does where it may", name, debian)
	}
	return path
}

// started starts a program that ends with the test, and returns the first match of a
// pattern in what it prints; without a pattern it waits for nothing.
func started(t *testing.T, c *exec.Cmd, says *regexp.Regexp) []string {
	t.Helper()
	r, w := io.Pipe()
	c.Stdout, c.Stderr = w, w
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		c.Process.Kill()
		c.Wait()
		w.Close()
	})
	match := make(chan []string, 1)
	go func() {
		for lines := bufio.NewScanner(r); lines.Scan(); {
			if m := says.FindStringSubmatch(lines.Text()); m != nil {
				select {
				case match <- m:
				default:
				}
			}
		}
		io.Copy(io.Discard, r)
	}()
	select {
	case m := <-match:
		return m
	case <-time.After(patience):
		t.Fatalf("%s never said %v", c.Path, says)
		return nil
	}
}

// display starts a screen that nobody sees, and returns its name.
func display(t *testing.T) string {
	t.Helper()
	m := started(t, exec.Command(installed(t, "Xvfb", "xvfb"), "-displayfd", "1", "-screen", "0", "1400x1000x24", "-nolisten", "tcp"), regexp.MustCompile(`^(\d+)$`))
	return ":" + m[1]
}

// apart is an environment with a display and a home of its own, which it also returns.
// What a browser leaves there as it ends may come after the test: what cannot be removed
// then is left.
func apart(t *testing.T) (environment []string, home string) {
	t.Helper()
	home, err := os.MkdirTemp("", "ruffwright-browser-")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(home) })
	return append(os.Environ(), "DISPLAY="+display(t), "HOME="+home, "XDG_CACHE_HOME="+home, "XDG_CONFIG_HOME="+home, "XDG_DATA_HOME="+home, "MESA_SHADER_CACHE_DISABLE=true"), home
}

// firefox opens Firefox, which speaks BiDi over a socket.
func firefox(t *testing.T) *foreigner {
	t.Helper()
	environment, home := apart(t)
	const quiet = `user_pref("app.normandy.enabled", false); user_pref("app.update.auto", false); user_pref("datareporting.policy.dataSubmissionEnabled", false); user_pref("ui.prefersReducedMotion", 1);`
	if err := os.WriteFile(filepath.Join(home, "user.js"), []byte(quiet), 0o644); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(installed(t, "firefox-esr", "firefox-esr"), "--no-remote", "--profile", home, "--remote-debugging-port", "0", "about:blank")
	c.Env = environment
	m := started(t, c, regexp.MustCompile(`WebDriver BiDi listening on (\S+)`))
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	t.Cleanup(cancel)
	socket, _, err := websocket.Dial(ctx, m[1]+"/session", nil)
	if err != nil {
		t.Fatal(err)
	}
	socket.SetReadLimit(-1)
	id := 0
	call := func(method string, params map[string]any) json.RawMessage {
		t.Helper()
		id++
		text, _ := json.Marshal(map[string]any{"id": id, "method": method, "params": params})
		if err := socket.Write(ctx, websocket.MessageText, text); err != nil {
			t.Fatalf("%s: %v", method, err)
		}
		for {
			_, text, err := socket.Read(ctx)
			if err != nil {
				t.Fatalf("%s: %v", method, err)
			}
			var a struct {
				ID             int
				Type           string
				Result         json.RawMessage
				Error, Message string
			}
			if err := json.Unmarshal(text, &a); err != nil {
				t.Fatalf("%s: %v: %s", method, err, text)
			}
			if a.Type == "error" {
				t.Fatalf("%s: %s: %s", method, a.Error, a.Message)
			}
			if a.ID == id {
				return a.Result
			}
		}
	}
	call("session.new", map[string]any{"capabilities": map[string]any{}})
	var tree struct{ Contexts []struct{ Context string } }
	if err := json.Unmarshal(call("browsingContext.getTree", map[string]any{}), &tree); err != nil || len(tree.Contexts) == 0 {
		t.Fatalf("no window: %v", err)
	}
	at := tree.Contexts[0].Context
	call("browsingContext.setViewport", map[string]any{"context": at, "viewport": map[string]int{"width": 1280, "height": 800}})
	return &foreigner{t: t,
		visit: func(url string) {
			call("browsingContext.navigate", map[string]any{"context": at, "url": url, "wait": "interactive"})
		},
		back: func() { call("browsingContext.traverseHistory", map[string]any{"context": at, "delta": -1}) },
		evaluate: func(promise string) string {
			t.Helper()
			var a struct {
				Type             string
				Result           struct{ Value string }
				ExceptionDetails struct{ Text string }
			}
			if err := json.Unmarshal(call("script.evaluate", map[string]any{"expression": promise, "awaitPromise": true, "target": map[string]any{"context": at}}), &a); err != nil || a.Type != "success" {
				t.Fatalf("%s: %s %v", promise, a.ExceptionDetails.Text, err)
			}
			return a.Result.Value
		},
		act: func(actions ...any) {
			t.Helper()
			call("input.performActions", map[string]any{"context": at, "actions": actions})
		},
		shot: func() []byte {
			t.Helper()
			return unpacked(t, call("browsingContext.captureScreenshot", map[string]any{"context": at}), "data")
		},
	}
}

// webkit opens WebKitGTK's browser, which speaks WebDriver over HTTP.
func webkit(t *testing.T) *foreigner {
	t.Helper()
	port, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	address := "http://" + port.Addr().String()
	_, number, _ := strings.Cut(port.Addr().String(), ":")
	port.Close()
	c := exec.Command(installed(t, "WebKitWebDriver", "webkit2gtk-driver"), "--port="+number)
	c.Env, _ = apart(t)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Process.Kill(); c.Wait() })
	client := http.Client{Timeout: patience}
	call := func(method, path string, params any) json.RawMessage {
		t.Helper()
		text, _ := json.Marshal(params)
		var r *http.Response
		for deadline := time.Now().Add(patience); ; time.Sleep(100 * time.Millisecond) {
			q, err := http.NewRequest(method, address+path, bytes.NewReader(text))
			if err != nil {
				t.Fatal(err)
			}
			if r, err = client.Do(q); err == nil {
				break
			}
			if path != "/session" || time.Now().After(deadline) { // it may not listen yet
				t.Fatalf("%s: %v", path, err)
			}
		}
		defer r.Body.Close()
		var a struct{ Value json.RawMessage }
		if err := json.NewDecoder(r.Body).Decode(&a); err != nil || r.StatusCode != http.StatusOK {
			t.Fatalf("%s: %s: %s %v", path, r.Status, a.Value, err)
		}
		return a.Value
	}
	var session struct{ SessionID string }
	if err := json.Unmarshal(call("POST", "/session", map[string]any{"capabilities": map[string]any{}}), &session); err != nil {
		t.Fatal(err)
	}
	root := "/session/" + session.SessionID
	t.Cleanup(func() { call("DELETE", root, nil) })
	call("POST", root+"/window/rect", map[string]int{"width": 1280, "height": 900})
	return &foreigner{t: t,
		visit: func(url string) { t.Helper(); call("POST", root+"/url", map[string]string{"url": url}) },
		back:  func() { t.Helper(); call("POST", root+"/back", map[string]any{}) },
		evaluate: func(promise string) string {
			t.Helper()
			var text string
			script := `const done = arguments[arguments.length - 1]; (` + promise + `).then(done, (e) => done("!" + e));`
			if err := json.Unmarshal(call("POST", root+"/execute/async", map[string]any{"script": script, "args": []any{}}), &text); err != nil || strings.HasPrefix(text, "!") {
				t.Fatalf("%s: %s %v", promise, text, err)
			}
			return text
		},
		act: func(actions ...any) {
			t.Helper()
			call("POST", root+"/actions", map[string]any{"actions": actions})
		},
		shot: func() []byte {
			t.Helper()
			return unpacked(t, json.RawMessage(`{"data":`+string(call("GET", root+"/screenshot", nil))+`}`), "data")
		},
	}
}

// unpacked is the file that stands in base64 under a key.
func unpacked(t *testing.T, text json.RawMessage, key string) []byte {
	t.Helper()
	var all map[string]string
	if err := json.Unmarshal(text, &all); err != nil {
		t.Fatal(err)
	}
	file, err := base64.StdEncoding.DecodeString(all[key])
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// holds is what an expression of the page comes to.
func holds[T any](f *foreigner, script string) (v T) {
	f.t.Helper()
	text := f.evaluate(`Promise.resolve(` + script + `).then((v) => JSON.stringify(v === undefined ? null : v))`)
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		f.t.Fatalf("%s: %v: %s", script, err, text)
	}
	return v
}

// await waits until an expression is true.
func (f *foreigner) await(script string) {
	f.t.Helper()
	for deadline := time.Now().Add(patience); !holds[bool](f, "!!("+script+")"); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(deadline) {
			f.t.Fatalf("waited in vain for %s\nthe page says: %.1500s", script, holds[string](f, "document.body.innerText"))
		}
	}
}

// stage is the picture of the ruff.
func (f *foreigner) stage() image.Image {
	f.t.Helper()
	f.await(`new Promise((done) => requestAnimationFrame(() => setTimeout(() => done(!document.getElementById("stage").hasAttribute("data-painting")), 400)))`)
	whole, err := png.Decode(bytes.NewReader(f.shot()))
	if err != nil {
		f.t.Fatal(err)
	}
	r := holds[[4]int](f, `(() => { const r = document.getElementById("stage").getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom].map(Math.round); })()`)
	return whole.(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(r[0], r[1], r[2], r[3]))
}

type (
	actions map[string]any
	steps   []map[string]any
)

// drag draws the pointer over the stage's middle.
func (f *foreigner) drag(by int) {
	f.t.Helper()
	at := holds[[2]int](f, `(() => { const r = document.getElementById("stage").getBoundingClientRect(); return [r.left + r.width / 2, r.top + r.height / 2].map(Math.round); })()`)
	f.act(actions{"type": "pointer", "id": "mouse", "parameters": map[string]string{"pointerType": "mouse"}, "actions": steps{
		{"type": "pointerMove", "x": at[0], "y": at[1]}, {"type": "pointerDown", "button": 0},
		{"type": "pointerMove", "x": at[0] + by/2, "y": at[1], "duration": 50}, {"type": "pointerMove", "x": at[0] + by, "y": at[1], "duration": 50},
		{"type": "pointerUp", "button": 0},
	}})
}

// enter types into the field of a key, and leaves it.
func (f *foreigner) enter(key, text string) {
	f.t.Helper()
	holds[any](f, fmt.Sprintf(`(() => { const e = document.querySelector(%q); e.focus(); e.select(); })()`, field(key)))
	var keys steps
	for _, r := range text + "\uE004" { // WebDriver's Tab
		keys = append(keys, map[string]any{"type": "keyDown", "value": string(r)}, map[string]any{"type": "keyUp", "value": string(r)})
	}
	f.act(actions{"type": "key", "id": "keys", "actions": keys})
}
