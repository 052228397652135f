package check

import (
	"reflect"
	"strings"
	"testing"

	"ruffwright/geom/scheme"
	"ruffwright/sim"
	"ruffwright/sim/measure"
)

// Own marks say what is sewn, whatever pleat.anchor and pleat.sewn say beside them:
// 81 marks whose top folds alone are sewn, to the top edge, are a ruff sewn at one
// edge, with all that is then found of it and its remedies.
func TestOwnMarksSayWhatIsSewn(t *testing.T) {
	find := func(anchor, sewn string) []Finding {
		s := demo(t, "floppy", "pleat.anchor "+anchor, "pleat.sewn "+sewn, "pleat.tuck_bottom 9")
		var marks []scheme.Mark
		for k := range 81 {
			m := scheme.Mark{Place: 55 * float64(k), Fold: scheme.Trough, Sewn: scheme.EdgeNone}
			if k%2 == 1 {
				m.Fold, m.Sewn = scheme.Crest, scheme.EdgeTop
			}
			marks = append(marks, m)
		}
		if err := s.Set("pleat.marks", scheme.FormatMarks(marks)); err != nil {
			t.Fatal(err)
		}
		r, err := sim.Draw(s)
		if err != nil {
			t.Fatal(err)
		}
		m := measure.Values{
			Panels: 80, HeightOuter_mm: 45, TopOuter_mm: 20, BottomOuter_mm: -25, Loop_mm: 9, PitchOuter_mm: 20, LoopsMeet: true, Reach_mm: 75,
			BowDone: true, Bow_mm: 9.4, TangentsDone: true, VerticalStable: true, LateralStable: true, Lateral_mm_per_g: 14,
			OtherDone: true, OtherFound: true, OtherShare: 0.02, OtherHeights: [2]float64{90, 40}, Converged: true,
		}
		r.Solved = &sim.Solved{Ruff: m, Sets: []measure.Values{m}, Of: make([]int, r.Plan.Panels), Alike: true}
		return Find(r, scheme.Millimetres)
	}
	want := find("top", "crests")
	for _, id := range []string{"bow", "flaps-undecided", "soft-sideways"} {
		if f, ok := byID(want, id); !ok || len(f.Remedies) == 0 {
			t.Errorf("%s: found %v, %d remedies", id, ok, len(f.Remedies))
		}
	}
	if f, _ := byID(want, "bow"); !strings.Contains(f.Sentence.String(), "Sewn at the top edge only") {
		t.Errorf("it says: %s", f.Sentence)
	}
	for _, other := range [][2]string{{"both", "crests"}, {"bottom", "troughs"}} {
		if got := find(other[0], other[1]); !reflect.DeepEqual(got, want) {
			t.Errorf("pleat.anchor %s, pleat.sewn %s: other findings\n%+v\nwant\n%+v", other[0], other[1], got, want)
		}
	}
}
