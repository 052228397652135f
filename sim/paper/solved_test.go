package paper

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"ruffwright/geom/pattern"
	"ruffwright/geom/scheme"
	"ruffwright/geom/word"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/cloth"
	"ruffwright/sim/measure"
	"ruffwright/testdata/demos"
)

var demo = demos.Scheme

// solvedInput is the input of a demo, its ruff solved.
func solvedInput(t testing.TB, name string, u scheme.Units, change ...string) Input {
	t.Helper()
	s := demo(t, name)
	for i := 0; i < len(change); i += 2 {
		if err := s.Set(change[i], change[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	r, err := sim.Solve(context.Background(), s, sim.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p, err := pattern.New(r.Plan)
	if err != nil {
		t.Fatal(err)
	}
	return Input{Ruff: r, Findings: check.Find(r, u), Pattern: p, Units: u, Date: day}
}

// needOf is the starch target of a solved input.
func needOf(t testing.TB, in Input) *sim.Needed {
	t.Helper()
	n, err := sim.Need(context.Background(), in.Ruff.Plan.Scheme, in.Ruff.Solved.Grid, check.Limits(), nil)
	if err != nil {
		t.Fatal(err)
	}
	return &n
}

// TestSolvedSheets: the sheets of solved ruffs stay in the live area with their
// words apart, say what was solved and to what, and are read back by pdfcpu.
func TestSolvedSheets(t *testing.T) {
	for _, c := range []struct {
		demo  string
		u     scheme.Units
		paper Paper
	}{{"sound", scheme.Centimetres, A4}, {"cuff", scheme.Millimetres, Letter}, {"wide", scheme.Inches, A4}, {"floppy", scheme.Millimetres, A4}, {"uneven", scheme.Centimetres, Letter}} {
		if runtime.GOOS == "js" && c.demo != "sound" {
			continue // one shows that the target makes the same sheets
		}
		in := solvedInput(t, c.demo, c.u)
		in.Paper, in.Need = c.paper, needOf(t, in)
		pages, err := Pages(in)
		if err != nil {
			t.Fatal(err)
		}
		inside(t, pages)
		j, err := newJob(in)
		if err != nil {
			t.Fatal(err)
		}
		record, m := said(pages, "record"), in.Ruff.Solved.Ruff
		sure := map[measure.Figure]string{}
		for _, q := range in.Ruff.Sure() {
			sure[q.Figure] = q.Says(c.u).String() + " solved"
		}
		for _, want := range []string{
			"as solved from the cloth's weight and stiffness",
			"height at the outer edge " + j.len(in.Ruff.Plan.Scheme.Ruff.Height).String() + " " + sure[measure.Height],
			"clear width of the narrower loop " + sure[measure.Loop],
			"droop under its own weight 5 mm at most " + sure[measure.Droop],
			"moves when the wearer bows 60° 2 mm at most " + sure[measure.Bow],
			"gives up and down, for its own weight again ",
		} {
			if !strings.Contains(record, want) {
				t.Errorf("%s: the record does not say %q", c.demo, want)
			}
		}
		tucked := in.Ruff.Plan.Scheme.Pleat.TuckTop > 0
		for words, want := range map[string]bool{
			" drawn": false, "mm/g": false, "NaN": false,
			"gives sideways, for its own weight": !tucked,
			"lie the other way":                  m.OtherFound,
			"own marks were solved as regular":   in.Ruff.Solved.Alike,
			"did not come to rest":               !in.Ruff.Solved.Converged(),
		} {
			if got := strings.Contains(record, words); got != want {
				t.Errorf("%s: the record says %q: %v, want %v", c.demo, words, got, want)
			}
		}
		starch := said(pages, "starch")
		own := in.Ruff.Plan.Scheme.Starch.Bend
		want := in.Need.Reason.String() // floppy: no starch is its fault, and none would do
		if own == 0 {
			own = in.Need.Bend_mm
		}
		if own > 0 {
			overhang, err := cloth.Overhang(own, cloth.Slope_deg)
			if err != nil {
				t.Fatal(err)
			}
			want = "hangs over by " + j.len(overhang).String() // the scheme's own starch comes first
		}
		if !strings.Contains(starch, want) || in.Ruff.Plan.Scheme.Starch.Bend > 0 && !strings.Contains(starch, "The least that would do, as solved: ") || strings.Contains(starch, "Not solved yet") {
			t.Errorf("%s: needs %+v, the starch card does not say %q: %s", c.demo, *in.Need, want, starch[:min(len(starch), 400)])
		}
		if c.demo == "floppy" || c.demo == "uneven" {
			continue // their pages are laid out; three PDFs are enough to read
		}
		pdf := pdfOf(t, in)
		if sheets, _ := readPDF(t, pdf); len(sheets) != len(pages) {
			t.Errorf("%s: %d pages in the PDF, %d laid out", c.demo, len(sheets), len(pages))
		}
		if dir := os.Getenv("RUFFWRIGHT_SHEETS"); dir != "" {
			if err := os.WriteFile(filepath.Join(dir, c.demo+"-solved.pdf"), pdf, 0o644); err != nil {
				t.Error(err)
			}
		}
		if c.demo == "sound" && !bytes.Equal(pdf, pdfOf(t, in)) {
			t.Error("the same input gives other bytes")
		}
	}
}

// TestStarchCardWithoutTarget: where starch cannot answer, where the ruff cannot be
// solved and where the target lies beyond what starch does, the card says so.
func TestStarchCardWithoutTarget(t *testing.T) {
	for _, c := range []struct {
		spoil func(*Input)
		bend  string
		want  []string
		not   string
	}{
		{func(in *Input) { in.Need = &sim.Needed{Reason: word.Name("no starch answers this.")} }, "0",
			[]string{"Starch alone will not do: no starch answers this.", "There is no target."}, "Not solved yet"},
		{func(in *Input) { in.Need = &sim.Needed{Reason: word.Name("no starch answers this.")} }, "60",
			[]string{"Starch alone will not do: no starch answers this.", "The scheme's own wish"}, "There is no target"},
		{func(in *Input) { in.Unsolved = word.Say("the bands lie too far apart.") }, "0",
			[]string{"No target: this ruff cannot be solved as it is planned"}, "Not solved yet"},
		{func(in *Input) { in.Need = &sim.Needed{Bend_mm: 233} }, "0",
			[]string{"Hardly to be reached", "The test strips of 250 mm cannot show this target"}, "Not solved yet"},
		{func(in *Input) { in.Need = &sim.Needed{} }, "70",
			[]string{"hangs over by 140 mm", "The least that would do, as solved: none", "starch makes them alike"}, "No starch needed"},
		{func(in *Input) { in.Need = &sim.Needed{Bend_mm: 80} }, "70",
			[]string{"hangs over by 140 mm", "The least that would do, as solved: an overhang of 160 mm", "The scheme's target is less"}, "No starch needed"},
		{func(in *Input) { in.Need = &sim.Needed{} }, "0", []string{"starch makes them alike"}, "No starch needed"},
		{func(in *Input) { in.Need = &sim.Needed{Bend_mm: 91} }, "0", []string{"hangs over by 182", "Hardly to be reached"}, "Not solved yet"},
		{func(in *Input) { in.Need = &sim.Needed{Bend_mm: 89} }, "0", []string{"hangs over by 178"}, "Hardly to be reached"},
	} {
		in := input(t, []string{"starch.bend", c.bend}, scheme.Millimetres)
		c.spoil(&in)
		pages, err := Pages(in)
		if err != nil {
			t.Fatal(err)
		}
		inside(t, pages)
		text := said(pages, "starch")
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%+v: the card does not say %q but %s", in.Need, want, text[:600])
			}
		}
		if strings.Contains(text, c.not) {
			t.Errorf("%+v: the card says %q", in.Need, c.not)
		}
		if !in.Unsolved.Empty() && !strings.Contains(said(pages, "record"), "since it cannot be solved: "+in.Unsolved.String()) {
			t.Error("the record does not say why it is not solved")
		}
	}
}
