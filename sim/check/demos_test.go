package check

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/pleat"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
)

func TestDemosSolved(t *testing.T) {
	for name, want := range map[string][]string{
		"floppy": {"bow"}, "flaps-up": {"flaps", "bow", "sinks"}, "sound": nil, "early": nil, "cuff": nil, "wide": nil, "portrait": nil,
		"ends-up": {"ends"}, "short": {"strip-short"},
	} {
		found := Find(solvedRuff(t, demo(t, name)), scheme.Millimetres)
		if got := stops(found); !slices.Equal(got, want) {
			t.Errorf("%s stops for %v, want %v", name, got, want)
		}
		for _, f := range found {
			if name == "sound" && f.Severity == Mend {
				t.Errorf("sound is to mend: %s", f.Sentence)
			}
			if f.Pending {
				t.Errorf("%s: still pending: %v", name, f.Awaits)
			}
		}
	}
	// The two demos on the grid of the results.
	for name, stop := range map[string]bool{"floppy": true, "sound": false} {
		r, err := sim.Solve(context.Background(), demo(t, name), sim.Options{})
		if err != nil {
			t.Fatal(err)
		}
		f, _ := byID(Find(r, scheme.Millimetres), "bow")
		if (f.Severity == Stop) != stop {
			t.Errorf("%s on the fine grid: bow %q, %g mm", name, f.Severity, r.Solved.Ruff.Bow_mm)
		}
	}
}

// The sentence that the whole project began with, and its first remedy.
func TestFloppySaysWhatToDo(t *testing.T) {
	r := solvedRuff(t, demo(t, "floppy"))
	f, ok := byID(Find(r, scheme.Inches), "bow")
	if !ok || !strings.HasPrefix(f.Sentence.String(), "Sewn at the top edge only, nothing but its weight holds the lower edge: when the wearer bows it swings by 3/8 in.") {
		t.Fatalf("%q", f.Sentence)
	}
	m := f.Remedies[0]
	if !slices.Contains(m.Changes, to("pleat.anchor", "both")) {
		t.Fatalf("first remedy: %s", m.Sentence)
	}
	o, err := Try(context.Background(), r, f, m, solveCoarse)
	if m.Take(o); err != nil || m.Tried != Removes || m.Then > 0.5 {
		t.Fatalf("%+v: %v", o, err)
	}
	if got, want := m.Outcome(f.Unit, scheme.Millimetres).String(), "removes it (then "+scheme.FormatLength(tenth(m.Then), scheme.Millimetres)+")"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	// It brings neither stop nor mend of the slack.
	s, err := Apply(r.Plan.Scheme, m)
	if err != nil {
		t.Fatal(err)
	}
	if p, err := pleat.NewPlan(s); err != nil || p.Slack < 1.04 || p.Slack > 1.06 {
		t.Errorf("slack %g: %v", p.Slack, err)
	}
}

func TestDefaultDoesNotStop(t *testing.T) {
	for _, f := range find(t, scheme.Default()) {
		if f.Severity == Stop || f.Severity == Mend {
			t.Errorf("%s: %s", f.ID, f.Sentence)
		}
	}
}

func TestDemos(t *testing.T) {
	reason := map[string]string{"ends-up": "ends", "flaps-up": "flaps", "short": "strip-short"}
	files, err := filepath.Glob("../../assets/demos/*.json")
	if err != nil || len(files) < 4 {
		t.Fatalf("demos: %v %v", files, err)
	}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s, err := scheme.Parse(b)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		short := strings.TrimSuffix(filepath.Base(name), ".json")
		got := stops(find(t, s))
		switch want := reason[short]; {
		case want != "" && !slices.Equal(got, []string{want}):
			t.Errorf("%s stops for %v, want %s", short, got, want)
		case short == "sound" && len(got) > 0:
			t.Errorf("sound stops for %v", got)
		}
	}
}
