package window

import (
	"context"
	"math"
	"testing"

	"ruffwright/sim/measure"
)

// TestSetting: what a starched set is damp, worn and set less well is what a set of that
// design is that was never otherwise, where there is one way to lie. Damp and worn one
// edge swings more or less than as made; nobody asks of cloth without starch.
func TestSetting(t *testing.T) {
	d := tabled(Top, Crests, 0, 30, 0)
	d.FrozenU_uNm, d.FrozenV_uNm, d.FrozenShear_Npm = 40*d.BendU_uNm, 40*d.BendV_uNm, 600
	set := Settings{Grid: Coarse, SkipOther: true, SkipTangents: true, Setting: true}
	c, err := Solve(context.Background(), d, set, nil)
	if err != nil || !c.SettingDone {
		t.Fatal(err, c.SettingDone)
	}
	set.Setting = false
	for k, change := range map[int]func(*Design){
		measure.AsMade:   func(*Design) {},
		measure.SetWorse: func(d *Design) { d.Quality = 0.9 },
		measure.Damp:     func(d *Design) { d.FrozenU_uNm, d.FrozenV_uNm, d.FrozenShear_Npm = 4*d.BendU_uNm, 4*d.BendV_uNm, 60 },
		measure.Worn: func(d *Design) {
			d.BendU_uNm, d.BendV_uNm, d.FrozenU_uNm, d.FrozenV_uNm = d.BendU_uNm/2, d.BendV_uNm/2, d.FrozenU_uNm/2, d.FrozenV_uNm/2
		},
	} {
		q := d
		change(&q)
		w, err := Solve(context.Background(), q, set, nil)
		if err != nil || !w.BowDone {
			t.Fatal(err, w.BowDone)
		}
		near := 0.05 // mm
		if k == measure.Worn {
			near = 0.15 // limper cloth is formed with less of the contact's stress
		}
		t.Logf("%d: bow %.3f, by itself %.3f mm", k, c.SettingBow_mm[k], w.Bow_mm)
		if math.Abs(w.Bow_mm-c.SettingBow_mm[k]) > near || math.Abs(w.HeightOuter_mm-c.SettingHeight_mm[k]) > 0.05 || math.Abs(w.Droop_mm-c.SettingDroop_mm[k]) > 0.05 {
			t.Errorf("%d: %.3f %.3f %.3f mm, by itself %.3f %.3f %.3f", k, c.SettingBow_mm[k], c.SettingHeight_mm[k], c.SettingDroop_mm[k], w.Bow_mm, w.HeightOuter_mm, w.Droop_mm)
		}
	}
	if k, by := c.Sways(); k == measure.AsMade || math.Abs(by) < 0.1 {
		t.Errorf("it hangs on nothing: %v", c.SettingBow_mm)
	}
	for factor, l := range map[float64]measure.Lengths{0.5: c.Limper_mm, 2: c.Stiffer_mm} {
		q := d
		q.BendU_uNm, q.BendV_uNm, q.FrozenU_uNm, q.FrozenV_uNm = factor*d.BendU_uNm, factor*d.BendV_uNm, factor*d.FrozenU_uNm, factor*d.FrozenV_uNm
		w, err := Solve(context.Background(), q, set, nil)
		if err != nil || !w.BowDone || !c.StiffDone || !c.StiffBowDone {
			t.Fatal(err, w.BowDone, c.StiffDone)
		}
		alone := w.Figures().Less(c.Figures())
		t.Logf("%g times as stiff: %.2f, by itself %.2f mm", factor, l, alone)
		for f := range l { // within what the figure is sure to at best
			if math.Abs(l[f]-alone[f]) > 0.3*measure.Figure(f).Surest_mm(w.Figures()[f], false) && f != int(measure.Bow) || math.Abs(l[f]-alone[f]) > 0.05*w.Bow_mm {
				t.Errorf("%g times as stiff: %.2f, by itself %.2f mm", factor, l, alone)
			}
		}
	}
	// Solved once more from there, nothing of it is solved again.
	set.Setting = true
	again, err := Solve(context.Background(), d, set, c)
	if err != nil || again.Values.SettingBow_mm != c.SettingBow_mm || !again.SettingDone || again.Extra > c.Extra/2 {
		t.Errorf("%v: %v, %d steps after %d", err, again.SettingBow_mm, again.Extra, c.Extra)
	}
	d.FrozenU_uNm, d.FrozenV_uNm = 0, 0
	if c, err = Solve(context.Background(), d, set, nil); err != nil || c.SettingDone || !c.StiffDone {
		t.Errorf("without starch: %v, %v", c.SettingDone, err)
	}
}

// TestFollowTucked: the lean of tucked sets is what two grids tell alike, and undecided
// where they do not; on the coarse grid alone it is what that one tells.
func TestFollowTucked(t *testing.T) {
	if testing.Short() {
		t.Skip("follows sets on two grids")
	}
	for _, seed := range []uint64{19, 22} {
		d := RandomTucked(seed)
		if seed%2 == 0 {
			d.FrozenU_uNm, d.FrozenV_uNm, d.FrozenShear_Npm = 0, 0, 0
		}
		on := func(g Grid) (measure.Lean, float64) {
			set := Settings{Grid: Fine, SkipBow: true, SkipOther: true}
			s, c, err := settle(context.Background(), d, d.Run(), &set, nil)
			if err != nil {
				t.Fatal(err)
			}
			if g != Coarse {
				s.spent = leanWork - secondWork
			}
			if err := s.followOn(c, g); err != nil {
				t.Fatal(err)
			}
			return c.Leans, c.Leans_mm
		}
		c, err := Solve(context.Background(), d, Settings{Grid: Fine, SkipBow: true, SkipOther: true, Follow: true}, nil)
		if err != nil {
			t.Fatal(err)
		}
		one, by := on(Coarse)
		two, too := on(leanSecond)
		t.Logf("seed %d: %q %.2f, %q %.2f: %q %.2f mm", seed, one, by, two, too, c.Leans, c.Leans_mm)
		want, mm := one, min(by, too)
		if one != two {
			want, mm = measure.LeanUndecided, 0
		}
		if c.LateralStable {
			want, mm = measure.LeanUnasked, 0
		}
		if c.Leans != want || math.Abs(c.Leans_mm-mm) > 1e-6 {
			t.Errorf("seed %d: %q %.2f, and %q %.2f, told %q %.2f mm", seed, one, by, two, too, c.Leans, c.Leans_mm)
		}
	}
}
