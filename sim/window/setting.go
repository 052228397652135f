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
	measure.Worn:     func(d *Design) { d.bendTimes(measure.WornBend) },
}

func (d *Design) frozenTimes(factor float64) {
	d.FrozenU_uNm *= factor
	d.FrozenV_uNm *= factor
}

// bendTimes makes all bending so many times as stiff.
func (d *Design) bendTimes(factor float64) {
	d.frozenTimes(factor)
	d.BendU_uNm *= factor
	d.BendV_uNm *= factor
}

// setting measures how much the half set hangs on how stiff its cloth is and, starched,
// on how it is set and kept. It is formed once, on the Coarse grid. Then it is frozen,
// let go and bowed in each condition, each from the rest shape as made: so it keeps to the
// same way to lie as long as that exists.
func (s *solver) setting(c *Window) error {
	t, made, err := s.coarsely(c, tryingIt, true)
	if err != nil || !made.Converged() {
		return err
	}
	own := t.f.d
	defer func() { t.f.d = own }()
	limper, err := s.changed(t, made, func(d *Design) { d.bendTimes(1. / measure.StiffTimes) })
	if err != nil {
		return err
	}
	stiffer, err := s.changed(t, made, func(d *Design) { d.bendTimes(measure.StiffTimes) })
	if err != nil {
		return err
	}
	if limper.Converged() && stiffer.Converged() {
		c.StiffDone, c.StiffBowDone = true, made.BowDone && limper.BowDone && stiffer.BowDone
		c.Limper_mm, c.Stiffer_mm = limper.Figures().Less(made.Figures()), stiffer.Figures().Less(made.Figures())
	}
	if !c.Design.starched() {
		return nil
	}
	var bow, height, droop [measure.Conditions]float64
	for k, change := range settings {
		w := made
		switch k {
		case measure.AsMade:
		case measure.Worn: // half as stiff
			w = limper
		default:
			if w, err = s.changed(t, made, change); err != nil {
				return err
			}
		}
		if !w.BowDone {
			return nil
		}
		bow[k], height[k], droop[k] = w.Bow_mm, w.HeightOuter_mm, w.Droop_mm
	}
	c.SettingDone, c.SettingBow_mm, c.SettingHeight_mm, c.SettingDroop_mm = true, bow, height, droop
	return nil
}

// tryingIt is told as the phase of a solve in another condition.
const tryingIt = "trying it limper, stiffer, damp and worn"

// changed is the half set made with another design: let go and bowed, by t, from its rest
// shape. Sets that dried hanging hung otherwise, and are made anew.
func (s *solver) changed(t *solver, made *Window, change func(*Design)) (*Window, error) {
	w := *made
	w.Values, w.Shape = measure.Values{}, append([]float64(nil), made.Shape...)
	change(&w.Design)
	t.f.d = &w.Design
	err := s.by(t, tryingIt, func() error {
		if w.Design.Hung && w.Design.BendU_uNm != made.Design.BendU_uNm {
			if ok, err := t.formAndRelease(&w, nil); !ok {
				return err
			}
			t.measure(&w)
			return t.bow(&w)
		}
		return t.keptSo(&w)
	})
	return &w, err
}

// keptSo lets w go anew, measures and bows it.
func (s *solver) keptSo(w *Window) (err error) {
	if err = s.sh.Reset(s.f.damp(s.set)); err != nil {
		return err
	}
	s.freeze(w)
	if w.Release, err = s.run("", s.released(w), w.Shape, shell.Settings{}); err != nil || w.Release.Status != shell.Converged {
		return err
	}
	s.measure(w)
	return s.bow(w)
}
