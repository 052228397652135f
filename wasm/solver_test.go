//go:build !js

package main

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"ruffwright/assets"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/testdata/demos"
	"ruffwright/wasm/wire"
)

// built is the program, once for all tests.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "ruffwright-worker-")
	if err != nil {
		return "", err
	}
	out := filepath.Join(dir, "worker.wasm")
	build := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", out, ".")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOEXPERIMENT=")
	text, err := build.CombinedOutput()
	if err != nil {
		return "", &exec.Error{Name: "go build: " + string(text), Err: err}
	}
	return out, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	if out, err := built(); err == nil {
		os.RemoveAll(filepath.Dir(out))
	}
	os.Exit(code)
}

// node is the program at work in Node.
type node struct {
	t     *testing.T
	in    io.WriteCloser
	heard chan heard
}

// heard is one reply, when it came and how much memory the program had then.
type heard struct {
	wire.Reply
	at     time.Duration
	memory int
	bytes  int // of the body
}

func start(t *testing.T) *node {
	t.Helper()
	if testing.Short() {
		t.Skip("compiles the program")
	}
	if _, err := exec.LookPath("node"); err != nil {
		if os.Getenv("RUFFWRIGHT_CI") != "" {
			t.Fatal(err)
		}
		t.Skip("needs Node: ", err)
	}
	program, err := built()
	if err != nil {
		t.Fatal(err)
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	run := exec.CommandContext(ctx, "node", "testdata/run.js", filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"), program)
	run.Stderr = os.Stderr
	in, err := run.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := run.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := run.Start(); err != nil {
		t.Fatal(err)
	}
	n := &node{t: t, in: in, heard: make(chan heard, 1000)}
	began := time.Now()
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		lines := bufio.NewReaderSize(out, 1<<20)
		for {
			line, err := lines.ReadBytes('\n')
			if err != nil {
				return
			}
			at := time.Since(began)
			var m struct {
				Head   string `json:"head"`
				Body   []byte `json:"body"`
				Memory int    `json:"memory"`
			}
			if err := json.Unmarshal(line, &m); err != nil {
				t.Errorf("%v: %.100s", err, line)
				return
			}
			r, err := wire.ReadReply(m.Head, m.Body)
			if err != nil {
				t.Errorf("%v: %.200s", err, m.Head)
				return
			}
			n.heard <- heard{r, at, m.Memory, len(m.Body)}
		}
	}()
	t.Cleanup(func() { in.Close(); cancel(); <-ended; _ = run.Wait() })
	first := n.hear()
	if !first.Alive {
		t.Fatalf("the first reply is %+v", first.Reply)
	}
	t.Logf("alive %v after the start of Node, %.1f MB of memory", first.at.Round(time.Millisecond), float64(first.memory)/1e6)
	return n
}

func (n *node) hear() heard {
	n.t.Helper()
	select {
	case r := <-n.heard:
		return r
	case <-time.After(2 * time.Minute):
		n.t.Fatal("no reply in two minutes")
		return heard{}
	}
}

func (n *node) ask(r wire.Request) time.Time {
	n.t.Helper()
	head, _, err := r.Encode()
	if err != nil {
		n.t.Fatal(err)
	}
	if _, err := io.WriteString(n.in, head+"\n"); err != nil {
		n.t.Fatal(err)
	}
	return time.Now()
}

// until gives the replies to request id to its last.
func (n *node) until(id int) []heard {
	n.t.Helper()
	var all []heard
	for {
		r := n.hear()
		if r.ID == id {
			all = append(all, r)
			if r.Last {
				return all
			}
		}
	}
}

var demo = demos.Scheme

// TestInNode: the built program answers in a worker thread as sim does here, for
// every demo: the same findings, the measures to a hundredth of a millimetre.
func TestInNode(t *testing.T) {
	n := start(t)
	for i, name := range assets.Demos() {
		s := demo(t, name)
		n.ask(wire.Request{ID: i + 1, Task: wire.Solve, Scheme: wire.Written(s)})
		all := n.until(i + 1)
		last := all[len(all)-1]
		want, err := sim.Solve(context.Background(), s, sim.Options{})
		if err != nil || last.Result == nil {
			if (err == nil) != (last.Error == nil) {
				t.Errorf("%s: here %v, there %+v", name, err, last.Error)
			}
			continue
		}
		got, err := sim.Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		got.Solved = last.Result.Solved
		if a, b := ids(want), ids(got); a != b {
			t.Errorf("%s: findings %s here, %s there", name, a, b)
		}
		a, b := want.Solved.Ruff, got.Solved.Ruff
		const near = 0.05 // mm: both end where the forces are small, not zero
		for _, v := range [][2]float64{{a.HeightOuter_mm, b.HeightOuter_mm}, {a.Bow_mm, b.Bow_mm}, {a.Droop_mm, b.Droop_mm}} {
			if d := v[0] - v[1]; d > near || d < -near {
				t.Errorf("%s: %v here, %v there (height %.2f and %.2f)", name, v[0], v[1], a.HeightOuter_mm, b.HeightOuter_mm)
			}
		}
	}
}

func ids(r sim.Ruff) string {
	var list []string
	for _, f := range check.Find(r, scheme.Millimetres) {
		list = append(list, f.ID)
	}
	return strings.Join(list, " ")
}

// TestCancelInNode: cancelled in the midst of work, the program falls silent
// within the page's 200 ms.
func TestCancelInNode(t *testing.T) {
	n := start(t)
	s := demo(t, "floppy")
	s.Wearer.Ratio = 1.2 // many half sets: seconds of work
	var worst time.Duration
	for i := range 6 {
		n.ask(wire.Request{ID: i + 1, Task: wire.Solve, Scheme: wire.Written(s)})
		time.Sleep(time.Duration(40+70*i) * time.Millisecond)
		at := n.ask(wire.Request{Task: wire.Cancel})
		all := n.until(i + 1)
		worst = max(worst, time.Since(at))
		if last := all[len(all)-1]; !last.Cancelled {
			t.Errorf("ends with %+v", last.Reply)
		}
	}
	t.Logf("the longest way from asking to silence: %v", worst.Round(time.Millisecond))
	if worst > patience { // the goal is 200 ms on a quiet machine: the benchmarks tell
		t.Errorf("silent after %v", worst)
	}
}

// measuring says that times are wanted from many rounds: RUFFWRIGHT_MEASURE.
var measuring = os.Getenv("RUFFWRIGHT_MEASURE") != ""

// patience is how long a busy machine may take over what is quick.
const patience = 10 * time.Second

// shape asks for no more than the shape at rest.
var shape = wire.Skip{Bow: true, Tangents: true, Other: true}

// TestTimesInNode tells how long each kind of solve takes in the built program, where
// times are wanted.
func TestTimesInNode(t *testing.T) {
	if !measuring {
		t.Skip("RUFFWRIGHT_MEASURE is not set")
	}
	n := start(t)
	id := 0
	oval := demo(t, "sound")
	oval.Wearer.Ratio = 1.15
	for _, c := range []struct {
		name   string
		s      scheme.Scheme
		r      wire.Request
		times  int
		change func(*scheme.Scheme, int)
	}{
		{"shape, coarse, cold (tucks change)", demo(t, "sound"), wire.Request{Coarse: true, Skip: shape}, 40, tucks},
		{"shape, coarse, warm (starch changes)", demo(t, "sound"), wire.Request{Coarse: true, Skip: shape}, 60, starch},
		{"shape, coarse, warm (girth changes)", demo(t, "sound"), wire.Request{Coarse: true, Skip: shape}, 60, girth},
		{"shape, coarse, warm (depth changes)", demo(t, "sound"), wire.Request{Coarse: true, Skip: shape}, 60, depth},
		{"shape, fine, cold", demo(t, "sound"), wire.Request{Skip: shape}, 20, girth},
		{"everything, fine", demo(t, "sound"), wire.Request{}, 8, girth},
		{"oval: shape, coarse, cold (tucks change)", oval, wire.Request{Coarse: true, Skip: shape}, 3, tucks},
		{"oval: shape, coarse, warm (starch changes)", oval, wire.Request{Coarse: true, Skip: shape}, 8, starch},
		{"oval: shape, fine, cold", oval, wire.Request{Skip: shape}, 2, girth},
		{"oval: everything, fine", oval, wire.Request{}, 2, girth},
		{"floppy: everything with the other equilibrium, fine", demo(t, "floppy"), wire.Request{}, 3, girth},
	} {
		var took []time.Duration
		bytes := 0
		for k := range c.times {
			id++
			c.change(&c.s, k)
			c.r.ID, c.r.Task, c.r.Scheme = id, wire.Solve, wire.Written(c.s)
			at := n.ask(c.r)
			all := n.until(id)
			if k > 0 { // the first is of another kind than the last before it
				took = append(took, time.Since(at))
			}
			last := all[len(all)-1]
			if last.Result == nil {
				t.Fatalf("%s: %+v", c.name, last.Reply)
			}
			bytes = last.bytes
		}
		slices.Sort(took)
		t.Logf("%-52s median %4d, p95 %4d ms, surfaces %d kB", c.name,
			took[len(took)/2].Milliseconds(), took[min(len(took)-1, len(took)*95/100)].Milliseconds(), bytes/1000)
	}
}

// TestMemoryInNode: the memory of the built program does not grow by many solves.
func TestMemoryInNode(t *testing.T) {
	n := start(t)
	id := 0
	s := demo(t, "sound")
	memory := func(solves int) int {
		last := heard{}
		for k := range solves {
			id++
			girth(&s, k)
			n.ask(wire.Request{ID: id, Task: wire.Solve, Coarse: true, Skip: shape, Scheme: wire.Written(s)})
			all := n.until(id)
			last = all[len(all)-1]
		}
		return last.memory
	}
	before := memory(20)
	solves := 40
	if measuring {
		solves = 500
	}
	// The heap may take one step more while it finds its size; what leaks takes one in every
	// round.
	for range 3 {
		after := memory(solves)
		t.Logf("memory %.1f MB, after %d solves more %.1f MB", float64(before)/1e6, solves, float64(after)/1e6)
		if float64(after) <= 1.05*float64(before) && after <= 128e6 {
			return
		}
		before = after
	}
	t.Error("the memory grows in every round, or is over 128 MB")
}

// Small changes, to and fro, as of a control that moves.
func starch(s *scheme.Scheme, k int) { s.Starch.Bend = 60 + float64(k%7) }
func girth(s *scheme.Scheme, k int)  { s.Wearer.Girth = 380 + fro(k) }
func depth(s *scheme.Scheme, k int)  { s.Ruff.Depth = 62 + fro(k)/2 }

// tucks changes what no solve may start across.
func tucks(s *scheme.Scheme, k int) { s.Pleat.TuckTop = 9 - 0.25*fro(k) }

// fro is 0, 1, ... 9, 10, 9, ... 1, 0, 1, ...
func fro(k int) float64 { return 10 - math.Abs(float64(k%20)-10) }
