package page

import (
	"math"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// TestVerdict: one sentence in a maker's words, for ruffs of every kind, solved
// and not; a cuff is called a cuff.
func TestVerdict(t *testing.T) {
	for name, want := range map[string][2]string{ // as drawn, and solved
		"sound":    {"As drawn, nothing stops this ruff. How the cloth hangs is", "This ruff will stand: 40 sets, HEIGHT high as they hang (45 mm wanted), and when the wearer bows the outer edge BOWS."},
		"wide":     {"As drawn, nothing stops this ruff.", "This ruff will stand: 120 sets, HEIGHT high as they hang (26 mm wanted), and when the wearer bows the outer edge BOWS."},
		"cuff":     {"As drawn, nothing stops this cuff.", "This cuff will stand: "},
		"floppy":   {"As drawn, nothing stops this ruff.", "One thing stops this ruff: the lower edge is not supported. Two things more are to mend."},
		"flaps-up": {"One thing stops this ruff: the wrong folds are sewn for the flaps wanted. How the cloth hangs is", "Three things stop this ruff: the wrong folds are sewn for the flaps wanted; the lower edge is not supported; the ruff sinks or turns up."},
		"short":    {"One thing stops this ruff: the strip at hand is too short.", "One thing stops this ruff: the strip at hand is too short."},
		"uneven":   {"As drawn, nothing stops this ruff, but one thing is to mend: a mark is sewn unlike its fellows.", "This ruff will stand, but one thing is to mend: a mark is sewn unlike its fellows."},
	} {
		for _, d := range Demos() {
			if d.Name != name {
				continue
			}
			p := newPage(t)
			if err := p.work.Take(d.Scheme); err != nil {
				t.Fatal(err)
			}
			if got := p.tell().Verdict(); !strings.HasPrefix(got, want[0]) {
				t.Errorf("%s, drawn: %q, want %q", name, got, want[0])
			}
			r, found := solvedFor(t, d.Scheme)
			p.work.Ruff, p.work.Findings = r, found
			then := measured(want[1], r)
			if got := p.tell().Verdict(); !strings.HasPrefix(got, then) || strings.HasSuffix(then, ".") && got != then {
				t.Errorf("%s, solved: %q, want %q", name, got, then)
			}
		}
	}
	// More than can be named.
	p := newPage(t)
	p.work.Findings = nil
	for _, id := range []string{"ends", "flaps", "strip-short", "band-short", "row-long"} {
		p.work.Findings = append(p.work.Findings, check.Finding{ID: id, Severity: check.Stop})
	}
	if got := p.tell().Verdict(); !strings.HasPrefix(got, "Five things stop this ruff: ") || !strings.HasSuffix(got, "; and two more.") {
		t.Errorf("five: %q", got)
	}
	// What moves is told.
	loose := newPage(t)
	loose.work.Ruff, loose.work.Findings = solvedFor(t, scheme.First())
	if got, want := loose.tell().Verdict(), measured("This ruff will stand: 40 sets, HEIGHT high as they hang (45 mm wanted), and when the wearer bows the outer edge BOWS.", loose.work.Ruff); got != want {
		t.Errorf("the start: %q, want %q", got, want)
	}
	// Cloth that never rests promises nothing.
	q := newPage(t)
	r, _ := solvedFor(t, scheme.Default())
	r.Solved.Ruff.BowDone = false
	q.work.Ruff, q.work.Findings = r, nil
	if got := q.tell().Verdict(); got != "Nothing stops this ruff." {
		t.Errorf("no bow: %q", got)
	}
}

// measured puts into words what was measured: how high the sets hang, how far the outer
// edge moves in the bow, where that is seen.
func measured(words string, r sim.Ruff) string {
	m, bows := r.Solved.Ruff, "keeps its place"
	if m.Bow_mm >= 0.05 {
		bows = "moves by " + scheme.FormatLength(math.Round(10*m.Bow_mm)/10, scheme.Millimetres)
	}
	return strings.NewReplacer("HEIGHT", scheme.FormatLength(math.Round(10*m.HeightOuter_mm)/10, scheme.Millimetres), "BOWS", bows).Replace(words)
}
