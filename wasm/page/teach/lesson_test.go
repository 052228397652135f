package teach

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/check"
)

// solvedFor solves a scheme as the page's worker does in the end.
func solvedFor(t *testing.T, s scheme.Scheme) (sim.Ruff, []check.Finding) {
	t.Helper()
	r, err := sim.Solve(context.Background(), s, sim.Options{})
	if err != nil {
		if r, err = sim.Draw(s); err != nil {
			t.Fatal(err)
		}
	}
	return r, check.Find(r, scheme.Millimetres)
}

func findingOf(list []check.Finding, id string) (check.Finding, bool) {
	i := slices.IndexFunc(list, func(f check.Finding) bool { return f.ID == id })
	if i < 0 {
		return check.Finding{}, false
	}
	return list[i], true
}

// figureOf is a figure that a lesson quotes, of a ruff and its findings.
func figureOf(t *testing.T, name string, r sim.Ruff, found []check.Finding) float64 {
	t.Helper()
	if id, ok := strings.CutPrefix(name, "finding "); ok {
		f, ok := findingOf(found, id)
		if !ok {
			t.Errorf("there is no finding %s to quote", id)
		}
		return f.Value
	}
	s := r.Plan.Scheme
	switch name {
	case "strip_missing_mm":
		return r.Plan.Strip_mm - s.Strip.Have
	case "inner_way_mm": // straight from a sewn top fold to the next sewn bottom fold
		return math.Hypot(s.Band.Height, r.Plan.Pitch_mm/2)
	case "height_missing_mm":
		return s.Ruff.Height - r.Solved.Ruff.HeightOuter_mm
	}
	of := measured(name)
	if of == nil {
		t.Fatalf("there is no measure %q", name)
	}
	v, ok := of(r)
	if !ok {
		t.Errorf("%s is not known", name)
	}
	return v
}

var numeral = regexp.MustCompile(`\d+(?:\.\d+)?`)

// TestLessons solves every lesson with the real solver: its finding is there, its
// solution removes it, and every figure in its words is the solver's, within the
// rounding that the lesson states, or the scheme's own.
func TestLessons(t *testing.T) {
	lessons := Lessons()
	if len(lessons) < 7 {
		t.Fatalf("%d lessons can be read", len(lessons))
	}
	for _, l := range lessons {
		t.Run(l.Name, func(t *testing.T) {
			length := func(mm float64) string { return scheme.FormatLength(mm, scheme.Millimetres) }
			start, found := solvedFor(t, l.Scheme)
			if f, ok := findingOf(found, l.Shows.Finding); !ok || f.Severity != l.Shows.Severity || !slices.Contains(l.Solved.Gone, f.ID) {
				t.Errorf("shows %q, want %s (%s), one of %v", f.Severity, l.Shows.Finding, l.Shows.Severity, l.Solved.Gone)
			}
			if how, words := l.judge(l.Scheme, start, found, true, length); how != unsolved {
				t.Errorf("at its start it stands at %d: %s", how, words)
			}
			end, err := check.Apply(l.Scheme, check.Remedy{Changes: l.Solution})
			if err != nil {
				t.Fatal(err)
			}
			mended, after := solvedFor(t, end)
			if how, words := l.judge(end, mended, after, true, length); how != solved {
				t.Errorf("its solution does not solve it: %s", words)
			}
			for _, f := range after {
				if f.Severity == check.Stop || f.Severity == check.Mend {
					t.Errorf("its solution leaves: %s", f.Sentence)
				}
			}
			if how, _ := l.judge(end, mended, after, false, length); how != waiting {
				t.Error("it is judged before the solver is done")
			}
			// A wish given up solves nothing.
			for _, key := range l.Solved.Keep {
				f, _ := scheme.Lookup(key)
				given := end
				switch f.Kind {
				case scheme.KindChoice:
					for _, c := range f.Choices {
						if c.Value != f.Get(l.Scheme) {
							err = f.Set(&given, c.Value, scheme.Millimetres)
						}
					}
				default:
					err = f.Set(&given, fmt.Sprint(f.Number(l.Scheme)+1), scheme.Millimetres)
				}
				if err != nil {
					t.Fatal(key, err)
				}
				if how, words := l.judge(given, mended, after, true, length); how != unsolved || !strings.Contains(words, f.Label) {
					t.Errorf("%s given up: %d, %q", key, how, words)
				}
			}

			// Figures.
			known := []string{"41.5"} // the slope of the swatch test
			for _, q := range l.Figures {
				r, list := start, found
				if q.At == "solved" {
					r, list = mended, after
				} else if q.At != "start" {
					t.Errorf("%s at %q", q.Measure, q.At)
				}
				if v := figureOf(t, q.Measure, r, list); !(math.Abs(v-q.Quoted) <= q.Within) || q.Within > 1 {
					t.Errorf("%s at %s is %.3f, quoted as %g ± %g", q.Measure, q.At, v, q.Quoted, q.Within)
				}
				known = append(known, strconv.FormatFloat(math.Abs(q.Quoted), 'f', -1, 64))
			}
			for _, s := range []scheme.Scheme{l.Scheme, end, mended.Plan.Scheme} {
				for _, f := range scheme.Fields() {
					known = append(known, strconv.FormatFloat(f.Number(s), 'f', -1, 64))
				}
				known = append(known, fmt.Sprint(2*s.Starch.Bend), fmt.Sprint(2*s.Pleat.TuckTop)) // an overhang; what a tuck takes
			}
			known = append(known, constants[l.Name]...)
			texts := append([]string{l.Title, l.Question, l.Hint, l.Answer, l.Claim.Question}, l.Text...)
			for _, c := range l.Claim.Choices {
				texts = append(texts, c.Reply)
			}
			for _, words := range texts {
				for _, n := range numeral.FindAllString(words, -1) {
					if !slices.Contains(known, n) {
						t.Errorf("where does %s come from? %s", n, words)
					}
				}
				if n := len(strings.Fields(words)); n > 75 {
					t.Errorf("%d words at once: %s", n, words)
				}
			}
		})
	}
}

// constants are numbers in lessons that belong to no scheme: what is good slack
// (the check's solved range is 1.0 to 1.2) and the limit of the bow.
var constants = map[string][]string{
	"no-tucks": {"1.05"}, "deep-tucks": {"1.05"},
	"weak-starch": {fmt.Sprint(check.Limits().Bow_mm)},
}

// TestBadLessons: what a lesson's file cannot say is refused.
func TestBadLessons(t *testing.T) {
	good := `{"name":"a","title":"A","text":["t"],"question":"q","hint":"h","claim":{"question":"q","of":"edge","choices":[{"is":"top","reply":"no"},{"is":"bottom"},{"is":"both","reply":"no"}],"right":"bottom"},"from":"sound","set":[],"shows":{"finding":"bow","severity":"stop"},"solved":{"gone":["bow"],"keep":["ruff.depth"]},"solution":[{"key":"ruff.sets","value":"40"}],"answer":"a","figures":[]}`
	if _, err := readLesson([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for old, new := range map[string]string{
		`"question":"q"`: `"question":""`, `"from":"sound"`: `"from":"nobody"`, `"text":["t"]`: `"text":[]`,
		`"set":[]`:      `"set":[{"key":"ruff.sets","value":"many"}]`,
		`"gone":["bow"`: `"gone":["bows"`, `"keep":["ruff.depth"]`: `"keep":["ruff.width"]`,
		`"keep":[`: `"within":[{"measure":"height","least":1,"most":2}],"keep":[`, `"answer"`: `"solve"`,
		`"gone":["bow"]`: `"gone":[]`, `"right":"bottom"`: `"right":"left"`, `{"is":"bottom"}`: `{"is":"bottom","reply":"no"}`,
		`{"is":"top","reply":"no"}`: `{"is":"top"}`, `"of":"edge"`: `"of":"finding"`,
	} {
		if _, err := readLesson([]byte(strings.Replace(good, old, new, 1))); err == nil {
			t.Errorf("%s is taken", new)
		}
	}
}
