package matter

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
	"ruffwright/testdata/demos"
)

var demo = demos.Scheme

// TestFind: of figures that follow the fields by a law that is written here, those fields
// are found whose tenth moves most against the limits, with that move and the law's curve.
func TestFind(t *testing.T) {
	s := demo(t, "floppy") // 42 mm wanted: the limits are 2.1, 5 and 2 mm
	law := func(s scheme.Scheme) (height, droop, bow float64) {
		return 40 + s.Ruff.Depth/10, 1 + 0.05*float64(s.Ruff.Sets), 20 - s.Band.Height/5 + s.Pleat.Panel/1e6
	}
	solves := 0
	solve := func(ctx context.Context, s scheme.Scheme, opt sim.Options) (sim.Ruff, error) {
		solves++
		if s.Wearer.Ratio != 1 || opt.Grid != quick.Grid || !opt.SkipFiner {
			t.Errorf("solved with %+v", opt)
		}
		r, err := sim.Draw(s)
		if err != nil {
			return r, err
		}
		v := measure.Values{Converged: true, BowDone: true}
		v.HeightOuter_mm, v.Droop_mm, v.Bow_mm = law(s)
		r.Solved = &sim.Solved{Ruff: v, Sets: []measure.Values{v}}
		return r, nil
	}
	var told []string
	got, err := Find(context.Background(), s, solve, func(f Field) { told = append(told, f.Key) })
	if err != nil || len(got) != Most {
		t.Fatal(err, got)
	}
	// A tenth: depth 75 → 0.75 of 2.1; band → height/50 of 2; sets 40 → 0.2 of 5.
	if want := "ruff.depth band.height ruff.sets"; strings.Join(told, " ") != want || got[2].Key != "ruff.sets" {
		t.Errorf("told %v, want %s", told, want)
	}
	if math.Abs(got[0].Moves[0]-0.75) > 1e-9 || math.Abs(got[1].Moves[2]+0.02*s.Band.Height) > 1e-9 {
		t.Errorf("%+v", got)
	}
	for i, p := range got[0].Points {
		if math.Abs(p.At[0]-40-p.Value/10) > 1e-9 || i > 0 && !(p.Value > got[0].Points[i-1].Value) {
			t.Errorf("%+v", got[0].Points)
		}
	}
	if n := len(got[0].Points); n < 2*steps+1 || got[0].Points[0].Value > 0.71*s.Ruff.Depth || got[0].Points[n-1].Value < 1.29*s.Ruff.Depth {
		t.Errorf("%d points", n)
	}
	if want := "Depth from 75 mm to 82.5 mm. That changes the height by +0.8 mm, the droop by 0 mm and the swing when the wearer bows by 0 mm."; got[0].Says(scheme.Millimetres).String() != want {
		t.Errorf("%s", got[0].Says(scheme.Millimetres))
	}
	if solves > 60 {
		t.Errorf("%d solves", solves)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Find(ctx, s, solve, nil); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	s.Pleat.TuckTop, s.Pleat.Panel = 25, 40
	if _, err := Find(context.Background(), s, solve, nil); err == nil {
		t.Error("of sets without mechanics something is told")
	}
}

// TestFindSolved: of a ruff that one edge holds, solved, fold to fold moves the height as
// the ruff itself does that is so changed.
func TestFindSolved(t *testing.T) {
	s := demo(t, "floppy")
	got, err := Find(context.Background(), s, nil, nil)
	if err != nil || len(got) == 0 || got[0].Key != "pleat.panel" {
		t.Fatal(err, got)
	}
	r, err := sim.Solve(context.Background(), s, sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true})
	if err != nil {
		t.Fatal(err)
	}
	s.Pleat.Panel = r.Plan.Panel_mm + got[0].Step
	q, err := sim.Solve(context.Background(), s, sim.Options{SkipBow: true, SkipOther: true, SkipTangents: true})
	if err != nil {
		t.Fatal(err)
	}
	if by := q.Solved.Ruff.HeightOuter_mm - r.Solved.Ruff.HeightOuter_mm; math.Abs(by-got[0].Moves[0]) > 0.5 {
		t.Errorf("height changes by %.2f mm, told %.2f", by, got[0].Moves[0])
	}
}
