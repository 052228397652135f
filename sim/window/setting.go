package window

import (
	"ruffwright/sim/measure"
	"ruffwright/sim/shell"
)

// settings changes a design to what it is in each of measure.Conditions: as it is, set
// less well, damp, and worn.
var settings = [measure.Conditions]func(d *Design){
	measure.AsMade:   func(*Design) {},
	measure.SetWorse: func(d *Design) { d.Quality *= measure.WorseQuality },
	measure.Damp:     func(d *Design) { d.frozenTimes(1. / measure.DampStarch); d.FrozenShear_Npm /= measure.DampStarch },
	measure.Worn: func(d *Design) {
		d.frozenTimes(measure.WornBend)
		d.BendU_uNm *= measure.WornBend
		d.BendV_uNm *= measure.WornBend
	},
}

func (d *Design) frozenTimes(factor float64) {
	d.FrozenU_uNm *= factor
	d.FrozenV_uNm *= factor
}

// setting measures how much the half set hangs on how it is set and kept. It is formed
// once, on the Coarse grid. Then it is frozen, let go and bowed in each condition, each
// from the rest shape as made: so it keeps to the same way to lie as long as that exists.
func (s *solver) setting(c *Window) error {
	const phase = "trying it damp and worn"
	t, made, err := s.coarsely(c, phase, true)
	if err != nil || !made.Converged() {
		return err
	}
	own := t.f.d
	defer func() { t.f.d = own }()
	var bow, height, droop [measure.Conditions]float64
	for k, change := range settings {
		w := *made
		if k != measure.AsMade || !made.BowDone {
			w.Values, w.Shape = measure.Values{}, append([]float64(nil), made.Shape...)
			change(&w.Design)
			t.f.d = &w.Design
			err = s.by(t, phase, func() error { return t.keptSo(&w, k != measure.AsMade) })
		}
		if err != nil || !w.BowDone {
			return err
		}
		bow[k], height[k], droop[k] = w.Bow_mm, w.HeightOuter_mm, w.Droop_mm
	}
	c.SettingDone, c.SettingBow_mm, c.SettingHeight_mm, c.SettingDroop_mm = true, bow, height, droop
	return nil
}

// keptSo measures and bows w, let go anew where it is frozen in another way.
func (s *solver) keptSo(w *Window, anew bool) (err error) {
	if anew {
		if err = s.sh.Reset(s.f.damp(s.set)); err != nil {
			return err
		}
		s.freeze(w)
		if w.Release, err = s.run("", s.released(w), w.Shape, shell.Settings{}); err != nil || w.Release.Status != shell.Converged {
			return err
		}
	}
	s.measure(w)
	return s.bow(w)
}
