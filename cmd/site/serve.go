package site

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"net/netip"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"
)

// Policy is the page's content security policy: its own files, WebAssembly,
// nothing from anywhere else.
const Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; frame-src 'self'; base-uri 'none'; form-action 'none'; object-src 'none'"

// served is the policy that this server sends. Only a page of its own may show the
// page in a frame, as a course page in the same folder does; a page elsewhere that
// lays it under something else gets nothing. (A page cannot say this of itself, so on
// another host it is that host's to send.)
const served = Policy + "; frame-ancestors 'self'"

// types of the files a site is made of. Nothing else is served.
var types = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".json": "application/json",
	".jpg":  "image/jpeg",
	".wasm": "application/wasm",
	".txt":  "text/plain; charset=utf-8",
}

// Handler serves the files that the manifest of the site in dir lists, and
// nothing else: no listings, no paths, GET and HEAD only, and only under a
// host name of this machine (so that no page elsewhere can reach it through a
// name of its own that points here).
func Handler(dir string) (http.Handler, error) {
	m, err := ReadManifest(dir)
	if err != nil {
		return nil, fmt.Errorf("no site in %s: %w", dir, err)
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", served)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		if !local(r.Host) {
			http.Error(w, "This server answers on this machine's own address only.", http.StatusMisdirectedRequest)
			return
		}
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "Only reading is possible here.", http.StatusMethodNotAllowed)
			return
		}
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = m.Files["page"]
		}
		_, listed := m.Sizes[name]
		kind := types[filepath.Ext(name)]
		if !listed || kind == "" || filepath.Base(name) != name {
			http.Error(w, "There is no such page here.", http.StatusNotFound)
			return
		}
		f, err := os.Open(filepath.Join(dir, name))
		if err != nil {
			http.Error(w, "This file of the site is gone: build it again.", http.StatusNotFound)
			return
		}
		defer f.Close()
		h.Set("Content-Type", kind)
		if hashed.MatchString(name) { // its name is its content
			h.Set("Cache-Control", "public, max-age=31536000, immutable")
		} else {
			h.Set("Cache-Control", "no-cache")
		}
		http.ServeContent(w, r, "", time.Time{}, f)
	}), nil
}

// hashed are names that tell the content.
var hashed = regexp.MustCompile(`\.[0-9a-f]{12}\.[a-z]+$`)

// local reports whether a request's host is this machine's loopback.
func local(host string) bool {
	name, _, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	}
	if name == "localhost" {
		return true
	}
	addr, err := netip.ParseAddr(strings.Trim(name, "[]"))
	return err == nil && addr.IsLoopback()
}

// Serve serves the site in dir at addr, a loopback address with a port (0 = any
// free one; "" = 127.0.0.1:0), until ctx ends. ready is called once, with the
// page's address, when the server listens.
func Serve(ctx context.Context, dir, addr string, ready func(url string)) error {
	if addr == "" {
		addr = "127.0.0.1:0"
	}
	if host, _, err := net.SplitHostPort(addr); err != nil || !local(host) {
		return fmt.Errorf("address %q: the page is served on this machine alone; give 127.0.0.1:PORT", addr)
	}
	handler, err := Handler(dir)
	if err != nil {
		return err
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", addr)
	if err != nil {
		return err
	}
	server := &http.Server{
		Handler:           handler,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       60 * time.Second,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          quiet,
	}
	if ready != nil {
		ready("http://" + listener.Addr().String() + "/")
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err = <-ended:
	case <-ctx.Done():
		patience, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
		defer cancel()
		if err = server.Shutdown(patience); err != nil {
			err = server.Close()
		}
		<-ended
	}
	if errors.Is(err, http.ErrServerClosed) {
		return nil
	}
	return err
}

// quiet drops the server's own remarks about hung-up connections.
var quiet = log.New(io.Discard, "", 0)
