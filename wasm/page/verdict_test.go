package page

import (
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
		"sound":    {"As drawn, nothing stops this ruff. How the cloth hangs is", "This ruff will stand. Height of its 40 sets as they hang: HEIGHT_OUTER_MM (wanted: 45 mm). Swing of the outer edge when the wearer bows: BOW_MM. NARROWS"},
		"wide":     {"As drawn, nothing stops this ruff.", "This ruff will stand. Height of its 120 sets as they hang: HEIGHT_OUTER_MM (wanted: 26 mm). Swing of the outer edge when the wearer bows: BOW_MM. NARROWS"},
		"cuff":     {"As drawn, nothing stops this cuff.", "This cuff will stand. "},
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
	if got, want := loose.tell().Verdict(), measured("This ruff will stand. Height of its 40 sets as they hang: HEIGHT_OUTER_MM (wanted: 45 mm). Swing of the outer edge when the wearer bows: BOW_MM. NARROWS", loose.work.Ruff); got != want {
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
// edge moves in the bow, how sure that is and what would make it surer.
func measured(words string, r sim.Ruff) string {
	sure := r.Sure()
	for _, s := range sure {
		words = strings.ReplaceAll(words, strings.ToUpper(s.Figure.Row().Key), s.Says(scheme.Millimetres).String())
	}
	return strings.ReplaceAll(words, "NARROWS", r.Narrows(sure).String())
}
