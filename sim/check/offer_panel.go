package check

import (
	"ruffwright/geom/curve"
	"ruffwright/geom/scheme"
)

// offerPanel offers another fold to fold length, and to take the height that it
// gives for the wanted one.
func (v *view) offerPanel(s *seen, panel float64) {
	e, err := curve.NewElastica(panel, v.p.PitchOuter_mm/2)
	if err != nil || v.p.MarksOwn {
		return
	}
	h := tenth(e.Height())
	s.offer(append(v.panelTo(panel), toMM("ruff.height", h)),
		"Fold every %s and take a ruff %s high.", v.len(panel), v.len(h))
}

// offerFitted offers the fold to fold length that gives the wanted height, with
// tucks that suit it where the old ones would not.
func (v *view) offerFitted(s *seen) {
	panel, err := curve.PanelForHeight(v.s.Ruff.Height, v.p.PitchOuter_mm/2)
	if err != nil {
		return
	}
	tucks, deep, ok := v.tucksWith(panel, slackLeast, GoodSlack)
	if !ok {
		return
	}
	if v.p.MarksOwn {
		f := panel / v.p.Panel_mm
		s.offerWithTucks(append(tucks, v.marksTo(func(_ int, m scheme.Mark) scheme.Mark {
			m.Place *= f
			return m
		})), deep, foldsAnew, foldsAnewTucked, v.len(panel))
		return
	}
	plain, tucked := "Fold every %s, fitted to the height of %s.", "Fold every %s, fitted to the height of %s, with tucks of %s at the top folds and %s at the bottom folds."
	s.offerWithTucks(append(tucks, to("pleat.panel", "0")), deep, plain, tucked, v.len(panel), v.len(v.s.Ruff.Height))
}

// What is said of marks of one's own that are all made anew.
const (
	foldsAnew       = "Mark every fold anew, %s apart in the mean."
	foldsAnewTucked = "Mark every fold anew, %s apart in the mean, with tucks of %s at the top folds and %s at the bottom folds."
)

// offerWithTucks offers changes in the words plain or, where tucks are made anew with
// them, in the words tucked, the depths of those behind what else is said.
func (s *seen) offerWithTucks(c []Change, depths []any, plain, tucked string, with ...any) {
	if depths != nil {
		plain = tucked
	}
	s.offer(c, plain, append(with, depths...)...)
}

// panelTo gives fold to fold as a figure of its own. Tucks that were fitted are
// given with it: nothing else would hold them to what it leaves.
func (v *view) panelTo(mm float64) []Change {
	c := []Change{toMM("pleat.panel", mm)}
	if v.p.TucksFitted {
		c = append(c, asIn(v.s, "pleat.tuck_top", "pleat.tuck_bottom")...)
	}
	return c
}
