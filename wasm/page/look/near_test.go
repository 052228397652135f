package look

import (
	"context"
	"math"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/window"
	"ruffwright/testdata/demos"
	"ruffwright/wasm/page/say"
)

// apart is how far two shapes of one grid lie apart, mm: the root of the mean square.
func apart(a, b pleat.Shape) float64 {
	sum, n := 0.0, 0
	for k, panel := range a.Panels {
		for i, v := range panel.V {
			d := v.Sub(b.Panels[k].V[i])
			sum, n = sum+d.Dot(d), n+1
		}
	}
	return math.Sqrt(sum / float64(n))
}

// on is the closed form of a ruff on another grid.
func on(t *testing.T, r *sim.Ruff, of pleat.Shape) pleat.Shape {
	t.Helper()
	f, err := r.Plan.Fold(of.NU, of.NV)
	if err != nil {
		t.Fatal(err)
	}
	return f.Shape
}

// solvedDemo is a demo's ruff with changes as "key value", solved.
func solvedDemo(t *testing.T, name string, set ...string) *sim.Ruff {
	t.Helper()
	r, err := sim.Solve(context.Background(), demos.Scheme(t, name, set...), sim.Options{Grid: window.Coarse, SkipBow: true, SkipTangents: true, SkipOther: true})
	if err != nil {
		t.Fatal(err)
	}
	return &r
}

// From one solved ruff to one near it there is no picture of the closed form: while the
// second is solved its shape is nearer to what will be solved than the closed form is,
// and the movement from it to the solved one stays there as well. Far from it, sewn
// otherwise, and where nothing is solved, the closed form is shown.
func TestFromSolvedToSolved(t *testing.T) {
	for _, c := range []struct {
		demo string
		set  []string
		part float64 // of the way from the closed form that may be left
	}{
		{"floppy", []string{"ruff.depth 80"}, 0.5},
		{"floppy", []string{"ruff.sets 42"}, 0.5},
		{"floppy", []string{"ruff.height 44"}, 0.5},
		{"sound", []string{"ruff.depth 74"}, 0.5},
		{"sound", []string{"ruff.height 46"}, 0.7},
	} {
		l := New(&say.Voice{})
		l.Scene = Scene{A: solvedDemo(t, c.demo), Solving: true}
		l.Settle(true, 0)
		now := 10000.0
		l.At_ms = now
		l.Frame(now)

		next := solvedDemo(t, c.demo, c.set...)
		truth := next.Solved
		closed := on(t, next, truth.Shape)
		next.Solved = nil
		l.A = next
		l.Take(true)
		far := apart(closed, truth.Shape)
		between := func(what string, shape pleat.Shape) {
			t.Helper()
			if !sameGrid(shape, closed) {
				bent, ok := l.hung.bends(&next.Plan, closed)
				if !ok {
					t.Fatalf("%s %v: %s is the closed form", c.demo, c.set, what)
				}
				shape = bent
			}
			if d := apart(shape, truth.Shape); d > c.part*far {
				t.Errorf("%s %v: %s lies %.2f mm from what is solved, the closed form %.2f", c.demo, c.set, what, d, far)
			}
		}
		if !l.Guessing() {
			t.Fatalf("%s %v: while it is solved the closed form is shown", c.demo, c.set)
		}
		between("what is shown while it is solved", l.shape(0, l.A))
		next.Solved = truth
		l.Settle(true, now)
		for at := 0.0; at <= settle_ms+20; at += 16 {
			l.At_ms = now + at
			l.Frame(l.At_ms)
			between("a picture on the way", l.shape(0, l.A))
		}
		if d := apart(l.shape(0, l.A), truth.Shape); d != 0 {
			t.Errorf("in the end it lies %.3f mm from what is solved", d)
		}
	}
}

// What is far from the ruff that was solved, or sewn otherwise, is drawn in its closed
// form; so is all that nobody solves.
func TestFarIsDrawn(t *testing.T) {
	l := New(&say.Voice{})
	l.Scene = Scene{A: solvedDemo(t, "floppy"), Solving: true}
	l.Settle(true, 0)
	drawn := func(name string, set ...string) {
		t.Helper()
		r, err := sim.Draw(demos.Scheme(t, name, set...))
		if err != nil {
			t.Fatal(err)
		}
		l.A = &r
	}
	for _, far := range [][]string{{"floppy", "ruff.depth 150"}, {"floppy", "pleat.anchor both"}, {"floppy", "starch.bend 60"}, {"cuff"}} {
		drawn(far[0], far[1:]...)
		if l.Guessing() || apart(l.posed(), l.A.Folded.Shape) != 0 {
			t.Errorf("%v is not drawn in its closed form", far)
		}
	}
	drawn("floppy", "ruff.depth 76")
	if !l.Guessing() {
		t.Error("a ruff near the solved one is drawn in its closed form")
	}
	l.Solving = false
	if l.Guessing() {
		t.Error("nobody solves it, and it is not drawn in its closed form")
	}
}
