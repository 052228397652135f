package paper

import (
	"testing"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
)

// TestThread: thread is bought in whole tens with something over. 23.4 m are 25.6 yd;
// 30 m to buy, which is 32.8 yd, so 40.
func TestThread(t *testing.T) {
	j := &job{work: pattern.Work{Thread_mm: 23400}}
	if got, want := j.thread().String(), "30 m or more of linen or cotton thread, waxed (reckoned: 23 m)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	j.Units = scheme.Inches
	if got, want := j.thread().String(), "40 yd or more of linen or cotton thread, waxed (reckoned: 26 yd)"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestLayoutMakesRoom: where a few lines would need a sheet of their own, the
// layout gets smaller instead, never too small to read.
func TestLayoutMakesRoom(t *testing.T) {
	j, err := newJob(input(t, []string{
		"ruff.sets", "200", "pleat.panel", "20", "ruff.depth", "60", "ruff.height", "16", "band.height", "17",
		"pleat.tuck_top", "0", "pleat.tuck_bottom", "0", "wearer.girth", "420", "strip.bolt", "1500",
	}, scheme.Millimetres))
	if err != nil {
		t.Fatal(err)
	}
	if n := len(j.cut(0).Pages); n != 2 {
		t.Fatalf("the layout at its full size takes %d sheets: nothing is tried here", n)
	}
	pages, err := j.cutting()
	if err != nil || len(pages) != 1 {
		t.Errorf("%d sheets, %v", len(pages), err)
	}
}
