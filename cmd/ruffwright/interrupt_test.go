//go:build unix

package main

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestCancelStops: ctrl-C ends every long verb at once, with nothing on standard
// output, and says so.
func TestCancelStops(t *testing.T) {
	for _, words := range []string{
		"solve default --grid finest --set wearer.ratio=1.3",
		"fit default --grid finest",
		"need default --grid finest --bow 0.01",
		"compare sound tall --grid finest",
		"trial default --over 40",
		"matters default",
		"verify --slow",
		"robust --ruffs 0",
		"robust --cells 0",
		"robust --cells 0 --ruffs 0 --tucked 50",
		"check default --grid finest --set wearer.ratio=1.3",
	} {
		ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
		var out, complaint bytes.Buffer
		began := time.Now()
		code := run(job{ctx, strings.NewReader(""), &out, &complaint, func(string) string { return "" }}, strings.Fields(words))
		cancel()
		if code != exitBad || complaint.String() != "ruffwright: stopped\n" || out.Len() > 0 {
			t.Errorf("%s: exit code %d, %q, %d bytes printed", words, code, complaint.String(), out.Len())
		}
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("%s: took %v to stop", words, took)
		}
	}
}

// TestCancelReading: ctrl-C ends a verb that waits for somebody to type.
func TestCancelReading(t *testing.T) {
	for _, words := range []string{"check -", "share -", "batch - --out " + filepath.Join(t.TempDir(), "made")} {
		ctx, cancel := context.WithTimeout(t.Context(), 50*time.Millisecond)
		from, hold := io.Pipe() // nobody writes
		var out, complaint bytes.Buffer
		ended := make(chan int, 1)
		go func() {
			ended <- run(job{ctx, from, &out, &complaint, func(string) string { return "" }}, strings.Fields(words))
		}()
		select {
		case code := <-ended:
			if code != exitBad || complaint.String() != "ruffwright: stopped\n" || out.Len() > 0 {
				t.Errorf("%s: exit code %d, %q, %q", words, code, complaint.String(), out.String())
			}
		case <-time.After(5 * time.Second):
			t.Errorf("%s: it still waits", words)
		}
		hold.Close()
		cancel()
	}
}

// TestSignals: SIGINT and SIGTERM end the command by itself while it waits for somebody
// to type, at once.
func TestSignals(t *testing.T) {
	for _, sign := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		command := exec.CommandContext(t.Context(), "ruffwright", "check", "-")
		typing, err := command.StdinPipe() // nobody types
		if err != nil {
			t.Fatal(err)
		}
		var complaint bytes.Buffer
		command.Stderr = &complaint
		if err := command.Start(); err != nil {
			t.Fatal(err)
		}
		ended := make(chan error, 1)
		go func() { ended <- command.Wait() }()
		time.Sleep(500 * time.Millisecond) // until it listens for signals
		if err := command.Process.Signal(sign); err != nil {
			t.Fatal(err)
		}
		select {
		case <-ended:
			if code := command.ProcessState.ExitCode(); code != exitBad || complaint.String() != "ruffwright: stopped\n" {
				t.Errorf("%v: exit code %d, %q", sign, code, complaint.String())
			}
		case <-time.After(10 * time.Second):
			t.Errorf("%v does not end it", sign)
			command.Process.Kill()
		}
		typing.Close()
	}
}
