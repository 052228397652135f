//go:build linux

package main

import (
	"context"
	"io"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// TestBrowse: with a screen the address goes to the system's opener; without
// one, or without an opener, it says why not.
func TestBrowse(t *testing.T) {
	const url = "http://127.0.0.1:4711/"
	screen := func(names ...string) job {
		return job{context.Background(), strings.NewReader(""), io.Discard, io.Discard, func(name string) string {
			for _, n := range names {
				if n == name {
					return ":0"
				}
			}
			return ""
		}}
	}
	bin := t.TempDir()
	t.Setenv("PATH", bin)
	if why := browse(screen(), url); why == "" {
		t.Error("a browser was started without a screen")
	}
	if why := browse(screen("DISPLAY"), url); why == "" {
		t.Error("a browser was started without an opener")
	}
	told := filepath.Join(bin, "told")
	script := "#!/bin/sh\nprintf %s \"$1\" > '" + told + ".new'\n/bin/mv '" + told + ".new' '" + told + "'\n"
	if err := os.WriteFile(filepath.Join(bin, "xdg-open"), []byte(script), 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"DISPLAY", "WAYLAND_DISPLAY"} {
		os.Remove(told)
		if why := browse(screen(name), url); why != "" {
			t.Errorf("%s: %s", name, why)
		}
		var got []byte
		for range 500 {
			if got, _ = os.ReadFile(told); got != nil {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		if string(got) != url {
			t.Errorf("%s: the opener was given %q", name, got)
		}
	}
}

// TestFree: an address that another program has is not taken for free.
func TestFree(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	addr := l.Addr().String()
	if free(t.Context(), addr) {
		t.Error(addr, "is another's, and is called free")
	}
	l.Close()
	if !free(t.Context(), addr) {
		t.Error(addr, "is nobody's, and is not called free")
	}
}
