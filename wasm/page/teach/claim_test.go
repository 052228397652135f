package teach

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// so reports whether a choice is true of a lesson's ruff, as its plan, its findings and
// its measures say.
func so(t *testing.T, l *Lesson, is string, r sim.Ruff, found []check.Finding) bool {
	t.Helper()
	row := r.Plan.Row
	switch l.Claim.Of {
	case "finding":
		f, ok := findingOf(found, is)
		return ok && !f.Pending && (f.Severity == check.Stop || f.Severity == check.Mend)
	case "edge":
		if is == "both" {
			return !row.OneEdge()
		}
		return row.Sewn(scheme.Crest) != scheme.Edge(is) && row.Sewn(scheme.Trough) != scheme.Edge(is)
	case "sewn":
		if is == "both" {
			return !row.OneEdge()
		}
		return row.OneEdge() && row.Sewn(scheme.Fold(is)) != scheme.EdgeNone
	case "end":
		first, last := row[0].Fold, row[len(row)-1].Fold
		return first == last && string(first) == is || first != last && is == "mixed"
	}
	v, ok := l.figure(is)
	truth := figureOf(t, l.Claim.Right, r, found)
	return ok && math.Abs(v-truth) < 0.02*truth
}

// TestClaims: of what can be said of a lesson's ruff the one choice that counts as right
// is so, and no other is, as the solved ruff says; no reply to a wrong one says the right
// one, and no choice is the right one until it is pressed.
func TestClaims(t *testing.T) {
	c := New()
	for _, l := range Lessons() {
		r, found := solvedFor(t, l.Scheme)
		right := ""
		for _, x := range l.Claim.Choices {
			if got := so(t, &l, x.Is, r, found); got != (x.Is == l.Claim.Right) {
				t.Errorf("%s: that %q is so is %v, and %q counts as right", l.Name, x.Is, got, l.Claim.Right)
			}
			if x.Is == l.Claim.Right {
				right = strings.ToLower(l.words(x, scheme.Millimetres))
			}
		}
		if c.Said(l.Name) {
			t.Errorf("%s: said before anything was", l.Name)
		}
		for _, x := range l.Claim.Choices {
			if strings.Contains(strings.ToLower(x.Reply), right) {
				t.Errorf("%s: the reply to %q gives %q away", l.Name, x.Is, right)
			}
			if x.Is == l.Claim.Right {
				continue
			}
			if said := c.Claims(l.Name, x.Is, scheme.Millimetres); !strings.HasPrefix(said, "No. ") || c.Said(l.Name) {
				t.Errorf("%s: to %q it says %q", l.Name, x.Is, said)
			}
		}
		if said := c.Claims(l.Name, l.Claim.Right, scheme.Millimetres); !strings.Contains(said, "mend it") || !c.Said(l.Name) {
			t.Errorf("%s: to the right one it says %q", l.Name, said)
		}
		if c.Open(l.Name); c.Said(l.Name) {
			t.Errorf("%s: begun again it is said already", l.Name)
		}
	}
}

// TestNothingLeft: a ruff on which anything is left to mend solves no lesson, whatever the
// lesson is about, and what is said of it names no finding.
func TestNothingLeft(t *testing.T) {
	l := *New().Lesson("ends-up")
	end, err := check.Apply(l.Scheme, check.Remedy{Changes: l.Solution})
	if err != nil {
		t.Fatal(err)
	}
	r, found := solvedFor(t, end)
	length := func(mm float64) string { return scheme.FormatLength(mm, scheme.Millimetres) }
	if how, words := l.judge(end, r, found, true, length); how != solved {
		t.Fatalf("not solved: %s", words)
	}
	for _, severity := range []check.Severity{check.Mend, check.Stop} {
		worse := append(slices.Clone(found), check.Finding{ID: "height", Severity: severity})
		if how, words := l.judge(end, r, worse, true, length); how != unsolved || strings.Contains(words, "height") || !strings.Contains(words, "one other thing") {
			t.Errorf("with a thing that is to %s: %d, %q", severity, how, words)
		}
	}
	waits := append(slices.Clone(found), check.Finding{ID: "bow", Pending: true, Awaits: []string{"bow"}})
	if how, _ := l.judge(end, r, waits, true, length); how != unsolved {
		t.Error("solved, and how it holds is not known")
	}
}
