package check

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// anyMeasures draws numbers of a half set far beyond what cloth gives.
func anyMeasures(t *rapid.T) measure.Values {
	x := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	yes := func(name string) bool { return rapid.Bool().Draw(t, name) }
	return measure.Values{
		Panels: 1, PitchOuter_mm: x("pitch", 0, 60), HeightOuter_mm: x("height", -150, 150),
		TopOuter_mm: x("top", -250, 250), BottomOuter_mm: x("bottom", -250, 250), Loop_mm: x("loop", 0, 80), LoopsMeet: yes("meet"),
		Reach_mm: x("reach", 0, 260), Tilt_deg: x("tilt", -90, 90), Droop_mm: x("droop", -100, 100),
		BowDone: yes("bowed"), Bow_mm: x("bow", 0, 90), BowReturn_mm: x("return", 0, 50),
		TangentsDone: yes("tangents"), Vertical_mm_per_g: x("bob", -50, 50), VerticalStable: yes("v"), Lateral_mm_per_g: x("lean", -50, 500), LateralStable: yes("l"),
		Leans: rapid.SampledFrom([]measure.Lean{"", "no", "inner", "undecided", "yes"}).Draw(t, "leans"), Leans_mm: x("leans by", 0, 10),
		MeshDone: yes("mesh"), Mesh_mm: x("mesh moves", 0, 50), Paths_mm: x("ways move", 0, 20), BowPart_mm: x("ways bow", 0, 10), FormedOff_mm: x("off", 0, 3),
		SettingDone: yes("set"), SettingBow_mm: [measure.Conditions]float64{x("bow as made", 0, 9), x("set worse", 0, 20), x("damp", 0, 40), x("worn", 0, 9)},
		OtherDone: yes("other"), OtherFound: yes("found"), OtherShare: x("share", -50, 500), OtherHeights: [2]float64{x("a", -250, 250), x("b", -250, 250)},
		Popped: yes("popped"), Thread_N: x("thread", 0, 20), Converged: rapid.IntRange(0, 9).Draw(t, "rest") > 0,
	}
}

// Whatever the scheme and whatever was measured on it, findings are in order,
// finite and in words, wait for nothing that is there, and offer what can be
// applied.
func TestAnyMeasuresAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, ok := anyScheme(t)
		if !ok {
			t.Skip()
		}
		if rapid.Bool().Draw(t, "starched") {
			s.Starch.Bend = 60
			s.Starch.Quality = rapid.Float64Range(0, 1).Draw(t, "quality")
		}
		if rapid.Bool().Draw(t, "two lines") {
			s.Pleat.Lines = 2
		}
		if rapid.Bool().Draw(t, "supported") {
			s.Support = scheme.Support{Kind: scheme.Supporter, Drop: 5, Slope: rapid.Float64Range(-30, 60).Draw(t, "slope")}
		}
		r, err := sim.Draw(s)
		if err != nil {
			t.Skip()
		}
		m := anyMeasures(t)
		r.Solved = &sim.Solved{Ruff: m, Sets: []measure.Values{m}, Of: make([]int, r.Plan.Panels), Alike: r.Plan.MarksOwn}
		found := Find(r, scheme.Millimetres)
		for i, f := range found {
			if i > 0 && f.Severity.rank() < found[i-1].Severity.rank() {
				t.Fatalf("%s after %s", f.ID, found[i-1].ID)
			}
			if math.IsNaN(f.Value+f.Limit) || math.IsInf(f.Value+f.Limit, 0) || f.Remedies == nil {
				t.Fatalf("%s: %g against %g, remedies %v", f.ID, f.Value, f.Limit, f.Remedies)
			}
			for _, bad := range []string{"NaN", "Inf", "–", "%!", "  "} {
				if strings.Contains(f.Sentence.String(), bad) || f.Sentence.String() == "" {
					t.Fatalf("%s: %q in %q", f.ID, bad, f.Sentence)
				}
			}
			for _, c := range f.Remedies {
				if _, err := Apply(s, c); err != nil {
					t.Fatalf("%s: %s: %v", f.ID, c.Sentence, err)
				}
			}
			for _, id := range f.Awaits {
				if l, _ := lawOf(id); !m.Converged || l.parts&bowPart == 0 && l.parts&tangentsPart == 0 && l.parts&otherPart == 0 {
					t.Fatalf("awaits %s of %+v", id, m)
				}
			}
		}
		if _, err := json.Marshal(found); err != nil {
			t.Fatal(err)
		}
	})
}
