//go:build unix

package main

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// readmeCommands are the commands that the README tells a newcomer to type: the
// lines of its fenced blocks of sh, in order.
func readmeCommands(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(moduleRoot(t), "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	var commands []string
	for _, block := range regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		for line := range strings.Lines(block[1]) {
			if line = strings.TrimSpace(line); line != "" && !strings.HasPrefix(line, "#") {
				commands = append(commands, line)
			}
		}
	}
	if len(commands) < 2 {
		t.Fatalf("the README has %d commands", len(commands))
	}
	return commands
}

// TestReadmeFirstCommand types the README's first command as it stands, in the
// folder of go.mod, on a machine without a screen: the page is built and
// served, and ctrl-C ends it well. (go run itself mostly answers 1 to ctrl-C, and 0
// where what it ran was done first; it says "exit status" when that did not end well.)
func TestReadmeFirstCommand(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the page")
	}
	complaint := opened(t, "exec "+readmeCommands(t)[0], 0, 1)
	if strings.Contains(complaint, "exit status") {
		t.Errorf("ctrl-C: %s", complaint)
	}
	if !strings.Contains(complaint, "open the address in a browser yourself") {
		t.Errorf("without a screen it should say what to do: %s", complaint)
	}
}

// TestOpenEndsWell: the command by itself answers 0 to ctrl-C, and says nothing
// about screens when it was told to open none.
func TestOpenEndsWell(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the page")
	}
	if complaint := opened(t, "exec ruffwright --no-browser", 0); strings.Contains(complaint, "screen") {
		t.Errorf("it complains: %s", complaint)
	}
}

// opened runs a command that serves the page, reads the page, ends it with
// ctrl-C and returns what it wrote to standard error.
func opened(t *testing.T, line string, want ...int) string {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Minute)
	defer cancel()
	command := exec.CommandContext(ctx, "sh", "-c", line)
	command.Dir = moduleRoot(t)
	command.Env = slices.DeleteFunc(os.Environ(), func(e string) bool {
		return strings.HasPrefix(e, "DISPLAY=") || strings.HasPrefix(e, "WAYLAND_DISPLAY=")
	})
	// A shell that runs the tests in the background lets them ignore ctrl-C, and so
	// what they start. A signal that is heard here is not ignored there.
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, os.Interrupt)
	defer signal.Stop(heard)
	// A group of its own, so that ctrl-C reaches go run and the command alike, as
	// it does in a terminal.
	command.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	send := func(s syscall.Signal) error { return syscall.Kill(-command.Process.Pid, s) }
	command.Cancel = func() error { return send(syscall.SIGKILL) }
	var complaint strings.Builder
	command.Stderr = &complaint
	out, err := command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	defer send(syscall.SIGKILL)
	lines := bufio.NewReader(out)
	first, err := lines.ReadString('\n')
	if err != nil {
		send(syscall.SIGKILL)
		command.Wait()
		t.Fatalf("it printed no address: %v\n%s", err, complaint.String())
	}
	address := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(first)
	if address == "" {
		t.Fatalf("no address in %q", first)
	}
	html := fetched(t, address, "text/html")
	if !strings.Contains(html, "wearer.girth") {
		t.Error("the page has no field for the neck")
	}
	found := regexp.MustCompile(`data-program="([^"]+\.wasm)"`).FindStringSubmatch(html)
	if found == nil {
		t.Fatal("the page names no program")
	}
	if program := fetched(t, address+found[1], "application/wasm"); !strings.HasPrefix(program, "\x00asm") {
		t.Errorf("%s is no WebAssembly", found[1])
	}
	if err := send(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	rest, _ := io.ReadAll(lines)
	ended := make(chan error, 1)
	go func() { ended <- command.Wait() }()
	select {
	case <-ended:
		if got := command.ProcessState.ExitCode(); !slices.Contains(want, got) {
			t.Errorf("ctrl-C: exit code %d, want %d: %s", got, want, complaint.String())
		}
	case <-time.After(20 * time.Second):
		t.Errorf("ctrl-C did not end it; it printed %s", rest)
	}
	if strings.Contains(complaint.String(), "goroutine ") {
		t.Errorf("it panicked:\n%s", complaint.String())
	}
	return complaint.String()
}

// fetched reads the address, which must answer well and with this type.
func fetched(t *testing.T, address, kind string) string {
	t.Helper()
	client := http.Client{Timeout: 20 * time.Second}
	answer, err := client.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	if answer.StatusCode != http.StatusOK || !strings.HasPrefix(answer.Header.Get("Content-Type"), kind) {
		t.Fatalf("%s: %s, %s", address, answer.Status, answer.Header.Get("Content-Type"))
	}
	return string(body)
}

// TestReadmeOtherCommands types the rest of the README as it stands, the built
// command in place of go run: none is refused. (page has a script of its own.)
func TestReadmeOtherCommands(t *testing.T) {
	commands := readmeCommands(t)
	if commands[0] != "go run ./cmd/ruffwright" || commands[1] != "./.ci/run" {
		t.Errorf("the README begins with %q", commands[:2])
	}
	if about, err := os.Stat(filepath.Join(moduleRoot(t), ".ci", "run")); err != nil || about.Mode()&0o111 == 0 {
		t.Errorf(".ci/run cannot be run: %v", err)
	}
	dir := t.TempDir()
	example := filepath.Join("testdata", "look") // which the README reads from the module's root
	if err := os.CopyFS(filepath.Join(dir, "cmd", "ruffwright", example), os.DirFS(example)); err != nil {
		t.Fatal(err)
	}
	for _, c := range commands[2:] {
		words, ok := strings.CutPrefix(c, "go run ./cmd/ruffwright ")
		if !ok {
			t.Errorf("%q is neither the command nor the tests", c)
			continue
		}
		if strings.HasPrefix(words, "page ") {
			continue
		}
		command := exec.CommandContext(t.Context(), "sh", "-c", "ruffwright "+words)
		command.Dir = dir
		out, _ := command.CombinedOutput()
		if code := command.ProcessState.ExitCode(); code != exitWell && code != exitStops {
			t.Errorf("%s: exit code %d\n%s", c, code, out)
		}
	}
	if _, err := os.Stat(filepath.Join(dir, "ruff.png")); err != nil {
		t.Errorf("the README's picture was not drawn: %v", err)
	}
}
