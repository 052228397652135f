package paper

import (
	"ruffwright/geom/pleat"
	"ruffwright/sim"
	"ruffwright/sim/check"
	"ruffwright/sim/measure"
)

// prediction is one row of the record's table of figures.
type prediction struct{ what, wanted, found, from string }

// shape is the best surface that there is: solved, or in closed form.
func shape(r sim.Ruff) pleat.Shape {
	if r.Solved != nil {
		return r.Solved.Shape
	}
	return r.Folded.Shape
}

// loop is the clear width of a loop at the outer edge, mm: solved, or in closed
// form.
func (j *job) loop() float64 {
	if s := j.Ruff.Solved; s != nil {
		return s.Ruff.Loop_mm
	}
	return j.Ruff.Folded.Mean.Loop_mm
}

// source says where the figures come from.
func (j *job) source() string {
	if j.Ruff.Solved != nil {
		return "solved"
	}
	return "drawn"
}

// predictions lists what the ruff is expected to measure.
func (j *job) predictions() []prediction {
	m, p := j.Ruff.Folded.Mean, j.Ruff.Plan
	meets := func(b bool) string {
		if b {
			return "they meet"
		}
		return "they stand apart"
	}
	height, top, bottom, loop, closed := m.HeightOuter_mm, m.TopOuter_mm, m.BottomOuter_mm, m.Loop_mm, m.LoopsMeet
	which := "a loop"
	if s := j.Ruff.Solved; s != nil {
		r := s.Ruff
		which = "the narrower loop"
		height, top, bottom, loop, closed = r.HeightOuter_mm, r.TopOuter_mm, r.BottomOuter_mm, r.Loop_mm, r.LoopsMeet
	}
	src := j.source()
	list := []prediction{
		{"height at the outer edge", j.len(j.s.Ruff.Height), j.near(height), src},
		{"top of the loops over the band's bottom edge", "", j.near(top), src},
		{"bottom of the loops", "", j.near(bottom), src},
		{"clear width of " + which, "", j.near(loop), src},
		{"neighbouring loops", "", meets(closed), src},
		{"room for a set at the neck, at the outer edge", "", j.near(p.Pitch_mm) + ", " + j.near(p.PitchOuter_mm), "plan"},
		{"fold to fold on the strip", "", j.near(p.Panel_mm), "plan"},
	}
	if p.Slack > 0 {
		list = append(list, prediction{"slack between sewn folds", "1 to 1.2", trim(p.Slack, 2), "plan"})
	}
	if s := j.Ruff.Solved; s != nil {
		list = append(list, j.hanging(s.Ruff)...)
	}
	list = append(list,
		prediction{"strip, from mark to mark", "", j.table.Text(j.lastMark().Place) + " " + j.Units.Symbol(), "plan"},
		prediction{"cloth in " + j.starched(), "", trim(j.area(), 2) + " m², " + trim(j.area()*j.s.Cloth.Mass, 0) + " g", "plan"},
	)
	return list
}

// hanging lists what only the solved cloth can tell, beside the limits of the
// findings. How tucked sets give sideways hangs on the mesh and is left out.
func (j *job) hanging(r measure.Values) []prediction {
	const solved = "solved"
	limits := check.Limits()
	most := func(mm float64) string { return trim(mm, 1) + " mm at most" }
	gives := func(mm float64, stable bool) string {
		if !stable {
			return "does not hold"
		}
		return move(mm)
	}
	list := []prediction{{"droop under its own weight", most(limits.Droop_mm), move(r.Droop_mm), solved}}
	if r.BowDone {
		list = append(list, prediction{"moves when the wearer bows 60°", most(limits.Bow_mm), move(r.Bow_mm), solved})
	}
	if r.TangentsDone {
		list = append(list, prediction{"gives up and down, for its own weight again", "", gives(r.Vertical_mm_per_g, r.VerticalStable), solved})
		if !j.Ruff.Plan.Row.Tucked() {
			list = append(list, prediction{"gives sideways, for its own weight", most(limits.Lean_mm_per_g), gives(r.Lateral_mm_per_g, r.LateralStable), solved})
		}
	}
	flaps := "stand"
	if r.FlapsFall {
		flaps = "fall"
	}
	list = append(list, prediction{"flaps", string(j.s.Ruff.Flaps), flaps, solved})
	if r.OtherFound {
		list = append(list, prediction{"may also lie the other way: top, bottom of the loops", "", j.near(r.OtherHeights[0]) + ", " + j.near(r.OtherHeights[1]), solved})
	}
	return list
}

// restsOn says what the pictures and figures rest on.
func (j *job) restsOn() string {
	s := j.Ruff.Solved
	switch {
	case s == nil && j.Unsolved != "":
		return "The " + j.thing() + " is drawn in closed form, since it cannot be solved: " + j.Unsolved
	case s == nil:
		return "The " + j.thing() + " is drawn in closed form: the cloth's weight and stiffness are not reckoned in; solve the scheme to have them."
	}
	words := "The " + j.thing() + " is as solved from the cloth's weight and stiffness, for regular sets; the opening and single odd sets lie outside what is solved."
	if s.Alike {
		words += " The maker's own marks were solved as regular sets."
	}
	if !s.Converged() {
		words += " The cloth did not come to rest: pictures and figures are rough."
	}
	return words
}
