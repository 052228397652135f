package page

import (
	"context"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ruffwright/geom/figure"
	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/wasm/doc"
	"ruffwright/wasm/page/say"
	"ruffwright/wasm/page/work"
)

var millimetres = regexp.MustCompile(`(\d+(?:\.\d+)?) mm`)

// lengthsIn are the lengths that a text names.
func lengthsIn(text string) []float64 {
	var out []float64
	for _, m := range millimetres.FindAllStringSubmatch(text, -1) {
		v, _ := strconv.ParseFloat(m[1], 64)
		out = append(out, v)
	}
	return out
}

// setsDiffer is by how much, in mm, a loop of one set may differ from the mean of all,
// which the table tells: tucked sets of one ruff come to lie some tenths apart.
const setsDiffer = 0.5

// TestSaysWhatIsDrawn: whoever does not see the picture reads the same in the
// description and the table: every length on every drawing, folded and solved,
// stands in words too (or in the form), within 1 mm: a drawing measures on one
// fold, the words tell the mean. The solved height is the same to the digit. The
// loop told is the narrower of a top and a bottom fold, for the stick; the one
// drawn is the top fold's. The sentence follows the sewing, and tells what is solved.
func TestSaysWhatIsDrawn(t *testing.T) {
	for _, name := range []string{"sound", "floppy", "tall", "cuff"} {
		demos := Demos()
		p, err := New()
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(demos, func(d Demo) bool { return d.Name == name })
		if at < 0 {
			t.Fatalf("there is no demo %s", name)
		}
		p.Handle(doc.Event{Kind: doc.Do, Name: "demo", Value: name})
		if !work.Same(p.work.Scheme, demos[at].Scheme) {
			t.Fatalf("the page does not show %s", name)
		}
		for _, solved := range []bool{false, true} {
			if solved {
				r, err := sim.Solve(context.Background(), p.work.Scheme, sim.Options{})
				if err != nil {
					t.Fatal(name, err)
				}
				p.work.Ruff = r
			}
			said := p.Look.Description() + "\n" + p.tell().NumbersText()
			known := lengthsIn(said)
			plan := p.work.Ruff.Plan
			known = append(known, 10, 20, 50, 100, plan.Marked_mm) // scales; the strip without its end hems
			for _, f := range scheme.Fields() {
				if f.Kind == scheme.KindLength {
					known = append(known, f.Number(plan.Scheme), 2*f.Number(plan.Scheme)) // a tuck takes twice its depth
				}
			}
			for _, v := range figure.Views {
				p.Look.View = v
				d, _, _, err := p.Look.Picture()
				if err != nil {
					t.Fatal(err)
				}
				drawn, loop := "", ""
				for _, l := range d.Labels() {
					if strings.HasPrefix(l.Text, "top loop ") {
						loop = l.Text
						continue
					}
					drawn += l.Text + "\n"
				}
				for _, mm := range lengthsIn(drawn) {
					if !slices.ContainsFunc(known, func(k float64) bool { return math.Abs(k-mm) <= 1 }) {
						t.Errorf("%s, %s, solved %v: %g mm is on the drawing and nowhere in words", name, v.Name, solved, mm)
					}
				}
				if !strings.Contains(drawn, strconv.Itoa(plan.Sets)) || !strings.Contains(said, strconv.Itoa(plan.Sets)+" sets") {
					t.Errorf("%s, %s: %d sets are not told", name, v.Name, plan.Sets)
				}
				if v.Name == "set" && solved {
					m := p.work.Ruff.Solved.Ruff
					if is := say.Length(m.HeightOuter_mm, p.work.Units); !strings.Contains(drawn, is) || !strings.Contains(said, is) {
						t.Errorf("%s: %s is not both drawn and told: %s", name, is, drawn)
					}
					// the narrower of the set's two loops is the one that the table tells
					if !slices.ContainsFunc(lengthsIn(d.Desc), func(mm float64) bool { return math.Abs(mm-m.Loop_mm) <= setsDiffer }) {
						t.Errorf("%s: the narrower loop is %s, drawn is: %s", name, say.Length(m.Loop_mm, p.work.Units), d.Desc)
					}
					for _, is := range []string{"neck " + say.Length(plan.Pitch_mm, p.work.Units), "outer edge " + say.Length(m.PitchOuter_mm, p.work.Units)} {
						if !strings.Contains(drawn, is+"\n") {
							t.Errorf("%s: %s is not drawn: %s", name, is, drawn)
						}
					}
					if of := lengthsIn(loop); len(of) != 1 || of[0] < m.Loop_mm-setsDiffer || !strings.Contains(said, say.Length(m.Loop_mm, p.work.Units)) {
						t.Errorf("%s: %q is drawn, the narrower loop is %.1f mm", name, loop, m.Loop_mm)
					}
				}
			}
			words := p.Look.Description()
			if got := strings.Contains(words, "not solved yet"); got == solved {
				t.Errorf("%s, solved %v: %s", name, solved, words)
			}
			if single := plan.Scheme.Pleat.Anchor != scheme.AnchorBoth; single != strings.Contains(words, "alone are sewn") {
				t.Errorf("%s is sewn to %s: %s", name, plan.Scheme.Pleat.Anchor, words)
			}
		}
	}
}
