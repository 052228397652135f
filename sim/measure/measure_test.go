package measure

import (
	"math"
	"reflect"
	"testing"
)

// TestTable: each field of Values is in the table once and under a key of its own,
// and the measures that are compared have an order without gaps.
func TestTable(t *testing.T) {
	keys, order := map[string]bool{}, map[int]string{}
	for i, q := range Table {
		if q.field != i || keys[q.Key] {
			t.Errorf("%s is row %d and field %d", q.Key, i, q.field)
		}
		keys[q.Key] = true
		if q.Order > 0 {
			if order[q.Order] != "" {
				t.Errorf("%s and %s both are number %d", q.Key, order[q.Order], q.Order)
			}
			order[q.Order] = q.Key
		}
	}
	for n := range len(order) {
		if order[n+1] == "" {
			t.Errorf("no measure is number %d of those compared", n+1)
		}
	}
	if q := Named("no such measure"); q != nil {
		t.Errorf("found %s", q.Key)
	}
	if len(Table) != reflect.TypeFor[Values]().NumField() {
		t.Errorf("%d rows of %d fields", len(Table), reflect.TypeFor[Values]().NumField())
	}
}

// halves are three half sets, least curved first, that speak for 1, 2 and 5 panels.
// In each measure they differ, and where one counts it is not always the same.
func halves() []Values {
	return []Values{
		{
			Panels: 1, Kappa_1pmm: 0.01, Panel_mm: 40, Pitch_mm: 9, PitchOuter_mm: 20, HeightOuter_mm: 48, HeightInner_mm: 30,
			TopOuter_mm: 60, BottomOuter_mm: 12, Loop_mm: 8, LoopsMeet: true, Contact: 0.4, Reach_mm: 70, Tilt_deg: -8, Droop_mm: 4, FlapsFall: true,
			BowDone: true, Bow_mm: 1, BowReturn_mm: 0.1, TangentsDone: true, Vertical_mm_per_g: 3, VerticalStable: true, Lateral_mm_per_g: 5, LateralStable: true,
			Leans: LeanReturns, Mesh_mm: 0.3, MeshDone: true, Apart_mm: Lengths{1, 0.2, 3}, Near_mm: Lengths{0.5, 0.1}, StiffDone: true, StiffBowDone: true, Limper_mm: Lengths{-2, 1}, Stiffer_mm: Lengths{1, 0, 0, 0.1}, FormedOff_mm: 0.2, SettingDone: true, SettingBow_mm: [4]float64{1, 2, 1, 1}, SettingHeight_mm: [4]float64{48}, SettingDroop_mm: [4]float64{1}, OtherDone: true, OtherFound: true, OtherShare: 0.5, OtherHeights: [2]float64{1, 2},
			Thread_N: 0.5, Strain: 0.01, Status: "at rest", Converged: true, Iterations: 10, Extra: 3, Residual_mN: 1e-6, Deepest_mm: 0.01, Mesh: "24 × 12",
		},
		{
			Panels: 2, Kappa_1pmm: 0.02, Panel_mm: 41, Pitch_mm: 10, PitchOuter_mm: 21, HeightOuter_mm: 40, HeightInner_mm: 32,
			TopOuter_mm: 52, BottomOuter_mm: 4, Loop_mm: 16, LoopsMeet: true, Contact: 0, Reach_mm: 78, Tilt_deg: 0, Droop_mm: -4, FlapsFall: true,
			Bow_mm: 9, BowReturn_mm: 0.9, TangentsDone: true, Vertical_mm_per_g: 1, VerticalStable: true, Lateral_mm_per_g: 7, LateralStable: true,
			Leans: LeanInner, OtherFound: true, OtherShare: -0.2, OtherHeights: [2]float64{3, 4},
			Popped: true, Thread_N: 0.2, Strain: 0.03, Status: "out of steps", Iterations: 20, Extra: 4, Residual_mN: 1e-3, Deepest_mm: 0.02, Mesh: "24 × 12",
		},
		{
			Panels: 5, Kappa_1pmm: 0.03, Panel_mm: 42, Pitch_mm: 11, PitchOuter_mm: 22, HeightOuter_mm: 32, HeightInner_mm: 34,
			TopOuter_mm: 44, BottomOuter_mm: 12, Loop_mm: 24, Contact: 0.08, Reach_mm: 86, Tilt_deg: 8, Droop_mm: 0,
			BowDone: true, Bow_mm: 2, BowReturn_mm: 0.2, Vertical_mm_per_g: 2, Lateral_mm_per_g: 6,
			Leans: LeanUnasked, Leans_mm: 3, Mesh_mm: 0.2, Paths_mm: 2, BowPart_mm: 0.4, Apart_mm: Lengths{0.5, 0.4, 0, 2}, Near_mm: Lengths{0.2, 0, 0, 2}, StiffDone: true, StiffBowDone: true, Limper_mm: Lengths{1, 3}, Stiffer_mm: Lengths{0.5, -0.3, 0, -0.2}, SettingDone: true, SettingBow_mm: [4]float64{4, 4, 4, 2}, SettingHeight_mm: [4]float64{32}, SettingDroop_mm: [4]float64{2}, OtherFound: true, OtherShare: 0.3, OtherHeights: [2]float64{5, 6},
			Thread_N: 0.1, Strain: 0.02, Status: "at rest", Converged: true, Iterations: 30, Extra: 5, Residual_mN: 1e-5, Deepest_mm: 0.005, Mesh: "24 × 12",
		},
	}
}

// TestWhole: each measure of the whole ruff against a reckoning by hand. Means weigh
// a half set by its panels (1, 2, 5 of 8); what must stay small is the worst.
func TestWhole(t *testing.T) {
	want := Values{
		Panels: 8, Kappa_1pmm: 0.025, Panel_mm: 41.5, Pitch_mm: 10.5, PitchOuter_mm: 21.5, HeightOuter_mm: 36, HeightInner_mm: 33,
		TopOuter_mm: 48, BottomOuter_mm: 10, Loop_mm: 20, LoopsMeet: false, Contact: 0.1, Reach_mm: 82, Tilt_deg: 4, Droop_mm: -0.5, FlapsFall: false,
		BowDone: true, Bow_mm: 9, BowReturn_mm: 0.9, TangentsDone: false, Vertical_mm_per_g: 3, VerticalStable: false, Lateral_mm_per_g: 7, LateralStable: false,
		Leans: LeanInner, Leans_mm: 3, MeshDone: true, Mesh_mm: 0.3, Paths_mm: 2, BowPart_mm: 0.4, FormedOff_mm: 0.2,
		Apart_mm: Lengths{1, 0.4, 3, 2}, Near_mm: Lengths{0.5, 0.1, 0, 2}, StiffDone: true, StiffBowDone: true, Limper_mm: Lengths{-2, 3}, Stiffer_mm: Lengths{1, -0.3, 0, -0.2},
		SettingDone: true, SettingBow_mm: [4]float64{4, 4, 4, 2}, SettingHeight_mm: [4]float64{32}, SettingDroop_mm: [4]float64{2}, OtherDone: true, OtherFound: true, OtherShare: -0.2, OtherHeights: [2]float64{3, 4},
		Popped: true, Thread_N: 0.5, Strain: 0.03, Status: "out of steps", Converged: false, Iterations: 60, Extra: 12, Residual_mN: 1e-3, Deepest_mm: 0.02, Mesh: "24 × 12",
	}
	got := Whole(halves())
	for i := range Table {
		q := &Table[i]
		a, _ := q.Of(&got)
		b, _ := q.Of(&want)
		if x, ok := a.(float64); ok && math.Abs(x-b.(float64)) < 1e-12 { // the sums' rounding
			continue
		}
		if a != b {
			t.Errorf("%s: %v, by hand %v", q.Key, a, b)
		}
	}
	if got := Whole(nil); got != (Values{}) {
		t.Errorf("of nothing: %+v", got)
	}
}

// TestWholeTurns: of each measure that is no number, the half set that turns it.
func TestWholeTurns(t *testing.T) {
	calm := func() []Values {
		v := Values{Panels: 1, Converged: true, Status: "at rest", LoopsMeet: true, BowDone: true, TangentsDone: true, VerticalStable: true, LateralStable: true}
		return []Values{v, v, v, v}
	}
	for _, c := range []struct {
		name string
		with func(h []Values)
		want func(w Values) bool
	}{
		{"as they are", func([]Values) {}, func(w Values) bool {
			return w.Converged && w.Status == "at rest" && w.LoopsMeet && w.BowDone && w.TangentsDone && w.VerticalStable && w.LateralStable && w.Leans == LeanUnasked && !w.FlapsFall && !w.Popped && !w.OtherFound
		}},
		{"one gapes", func(h []Values) { h[2].LoopsMeet = false }, func(w Values) bool { return !w.LoopsMeet }},
		{"one does not hold up", func(h []Values) { h[2].VerticalStable = false }, func(w Values) bool { return !w.VerticalStable && w.LateralStable }},
		{"one does not hold sideways", func(h []Values) { h[2].LateralStable = false }, func(w Values) bool { return w.VerticalStable && !w.LateralStable }},
		{"the give of one is not known", func(h []Values) { h[1].TangentsDone = false }, func(w Values) bool { return !w.TangentsDone }},
		{"bow not tried between the ends", func(h []Values) { h[1].BowDone, h[2].BowDone = false, false }, func(w Values) bool { return w.BowDone }},
		{"nor at the first", func(h []Values) { h[0].BowDone = false }, func(w Values) bool { return !w.BowDone }},
		{"nor at the last", func(h []Values) { h[3].BowDone = false }, func(w Values) bool { return !w.BowDone }},
		{"half of them fall", func(h []Values) { h[0].FlapsFall, h[1].FlapsFall = true, true }, func(w Values) bool { return !w.FlapsFall }},
		{"more than half fall", func(h []Values) { h[0].FlapsFall, h[1].FlapsFall, h[2].FlapsFall = true, true, true }, func(w Values) bool { return w.FlapsFall }},
		{"the one of many panels falls", func(h []Values) { h[3].FlapsFall, h[3].Panels = true, 4 }, func(w Values) bool { return w.FlapsFall }},
		{"one leans", func(h []Values) { h[1].Leans, h[2].Leans = LeanStays, LeanUndecided }, func(w Values) bool { return w.Leans == LeanStays }},
		{"one is undecided", func(h []Values) { h[1].Leans, h[2].Leans = LeanUndecided, LeanInner }, func(w Values) bool { return w.Leans == LeanUndecided }},
		{"one stands up again", func(h []Values) { h[2].Leans = LeanReturns }, func(w Values) bool { return w.Leans == LeanReturns }},
		{"two are restless", func(h []Values) {
			h[1].Converged, h[1].Status = false, "first"
			h[2].Converged, h[2].Status = false, "second"
		}, func(w Values) bool { return !w.Converged && w.Status == "second" }},
		{"another shape, dearer or cheaper", func(h []Values) {
			h[1].OtherFound, h[1].OtherShare, h[1].OtherHeights[0] = true, 0.3, 1
			h[2].OtherFound, h[2].OtherShare, h[2].OtherHeights[0] = true, -0.2, 2
		}, func(w Values) bool { return w.OtherFound && w.OtherShare == -0.2 && w.OtherHeights[0] == 2 }},
		{"another shape, far cheaper", func(h []Values) {
			h[1].OtherFound, h[1].OtherShare = true, 0.3
			h[2].OtherFound, h[2].OtherShare = true, -0.5
		}, func(w Values) bool { return w.OtherShare == 0.3 }},
		{"shares of what was not found", func(h []Values) {
			h[0].OtherShare = 0.1
			h[1].OtherFound, h[1].OtherShare = true, 0.3
		}, func(w Values) bool { return w.OtherShare == 0.3 }},
		{"all rise", func(h []Values) {
			for i := range h {
				h[i].Droop_mm = -2
			}
		}, func(w Values) bool { return w.Droop_mm == -2 }},
		{"one sways most in damp air", func(h []Values) {
			h[1].SettingDone, h[1].SettingBow_mm = true, [Conditions]float64{1, 1, 3, 1}
			h[2].SettingDone, h[2].SettingBow_mm = true, [Conditions]float64{9, 8, 9, 9}
		}, func(w Values) bool {
			k, by := w.Sways()
			return w.SettingDone && k == Damp && by == 2
		}},
		{"one sways less when damp", func(h []Values) {
			h[1].SettingDone, h[1].SettingBow_mm = true, [Conditions]float64{1, 1, 3, 1}
			h[2].SettingDone, h[2].SettingBow_mm = true, [Conditions]float64{9, 8, 5, 9}
		}, func(w Values) bool { return w.SettingBow_mm[Damp] == 5 }},
	} {
		h := calm()
		c.with(h)
		if w := Whole(h); !c.want(w) {
			t.Errorf("%s: %+v", c.name, w)
		}
	}
}

// TestKnown: a number means nothing before its test was made, and nothing where the
// edge does not hold.
func TestKnown(t *testing.T) {
	full := Values{BowDone: true, TangentsDone: true, VerticalStable: true, LateralStable: true, Leans: LeanStays, MeshDone: true, StiffDone: true, SettingDone: true, OtherDone: true, OtherFound: true}
	for i := range Table {
		if _, known := Table[i].Of(&full); !known {
			t.Errorf("%s is not known though all was done", Table[i].Key)
		}
	}
	for _, c := range []struct {
		without func(*Values)
		unknown []string
	}{
		{func(v *Values) { v.BowDone = false }, []string{"bow_mm", "bow_return_mm"}},
		{func(v *Values) { v.TangentsDone = false }, []string{"vertical_mm_per_g", "lateral_mm_per_g"}},
		{func(v *Values) { v.VerticalStable = false }, []string{"vertical_mm_per_g"}},
		{func(v *Values) { v.LateralStable = false }, []string{"lateral_mm_per_g"}},
		{func(v *Values) { v.Leans = LeanUndecided }, []string{"leans_mm"}},
		{func(v *Values) { v.MeshDone = false }, []string{"mesh_mm", "paths_mm", "bow_part_mm", "apart_mm", "near_mm"}},
		{func(v *Values) { v.StiffDone = false }, []string{"limper_mm", "stiffer_mm"}},
		{func(v *Values) { v.SettingDone = false }, []string{"setting_bow_mm", "setting_height_mm", "setting_droop_mm"}},
		{func(v *Values) { v.OtherDone = false }, []string{"other_found"}},
		{func(v *Values) { v.OtherFound = false }, []string{"other_share", "other_top_bottom_outer_mm"}},
	} {
		v := full
		c.without(&v)
		var unknown []string
		for i := range Table {
			q := &Table[i]
			_, known := q.Of(&v)
			if !known {
				unknown = append(unknown, q.Key)
			}
			if _, number := q.Number(&v); number && !known {
				t.Errorf("%s is a number, and not known", q.Key)
			}
		}
		if !reflect.DeepEqual(unknown, c.unknown) {
			t.Errorf("not known: %v, want %v", unknown, c.unknown)
		}
	}
	give := Row(&full, &full.Vertical_mm_per_g)
	if v := (Values{TangentsDone: true}); !give.Known(&v) || give.Holds(&v) {
		t.Error("that the edge does not hold is known, once it was asked")
	}
}

// TestNumber: numbers of either kind are read, words and truths are none.
func TestNumber(t *testing.T) {
	v := Values{Iterations: 7, Droop_mm: -1.5, Popped: true, Status: "at rest"}
	for key, want := range map[string]float64{"iterations": 7, "droop_mm": -1.5} {
		if x, known := Named(key).Number(&v); x != want || !known {
			t.Errorf("%s: %g, %v", key, x, known)
		}
	}
	for _, key := range []string{"popped", "status", "leans", "other_top_bottom_outer_mm"} {
		if x, known := Named(key).Number(&v); x != 0 || known {
			t.Errorf("%s: %g, %v", key, x, known)
		}
	}
}

// TestAlike: which differences say nothing, from both sides of each limit's reason.
func TestAlike(t *testing.T) {
	for _, c := range []struct {
		alike   Alike
		sets    Sets
		largest float64
		want    float64
	}{
		{Shape, Sets{}, 100, 0.5}, {Shape, Sets{Tucked: true}, 100, 1}, {Shape, Sets{Loose: true}, 100, 3}, {Shape, Sets{Tucked: true, Loose: true}, 100, 3},
		{Slope, Sets{Tucked: true, Loose: true}, 50, 1},
		{Move, Sets{}, 1, 0.5}, {Move, Sets{}, 20, 1}, {Move, Sets{Loose: true}, 20, 1}, {Move, Sets{Tucked: true}, 1, 0.5}, {Move, Sets{Tucked: true}, 20, 4},
		// What was measured counts instead, of tucked sets alone, and at least as much as of others.
		{Shape, Sets{Tucked: true, Known: true, Folds_mm: 7}, 100, 7}, {Shape, Sets{Tucked: true, Known: true, Folds_mm: 0.7}, 100, 0.7},
		{Shape, Sets{Tucked: true, Known: true, Folds_mm: 0.2}, 100, 0.5}, {Shape, Sets{Tucked: true, Folds_mm: 7}, 100, 1},
		{Shape, Sets{Known: true, Folds_mm: 7}, 100, 0.5}, {Shape, Sets{Tucked: true, Loose: true, Known: true, Folds_mm: 0.7}, 100, 3},
		{Shape, Sets{Tucked: true, Loose: true, Known: true, Folds_mm: 7}, 100, 7},
		{Move, Sets{Tucked: true, Known: true, Moves_mm: 2}, 20, 2}, {Move, Sets{Tucked: true, Known: true, Moves_mm: 0.1}, 20, 1},
		{Move, Sets{Tucked: true, Known: true, Moves_mm: 0.1}, 2, 0.5},
		{Slope, Sets{Tucked: true, Known: true, Slope_deg: 4}, 50, 4}, {Slope, Sets{Tucked: true, Known: true, Slope_deg: 0.4}, 50, 1}, {Slope, Sets{Tucked: true, Slope_deg: 4}, 50, 1},
	} {
		if got := c.alike.Within(c.sets, c.largest); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s of %+v, the larger %g: %g, want %g", c.alike, c.sets, c.largest, got, c.want)
		}
	}
}
